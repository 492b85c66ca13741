package show

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/air"
	"tubside/model/estimate"
	"tubside/model/feed"
	"tubside/model/soak"
)

// About is what reasons are about: names, dates and house rules in their
// sentences come from it. Row is nil where they are not about a plant.
type About struct {
	Book *model.Book
	Row  *model.Row
	Now  time.Time // in the zone in which days are said
}

// Reasons says reasons, each a short clause: "12 days since the soak".
func (a About) Reasons(all []advice.Reason) []string {
	texts := make([]string, 0, len(all))
	for _, r := range all {
		texts = append(texts, a.Reason(r))
	}
	return texts
}

// First says the reason to show in a list; "" where there is none.
func (a About) First(all []advice.Reason) string {
	if len(all) == 0 {
		return ""
	}
	return a.Reason(all[0])
}

// Reason says one reason.
func (a About) Reason(r advice.Reason) string {
	switch {
	case r.Code <= advice.SicksWater:
		return a.need(r)
	case r.Code <= advice.DryingFromMarks:
		return drying(r)
	case r.Code <= advice.LastLookedOver:
		return a.round(r)
	}
	return a.water(r)
}

// asIs are the reasons that need no number.
var asIs = map[advice.Code]string{
	advice.NeverSoaked:      "no soak on record: taken as two weeks before it came",
	advice.SoakedLately:     "soaked lately: let it breathe",
	advice.BloomMist:        "in bloom: mist the leaves, keep the flower dry",
	advice.JustSeparated:    "just separated: mist it, no soak until the wound is dry",
	advice.PressTheBase:     "press the base and tug a centre leaf: soft or loose means rot",
	advice.FlowerUp:         "hold it flower up and lower the leaves into water to below the flower for a few minutes, or rinse leaf by leaf; again tomorrow",
	advice.WhatElseItIs:     "one-sided is sun or cold; the same on all of one bath is feed or water; pale when wet is dead or oiled scales",
	advice.ShakeHard:        "shake hard, dry upside down",
	advice.TipOut:           "tip out the cup, dry upside down",
	advice.Wring:            "wring gently and spread it out",
	advice.RotSuspected:     "suspected rot: no soak, keep it apart and airy",
	advice.StillWet:         "still wet: already dark when a drop touched it",
	advice.NotDriedYet:      "it has not dried since the soak: tip it out, lay it upside down in moving air",
	advice.BloomBadlyDry:    "in bloom and badly dry: wet the leaves only",
	advice.StaysPale:        "stays pale when wetted: look for rot, oil, lime or dead tissue; a longer soak does not help",
	advice.FarDrier:         "look again: it looks far drier than the numbers have it; a soak that did not reach it, a hot spot, rot at the base, or another plant",
	advice.ExpectLoss:       "expect loss",
	advice.OnceMoreTomorrow: "once more tomorrow, as long",
	advice.TwoSoaksApart:    "or two long soaks a day apart: growers differ about leaving plants in overnight",
	advice.FillTheCup:       "fill the cup daily until the leaves open",
	advice.ThirstyTwice:     "thirsty right after two soaks in a row: look before you soak it",
	advice.NewcomersWater:   Company(soak.Newcomer),
	advice.SuspectsWater:    Company(soak.Suspect),
	advice.SicksWater:       Company(soak.Sick),

	advice.HeldUpByPocket: "held up by water at the heart",
	advice.HeldUpByFilm:   "held up by water on the leaves",
	advice.LayUpsideDown:  "tip it out, lay it upside down",
	advice.ShakeAgain:     "shake it again, turn it",
	advice.MoreFan:        "more fan, across the plants, away from the water",
	advice.OpenAWindow:    "open a window or a door",
	advice.SpreadOut:      "spread them out, blot the bases",

	advice.PulledForSoak:     "pulled for the soak",
	advice.KeepDry:           "suspected rot: keep it dry",
	advice.BloomLeavesOnly:   "in bloom: the leaves only, not the flower",
	advice.JustSeparatedMist: "just separated: mist, no soak until the wound is dry",
	advice.ThroatHoldsWater:  "bulbous: water stays in its throat",
	advice.CoatStaysWet:      "fuzzy: its coat stays wet, and the room is not that dry",
	advice.NeverMisted:       "no mist on record",
	advice.NoSoakEver:        "no soak on record",
	advice.NoFeedRot:         "suspected rot: no feed",
	advice.NoFeedQuarantine:  "in quarantine: no feed",
	advice.NoFeedBloom:       "in bloom: no feed",
	advice.NoFeedSeparated:   "just separated: no feed",
	advice.NoFeedNew:         "new: no feed yet",
	advice.NeverFed:          "no feed on record",
	advice.SoakItFirst:       "thirsty: soak it first, feed it after",
	advice.MistInTheMorning:  "mist to run-off in the morning, so that all is dry by midday; wipe up what drips",
	advice.BottleNotFed:      "the mist bottle is not said to hold fed water: mix it first, and enter it",
	advice.FeedCaution:       feed.Caution,
	advice.LookDry:           "look dry, before any water: it hides scale and cotton; base, leaf axils, new tips, with a lens",
	advice.LookAtRot:         "suspected rot: press the base, tug a centre leaf",
	advice.NewcomerReady:     "newcomer: may be released",
	advice.OffsetMay:         "an offset may be separated",
	advice.OffsetReady:       "an offset is ready to be separated",
	advice.NeverLookedOver:   "never looked over",

	advice.EmptyOrUnknown: "empty, or not on record",
	advice.SickWasIn:      "a sick plant was in it: throw it out and disinfect the vessel",
	advice.SuspectWasIn:   "a suspect plant was in it: change it",
	advice.NewcomerWasIn:  "a newcomer was in it: no healthy plants after",
	advice.Chloramine:     "chloramine does not leave by standing: filter it if it worries you",
	advice.WaterFine:      "fine",
	advice.StandingWater:  "standing water: never leave a child or a pet alone with it; empty it right after",
}

