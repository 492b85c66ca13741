package show

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// TooLate says which plants in the water a plan cannot get out as they should be: in
// time for what, and what to do about it. A sentence for each trouble; none when all is
// in time.
func TooLate(b *model.Book, p *day.Plan) []string {
	var over, damp, benches model.IDs
	away := map[string]model.IDs{}
	var most, wet int
	var by time.Time // the first of those that stay too long should be out
	vessel := ""
	for _, l := range p.Late {
		at, plant, ok := p.Placed(l.ID)
		if l.Late.Over > 0 {
			over, most = append(over, l.ID), max(most, l.Late.Over)
			if end := plant.In.Add(time.Duration(plant.Most) * time.Second); ok && (by.IsZero() || end.Before(by)) {
				by, vessel = end, p.Loads[at].Vessel
			}
		}
		if l.Late.NotDry > 0 {
			damp, wet = append(damp, l.ID), max(wet, l.Late.NotDry)
		}
		if l.Late.NoBench {
			benches = append(benches, l.ID)
		}
		if l.Late.NoHands {
			when := whenAway(p, l.ID)
			away[when] = append(away[when], l.ID)
		}
	}
	var words []string
	if len(over) > 0 {
		out := "take them out now"
		if by.After(p.Ask.From) {
			out = "begin to take out " + vessel + " by " + by.Format("15:04")
		}
		words = append(words, fmt.Sprintf("%s up to %s too long in the water: %s", someNames(b, over), wholeMinutes(most), out))
	}
	if len(damp) > 0 {
		words = append(words, fmt.Sprintf("%s come out late, and may be damp at %s for up to %s: %s", someNames(b, damp),
			p.Ask.DryBy.Format("15:04"), wholeMinutes(wet), dryFaster))
	}
	if len(benches) > 0 {
		words = append(words, someNames(b, benches)+" will find the racks full: hang back what is dry, or make room")
	}
	for _, when := range []string{inYourBreak, afterYourHours} {
		if ids := away[when]; len(ids) > 0 {
			words = append(words, someNames(b, ids)+" must come out "+when+": take them out sooner, or be there")
		}
	}
	return words
}

const (
	inYourBreak    = "in your break"
	afterYourHours = "after your hours"
)

// whenAway is when a plant comes out while the hands are not there.
func whenAway(p *day.Plan, id model.ID) string {
	if _, plant, ok := p.Placed(id); ok && plant.Out.Before(p.HoursEnd()) {
		return inYourBreak
	}
	return afterYourHours
}

// someNames names the first of some plants and counts the rest: "Spike, Ash and 14 more".
func someNames(b *model.Book, ids model.IDs) string {
	const named = 2 // a guess at what is read at a glance
	var names []string
	for _, id := range ids[:min(named, len(ids))] {
		names = append(names, Title(b.Row(id).Plant))
	}
	switch more := len(ids) - len(names); {
	case more > 0:
		return strings.Join(names, ", ") + fmt.Sprintf(" and %d more", more)
	case len(names) == named:
		return strings.Join(names, " and ")
	}
	return strings.Join(names, "")
}

// tooLong says what a plan cannot do for a plant that is in the water already.
func tooLong(p *day.Plan, l *soak.Late) (why string, help []string) {
	var words []string
	if l.Over > 0 {
		words = append(words, "in the water "+wholeMinutes(l.Over)+" longer than it should be")
	}
	if l.NotDry > 0 {
		words = append(words, "may not be dry by "+p.Ask.DryBy.Format("15:04")+", but "+wholeMinutes(l.NotDry)+" later")
		help = append(help, dryFaster)
	}
	if l.NoBench {
		words = append(words, "the racks are full when it comes out")
		help = append(help, moreBench)
	}
	if l.NoHands {
		words = append(words, "must come out "+whenAway(p, model.ID(l.ID)))
	}
	return strings.Join(words, "; "), help
}

