package care

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/belief"
)

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
	if !v.plant.wet && v.now.After(v.plant.dry) {
		v.add(Computed, v.keeper.climate.sinceWords(v.plant.dry, v.now))
	}
	v.add(Computed, v.plant.lossWords())
	v.sayShelfAndScale()
	if v.full > 0 && v.row.Rot.IsZero() {
		v.add(Computed, minutesWords(v.full)+" in water brings it back to "+whole(v.rules[model.SoakTarget])+" %")
	}
	if v.row.Assumed.Any() || v.row.Form == "" || v.row.Leaf == "" || v.row.Size == 0 {
		v.add(Computed, "taken as "+string(orElse(v.row.Form, assumedForm))+", "+string(orElse(v.row.Leaf, assumedLeaf))+", "+
			whole(orElse(v.row.Size, assumedSize))+" cm: partly assumed")
	}
}

func (v *verdict) sayShelfAndScale() {
	if f := v.plant.factor; f != 1 {
		v.add(Computed, "shelf "+v.plant.shelf+": dries out "+tenths(f)+" times as fast as elsewhere")
	}
	if w := v.row.Weight; v.plant.scale != nil && w.Grams > 0 && !w.At.Before(v.row.LastSoak()) {
		v.say(Saw, "weighed %.1f g, %.1f g when wet: counts for more than signs", w.Grams, v.plant.scale.grams)
	}
}

// sayLookFirst is for a plant that was seen thirsty right after two soaks: what
// growers look for then.
func (v *verdict) sayLookFirst() {
	v.add(Warning, "thirsty right after two soaks in a row: look before you soak it")
	v.add(Advice, "press the base and tug a centre leaf: soft or loose means rot")
	v.add(Advice, "one-sided is sun or cold; the same on all of one bath is feed or water; pale when wet is dead or oiled scales")
}

// lossWords says the pace of a plant and where it was learned. It belongs to
// the shares and is made with them.
func (p *kept) lossWords() string {
	l := &p.loss
	if l.words == "" {
		from := "known from its kin only"
		if l.count > 0 {
			from = "from its kin and " + counted(l.count, "soak") + " of its own"
		} else if p.seen != nil && !p.suspect() {
			from = "from its kin and what was seen since the soak"
		}
		l.words = paceWords(&l.shares, "loses water ", " times as fast as reckoned", from)
	}
	return l.words
}

// lingerWords is the same for drying.
func (p *kept) lingerWords() string {
	l := &p.linger
	if l.words == "" {
		from := "known from its kin only"
		if l.count > 0 {
			from = "from its kin and " + counted(l.count, "drying") + " of its own"
		}
		l.words = paceWords(&l.shares, "takes ", " times as long as reckoned", from)
	}
	return l.words
}

func paceWords(s *belief.Shares, does, than, from string) string {
	low, high := s.Range(0.8)
	return does + tenths(s.QuantileOf(&multipliers, 0.5)) + than + " (" + tenths(low) + " to " + tenths(high) + "): " + from
}

func counted(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return whole(float64(n)) + " " + what + "s"
}

// sinceWords says the air since a plant dried. Plants of a load share it.
func (c *climate) sinceWords(dry, now time.Time) string {
	key := doseKey{dry.Unix(), dry.Unix(), now.Unix()}
	words, ok := c.words[key]
	if !ok {
		mean := c.mean(dry, now)
		words = fmt.Sprintf("air since it dried: deficit %.2f kPa on average, ", mean)
		switch n := c.between(dry, now); n {
		case 0:
			words += "assumed: no reading"
		case 1:
			words += "from one reading"
		default:
			words += fmt.Sprintf("from %d readings", n)
		}
		c.words[key] = words
	}
	return words
}

// airWords is the room the thirst was reckoned with.
func (s *sight) airWords() string {
	temp, unit := s.room.TempC, "°C"
	if s.rules.Fahrenheit() {
		temp, unit = temp*9/5+32, "°F"
	}
	text := fmt.Sprintf("room %.0f %s, %.0f %% humidity, deficit %.2f kPa", temp, unit, s.room.RH, s.room.DeficitKPa)
	switch {
	case s.room.ReadAt.IsZero():
		return text + " (assumed: no reading)"
	case s.now.Sub(s.room.ReadAt) >= 48*time.Hour:
		return text + fmt.Sprintf(" (read %s ago)", daysWords(s.now.Sub(s.room.ReadAt).Hours()/24))
	}
	return text
}
