package show

import (
	"cmp"
	"fmt"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// need says why a plant needs what it needs.
func (a About) need(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.ThirstSeen:
		return a.thirstSigns()
	case advice.SinceSoak:
		return fullDays(n[0]) + " since the soak"
	case advice.InWater:
		return "in the water for " + Minutes(n[0])
	case advice.OutDripping:
		return "out for " + Minutes(n[0]) + ", not marked dry"
	case advice.ReadyToHang:
		return "dry: hang it back on " + cmp.Or(a.Row.Home.String(), "its shelf")
	case advice.RotSince:
		return "suspected since " + a.Row.Rot.In(a.Now.Location()).Format("2 Jan")
	case advice.MistedAgo:
		return "misted " + Minutes(n[0]) + " ago"
	case advice.Weighed:
		return fmt.Sprintf("weighed %.1f g, %.1f g when wet: counts for more than signs", n[0], n[1])
	case advice.WaterGone:
		return whole(100*n[0]) + " % of its water gone (" + whole(100*n[1]) + " to " + whole(100*n[2]) + ")"
	case advice.ThirstTooLow:
		return "little thirst yet: a soak every " + fullDays(n[1])
	case advice.ThirstAsks:
		return whole(100*n[0]) + " % gone: time for a soak, whatever the day"
	case advice.EveryDays:
		if n[0] < n[1] {
			return "house rule: a soak every " + fullDays(n[0]) + " in air this dry, every " + fullDays(n[1]) + " elsewhere"
		}
		return "house rule: a soak every " + fullDays(n[0])
	case advice.ShelfDries:
		return "shelf " + r.Name + ": dries out " + tenths(n[0]) + " times as fast as elsewhere"
	case advice.MinutesBack:
		return Minutes(n[0]) + " in water brings it back to " + whole(100*n[1]) + " %"
	case advice.SeenAtLeast:
		return "house rule: a plant that looks like this gets " + Minutes(n[0]) + " at least"
	case advice.PartlyAssumed:
		return fmt.Sprintf("assumed in part: %s, %s, %.0f cm", cmp.Or(a.Row.Form, estimate.AssumedForm),
			cmp.Or(a.Row.Leaf, estimate.AssumedLeaf), cmp.Or(a.Row.Size, estimate.AssumedSize))
	case advice.RestDays:
		return "house rule: " + fullDays(n[0]) + " between soaks when no thirst shows"
	case advice.CappedTo:
		return r.Name + ": " + Minutes(n[0]) + " at most, though it could use " + Minutes(n[1])
	}
	if text := a.doubt(r); text != "" {
		return text
	}
	return a.lost(r)
}

// doubt says what decides against the numbers, and what to look at again.
func (a About) doubt(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.SeenDecides:
		return fmt.Sprintf("%s: %s, though only %.0f %% should be gone", a.thirstSigns(), soak.Band(n[0]), 100*n[1])
	case advice.LastSoakUnknown:
		return "you have not said when it was last soaked: look first, " + Minutes(n[0]) + " at most"
	case advice.SoakNotSaid:
		return "you have not said when it was last soaked: " + Minutes(n[0]) + " at most"
	case advice.FlatThoughDry:
		return "flat and clean, though " + whole(100*n[0]) + " % of its water should be gone: " + Minutes(n[1]) + " at most"
	case advice.PastMendingSoon:
		return whole(100*n[0]) + " % of its water should be gone: look first, " + Minutes(n[1]) + " at most"
	case advice.Casualty:
		return "badly dry: T. ionantha does not recover once " + whole(100*n[0]) + " % of its water is gone (Benzing & Dahle 1971)"
	case advice.DarkAndRolled:
		return "look again: dark and yet " + a.thirstSigns() + "; wet on the outside only, rot, or the wrong plant graded"
	case advice.StillInBloom:
		return "still in bloom? " + Line(a.lateBloom())
	case advice.DarkForLong:
		if n[0] < 0 {
			return "look again: already dark; a mist, a drip, water in its heart, or no scales left to turn pale"
		}
		return "look again: dark " + fullDays(n[0]) + " after the soak; a mist, a drip, water in its heart, or no scales left to turn pale"
	case advice.FarFuller:
		return "look again: far fuller than expected (" + whole(100*n[0]) + " % gone); a soak nobody wrote down, or leaves that do not roll"
	case advice.FarLighter:
		return "weigh again: far lighter than expected (" + whole(100*n[0]) + " % gone); a slip in the weight, another plant, or a soak that missed it"
	case advice.FarHeavier:
		return "weigh again: far heavier than expected (" + whole(100*n[0]) + " % gone); a slip in the weight, another plant, or water nobody wrote down"
	case advice.SeenTwice:
		return "looked at twice and the same: what you saw counts, not the " + whole(100*n[0]) + " % gone that was expected"
	}
	return ""
}

