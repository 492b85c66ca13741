package show

import (
	"time"

	"tubside/model"
	"tubside/model/advice"
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
		return a.drying(r)
	case r.Code <= advice.WeighedFull:
		return a.round(r)
	}
	return a.water(r)
}

// Brief says one reason for the foot of a list: the air in a word, and nothing of the
// terms that a thirst is made of, which the card has. "" leaves it out.
func (a About) Brief(r advice.Reason) string {
	switch r.Code {
	case advice.RoomIs:
		if r.N[3] < 0 {
			return AirZone(r.N[2]) + " air, assumed: no reading"
		}
		return AirZone(r.N[2]) + " air"
	case advice.StillInBloom: // asked beside it
		return a.lateBloom()
	case advice.AirSinceDry, advice.LossFromKin, advice.LossFromSoaks, advice.LossFromSigns:
		return ""
	}
	return a.Reason(r)
}

// asIs are the reasons that need no number.
var asIs = map[advice.Code]string{
	advice.NeverSoaked:      "no soak on record: counted as soaked two weeks before it came into the book",
	advice.SoakedLately:     "soaked lately: let it breathe",
	advice.BloomMist:        "in bloom: mist the leaves, keep the flower dry",
	advice.MistOnly:         "mist only, you said",
	advice.JustSeparated:    "just separated: mist it, no soak until the wound is dry",
	advice.PressTheBase:     "press the base and tug a centre leaf: soft or loose means rot",
	advice.FlowerUp:         "hold it flower up and dip only the leaves for a few minutes, or rinse them one by one; again tomorrow",
	advice.WhatElseItIs:     "on one side: sun or cold; on all from one bath: feed or water; pale when wet: dead or oiled scales",
	advice.ShakeHard:        "shake hard, dry upside down",
	advice.TipOut:           "tip the cup, dry upside down",
	advice.Wring:            "wring gently and spread it out",
	advice.RotSuspected:     "suspected rot: no soak, keep it apart and airy",
	advice.StillWet:         "still wet: already dark when a drop touched it",
	advice.NotDriedYet:      "it has not dried since the soak: tip it out, lay it upside down in moving air",
	advice.BloomBadlyDry:    "in bloom and badly dry: wet the leaves only",
	advice.MistOnlyDry:      "dry, and mist only: mist it until it drips, each day, or soak it once: p",
	advice.StaysPale:        "stays pale when wetted: look for rot, oil, lime or dead tissue; a longer soak does not help",
	advice.FarDrier:         "look again: far drier than expected; a soak that missed it, a hot spot, rot at the base, or the wrong plant",
	advice.ExpectLoss:       "it may not recover",
	advice.OnceMoreTomorrow: "again tomorrow, just as long",
	advice.TwoSoaksApart:    "or two long soaks a day apart: growers differ about leaving plants in overnight",
	advice.FillTheCup:       "fill the cup daily until the leaves open",
	advice.ThirstyTwice:     "thirsty right after two soaks: look before you soak it",
	advice.NewcomersWater:   Company(soak.Newcomer),
	advice.SuspectsWater:    Company(soak.Suspect),
	advice.SicksWater:       Company(soak.Sick),

	advice.NobodyWeighed:  "nobody is being weighed: ten plants on a kitchen scale for four weeks tell how fast all of them lose water and drink",
	advice.ScaleCaution:   "the scale stands dry, away from the water; keep one on mains power well away from the tub, and follow your electrical code",
	advice.FirstSoakLong:  "in the first soak they stay as long as they may: then full is full",
	advice.WeighBefore:    "before its soak",
	advice.WeighAndLook:   "before its soak, with its signs",
	advice.WeighFull:      "full, before it hangs",
	advice.WeighHalfWay:   "half way to its soak",
	advice.WeighAfterSoak: "in the water",
	advice.WeighWhenDry:   "full, when it is dry inside",

	advice.HeldUpByPocket: "slow: water in the heart",
	advice.HeldUpByFilm:   "slow: water on the leaves",
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
	advice.MistInTheMorning:  "mist in the morning until it drips, so that all is dry by midday; wipe the floor",
	advice.BottleNotFed:      "you have not said that feed is in the mist bottle: mix it first, then enter it",
	advice.FeedCaution:       feed.Caution,
	advice.LookDry:           "look while they are dry: water hides scale and mealybugs; base, leaf axils, new tips, with a lens",
	advice.LookAtRot:         "suspected rot: press the base, tug a centre leaf",
	advice.NewcomerReady:     "newcomer: may join the others",
	advice.OffsetMay:         "an offset may be separated",
	advice.OffsetReady:       "an offset is ready to be separated",
	advice.NeverLookedOver:   "never looked over",

	advice.EmptyOrUnknown: "empty, or not on record",
	advice.SickWasIn:      "a sick plant was in it: throw it out and disinfect the vessel",
	advice.SuspectWasIn:   "a plant just over a trouble was in it: change it",
	advice.NewcomerWasIn:  "a newcomer was in it: no healthy plants after it",
	advice.Chloramine:     "chloramine does not leave by standing: filter it if it worries you",
	advice.WaterFine:      "fit for plants",
	advice.StandingWater:  "it stands full: empty it as soon as nothing more goes in; never leave a child or a pet alone with it",
}

// Company says whose water a plant may share; "" for everybody's.
func Company(c soak.Company) string {
	switch c {
	case soak.Newcomer:
		return "newcomer: its own water, or the last of the healthy"
	case soak.Suspect:
		return "just over a trouble: after the healthy and the newcomers"
	case soak.Sick:
		return "sick: last, in water of its own that is thrown out; disinfect the vessel"
	}
	return ""
}

// CompanyName is the company of a load in a word or two, for a column.
func CompanyName(c soak.Company) string {
	if c == soak.Suspect {
		return "just over a trouble"
	}
	return c.String()
}

// InCompany names plants by the company they keep in the water.
func InCompany(c soak.Company) string {
	switch c {
	case soak.Newcomer:
		return "newcomers"
	case soak.Suspect:
		return "plants just over a trouble"
	case soak.Sick:
		return "sick plants"
	}
	return "healthy plants"
}

// day is a day as it is said: "2 Feb", with the year when it is another.
func (a About) day(t time.Time) string {
	t = t.In(a.Now.Location())
	if t.Year() != a.Now.Year() {
		return t.Format("2 Jan 2006")
	}
	return t.Format("2 Jan")
}
