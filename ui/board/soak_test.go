package board

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
)

// pulled is a grower who has pulled the shelf Loft and stands at the tub.
func pulled(t *testing.T) *grower {
	t.Helper()
	return newGrower(t).shelves().keys("l", "A", "p", "tab")
}

func TestOneKeyStartsALoad(t *testing.T) {
	g := pulled(t)
	g.sees("pulled 3 = waiting 3").sees("s starts in tub").keys("s").sees("Load 1 in tub")
	load := g.board.desk.book.OpenLoads()[0]
	if !load.In.Equal(g.now) || load.Minutes() < 5 {
		t.Errorf("in %v for %v minutes", load.In, load.Minutes())
	}
	for _, id := range load.Plants {
		if g.row(id).State != model.Soaking {
			t.Errorf("plant %d is %v", id, g.row(id).State)
		}
	}
}

// The windows of a load's plants must all hold its time.
func TestALoadTakesOnlyPlantsThatCanShareATime(t *testing.T) {
	g := newGrower(t).shelves().keys("A", "p", "l", "A", "p", "tab")
	needs := map[model.ID][2]float64{}
	for _, id := range g.board.desk.book.Waiting() {
		n := g.board.desk.need(id)
		needs[id] = [2]float64{n.From, n.To}
	}
	g.keys("s")
	load := g.board.desk.book.OpenLoads()[0]
	for _, id := range load.Plants {
		if w := needs[id]; load.Minutes() < w[0] || load.Minutes() > w[1] {
			t.Errorf("plant %d soaks %v minutes, its window is %v", id, load.Minutes(), w)
		}
	}
}

func TestMinutesByHandAndVessels(t *testing.T) {
	g := pulled(t)
	before := g.board.screens[1].(*soakScreen).next().minutes
	g.keys("+", "+", "-").sees("(+5 by hand)")
	g.keys("s")
	if load := g.board.desk.book.OpenLoads()[0]; load.Minutes() != before+5 {
		t.Errorf("%v minutes, want %v", load.Minutes(), before+5)
	}
	g.keys(".").sees("● bucket 1")
	g.keys("V", "ctrl+u").types("wash bowl").keys("tab", "ctrl+u").types("12").keys("ctrl+s").sees("wash bowl")
}

func TestTimersSurviveARestartAndTellHowLate(t *testing.T) {
	g := pulled(t).keys("s")
	load := g.board.desk.book.OpenLoads()[0]
	g.restart(load.Due.Sub(g.now) + 7*time.Minute)
	g.sees("▸Soak").sees("Since you left, 09:00: tub (load 1, 2 plants) should have been out 7 min ago").sees("OUT, 7 min late")
	if !strings.Contains(g.rung.String(), "\a") {
		t.Error("the bell did not ring on return")
	}
	g.keys("c").sees("take out 2 plants").keys("o")
	r := g.row(load.Plants[0])
	if r.State != model.Drying || r.Minutes != load.Minutes()+7 {
		t.Errorf("%v after %v minutes, want drying after %v", r.State, r.Minutes, load.Minutes()+7)
	}
	if !r.Shaken || !r.Inverted {
		t.Errorf("shaken %v, upside down %v", r.Shaken, r.Inverted)
	}
}

func TestADueLoadRingsOnceAMinute(t *testing.T) {
	g := pulled(t).keys("s")
	load := g.board.desk.book.OpenLoads()[0]
	g.after(load.Due.Sub(g.now) - time.Second)
	if g.rung.Len() != 0 {
		t.Fatal("rang before it was due")
	}
	g.after(time.Second).after(time.Second).after(time.Second)
	if n := strings.Count(g.rung.String(), "\a"); n != 1 {
		t.Errorf("rang %d times in the first seconds, want once", n)
	}
	g.sees("take out 2 plants") // the clock has come forward by itself
	g.after(time.Minute)
	if n := strings.Count(g.rung.String(), "\a"); n != 2 {
		t.Errorf("rang %d times after a minute, want twice", n)
	}
	g.keys("esc").doesNotSee("TAKE OUT tub").after(time.Minute).doesNotSee("TAKE OUT tub")
}

func TestTheClockDoesNotPushAFormAside(t *testing.T) {
	g := pulled(t).keys("s", "a").types("21")
	g.after(g.board.desk.book.OpenLoads()[0].Due.Sub(g.now)).sees("The air of the room")
}

func TestTerminalNotificationsCarryCleanText(t *testing.T) {
	g := pulled(t)
	g.enters(g.now, &model.RuleSet{Name: "notify", Value: 3})
	g.keys("s")
	g.after(g.board.desk.book.OpenLoads()[0].Due.Sub(g.now))
	want := "\a\x1b]777;notify;tubside;tub is due: take out "
	if !strings.HasPrefix(g.rung.String(), want) {
		t.Errorf("sent %q, want it to begin %q", g.rung.String(), want)
	}
}

