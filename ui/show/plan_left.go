package show

import (
	"strings"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
)

// LeftGroup is plants that have no place in a plan for one reason.
type LeftGroup struct {
	Words string // "90 plants would still be wet at 20:00. Soak them tomorrow."
	IDs   model.IDs
}

// LeftGroups gathers who has no place in a plan by the reason, in the order in which the
// reasons come first.
func LeftGroups(b *model.Book, p *day.Plan, left []day.LeftOut) []LeftGroup {
	var groups []LeftGroup
	place, says := map[string]int{}, []func(int) string{}
	for _, l := range left {
		if b.Row(l.ID) == nil {
			continue
		}
		say := leftMany(b, p, l)
		key := say(2) // the same whoever and however many
		n, ok := place[key]
		if !ok {
			n = len(groups)
			place[key] = n
			groups, says = append(groups, LeftGroup{}), append(says, say)
		}
		groups[n].IDs = append(groups[n].IDs, l.ID)
	}
	for n := range groups {
		groups[n].Words = says[n](len(groups[n].IDs))
	}
	return groups
}

// leftMany says of so many plants why they have no place, and what to do.
func leftMany(b *model.Book, p *day.Plan, l day.LeftOut) func(n int) string {
	as := func(why, do string) func(int) string {
		return func(n int) string {
			words := why + ". " + do + "."
			if n == 1 {
				words = strings.NewReplacer("themselves", "itself", "them", "it", "their", "its").Replace(words)
			}
			return Count(n, "plant") + words
		}
	}
	if l.Unplaced == nil {
		why, help := WhyLeftOut(b, p, l)
		if len(help) == 0 {
			return func(n int) string { return Count(n, "plant") + ": " + why + "." }
		}
		return as(": "+why, Line(help[0]))
	}
	const soakTomorrow = "Soak them tomorrow"
	dryBy := p.Ask.DryBy.Format("15:04")
	switch l.Unplaced.Why {
	case soak.DryTooLate:
		return as(" would still be wet at "+dryBy, soakTomorrow)
	case soak.DriesTooSlow:
		return as(" would still be wet at "+dryBy+", even as the first to go in", "Soak them first thing tomorrow, "+
			"with a window open or a fan")
	case soak.RoomTaken:
		return as(" would still be wet at "+dryBy+", with so many drying at once", soakTomorrow)
	case soak.HandsTaken:
		return as(": there is no time for them beside the others", soakTomorrow)
	case soak.NoSpare:
		return as(" would fit, but with no time to spare", soakTomorrow)
	case soak.NoHours:
		return as(": the hours are too short for their soak", soakTomorrow)
	case soak.NoVessel:
		return as(": "+noVessel(p, l), "Leave them where they hang")
	case soak.NoBenchSize:
		return as(": larger than any drying place", "Leave them where they hang")
	case soak.LoadsTaken:
		return as(": no room in the "+b.Rules().Word(model.DayLoads)+" loads of the house rule", soakTomorrow)
	case soak.WaterTaken:
		return as(": no water that has stood is left for them", "Fill a tub or bucket tonight and soak them tomorrow")
	case soak.TooFew:
		return as(" would make too small a load by themselves", soakTomorrow)
	}
	return as(": "+unplaced(b, p, l), soakTomorrow)
}