// Company says whose water a plant may share; "" for everybody's.
func Company(c soak.Company) string {
	switch c {
	case soak.Newcomer:
		return "newcomer: its own water, or the last of the healthy"
	case soak.Suspect:
		return "trouble cleared a short while ago: after the healthy and the newcomers"
	case soak.Sick:
		return "sick: last, in water of its own that is thrown out; disinfect the vessel"
	}
	return ""
}

// need says why a plant needs what it needs.
func (a About) need(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.ThirstSeen:
		return a.thirstSigns()
	case advice.SinceSoak:
		return fullDays(n[0]) + " since the soak"
	case advice.InWater:
		return "in the water for " + model.Minutes(n[0])
	case advice.OutDripping:
		return "out for " + model.Minutes(n[0]) + ", not marked dry"
	case advice.ReadyToHang:
		return "dry: hang it back on " + cmp.Or(a.Row.Home.String(), "its shelf")
	case advice.RotSince:
		return "suspected since " + a.Row.Rot.In(a.Now.Location()).Format("2 Jan")
	case advice.MistedAgo:
		return "misted " + model.Minutes(n[0]) + " ago"
	case advice.Weighed:
		return fmt.Sprintf("weighed %.1f g, %.1f g when wet: counts for more than signs", n[0], n[1])
	case advice.WaterGone:
		return whole(100*n[0]) + " % of its water gone (" + whole(100*n[1]) + " to " + whole(100*n[2]) + ")"
	case advice.ThirstTooLow:
		return "only " + whole(100*n[0]) + " % of its water gone: a soak every " + fullDays(n[1])
	case advice.ThirstAsks:
		return whole(100*n[0]) + " % gone asks for a soak, whatever the rhythm"
	case advice.EveryDays:
		if n[0] < n[1] {
			return "house rule: a soak every " + fullDays(
				n[0],
			) + " in air this dry, every " + fullDays(
				n[1],
			) + " elsewhere"
		}
		return "house rule: a soak every " + fullDays(n[0])
	case advice.ShelfDries:
		return "shelf " + r.Name + ": dries out " + tenths(n[0]) + " times as fast as elsewhere"
	case advice.MinutesBack:
		return model.Minutes(n[0]) + " in water brings it back to " + whole(100*n[1]) + " %"
	case advice.PartlyAssumed:
		return "taken as " + string(
			cmp.Or(a.Row.Form, estimate.AssumedForm),
		) + ", " + string(
			cmp.Or(a.Row.Leaf, estimate.AssumedLeaf),
		) + ", " +
			whole(
				cmp.Or(a.Row.Size, estimate.AssumedSize),
			) + " cm: partly assumed"
	case advice.RestDays:
		return "house rule: " + fullDays(n[0]) + " between soaks when no thirst shows"
	case advice.CappedTo:
		return r.Name + ": " + model.Minutes(n[0]) + " at most, though the numbers ask for " + model.Minutes(n[1])
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
		return a.thirstSigns() + ": " + soak.Band(n[0]).
			String() +
			", though by the numbers only " + whole(
			100*n[1],
		) + " % was gone"
	case advice.LastSoakUnknown:
		return "nobody knows its last soak: look first, " + model.Minutes(n[0]) + " at most"
	case advice.PastMendingSoon:
		return "by the numbers " + whole(
			100*n[0],
		) + " % of its water is gone: look first, " + model.Minutes(
			n[1],
		) + " at most"
	case advice.Casualty:
		return "a casualty, or near it: T. ionantha is past mending from " + whole(
			100*n[0],
		) + " % (Benzing & Dahle 1971)"
	case advice.DarkAndRolled:
		return "look again: dark and yet " + a.thirstSigns() + "; wet only outside from a mist or a drip, or rot, or another plant was graded"
	case advice.DarkForLong:
		if n[0] < 0 {
			return "look again: already dark; a mist, a drip, water in its heart, or no scales left to turn pale"
		}
		return "look again: dark " + fullDays(
			n[0],
		) + " after the soak; a mist, a drip, water in its heart, or no scales left to turn pale"
	case advice.FarFuller:
		return "look again: it looks far fuller than the numbers have it (" + whole(
			100*n[0],
		) + " % gone); a soak nobody wrote down, or leaves that do not roll"
	}
	return ""
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
		text := fmt.Sprintf("room %s, %.0f %% humidity, deficit %.2f kPa", wholeTemp(n[0], a.Book.Rules()), n[1], n[2])
		switch days := n[3]; {
		case days < 0:
			return text + " (assumed: no reading)"
		case days >= 2:
			return text + " (read " + fullDays(days) + " ago)"
		}
		return text
	case advice.AirSinceDry:
		text := fmt.Sprintf("air since it dried: deficit %.2f kPa on average, ", n[0])
		switch n[1] {
		case 0:
			return text + "assumed: no reading"
		case 1:
			return text + "from one reading"
		}
		return text + fmt.Sprintf("from %.0f readings", n[1])
	case advice.LossFromKin:
		return multiplier(r, "loses water ", " times as fast as reckoned", "known from its kin only")
	case advice.LossFromSoaks:
		return multiplier(r, "loses water ", " times as fast as reckoned", "from its kin and "+ofItsOwn(n[3], "soak"))
	case advice.LossFromSigns:
		return multiplier(
			r,
			"loses water ",
			" times as fast as reckoned",
			"from its kin and what was seen since the soak",
		)
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
func drying(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.WetBeyondLimit:
		return "wet for " + model.Minutes(n[0]) + "; " + model.Minutes(n[1]) + " is the limit"
	case advice.ShouldBeDry:
		return "out for " + model.Minutes(n[0]) + " and should be dry: look into the heart"
	case advice.FeltDamp:
		return "still damp when looked at " + model.Minutes(n[0]) + " ago"
	case advice.HeldUpByRoom:
		return fmt.Sprintf("held up by the room: the drying plants bring it to %.0f %% humidity", 100*n[0])
	case advice.DryingTimes:
		return "leaves about " + model.Minutes(
			n[0],
		) + ", heart about " + model.Minutes(
			n[1],
		) + "; 8 in 10 such plants between " + model.Minutes(
			n[2],
		) + " and " + model.Minutes(
			n[3],
		)
	case advice.DryingFromKin:
		return multiplier(r, "takes ", " times as long as reckoned", "known from its kin only")
	case advice.DryingFromMarks:
		return multiplier(r, "takes ", " times as long as reckoned", "from its kin and "+ofItsOwn(n[3], "drying"))
	}
	return asIs[r.Code]
}

