package show

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
)

// standsLong is from how long on a filled vessel that waits for its load is
// said to stand. A guess.
const standsLong = 10 * time.Minute

// Step says a step of a plan: "take out tub: 46 plants, start at the tap end".
func Step(b *model.Book, p *day.Plan, s *day.Step) string {
	l := &p.Loads[s.Load]
	switch s.Do {
	case soak.Fill:
		return fillStep(p, s, l)
	case soak.Empty:
		return emptyStep(l)
	case soak.PutIn:
		return putIn(b, s, l)
	case soak.GetOut:
		return takeOut(b, s, l)
	}
	return ""
}

func fillStep(p *day.Plan, s *day.Step, l *day.Load) string {
	i := slices.IndexFunc(p.Vessels, func(v model.Vessel) bool { return v.Name == s.Vessel })
	text := fmt.Sprintf("fill %s (%g L)", s.Vessel, p.Vessels[i].Litres)
	if l.Fed {
		text = fmt.Sprintf("mix fed water in %s (%g L)", s.Vessel, p.Vessels[i].Litres)
	}
	if l.Start.Sub(s.Until) >= standsLong {
		text += " and let it stand"
	}
	return text
}

func emptyStep(l *day.Load) string {
	switch {
	case l.Company == soak.Sick:
		return "empty " + l.Vessel + ": throw this water out and disinfect the vessel"
	case l.Fed:
		return "empty " + l.Vessel + ": fed water is not kept"
	}
	return "empty " + l.Vessel + " at once"
}

func putIn(b *model.Book, s *day.Step, l *day.Load) string {
	text := "put " + whom(s, l) + " into " + s.Vessel
	if s.Before == 0 && len(l.Plants) > 1 {
		text += ", from the tap end on"
	}
	if shelves := fewNames(s.Plants, func(id model.ID) string { return b.Row(id).Home.Shelf }); shelves != "" {
		text += ": " + shelves
	}
	return text
}

func takeOut(b *model.Book, s *day.Step, l *day.Load) string {
	text := "take out " + s.Vessel + ": " + whom(s, l)
	if s.Before == 0 && len(l.Plants) > 1 {
		text += ", start at the tap end"
	}
	if len(b.Benches()) < 2 {
		return text
	}
	bench := make(map[model.ID]string, len(l.Plants))
	for _, t := range l.Plants {
		bench[t.ID] = t.Bench
	}
	if benches := fewNames(s.Plants, func(id model.ID) string { return bench[id] }); benches != "" {
		text += ", to " + benches
	}
	return text
}

// whom counts the plants of a step: "46 plants", "12 more plants", "3 newcomers".
func whom(s *day.Step, l *day.Load) string {
	noun := "plant"
	switch l.Company {
	case soak.Newcomer:
		noun = "newcomer"
	case soak.Suspect, soak.Sick:
		noun = l.Company.String() + " plant"
	}
	if s.Before > 0 {
		noun = "more " + noun
	}
	return Count(len(s.Plants), noun)
}

// mostNames is how many shelves or benches a sentence names before it leaves
// them to the list. A guess.
const mostNames = 4

// fewNames lists the names of plants, each once; "" when there are many.
func fewNames(ids model.IDs, name func(model.ID) string) string {
	var names []string
	for _, id := range ids {
		if n := name(id); n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	if len(names) > mostNames {
		return ""
	}
	return strings.Join(names, ", ")
}

// LeftOut says why a plant has no place in a plan, and what would get it one.
func LeftOut(b *model.Book, p *day.Plan, l day.LeftOut) string {
	why, help := WhyLeftOut(b, p, l)
	if len(help) == 0 {
		return why
	}
	return why + "; " + strings.Join(help, ", or ")
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
	}
	for _, h := range l.Unplaced.Help {
		help = append(help, helpWith(h, l.Unplaced.By))
	}
	return unplaced(p, l), help
}

