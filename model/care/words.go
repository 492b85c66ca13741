package care

import (
	"fmt"
	"math"
	"strconv"

	"tubside/model"
)

// thirstWords says only the signs that speak of thirst.
func thirstWords(s model.Signs) string {
	s.Shift = model.NotSeen
	return s.Words(1)
}

// add adds a reason as it stands. Every look makes several for each plant, so
// that most are put together without formats.
func (v *verdict) add(kind ReasonKind, text string) {
	v.Reasons = append(v.Reasons, Reason{Text: text, Kind: kind})
}

// say adds a reason that is put together.
func (v *verdict) say(kind ReasonKind, format string, args ...any) {
	v.add(kind, fmt.Sprintf(format, args...))
}

// whole is a number without decimals.
func whole(x float64) string { return strconv.Itoa(int(math.RoundToEven(x))) }

// tenths is a number with one decimal.
func tenths(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

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
		v.add(Saw, seen)
	}
	v.add(Saw, v.since())
}

// daysWords rounds down as people do: yesterday evening is 0 days.
func daysWords(days float64) string {
	switch d := int(days); d {
	case 0:
		return "less than a day"
	case 1:
		return "1 day"
	default:
		return strconv.Itoa(d) + " days"
	}
}

// minutesWords is "45 min" or "2 h 20 min".
func minutesWords(minutes float64) string {
	m := int(math.Round(minutes))
	switch {
	case m < 60:
		return strconv.Itoa(m) + " min"
	case m%60 == 0:
		return strconv.Itoa(m/60) + " h"
	}
	return strconv.Itoa(m/60) + " h " + strconv.Itoa(m%60) + " min"
}

func (v *verdict) sayAway() {
	switch v.row.State {
	case model.Soaking:
		v.add(Saw, "in the water for "+minutesWords(v.now.Sub(v.row.In).Minutes()))
	case model.Drying:
		v.add(Saw, "out for "+minutesWords(v.now.Sub(v.row.Out).Minutes())+", not marked dry")
	case model.Dry:
		v.add(Saw, "dry: hang it back on "+orElse(v.row.Home.String(), "its shelf"))
	}
}

func (v *verdict) sayRot() {
	v.add(Warning, "suspected rot: no soak, keep it apart and airy")
	v.add(Saw, "suspected since "+v.row.Rot.In(v.now.Location()).Format("2 Jan"))
	v.sayHistory()
	v.add(Advice, "press the base and tug a centre leaf: soft or loose means rot")
}

func (v *verdict) sayStillWet() {
	v.add(Warning, "still wet: already dark when a drop touched it")
	v.sayHistory()
	if v.DaysSince >= 0 && v.DaysSince < v.rules[model.RestDays] {
		v.add(Warning, "it has not dried since the soak: tip it out, lay it upside down in moving air")
	}
}

func (v *verdict) sayBloom() {
	if v.Thirst() < badlyDry && !(v.freshLook() && v.row.Signs.Curl >= 2) {
		v.add(Capped, "in bloom: mist the leaves, keep the flower dry")
		v.sayHistory()
		return
	}
	v.add(Warning, "in bloom and badly dry: wet the leaves only")
	v.sayHistory()
	v.add(Advice, "hold it flower up and lower the leaves into water to below the flower for a few minutes, or rinse leaf by leaf; again tomorrow")
}

func (v *verdict) sayResting() {
	v.add(Saw, "soaked lately: let it breathe")
	v.sayHistory()
	v.add(Capped, "house rule: "+daysWords(v.rules[model.RestDays])+" between soaks when no thirst shows")
}

func (v *verdict) sayBetween(misted bool) {
	if misted {
		v.add(Saw, "misted "+minutesWords(v.now.Sub(v.row.Misted).Minutes())+" ago")
	} else if v.seen() == "" {
		v.add(Computed, "only "+whole(100*v.Thirst())+" % of its water gone; "+whole(v.rules[model.SoakFrom])+" % asks for a soak")
	}
	v.sayHistory()
}

func (v *verdict) sayCapped() {
	v.add(Capped, v.kind.why+": "+minutesWords(v.kind.cap)+" at most, though the numbers ask for "+minutesWords(v.full))
}

// sayAlways adds what holds whatever the band.
func (v *verdict) sayAlways() {
	if v.freshLook() && v.row.Signs.Shift == model.StaysPale {
		v.add(Warning, "stays pale when wetted: look for rot, oil, lime or dead tissue; a longer soak does not help")
	}
	switch {
	case v.row.Form == model.Bulbous:
		v.add(Advice, "shake hard, dry upside down")
	case v.row.Form == model.Tank:
		v.add(Advice, "tip out the cup, dry on its side")
	case v.row.Form == model.Pendent:
		v.add(Advice, "wring gently and spread it out")
	}
}
