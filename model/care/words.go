package care

import (
	"fmt"
	"math"
	"strings"
	"time"

	"tubside/model"
)

// The words for each grade of a sign. Grade 0 of curl and tips needs no words
// in a reason.
var (
	curlWords  = [...]string{"leaves flat", "edges lifting", "deep channel", "rolled shut"}
	tipsWords  = [...]string{"no brown new tips", "a few brown new tips", "many brown new tips", "most new tips brown"}
	shiftWords = [...]string{"already dark when wetted", "colours slowly or in patches", "colours quickly and in full", "stays pale when wetted"}
)

// SignsWords says signs in growers' words, all that was seen.
func SignsWords(s model.Signs) string {
	return joinSigns(s, 0)
}

// thirstWords says only the signs that speak of thirst.
func thirstWords(s model.Signs) string {
	s.Shift = model.NotSeen
	return joinSigns(s, 1)
}

func joinSigns(s model.Signs, from model.Grade) string {
	var words []string
	for _, sign := range []struct {
		grade model.Grade
		words [4]string
	}{{s.Curl, curlWords}, {s.Tips, tipsWords}, {s.Shift, shiftWords}} {
		if sign.grade >= from {
			words = append(words, sign.words[sign.grade])
		}
	}
	return strings.Join(words, ", ")
}

func (v *verdict) say(kind ReasonKind, format string, args ...any) {
	v.Reasons = append(v.Reasons, Reason{Text: fmt.Sprintf(format, args...), Kind: kind})
}

// seen is the signs of thirst seen since the soak, "" when there are none.
func (v *verdict) seen() string {
	if !v.freshLook() {
		return ""
	}
	return thirstWords(v.row.Signs)
}

// since is "12 days since the soak".
func (v *verdict) since() string {
	if v.DaysSince < 0 {
		return "no soak on record: taken as two weeks before it came"
	}
	return daysWords(v.DaysSince) + " since the soak"
}

// sayHistory says what was seen, and how long ago the soak was.
func (v *verdict) sayHistory() {
	if seen := v.seen(); seen != "" {
		v.say(Saw, "%s", seen)
	}
	v.say(Saw, "%s", v.since())
}

// daysWords rounds down as people do: yesterday evening is 0 days.
func daysWords(days float64) string {
	switch d := int(days); d {
	case 0:
		return "less than a day"
	case 1:
		return "1 day"
	default:
		return fmt.Sprintf("%d days", d)
	}
}

// minutesWords is "45 min" or "2 h 20 min".
func minutesWords(minutes float64) string {
	m := int(math.Round(minutes))
	switch {
	case m < 60:
		return fmt.Sprintf("%d min", m)
	case m%60 == 0:
		return fmt.Sprintf("%d h", m/60)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

func (v *verdict) sayAway() {
	switch v.row.State {
	case model.Soaking:
		v.say(Saw, "in the water for %s", minutesWords(v.now.Sub(v.row.In).Minutes()))
	case model.Drying:
		v.say(Saw, "out for %s, not marked dry", minutesWords(v.now.Sub(v.row.Out).Minutes()))
	case model.Dry:
		v.say(Saw, "dry: hang it back on %s", orElse(v.row.Home.String(), "its shelf"))
	}
}

func (v *verdict) sayRot() {
	v.say(Warning, "suspected rot: no soak, keep it apart and airy")
	v.say(Saw, "suspected since %s", v.row.Rot.In(v.now.Location()).Format("2 Jan"))
	v.sayHistory()
	v.say(Advice, "press the base and tug a centre leaf: soft or loose means rot")
}

func (v *verdict) sayStillWet() {
	v.say(Warning, "still wet: already dark when a drop touched it")
	v.sayHistory()
	if v.DaysSince >= 0 && v.DaysSince < v.rules[model.RestDays] {
		v.say(Warning, "it has not dried since the soak: tip it out, lay it upside down in moving air")
	}
}

func (v *verdict) sayBloom() {
	if v.Thirst() < badlyDry && !(v.freshLook() && v.row.Signs.Curl >= 2) {
		v.say(Capped, "in bloom: mist the leaves, keep the flower dry")
		v.sayHistory()
		return
	}
	v.say(Warning, "in bloom and badly dry: wet the leaves only")
	v.sayHistory()
	v.say(Advice, "hold it flower up and lower the leaves into water to below the flower for a few minutes, or rinse leaf by leaf; again tomorrow")
}

func (v *verdict) sayResting() {
	v.say(Saw, "soaked lately: let it breathe")
	v.sayHistory()
	v.say(Capped, "house rule: %s between soaks when no thirst shows", daysWords(v.rules[model.RestDays]))
}

func (v *verdict) sayBetween(misted bool) {
	if misted {
		v.say(Saw, "misted %s ago", minutesWords(v.now.Sub(v.row.Misted).Minutes()))
	} else if v.seen() == "" {
		v.say(Computed, "only %.0f %% of its water gone; %.0f %% asks for a soak", 100*v.Thirst(), v.rules[model.SoakFrom])
	}
	v.sayHistory()
}

func (v *verdict) sayCapped() {
	v.say(Capped, "%s: %s at most, though the numbers ask for %s", v.kind.why, minutesWords(v.kind.cap), minutesWords(v.full))
}

// sayThirst explains the thirst itself.
func (v *verdict) sayThirst() {
	v.say(Computed, "%.0f %% of its water gone (%.0f to %.0f)", 100*v.Thirst(), 100*(1-v.High), 100*(1-v.Low))
	v.say(Computed, "%s", v.airWords())
	if v.full > 0 {
		v.say(Computed, "%s in water brings it back to %.0f %%", minutesWords(v.full), v.rules[model.SoakTarget])
	}
	if v.row.Assumed.Any() || v.row.Form == "" || v.row.Leaf == "" || v.row.Size == 0 {
		v.say(Computed, "taken as %s, %s, %.0f cm: partly assumed", orElse(v.row.Form, assumedForm), orElse(v.row.Leaf, assumedLeaf), orElse(v.row.Size, assumedSize))
	}
}

// airWords is the room the thirst was reckoned with.
func (v *verdict) airWords() string {
	temp, unit := v.room.TempC, "°C"
	if v.rules.Fahrenheit() {
		temp, unit = temp*9/5+32, "°F"
	}
	text := fmt.Sprintf("room %.0f %s, %.0f %% humidity, deficit %.2f kPa", temp, unit, v.room.RH, v.room.DeficitKPa)
	switch {
	case v.room.ReadAt.IsZero():
		return text + " (assumed: no reading)"
	case v.now.Sub(v.room.ReadAt) >= 48*time.Hour:
		return text + fmt.Sprintf(" (read %s ago)", daysWords(v.now.Sub(v.room.ReadAt).Hours()/24))
	}
	return text
}

// sayAlways adds what holds whatever the band.
func (v *verdict) sayAlways() {
	if v.freshLook() && v.row.Signs.Shift == model.StaysPale {
		v.say(Warning, "stays pale when wetted: look for rot, oil, lime or dead tissue; a longer soak does not help")
	}
	switch {
	case v.row.Form == model.Bulbous:
		v.say(Advice, "shake hard, dry upside down")
	case v.row.Form == model.Tank:
		v.say(Advice, "tip out the cup, dry on its side")
	case v.row.Form == model.Pendent:
		v.say(Advice, "wring gently and spread it out")
	}
}
