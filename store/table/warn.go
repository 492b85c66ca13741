package table

import (
	"fmt"
	"strings"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

func (p *planner) warn(line int, format string, args ...any) {
	p.sum.Warnings = append(p.sum.Warnings, fmt.Sprintf("line %d: ", line)+fmt.Sprintf(format, args...))
}

func (p *planner) warnOfDays(r row) {
	for _, d := range []struct {
		what string
		day  date.Date
	}{{"acquired", r.Acquired}, {"last soaked", r.SoakedOn}} {
		if d.day > p.today {
			p.warn(r.line, "%s on %s, which is still to come", d.what, model.DayWords(d.day))
		} else if d.what == "last soaked" && d.day != 0 && p.today-d.day > model.LongestAgo {
			p.warn(r.line, "%s on %s, %d years ago: leave it out when nobody knows", d.what, model.DayWords(d.day),
				int(p.today-d.day)/365)
		}
	}
}

// warnOfRename notices a list with numbers of its own, which would rename
// plants that have nothing to do with it.
func (p *planner) warnOfRename(old *model.Row, plant model.Plant, r row) {
	if r.numbered && plant.Name != old.Name && plant.Label != old.Label {
		p.warn(r.line, "plant %d is %s in the book and would become %s", r.ID, called(old.Plant), called(plant))
	}
}

func called(p model.Plant) string { return quote(strings.TrimSpace(p.Label + " " + p.Name)) }

func (p *planner) warnOfEarlierSoak(old *model.Row, r row) {
	if known := lastSoak(old, p.book.Zone()); r.SoakedOn != 0 && r.SoakedOn < known {
		p.warn(r.line, "last soaked on %s, but the book has a soak on %s, which stands",
			model.DayWords(r.SoakedOn), model.DayWords(known))
	}
}

// warnOfSharedHomes lists the homes that several rows would have, if one of
// them is new there: plants hung back to the same place swap names.
func (p *planner) warnOfSharedHomes() {
	at := p.homes()
	for _, plants := range [][]model.Plant{p.fact.Changed, p.fact.Added} {
		for _, plant := range plants {
			old := p.book.Row(plant.ID)
			if there := at[plant.Home]; len(there) > 1 && (old == nil || old.Home != plant.Home) {
				p.warn(p.lines[plant.ID], "%d plants would share the home %s: %s", len(there), plant.Home, titles(there))
				delete(at, plant.Home) // once is enough
			}
		}
	}
}

// homes lists who would live where. A home without a spot is a whole shelf and
// does not count.
func (p *planner) homes() map[model.Home][]model.Plant {
	at := map[model.Home][]model.Plant{}
	settle := func(plant model.Plant) {
		if plant.Home.Shelf != "" && plant.Home.Spot != "" {
			at[plant.Home] = append(at[plant.Home], plant)
		}
	}
	changed := map[model.ID]bool{}
	for _, plant := range p.fact.Changed {
		changed[plant.ID] = true
	}
	for _, id := range p.book.IDs() {
		if r := p.book.Row(id); r.State != model.Gone && !changed[id] {
			settle(r.Plant)
		}
	}
	for _, plants := range [][]model.Plant{p.fact.Changed, p.fact.Added} {
		for _, plant := range plants {
			settle(plant)
		}
	}
	return at
}

// namedOfHome is how many plants of one home a warning names.
const namedOfHome = 4

func titles(plants []model.Plant) string {
	var words []string
	for i, p := range plants {
		if i == namedOfHome {
			words = append(words, "…")
			break
		}
		words = append(words, fmt.Sprintf("%d (%s)", p.ID, plainText(p.Title(), false)))
	}
	return strings.Join(words, ", ")
}