// round says why a plant is due on a round, or is not.
func (a About) round(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.OffItsShelf:
		return a.Row.State.String()
	case advice.WantsASoak:
		return "thirsty: it wants a soak (" + soak.Band(n[0]).String() + "), not a mist"
	case advice.LastMisted:
		return "misted " + longAgo(n[0]) + " ago"
	case advice.LastSoaked:
		return longAgo(n[0]) + " since the soak"
	case advice.NoFeedTrouble:
		return "trouble (" + string(a.Row.Troubles[0].What) + "): no feed"
	case advice.NoFeedWinter:
		return "winter light is low: no feeding before " + a.day(r.Time(0, a.Now.Location()))
	case advice.LastFed:
		return "fed " + a.day(a.Row.Fed) + fedHow(a.Row)
	case advice.BottleStillFed:
		return "the mist bottle holds fed water since " + a.day(
			a.Book.Bottle().At,
		) + ": is it emptied and filled with plain?"
	case advice.BottleTooStrong:
		return fmt.Sprintf("%g ppm nitrogen in the bottle is over %g: thin it for leaves", n[0], n[1])
	case advice.LookAfterTrip:
		return fmt.Sprintf("day %.0f after the trip, and soaked since: look into the heart for rot", n[0])
	case advice.LookAtTrouble:
		return a.trouble(a.Row.Troubles[int(n[0])])
	case advice.NewcomerLacks:
		return "newcomer: " + a.Book.Lacks(a.Row, a.Now)[0]
	case advice.TroubleBack:
		return "trouble over since " + a.day(a.Row.Cleared) + ": is it back?"
	case advice.LastLookedOver:
		return "looked over " + a.day(a.Row.Looked)
	}
	return asIs[r.Code]
}

