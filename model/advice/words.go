package advice

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/estimate"
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
	return DaysWords(v.DaysSince) + " since the soak"
}

// sayHistory says what was seen, and how long ago the soak was.
func (v *verdict) sayHistory() {
	if seen := v.seen(); seen != "" {
		v.add(Saw, seen)
	}
	v.add(Saw, v.since())
}

// daysWords rounds down as people do: yesterday evening is 0 days.
func DaysWords(days float64) string {
	switch d := int(days); d {
	case 0:
		return "less than a day"
	case 1:
		return "1 day"
	default:
		return strconv.Itoa(d) + " days"
	}
}

func (v *verdict) sayAway() {
	switch v.row.State {
	case model.Soaking:
		v.add(Saw, "in the water for "+model.Minutes(v.now.Sub(v.row.In).Minutes()))
	case model.Drying:
		v.add(Saw, "out for "+model.Minutes(v.now.Sub(v.row.Out).Minutes())+", not marked dry")
	case model.Dry:
		v.add(Saw, "dry: hang it back on "+cmp.Or(v.row.Home.String(), "its shelf"))
	}
}

func (v *verdict) sayRot() {
	v.add(Warning, "suspected rot: no soak, keep it apart and airy")
	v.add(Saw, "suspected since "+v.row.Rot.In(v.now.Location()).Format("2 Jan"))
	v.sayHistory()
	v.add(Hint, "press the base and tug a centre leaf: soft or loose means rot")
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
	v.add(Hint, "hold it flower up and lower the leaves into water to below the flower for a few minutes, or rinse leaf by leaf; again tomorrow")
}

func (v *verdict) sayResting() {
	v.add(Saw, "soaked lately: let it breathe")
	v.sayHistory()
	v.add(Capped, "house rule: "+DaysWords(v.rules[model.RestDays])+" between soaks when no thirst shows")
}

func (v *verdict) sayBetween(misted bool) {
	if misted {
		v.add(Saw, "misted "+model.Minutes(v.now.Sub(v.row.Misted).Minutes())+" ago")
	} else if v.seen() == "" {
		v.add(Computed, "only "+whole(100*v.Thirst())+" % of its water gone; "+whole(v.rules[model.SoakFrom])+" % asks for a soak")
	}
	v.sayHistory()
}

func (v *verdict) sayCapped() {
	v.add(Capped, v.traits.CapFor+": "+model.Minutes(v.traits.Cap)+" at most, though the numbers ask for "+model.Minutes(v.full))
}

// sayAlways adds what holds whatever the band.
func (v *verdict) sayAlways() {
	if v.freshLook() && v.row.Signs.Shift == model.StaysPale {
		v.add(Warning, "stays pale when wetted: look for rot, oil, lime or dead tissue; a longer soak does not help")
	}
	switch {
	case v.row.Form == model.Bulbous:
		v.add(Hint, "shake hard, dry upside down")
	case v.row.Form == model.Tank:
		v.add(Hint, "tip out the cup, dry on its side")
	case v.row.Form == model.Pendent:
		v.add(Hint, "wring gently and spread it out")
	}
}

// sayGone says the thirst with its range, once.
func (v *verdict) sayGone() {
	if !v.saidGone {
		v.add(Computed, whole(100*v.Thirst())+" % of its water gone ("+whole(100*(1-v.High))+" to "+whole(100*(1-v.Low))+")")
	}
	v.saidGone = true
}

// sayThirst opens the thirst into its terms: the air, the time in it, the
// pace and where that was learned, and what was assumed.
func (v *verdict) sayThirst() {
	v.sayGone()
	v.add(Computed, v.air)
	if !v.plant.Wet && v.now.After(v.plant.DrySince) {
		v.add(Computed, pastAirWords(v.keeper.PastAir(v.plant.DrySince, v.now)))
	}
	v.add(Computed, lossWords(v.keeper, v.row.ID))
	v.sayShelfAndScale()
	if v.full > 0 && v.row.Rot.IsZero() {
		v.add(Computed, model.Minutes(v.full)+" in water brings it back to "+whole(v.rules[model.SoakTarget])+" %")
	}
	if v.row.Assumed.Any() || v.row.Form == "" || v.row.Leaf == "" || v.row.Size == 0 {
		v.add(Computed, "taken as "+string(cmp.Or(v.row.Form, estimate.AssumedForm))+", "+string(cmp.Or(v.row.Leaf, estimate.AssumedLeaf))+", "+
			whole(cmp.Or(v.row.Size, estimate.AssumedSize))+" cm: partly assumed")
	}
}

func (v *verdict) sayShelfAndScale() {
	if f := v.plant.OnShelf; f != 1 {
		v.add(Computed, "shelf "+v.plant.Shelf+": dries out "+tenths(f)+" times as fast as elsewhere")
	}
	if w := v.row.Weight; v.plant.WetGrams > 0 && w.Grams > 0 && !w.At.Before(v.row.LastSoak()) {
		v.say(Saw, "weighed %.1f g, %.1f g when wet: counts for more than signs", w.Grams, v.plant.WetGrams)
	}
}

// sayLookFirst is for a plant that was seen thirsty right after two soaks: what
// growers look for then.
func (v *verdict) sayLookFirst() {
	v.add(Warning, "thirsty right after two soaks in a row: look before you soak it")
	v.add(Hint, "press the base and tug a centre leaf: soft or loose means rot")
	v.add(Hint, "one-sided is sun or cold; the same on all of one bath is feed or water; pale when wet is dead or oiled scales")
}

// lossWords says the pace of a plant and where it was learned.
func lossWords(k *estimate.Keeper, id model.ID) string {
	p, _ := k.LossPace(id)
	from := "known from its kin only"
	if p.Own > 0 {
		from = "from its kin and " + counted(p.Own, "soak") + " of its own"
	} else if p.Seen {
		from = "from its kin and what was seen since the soak"
	}
	return paceWords(p, "loses water ", " times as fast as reckoned", from)
}

// dryingPaceWords is the same for drying.
func dryingPaceWords(k *estimate.Keeper, id model.ID) string {
	p, _ := k.DryingPace(id)
	from := "known from its kin only"
	if p.Own > 0 {
		from = "from its kin and " + counted(p.Own, "drying") + " of its own"
	}
	return paceWords(p, "takes ", " times as long as reckoned", from)
}

func paceWords(p estimate.Pace, does, than, from string) string {
	return does + tenths(p.Median) + than + " (" + tenths(p.Low) + " to " + tenths(p.High) + "): " + from
}

func counted(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return whole(float64(n)) + " " + what + "s"
}

// pastAirWords says the air since a plant dried.
func pastAirWords(a estimate.PastAir) string {
	words := fmt.Sprintf("air since it dried: deficit %.2f kPa on average, ", a.Deficit)
	switch a.Readings {
	case 0:
		return words + "assumed: no reading"
	case 1:
		return words + "from one reading"
	}
	return words + fmt.Sprintf("from %d readings", a.Readings)
}

// airWords is the room the thirst was reckoned with.
func (c *Context) airWords() string {
	temp, unit := air.Degrees(c.room.TempC, c.rules.Fahrenheit())
	text := fmt.Sprintf("room %.0f %s, %.0f %% humidity, deficit %.2f kPa", temp, unit, c.room.RH, c.room.DeficitKPa)
	switch {
	case c.room.ReadAt.IsZero():
		return text + " (assumed: no reading)"
	case c.now.Sub(c.room.ReadAt) >= 48*time.Hour:
		return text + fmt.Sprintf(" (read %s ago)", DaysWords(c.now.Sub(c.room.ReadAt).Hours()/24))
	}
	return text
}
