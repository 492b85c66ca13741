package show

import (
	"math"
	"slices"
	"strings"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
)

// LeftOut says why a plant has no place in a plan, and what would get it one.
func LeftOut(b *model.Book, p *day.Plan, l day.LeftOut) string {
	why, help := WhyLeftOut(b, p, l)
	if len(help) == 0 {
		return why
	}
	return why + "; " + strings.Join(help, ", or ")
}

// HowMuchTooLate says how much too late a plant that has no place would be dry, "3 h 59 min too
// late"; "" where that is not what keeps it out.
func HowMuchTooLate(l day.LeftOut) string {
	if l.Unplaced == nil || l.Unplaced.By <= 0 {
		return ""
	}
	return wholeMinutes(l.Unplaced.By) + " too late"
}

// WhyLeftOut says why a plant has no place in a plan, and apart from that what
// would get it one, best first.
func WhyLeftOut(b *model.Book, p *day.Plan, l day.LeftOut) (why string, help []string) {
	switch {
	case l.NotDue != nil:
		why = l.NotDue.State.String()
		if l.NotDue.State == model.AtHome {
			why = l.NotDue.Band.String()
		}
		if len(l.NotDue.Reasons) > 0 {
			why += ": " + About{Book: b, Row: b.Row(l.ID), Now: p.Ask.From}.First(l.NotDue.Reasons)
		}
		return why, nil
	case l.NotFed != nil:
		return NotFed(b, *l.NotFed, p.Ask.From).What, []string{"plan it without the feed"}
	case l.Late != nil:
		return tooLong(p, l.Late)
	case l.Skipped:
		return "left for another day", nil
	}
	for _, h := range helps[l.Unplaced.Why] {
		switch {
		case h == startEarlier && !p.Agreed.IsZero():
			continue // the day has begun
		case h == startEarlier && l.Unplaced.By > 0:
			h = "start " + Minutes(math.Ceil(float64(l.Unplaced.By)/300)*5) + " earlier"
		}
		help = append(help, h)
	}
	return unplaced(b, p, l), help
}

// What would get a plant a place.
const (
	startEarlier = "start earlier"
	dryFaster    = "open a window or the door, or add a fan"
	moreBench    = "more bench room"
	fewer        = "leave others for another day"
	tomorrow     = "soak it tomorrow"
	largerVessel = "a larger vessel"
)

// helps are what would get a plant a place, best first.
var helps = map[soak.Why][]string{
	soak.NoVessel:     {largerVessel},
	soak.NoHours:      {tomorrow},
	soak.NoBenchSize:  {moreBench},
	soak.DriesTooSlow: {startEarlier, dryFaster, tomorrow},
	soak.HandsTaken:   {"a second pair of hands", fewer, tomorrow},
	soak.VesselsTaken: {largerVessel, fewer, tomorrow},
	soak.WaterTaken:   {"fill a tub or bucket tonight and soak it tomorrow"},
	soak.BenchesTaken: {moreBench, fewer, tomorrow},
	soak.RoomTaken:    {dryFaster, fewer, tomorrow},
	soak.DryTooLate:   {startEarlier, dryFaster, fewer, tomorrow},
	soak.LoadsTaken:   {"one load more", tomorrow},
	soak.TooFew:       {"allow a small load", tomorrow},
	soak.NoSpare:      {startEarlier, fewer, tomorrow},
}

func unplaced(b *model.Book, p *day.Plan, l day.LeftOut) string {
	dryBy, longer := p.Ask.DryBy.Format("15:04"), ""
	if l.Unplaced.By > 0 {
		longer = ", and for " + wholeMinutes(l.Unplaced.By) + " more"
	}
	switch l.Unplaced.Why {
	case soak.NoVessel:
		return noVessel(p, l)
	case soak.NoHours:
		return "its soak does not fit into the hours"
	case soak.NoBenchSize:
		return "larger than any drying place"
	case soak.DriesTooSlow:
		return "dries too slowly for today: even if it went in first it might still be damp at " + dryBy + longer
	case soak.HandsTaken:
		return "there is no time for it beside the others"
	case soak.WaterTaken:
		return "no water that has stood is left for it"
	case soak.VesselsTaken:
		return "no tub or bucket is free for it in time"
	case soak.BenchesTaken:
		return "no room is left to dry it in time"
	case soak.DryTooLate:
		return "its turn comes too late: it might still be damp at " + dryBy + longer
	case soak.RoomTaken:
		return "beside so many others it dries too slowly: it might still be damp at " + dryBy + longer
	case soak.LoadsTaken:
		return "it fits into none of the " + b.Rules().Word(model.DayLoads) + " loads of the house rule"
	case soak.TooFew:
		return "it fits into no load, and one of its own would be too small"
	case soak.NoSpare:
		return "it would fit, but with no time to spare"
	}
	return l.Unplaced.Why.String()
}

func noVessel(p *day.Plan, l day.LeftOut) string {
	switch {
	case !l.Fed:
		return "too large for any vessel"
	case slices.ContainsFunc(p.Vessels, func(v model.Vessel) bool { return v.Fed }):
		return "too large for the vessel for fed water"
	}
	return "due a feed, and no vessel is marked for fed water"
}

// wholeMinutes says seconds as minutes, rounded up.
func wholeMinutes(seconds int) string { return Minutes(math.Ceil(float64(seconds) / 60)) }
