package board

import (
	"testing"
	"time"

	"tubside/model"
)

func TestDryingToHome(t *testing.T) {
	g := pulled(t).keys("A", "s")
	load := g.board.desk.book.OpenLoads()[0]
	g.keys("T", "d").sees("Nothing is out to dry").sees("Next out of the water").
		sees("2 plants  at "+load.Due.Format("15:04")).keys("T", "s")
	g.after(load.Due.Sub(g.now)).keys("o", "tab").sees("Drying 2")
	g.keys("r").sees("Not marked dry yet")
	g.after(20 * time.Minute).keys("w").sees("still damp")
	g.after(10*time.Minute).keys("A", "d")
	g.sees("pulled 3 = waiting 1 + soaking 0 + drying 0 + dry 2 + hung 0").sees("Dry on the rack: hang these back").sees("Loft 2")
	g.keys("A", "r").sees("Nothing is out to dry")
	for _, id := range load.Plants {
		if r := g.row(id); r.State != model.AtHome || !r.HungAt.Equal(g.now) {
			t.Errorf("plant %d is %v, hung %v", id, r.State, r.HungAt)
		}
	}
}

// One key says a whole place dry: what lies there and is ready.
func TestATrayIsDryInOneKey(t *testing.T) {
	g := pulled(t).keys("A", "s")
	load := g.board.desk.book.OpenLoads()[0]
	g.after(load.Due.Sub(g.now)).keys("o", "tab")
	g.after(10 * time.Hour).keys("D").sees("dry 2").keys("u").sees("drying 2")
}

// What was felt damp is not called dry with its tray, and what lies elsewhere stands
// under the name of its place.
func TestATrayGoesByItsPlace(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.BenchSet{Bench: model.Bench{Name: "towels", Room: 1}})
	g.enters(g.now.Add(-9*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(-8 * time.Hour)}, 1, 2, 3, 4)
	g.enters(g.now.Add(-8*time.Hour), &model.Out{Shaken: true, Inverted: true, Bench: "rack"}, 1, 2)
	g.enters(g.now.Add(-8*time.Hour), &model.Out{Shaken: true, Inverted: true, Bench: "towels"}, 3, 4)
	g.enters(g.now.Add(-7*time.Hour), &model.Damp{}, 1)
	g.keys("T", "d").sees("Ready to check on the rack, hearts first").sees("Ready to check on the towels, hearts first")
	g.keys("D").sees("1 plant felt damp: still drying")
	for id, want := range map[model.ID]model.State{1: model.Drying, 2: model.Dry, 3: model.Drying, 4: model.Drying} {
		if got := g.row(id).State; got != want {
			t.Errorf("plant %d is %v, want %v", id, got, want)
		}
	}
}

// All that is ready on a place is dry in one key, whichever load it came with; plants
// are moved to another place, or to a new one, and the times are of that place.
func TestPlacesOfPlantsThatDry(t *testing.T) {
	g := newGrower(t).shelves()
	for id := model.ID(1); id <= 4; id++ {
		g.enters(g.now.Add(-10*time.Hour), &model.Soak{Load: model.LoadID(id), Vessel: "tub", Due: g.now.Add(-9 * time.Hour)}, id)
		g.enters(g.now.Add(-9*time.Hour), &model.Out{Shaken: true, Inverted: true, Bench: "rack"}, id)
	}
	g.keys("T", "d", "b").sees("Lay").sees("a new name makes a new place").types("tray 2").keys("enter", "enter").sees("laid on the tray 2")
	first := g.board.desk.book.Entries()[len(g.board.desk.book.Entries())-1].Plants[0]
	if r := g.row(first); r.Bench != "tray 2" {
		t.Fatalf("plant %d lies on %q", first, r.Bench)
	}
	g.sees("Ready to check on the rack").sees("Ready to check on the tray 2")
	g.keys("home", "D").sees("on the tray 2").doesNotSee("Ready to check on the rack")
	for id := model.ID(1); id <= 4; id++ {
		if want := id != first; (g.row(id).State == model.Dry) != want {
			t.Errorf("plant %d is %v", id, g.row(id).State)
		}
	}
	g.keys("home", "b").sees("laid on the rack") // with one other place there is nothing to ask
}