func fedHow(row *model.Row) string {
	how := ""
	if row.FedHow != "" {
		how = " by " + string(row.FedHow)
	}
	if row.FedMix != nil && row.FedMix.PPM > 0 {
		how += fmt.Sprintf(", %g ppm N", row.FedMix.PPM)
	}
	return how
}

// trouble says what a plant has and what was done: "scale since 2 Feb, treated
// 5 Feb".
func (a About) trouble(t model.Ill) string {
	text := string(t.What) + " since " + a.day(t.Since)
	if !t.Treated.IsZero() {
		text += ", treated " + a.day(t.Treated) + " (" + t.Treatment + ")"
	}
	return text
}

// water says why water is fit or is not.
func (a About) water(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.LoadsUsedUp:
		return fmt.Sprintf("%.0f loads, and the house rule is %.0f", n[0], n[1])
	case advice.NotAnotherDay:
		return "plants were in it " + longAgo(n[0]) + " ago: not for another day"
	case advice.HoursUsedUp:
		return fmt.Sprintf("%s since its first plant, and the house rule is %g h", longAgo(n[0]), n[1])
	case advice.TooCold:
		return fmt.Sprintf("%.0f °C: let it warm to the room", n[0])
	case advice.TooWarm:
		return fmt.Sprintf("%.0f °C: let it cool to the room", n[0])
	case advice.OverLimit:
		return fmt.Sprintf("%s %.2g %s, limit %g (%s)", r.Name, n[0], feed.UnitOf(r.Name), n[1], feed.FAO29)
	case advice.HardWater:
		return fmt.Sprintf("hard (%.0f mg/L): rinse with rain now and then, or blend it", n[0])
	case advice.SourceWarns:
		info, _ := advice.InfoOf(model.Source(r.Name))
		return r.Name + ": " + info.What + " (" + info.Origin + ")"
	case advice.TapStood:
		return "tap water, stood " + model.Minutes(
			math.Floor(n[0])*60,
		) + " of " + a.Book.Rules().
			Word(model.WaterRest) +
			" h"
	case advice.ChlorineIsLeft:
		return fmt.Sprintf("stood %s: %.0f to %.0f %% of the chlorine is left", longAgo(60*n[0]), 100*n[1], 100*n[2])
	}
	return asIs[r.Code]
}

// day is a day as it is said: "2 Feb", with the year when it is another.
func (a About) day(t time.Time) string {
	t = t.In(a.Now.Location())
	if t.Year() != a.Now.Year() {
		return t.Format("2 Jan 2006")
	}
	return t.Format("2 Jan")
}

// wholeTemp is a temperature given in °C, in whole degrees of the house rules'
// unit.
func wholeTemp(celsius float64, rules model.Rules) string {
	t, unit := air.Degrees(celsius, rules.Fahrenheit())
	return fmt.Sprintf("%.0f %s", t, unit)
}

// whole is a number without decimals.
func whole(x float64) string { return strconv.Itoa(int(math.RoundToEven(x))) }

// tenths is a number with one decimal.
func tenths(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

// fullDays rounds down as people do: yesterday evening is 0 days.
func fullDays(days float64) string {
	if int(days) == 0 {
		return "less than a day"
	}
	return Count(int(days), "day")
}

// longAgo is a length of time in minutes as people say it: minutes and hours on
// the same day, else whole days.
func longAgo(minutes float64) string {
	if minutes < 24*60 {
		return model.Minutes(minutes)
	}
	return fullDays(minutes / (24 * 60))
}

// NotFed is the problem with feeding a plant that is not to be fed.
func NotFed(b *model.Book, s advice.Stop, now time.Time) *model.Problem {
	a := About{Book: b, Row: b.Row(s.ID), Now: now.In(b.Zone())}
	again := ""
	if !s.When.IsZero() {
		again = ", again from " + a.day(s.When)
	}
	return &model.Problem{
		What: fmt.Sprintf("plant %d (%s) is not to be fed now: %s%s", s.ID, a.Row.Title(), a.First(s.Reasons), again),
		Do:   "leave it out, or say that it is fed all the same",
	}
}

// Driest says whom to look at first; "" before that is earned.
func Driest(d advice.Driest) string {
	if !d.Earned {
		return ""
	}
	return fmt.Sprintf("I have watched these plants for %s: look at these %d first", weeks(d.Weeks), len(d.First))
}

var smallNumbers = [...]string{"three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

func weeks(n int) string {
	if i := n - 3; i >= 0 && i < len(smallNumbers) {
		return smallNumbers[i] + " weeks"
	}
	return strconv.Itoa(n) + " weeks"
}