// lateBloom is why a bloom is asked about.
func (a About) lateBloom() string {
	_, high, _ := advice.BloomEnd(a.Row)
	return "said to be since " + a.day(a.Row.Bloom) + "; such blooms are over by " + a.day(high)
}

// thirstSigns is what was seen of thirst, in words.
func (a About) thirstSigns() string {
	signs := a.Row.Signs
	signs.Shift = model.NotSeen
	return signs.Words(1)
}

// lost says the terms of how much water is gone.
func (a About) lost(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.RoomIs:
		text := fmt.Sprintf("room %s, %.0f %% humidity: %s air, %.1f kPa", wholeTemp(n[0], a.Book.Rules()), n[1], AirZone(n[2]), n[2])
		switch days := n[3]; {
		case days < 0:
			return text + " (assumed: no reading)"
		case days >= 2:
			return text + " (read " + fullDays(days) + " ago)"
		}
		return text
	case advice.AirSinceDry:
		text := fmt.Sprintf("%s air since it dried, %.1f kPa on average, ", AirZone(n[0]), n[0])
		switch n[1] {
		case 0:
			return text + "assumed: no reading"
		case 1:
			return text + "from one reading"
		}
		return text + fmt.Sprintf("from %.0f readings", n[1])
	case advice.LossFromKin:
		return multiplier(r, "loses water ", " times as fast as usual", "judging by others like it")
	case advice.LossFromSoaks:
		return multiplier(r, "loses water ", " times as fast as usual", "judging by others like it and "+ofItsOwn(n[3], "soak"))
	case advice.LossFromSigns:
		return multiplier(r, "loses water ", " times as fast as usual",
			"judging by others like it and what you saw since the soak")
	}
	return asIs[r.Code]
}

// multiplier says a rate or drying-time multiplier, and where it was learned.
func multiplier(r advice.Reason, does, than, from string) string {
	return does + tenths(r.N[0]) + than + " (" + tenths(r.N[1]) + " to " + tenths(r.N[2]) + "): " + from
}

func ofItsOwn(n float64, what string) string {
	if n == 1 {
		return "one " + what + " of its own"
	}
	return whole(n) + " " + what + "s of its own"
}

// drying says how far a plant has come with drying, and what to do.
func (a About) drying(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.WetBeyondLimit:
		return "wet for " + Minutes(n[0]) + "; expected to take " + Minutes(n[1]) + " here, too long from " + Minutes(n[2])
	case advice.SlowHere:
		return "expected to take " + Minutes(n[0]) + " here; growers worry from " + Minutes(n[1])
	case advice.ShouldBeDry:
		return "out for " + Minutes(n[0]) + " and should be dry: look into the heart"
	case advice.FeltDamp:
		return "still damp when looked at " + Minutes(n[0]) + " ago"
	case advice.HeldUpByRoom:
		return fmt.Sprintf("slow: the drying plants bring the room to %.0f %% humidity", 100*n[0])
	case advice.DryingTimes:
		return a.laid() + ": leaves about " + Minutes(n[0]) + ", heart about " + Minutes(n[1]) + "; 8 in 10 such plants between " +
			Minutes(n[2]) + " and " + Minutes(n[3])
	case advice.DryingFromKin:
		return multiplier(r, "takes ", " times as long as usual", "judging by others like it")
	case advice.DryingFromMarks:
		return multiplier(r, "takes ", " times as long as usual", "judging by others like it and "+ofItsOwn(n[3], "drying"))
	}
	return asIs[r.Code]
}

// laid is what the times to dry go by, of a plant that lies there: small plants and those upside down dry sooner.
func (a About) laid() string {
	text := fmt.Sprintf("%.0f cm, shaken", cmp.Or(a.Row.Size, estimate.AssumedSize))
	if !a.Row.Shaken {
		text = fmt.Sprintf("%.0f cm, not shaken", cmp.Or(a.Row.Size, estimate.AssumedSize))
	}
	if a.Row.Inverted {
		return text + ", upside down"
	}
	return text + ", upright"
}

// Driest says whom to look at first; "" before that is earned.
func Driest(d advice.Driest) string {
	if !d.Earned {
		return ""
	}
	return fmt.Sprintf("Check these %d first: most of the %d driest are here", len(d.First), d.Driest)
}