func TestAClockSetBackIsShownNotComputed(t *testing.T) {
	g := pulled(t).keys("s")
	g.restart(-time.Hour)
	g.keys("tab").sees("clock set back?")
}

// The key that takes a load out is easily pressed once too often, and the next load moves
// up under it.
func TestALoadFarTooEarlyIsAskedAbout(t *testing.T) {
	g := pulled(t).keys("A", "s").after(time.Minute)
	load := g.board.desk.book.OpenLoads()[0]
	in := func() int { return len(g.board.desk.book.StillIn(load)) }
	g.keys("o").sees("1 min so far").sees("o again takes")
	if in() != len(load.Plants) {
		t.Fatalf("%d of %d left in the water", in(), len(load.Plants))
	}
	g.keys("j", "o").sees("o again takes")
	if g.keys("o"); in() != 0 {
		t.Errorf("%d left in the water", in())
	}
	g.keys("u", "c", "o").sees("o again takes")
	if g.keys("o"); in() != 0 {
		t.Errorf("%d left in the water by the clock's key", in())
	}
}

func TestOnePlantCanComeOutAlone(t *testing.T) {
	g := pulled(t)
	g.keys("A", "s")
	load := g.board.desk.book.OpenLoads()[0]
	g.keys("j", "space", "o", "o") // past the one that waits; it is early, and asks
	if left := g.board.desk.book.StillIn(load); len(left) != len(load.Plants)-1 {
		t.Errorf("%d still in, want one less than %d", len(left), len(load.Plants))
	}
	if diff := cmp.Diff(load.Plants[1:], g.board.desk.book.StillIn(load)); diff != "" {
		t.Errorf("still in (-want +got):\n%s", diff)
	}
}

func TestTheCountsAlwaysAddUp(t *testing.T) {
	g := pulled(t)
	check := func() {
		t.Helper()
		if tally := g.board.desk.book.Tally(); !tally.Adds() {
			t.Errorf("%+v does not add up", tally)
		}
		g.doesNotSee("does not add up")
	}
	check()
	for _, keys := range [][]string{{"s"}, {"s"}, {"o"}, {"tab", "d"}, {"r"}, {"u"}, {"u"},
		{"shift+tab", "shift+tab", "x"}} {
		g.keys(keys...)
		check()
	}
	g.types("given").keys("ctrl+s")
	check()
}

// An overnight soak is never begun silently in the morning; what asks is answered
// by the same key.
func TestANightSoakInTheMorningIsAskedAbout(t *testing.T) {
	g := pulled(t)
	s := g.board.screens[1].(*soakScreen)
	for s.ready.minutes < g.board.desk.book.Rules()[model.OvernightFrom] {
		g.keys("+")
	}
	g.keys("s").sees("goes in at 20:00 and is out at 06:00: s again")
	if n := len(g.board.desk.book.OpenLoads()); n != 0 {
		t.Fatalf("%d loads went in before it was answered", n)
	}
	if g.keys("s"); len(g.board.desk.book.OpenLoads()) != 1 {
		t.Error("the same key did not answer")
	}
}

// What may be wet in the night is asked about before it is wet, after any other doubt; in
// the morning nobody asks.
func TestALoadThatMayBeWetInTheNightIsAskedAbout(t *testing.T) {
	g := pulled(t)
	g.after(9 * time.Hour).keys("s").sees("still be wet at 21:00").sees("s again puts")
	if n := len(g.board.desk.book.OpenLoads()); n != 0 {
		t.Fatalf("%d loads went in before it was answered", n)
	}
	if g.keys("s"); len(g.board.desk.book.OpenLoads()) != 1 {
		t.Error("the same key did not answer")
	}

	g = newGrower(t).shelves()
	g.enters(g.now, &model.Look{Signs: model.Signs{Curl: 2, Tips: 1, Shift: 0}}, 3) // up to 10 min
	g.enters(g.now, &model.Pull{}, 3, 5)
	g.after(11*time.Hour).keys("tab", "v", "j", "s").sees("Their times differ")
	g.keys("s").sees("still be wet at 21:00")
	if n := len(g.board.desk.book.OpenLoads()); n != 0 {
		t.Fatalf("%d loads went in before both doubts were answered", n)
	}
	if g.keys("s"); len(g.board.desk.book.OpenLoads()) != 1 {
		t.Error("the same key did not answer both")
	}
}

// Into a vessel in use: the screen says what it goes beside.
func TestALoadBesideAnotherSaysSo(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.Pull{}, 5, 6)
	g.enters(g.now, &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(96 * time.Minute)}, 1)
	g.keys("tab", "s").sees("beside load 1, which is out at 10:36")
}