// PlanChanged says in one line what a plan has become since the one before; "" when
// nobody would notice.
func PlanChanged(c day.Changed) string {
	var words []string
	if n := len(c.Skipped); n > 0 {
		text := fewPlants(c.Skipped) + " for another day"
		switch len(c.Whole) {
		case 0:
		case 1:
			text = "load " + numbers(c.Whole) + " for another day: " + fewPlants(c.Skipped)
		default:
			text = "loads " + numbers(c.Whole) + " for another day: " + fewPlants(c.Skipped)
		}
		words = append(words, text)
	}
	if n := len(c.Left); n > 0 {
		text := "no time any more for " + fewPlants(c.Left)
		if len(c.Loads) > 0 {
			text += ", load " + numbers(c.Loads) + " among them"
		}
		words = append(words, text+" (w)")
	}
	if n := len(c.Back); n > 0 {
		words = append(words, Count(n, "more plant")+" in it")
	}
	if !c.Was.IsZero() {
		free := "you're free at " + c.Is.Format("15:04") + " instead of " + c.Was.Format("15:04")
		if c.Past {
			free += ", which is after your hours"
		}
		if c.Is.Before(c.Was) && len(c.Left)+len(c.Skipped) > len(c.Back) {
			free += ", as there is less to do"
		}
		words = append(words, free)
	}
	return strings.Join(words, "; ")
}

// numbers lists a few: "4, 7 and 9".
func numbers(all []int) string {
	words := make([]string, len(all))
	for i, n := range all {
		words[i] = fmt.Sprint(n)
	}
	return anded(words)
}

// anded lists words: "tub, crate and bucket 1".
func anded(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// StillWet says who of so many plants that go into the water may still be wet when all is
// to be dry, and until when: "5 of 12 may still be wet at 20:00, the last likely until
// 21:40".
func StillWet(b *model.Book, n estimate.NotDry, of int, now time.Time) string {
	who, last := fmt.Sprintf("%d of %d", len(n.Plants), of), "the last likely"
	switch {
	case len(n.Plants) == 1:
		who, last = Title(b.Row(n.Plants[0]).Plant), "likely"
	case len(n.Plants) == of && of == 2:
		who = "both"
	case len(n.Plants) == of:
		who = fmt.Sprintf("all %d", of)
	}
	clock := func(t time.Time) string { return Clock(t, now, b.Zone()) }
	switch {
	case !n.By.After(now):
		return fmt.Sprintf("%s may lie wet in the night, %s until %s", who, last, clock(n.Last))
	case n.Last.After(n.By):
		return fmt.Sprintf("%s may still be wet at %s, %s until %s", who, clock(n.By), last, clock(n.Last))
	}
	return fmt.Sprintf("%s may still be wet at %s, though likely dry by %s", who, clock(n.By), clock(n.Last))
}

// Wet says who may still be wet when all of a plan should be dry, until when, and what to do,
// as no plan can hurry what lies there already; "" where nobody is. It names so many.
func Wet(b *model.Book, p *day.Plan, named int) string {
	ids, last := p.Wet()
	if len(ids) == 0 {
		return ""
	}
	clock := func(t time.Time) string { return Clock(t, p.Ask.From, p.Ask.From.Location()) }
	text := fmt.Sprintf("%s may still be wet at %s, when all should be dry", Count(len(ids), "plant"), clock(p.Ask.DryBy))
	them, until, is := "them", ", the last until "+clock(last), "they are"
	if len(ids) == 1 {
		them, until, is = "it", ", until "+clock(last), "it is"
	}
	text += fmt.Sprintf("%s: tip %s out, lay %s upside down, put a fan on and open a window, and look into the heart last thing; %s ",
		until, them, them, is)
	var who []string
	for _, id := range ids[:min(named, len(ids))] {
		who = append(who, fmt.Sprintf("%s (%s)", Title(b.Row(id).Plant), id))
	}
	if more := len(ids) - len(who); more > 0 {
		who = append(who, fmt.Sprintf("%d more", more))
	}
	return text + anded(who)
}
