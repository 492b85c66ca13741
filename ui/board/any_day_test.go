package board

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/store"
)

// enterInShell does a step of the plan as the shell does while the board has the book:
// the entry is left for it, and taken in.
func (g *grower) enterInShell(p *day.Plan, s *day.Step) {
	g.t.Helper()
	var f model.Fact
	switch s.Do {
	case soak.Fill:
		f = &model.Fill{Vessel: s.Vessel}
	case soak.Empty:
		f = &model.Drain{Vessel: s.Vessel}
	case soak.Pull:
		f = &model.Pull{}
	case soak.PutIn:
		l := p.Loads[s.Load]
		f = &model.Soak{Load: g.board.desk.book.NextLoad(), Vessel: s.Vessel, Due: g.now.Add(l.Out.Sub(l.Start))}
	case soak.GetOut:
		f = &model.Out{Shaken: true}
	default:
		g.keys("d") // looked into, and hung with the next step
		return
	}
	e := model.NewEntry(g.now, f, s.Plants...)
	if s.Do == soak.Fill || s.Do == soak.Empty {
		e.Plants = nil
	}
	if err := store.Leave(g.path, store.Left{Entries: []model.Entry{e}, First: g.board.desk.book.NextSeq()}); err != nil {
		g.t.Fatal(err)
	}
	g.send(inboxMsg{})
}

// onFullPlan is a grower with a plan in front of her that has no hour to spare.
func onFullPlan(t *testing.T, rt *rapid.T) *grower {
	t.Helper()
	g := newGrower(t)
	var plants []model.Plant
	told, err := model.ParseDay(soakDay.AddDate(0, 0, -8).Format("2006-01-02"), model.ISO)
	if err != nil {
		t.Fatal(err)
	}
	last := model.ID(rapid.IntRange(40, 150).Draw(rt, "plants"))
	for id := model.ID(1); id <= last; id++ {
		plants = append(plants, model.Plant{ID: id, Count: 1, Form: model.Rosette, Leaf: model.Mesic, Size: 15, SoakedOn: told,
			Home: model.Home{Shelf: string('A' + rune(id%3)), Spot: id.String()}})
	}
	g.enters(soakDay.AddDate(0, 0, -1), &model.Add{Plants: plants})
	g.enters(soakDay.AddDate(0, 0, -1), &model.RuleSet{Name: "day-until", Value: float64(rapid.IntRange(11, 15).Draw(rt, "until"))})
	g.enters(soakDay.AddDate(0, 0, -1), &model.RuleSet{Name: "day-loads", Value: float64(rapid.IntRange(2, 6).Draw(rt, "loads"))})
	return g.keys("T", "p").sees("▸Plan").sees("Proposed: y agrees")
}

// A day with some of its steps on the board and some in the shell, late as may be, with
// loads skipped, delays and restarts: whoever is left out stays out, everything that went
// in comes out, and the counts are right.
func TestAnyDayOnTheBoardAndInTheShell(t *testing.T) {
	triesOf(t, 20)
	rapid.Check(t, func(rt *rapid.T) {
		g := onFullPlan(t, rt).keys("y").sees("Agreed")
		left := map[model.ID]bool{}
		for steps := 0; g.planned().Next() >= 0; steps++ {
			if steps > 120 {
				rt.Fatalf("the day does not end:\n%s", g.screen())
			}
			p := g.planned()
			next := &p.Steps[p.Next()]
			switch rapid.IntRange(0, 11).Draw(rt, "what") {
			case 0:
				g.after(time.Duration(rapid.IntRange(1, 90).Draw(rt, "idle")) * time.Minute).keys("esc")
			case 1:
				g.restart(time.Minute)
				g.keys("T", "p")
			case 2:
				g.keys("G", "x")
			case 3:
				g.keys("l")
			case 4, 5, 6:
				g.wait(rt, next)
				if p = g.planned(); p.Next() >= 0 {
					g.enterInShell(p, &p.Steps[p.Next()])
				}
			default:
				g.wait(rt, next)
				g.keys("d")
			}
			for id := range left {
				if _, _, back := g.planned().Placed(id); back && g.row(id).State == model.AtHome {
					rt.Fatalf("plant %d was left out, and is back:\n%s", id, g.screen())
				}
			}
			for _, l := range g.planned().Left {
				left[l.ID] = true
			}
			if !g.board.desk.book.Tally().Adds() {
				rt.Fatalf("the counts do not add up: %+v", g.board.desk.book.Tally())
			}
		}
		if open := g.board.desk.book.OpenLoads(); len(open) > 0 {
			rt.Fatalf("all is done, and %d loads are in the water:\n%s", len(open), g.screen())
		}
	})
}

// wait lets time pass until a step is to be done, and a while longer.
func (g *grower) wait(t *rapid.T, s *day.Step) {
	late := time.Duration(rapid.IntRange(0, 25).Draw(t, "late"))*time.Minute + doublePress
	g.after(max(0, s.At.Sub(g.now)) + late).keys("esc")
}