// One cursor says which vessel the keys work on: the vessel that the plant under it
// lies in; and what o would do stands there before it is pressed.
func TestTakeOutSaysFirstWhatItTakes(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.BenchSet{Bench: model.Bench{Name: "towels", Room: 1}})
	g.enters(g.now.Add(-50*time.Minute), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(36 * time.Minute)}, 1, 2)
	g.enters(g.now.Add(-20*time.Minute), &model.Soak{Load: 2, Vessel: "bucket 1", Due: g.now.Add(-2 * time.Minute)}, 3, 4)
	g.keys("T", "s").sees("● bucket 1").sees("o takes 2 plants out of bucket 1, 2 min late, onto the rack: tectorum (Bay 3)")
	g.keys("j", "j").sees("● tub").sees("o takes 2 plants out of tub, 36 min early")
	g.keys(".").sees("● bucket 1").sees("▸ tectorum").keys(".").sees("● bucket 2").sees("Nothing lies in bucket 2")
	g.keys(",", "o").sees("out of bucket 1, shaken, upside down on the rack")
	if r := g.row(3); r.State != model.Drying || r.Bench != "rack" || g.row(1).State != model.Soaking {
		t.Errorf("plant 3 is %v on %q, plant 1 %v", r.State, r.Bench, g.row(1).State)
	}
}

// What is too large for a vessel is said before it goes in.
func TestAPlantTooLargeForItsVessel(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.VesselSet{Vessel: model.Vessel{Name: "cup", Litres: 0.3}})
	g.keys("p", "tab", ",").sees("● cup").sees("too large for it, it holds 0.3 L")
}

// The cautions of filling are whole in the smallest window.
func TestTheCautionsAreWholeAtEverySize(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "s")
	for _, size := range [][2]int{{60, 20}, {80, 24}, {160, 50}} {
		g.size(size[0], size[1])
		text := strings.Join(strings.Fields(g.screen()), " ")
		for _, want := range emptyWords {
			if !strings.Contains(text, strings.Join(strings.Fields(want), " ")) {
				t.Errorf("at %v the screen does not say %q:\n%s", size, want, g.screen())
			}
		}
	}
}

// Plants marked by hand whose times do not meet are asked about before they go in; s
// again puts them in. Marks among those that wait say nothing of an empty vessel.
func TestMarkedPlantsOfDifferentTimesAreAskedAbout(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.Look{Signs: model.Signs{Curl: 2, Tips: 1, Shift: 0}}, 3) // up to 10 min
	g.enters(g.now, &model.Pull{}, 3, 5)
	g.enters(g.now, &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(time.Hour)}, 6)
	g.keys("tab", "v", "j").sees("times differ").sees("None of the marked plants is in the water")
	g.keys("s").sees("Their times differ: all come out after 10 min")
	if n := len(g.board.desk.loads); n != 1 {
		t.Fatalf("%d loads, want no second before the second s", n)
	}
	if g.keys("s"); len(g.board.desk.loads) != 2 {
		t.Errorf("%d loads, want two after the second s", len(g.board.desk.loads))
	}
}

// A soak that gets longer while its plant waits says why, under the list in Triage and
// beside it in Soak.
func TestMinutesThatMoveWhileAPlantWaitsSayWhy(t *testing.T) {
	g := newGrower(t).shelves().keys("j", "j", "j", "p", "k").doesNotSee("than at")
	g.after(2*time.Hour).enters(g.now, &model.Reading{TempC: 26, RH: 15})
	g.after(2 * time.Hour).sees("longer than at 09:00: drier air")
	g.keys("tab").sees("longer than at 09:00: drier air")
	g.keys("T", "t", "2", "1", "0", "k").doesNotSee("than at") // what was seen says why
}

// The longest names that growers give are whole where there is least room, in the water
// and out of it.
func TestNamesAreWholeInANarrowWindow(t *testing.T) {
	const name = "T. caput-medusae"
	g := newGrower(t).shelves()
	g.size(60, 20)
	p := g.row(1).Plant
	p.Label, p.Form = name, model.Bulbous
	g.enters(g.now, &model.Edit{Plants: []model.Plant{p}})
	g.keys("p", "T", "s").sees(name).keys("s").sees(name)
	g.after(g.board.desk.loads[0].Due.Sub(g.now)).keys("esc", "o", "T", "d").sees(name).sees("Bay 1")
	g.after(24 * time.Hour).sees(name).sees("too long")
}

// What the grower noted of a plant is read where she decides: under the list in Triage
// and beside the plant at the tub. Two of one name in one place are told apart.
func TestANoteIsReadWhereItMatters(t *testing.T) {
	g := newGrower(t).shelves()
	first, second := g.row(1).Plant, g.row(2).Plant
	first.Note = "Mist only, never soak."
	second.Label, second.Home = first.Label, first.Home
	g.enters(g.now, &model.Edit{Plants: []model.Plant{first, second}})
	g.sees("Your note: Mist only, never soak. ").keys("j").doesNotSee("Your note")
	g.enters(g.now, &model.Pull{}, 1, 2)
	g.keys("T", "s").sees("Mist only, never soak").sees("door #1").sees("door #2")
	g.keys("s").sees("Mist only, never soak")
}