func unplaced(p *day.Plan, l day.LeftOut) string {
	dryBy, late := p.Ask.DryBy.Format("15:04"), wholeMinutes(l.Unplaced.By)
	switch l.Unplaced.Why {
	case soak.NoVessel:
		return noVessel(p, l)
	case soak.NoHours:
		return "its soak does not fit into the hours"
	case soak.NoBenchSize:
		return "larger than any drying place"
	case soak.DriesTooSlow:
		return "may not be dry by " + dryBy + " even if it goes first, but " + late + " later"
	case soak.HandsTaken:
		return "no time left for the hands: others are thirstier"
	case soak.VesselsTaken:
		return "the vessels are taken in time: others are thirstier"
	case soak.BenchesTaken:
		return "no room left to dry: others are thirstier"
	case soak.DryTooLate:
		if l.Unplaced.By <= 0 {
			return "its turn comes too late to be dry by " + dryBy
		}
		return "its turn comes too late to be dry by " + dryBy + ", by " + late
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
func wholeMinutes(seconds int) string { return model.Minutes(math.Ceil(float64(seconds) / 60)) }

func helpWith(h soak.Help, by int) string {
	switch h {
	case soak.StartEarlier:
		if by > 0 {
			return "start " + model.Minutes(math.Ceil(float64(by)/300)*5) + " earlier"
		}
	case soak.FewerPlants:
		return "leave others for another day"
	case soak.Tomorrow:
		return "soak it tomorrow"
	}
	return h.String()
}

// tooLong says what a plan cannot do for a plant that is in the water already.
func tooLong(p *day.Plan, l *soak.Late) (why string, help []string) {
	var words []string
	if l.Over > 0 {
		words = append(words, "in the water "+wholeMinutes(l.Over)+" longer than it should be")
	}
	if l.NotDry > 0 {
		words = append(words, "may not be dry by "+p.Ask.DryBy.Format("15:04")+", but "+wholeMinutes(l.NotDry)+" later")
		help = append(help, soak.OpenWindow.String())
	}
	if l.NoBench {
		words = append(words, "no room to dry")
		help = append(help, soak.MoreBench.String())
	}
	if l.NoHands {
		words = append(words, "no hours left to take it out")
	}
	return strings.Join(words, "; "), help
}

// PlanNotes says what the grower should know before the first step.
func PlanNotes(b *model.Book, p *day.Plan) []string {
	var notes []string
	if rules := b.Rules(); p.Fills > 0 && rules[model.WaterRest] > 0 {
		notes = append(
			notes,
			"house rule: tap water stands "+rules.Word(
				model.WaterRest,
			)+" h before plants go in; draw it the evening before, or use rain",
		)
	}
	if p.Unfed > 0 && len(p.Ask.Plants) == 0 {
		notes = append(
			notes,
			fmt.Sprintf("%d are not to be fed now, and soak in plain water; name one to see why", p.Unfed),
		)
	}
	if n := len(p.Late); n > 0 {
		notes = append(notes, fmt.Sprintf("%d in the water or drying cannot be kept to the rules", n))
	}
	if p.Assumed {
		notes = append(notes, "drying times are for an assumed room: enter a reading")
	}
	return notes
}

// PlanChanges says how a plan differs from an earlier one of the same day.
func PlanChanges(all []day.Change) []string {
	var words []string
	for _, c := range all {
		words = append(words, planChange(c))
	}
	return words
}

func planChange(c day.Change) string {
	times := c.Is.Format("15:04") + " instead of " + c.Was.Format("15:04")
	switch c.What {
	case day.HandsFreeAt:
		return "hands free " + times
	case day.AllDryBy:
		return "all dry by " + times
	case day.PlaceLost:
		return "no place any more for " + fewPlants(c.Plants)
	case day.PlaceFound:
		return "a place now for " + fewPlants(c.Plants)
	case day.OtherVessel:
		return fewPlants(c.Plants) + " into " + c.Vessel + " instead of " + c.From
	case day.LoadIn:
		return c.Vessel + ": in at " + times
	}
	return c.Vessel + ": out from " + times
}

// mostNumbers is how many plants a sentence names by number. A guess.
const mostNumbers = 6

// fewPlants counts plants, and names them when they are few.
func fewPlants(ids model.IDs) string {
	switch {
	case len(ids) == 1:
		return "plant " + ids.String()
	case len(ids) <= mostNumbers:
		return fmt.Sprintf("%d plants (%s)", len(ids), ids)
	}
	return fmt.Sprintf("%d plants", len(ids))
}

// Reminder says what to do before a session; the first sentence is the one to
// show alone.
func Reminder(r day.Reminder) []string {
	verb := "want"
	if r.Plants == 1 {
		verb = "wants"
	}
	words := []string{fmt.Sprintf(
		"fill %s tonight: %s %s a soak %s",
		strings.Join(
			r.Vessels,
			", ",
		),
		Count(r.Plants, "plant"),
		verb,
		r.Start.In(r.Now.Location()).Format("Mon 15:04"),
	)}
	if r.Now.After(r.By) {
		words = append(
			words,
			fmt.Sprintf("it will have stood %s of %g h", longAgo(r.Start.Sub(r.Now).Minutes()), r.Rest),
		)
	}
	return append(
		words,
		"water that stands overnight: door shut, no child or pet near it, nothing electric at the edge",
	)
}

// Moved says what moving a shelf to another day does to the week.
func Moved(m day.Moved) []string {
	words := []string{m.Is.Shelf + ": " + turnDays(m.Is) + " instead of " + turnDays(m.Was)}
	for _, d := range m.Days {
		text := fmt.Sprintf(
			"%s: %s instead of %s, of %s",
			d.Is.Day,
			model.Minutes(d.Is.Needs*60),
			model.Minutes(d.Was.Needs*60),
			model.Minutes(d.Is.Has*60),
		)
		switch {
		case !d.Is.Fits && d.Was.Fits:
			text += "; it does not fit any more"
		case d.Is.Fits && !d.Was.Fits:
			text += "; now it fits"
		case !d.Is.Fits:
			text += "; it does not fit"
		}
		words = append(words, text)
	}
	return words
}

func turnDays(t day.ShelfTurn) string {
	if t.Second == "" {
		return string(t.Day)
	}
	return string(t.Day) + " and " + string(t.Second)
}

// WantsOften says how often a plant wants a soak that no rhythm of a week holds.
func WantsOften(s day.ShortOf) string { return fmt.Sprintf("wants a soak every %.1f days", s.Days) }
