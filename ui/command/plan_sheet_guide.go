package command

import (
	"fmt"
	"slices"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// howTo is what somebody has to know who has never done it.
func (s *soakPaper) howTo(rest ...string) paper.Points {
	points := paper.Points{
		"Do the lines of the day from top to bottom, and tick each when it is done. Write the time beside it when " +
			"you begin " +
			"to put a load in and when you begin to take it out: a soak counts from the first plant in. Whoever " +
			"enters it later begins each line of a file with that time (09:26 out 109) and takes the file in with " +
			"tubside enter --from FILE, on another day with " + dayFlag(s.p.Ask.From) + ".",
		"A line with nothing under \"done by\" is done within a minute. One that says \"to the minute\" comes before " +
			"whatever you are at.",
		"If you are late, keep to the order. Only a load that has reached its latest time comes out first. A load that " +
			"could not be begun by its hour (\"begin by\") is for tomorrow: hang back what you have pulled of it, and empty its " +
			"vessel if it is full.",
		s.walkWords(),
		"A load is plants that go into one vessel together. Its list is further down. Pull its plants in the order " +
			"of the " +
			"list: take them from their homes and bring them to the vessel. \"Walk 1\" is once along the shelves, from " +
			"the top of its list to the bottom. One with a star stands there already.",
		"Plants that are pulled wait beside their vessel, dry, in the shade and out of the way of your feet: each " +
			"load on a " +
			"towel of its own, in its order, with its number on a slip of paper.",
		"Put them in in the same order, row after row from one end to the other, so that you know who was first. " +
			"In a tub begin at the tap end.",
		"Take them out in the same order. Shake each well and lay it upside down where its list says. " + handlingWords,
		"A plant is dry when it is dry to the heart: look between its inner leaves. Hang it back home then. One " +
			"that is still damp stays where it lies, and is for tomorrow morning. \"Round 2\" in a list is the second " +
			"round of hanging; \"tomorrow\" is tomorrow morning.",
	}
	points = append(points, rest...)
	if rule := show.WaterRule(s.b, s.p); rule != "" {
		points = append(points, show.Line(rule)+". Today's tap water will not have stood that long: take rain "+
			"water, or go on with it, and fill the evening before next time.")
	}
	if slices.ContainsFunc(s.p.Steps, func(step day.Step) bool { return step.Hands > 0 && !step.Done }) {
		points = append(points, "Lines that begin with \""+secondHands+"\" are for whoever helps you; all others are yours.")
	}
	if s.company(soak.Newcomer) || s.company(soak.Suspect) || s.company(soak.Sick) {
		points = append(points, "Newcomers, plants just over a trouble, and sick ones stay by themselves the whole "+
			"day: each kind on a tray of its "+
			"own, an arm's length from every other plant, before the soak and after it. Never newcomers beside "+
			"sick ones.")
	}
	if slices.ContainsFunc(s.p.Loads, func(l day.Load) bool { return l.Heap > 0 }) {
		points = append(points, "Where two heaps share a vessel keep a hand's width between them: each has a time "+
			"of its own. "+
			"Left and right are as you stand before it.")
	}
	return points
}

// walkWords say what the time for pulling and hanging leaves out.
func (s *soakPaper) walkWords() string {
	rules := s.b.Rules()
	return fmt.Sprintf("Pulling is counted with %s s a plant, and hanging with %s s: the way from room to room is not in it, "+
		"least of all where a line says walks. Go by the order then, begin to pull early when you have nothing to do, "+
		"and give your own seconds next time (house rules hands-pull and hands-hang).",
		rules.Word(model.HandsPull), rules.Word(model.HandsHang))
}

// company reports whether a load of the day is of such plants.
func (s *soakPaper) company(c soak.Company) bool {
	return slices.ContainsFunc(s.p.Loads, func(l day.Load) bool { return l.Company == c })
}

// cautions are the usual ones, with who says so. They do not replace the rules of the
// place.
func (s *soakPaper) cautions() paper.Cautions {
	all := paper.Cautions{
		{
			Text: "Never leave a filled tub or bucket, not for a minute, where there is a child or a pet. A vessel " +
				"that has to " +
				"stand full until its load goes in is behind a shut door. Empty each as soon as its line says so.",
			Source: "US Consumer Product Safety Commission, 2007 and 2012",
		},
		{
			Text: "Do not walk away from a running tap: stay where you hear it, set a timer for the minute at " +
				"which it is turned " +
				"off, and come back for it whatever you are at. If you cannot, wait beside it.",
			Source: "common practice, no source",
		},
		{
			Text: "Keep fans, lamps and their cords 1.5 m (5 ft) or more from the water. Dry your hands before you " +
				"touch them. " +
				"Follow your local electrical code, and ask a qualified electrician.",
			Source: "Safe Electricity",
		},
		{Text: "Wipe up drips at once: most injuries in bathrooms are falls.", Source: "MMWR 2011;60(22):729-733"},
	}
	if s.company(soak.Sick) || s.company(soak.Suspect) {
		all = append(all, paper.Caution{
			Text: "After a sick plant wash your hands, and disinfect the vessel and the tray: wash the dirt off, " +
				"then 10 minutes in " +
				"1 part of household bleach to 9 of water, made within 2 hours, then rinse. Never mix bleach with " +
				"anything else, " +
				"keep it off the plants, open a window, and go by its label.",
			Source: "Iowa State University Extension",
		})
	}
	return all
}