// After d or w the cursor stays in its group as long as a plant is left there, so that
// the next key means the same.
func TestTheCursorStaysInItsGroupOnTheRack(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-10*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(-9 * time.Hour)}, 1, 2, 5)
	g.enters(g.now.Add(-9*time.Hour), &model.Out{Shaken: true, Inverted: true, Bench: "rack"}, 1, 2, 5)
	g.keys("T", "d", "G", "d", "d", "d")
	for _, id := range []model.ID{1, 2, 5} {
		if g.row(id).State != model.Dry {
			t.Errorf("plant %d is %v after three d", id, g.row(id).State)
		}
	}
}

func TestReadyToCheckComesFirstWithAdviceOnce(t *testing.T) {
	g := pulled(t).keys("A", "s", "f")
	g.enters(g.now, &model.Reading{TempC: 17, RH: 80, Fan: model.FanOff})
	load := g.board.desk.book.OpenLoads()[0]
	g.after(load.Due.Sub(g.now)).keys("O", "tab")
	// In so damp a room five hours are no more than was expected: nothing is in red.
	g.after(5 * time.Hour).sees("Later").doesNotSee("too long").doesNotSee("wet")
	g.keys("enter").sees("growers worry from 4 h").keys("esc")
	g.after(15*time.Hour).sees("Ready to check").keys("A", "w")
	g.sees("Out too long on the rack, and not likely dry").sees("1 drying for too long").sees("To help:").doesNotSee("wet")
	g.keys("enter").sees("too long from")
}

func TestTheBenchLooksAhead(t *testing.T) {
	g := pulled(t).keys("A", "s")
	load := g.board.desk.book.OpenLoads()[0]
	g.after(load.Due.Sub(g.now)).keys("o", "tab").sees("they are likely dry by")
	g.size(100, 30)
	g.sees("The room's humidity").sees("Door open")
	g.keys("i").sees("Window open").keys("i", "i").sees("Window shut")
}

// What is past the house rule says by how much, and is red where it is not likely dry yet. What is
// not past it is not red, however late it may be dry.
func TestOnlyWhatIsPastTheHouseRuleIsTooLong(t *testing.T) {
	g := pulled(t).keys("A", "s")
	g.after(g.board.desk.loads[0].Due.Sub(g.now)).keys("o", "tab")
	d := g.board.desk.outlook.Drying[0]
	g.after(d.Limit.Sub(g.now) - time.Minute).doesNotSee("too long")
	g.after(31 * time.Minute).sees("30 min too long")
	s := g.board.front().(*dryScreen)
	likely := *s.out(d.ID)
	wet := likely
	wet.Expected = g.now.Add(time.Minute)
	if likely, wet := s.paintOf(&likely), s.paintOf(&wet); likely != s.desk.theme.warn || wet != s.desk.theme.alarm {
		t.Errorf("past the house rule it is painted %v where it is likely dry, %v where it is not", likely, wet)
	}
}

// Every group on the rack is parted by place, and hearts come first in each.
func TestDryingIsByPlaceAndByRisk(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.BenchSet{Bench: model.Bench{Name: "towels", Room: 1}})
	g.enters(g.now.Add(-time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now}, 1, 2, 3, 4, 5)
	g.enters(g.now, &model.Out{Shaken: true, Inverted: true, Bench: "rack"}, 1, 2, 5)
	g.enters(g.now, &model.Out{Shaken: true, Inverted: true, Bench: "towels"}, 3, 4)
	g.enters(g.now, &model.FoundDry{}, 4, 5)
	g.keys("T", "d")
	g.sees("Later on the rack, hearts first").sees("Later on the towels, hearts first")
	g.sees("Dry on the rack: hang these back").sees("Dry on the towels: hang these back")
	s := g.board.front().(*dryScreen)
	place, soft := "", false
	for _, row := range s.rows.rows {
		d := s.out(row.id)
		if row.id == 0 || g.row(row.id).State != model.Drying {
			place, soft = "", false
			continue
		}
		if heart := s.lookAt(g.row(row.id), d) == "heart"; heart && soft && place == s.lies(row.id) {
			t.Errorf("%s holds water at the heart and stands below others", g.row(row.id).Label)
		} else {
			place, soft = s.lies(row.id), soft || !heart
		}
	}
}
