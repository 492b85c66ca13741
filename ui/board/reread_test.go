package board

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/store/beliefs"
)

// everyBookIsLong has the past read beside the keys, however short it is.
func everyBookIsLong(t *testing.T) {
	before := shortest
	shortest = -1
	t.Cleanup(func() { shortest = before })
}

// asAfresh fails unless the needs are those of a board started now.
func (g *grower) asAfresh(t interface{ Fatalf(string, ...any) }) {
	g.board.desk.look()
	got, want := g.board.desk.outlook, workOut(beliefs.Cache{}, g.board.desk.book, g.board.desk.now).outlook
	for i := range want.Needs {
		if !reflect.DeepEqual(got.Needs[i], want.Needs[i]) {
			t.Fatalf("the board has\n%+v\nstarted afresh\n%+v", got.Needs[i], want.Needs[i])
		}
	}
	if !reflect.DeepEqual(got, want) {
		t.Fatalf("the board has\n%+v\nstarted afresh\n%+v", got.Drying, want.Drying)
	}
}

// An undo shows in the book at once, the needs follow, and a word says so.
func TestAnUndoDoesNotWaitForTheNeeds(t *testing.T) {
	everyBookIsLong(t)
	g := newGrower(t).shelves()
	g.slow = true
	g.keys("3", "1", "0").sees("3 1 0")
	id := g.board.desk.book.Entries()[2].Plants[0]
	thirsty := *g.board.desk.need(id)
	g.keys("u").sees("Undone").sees(readingWords)
	if signs := g.row(id).Signs; signs != model.NoSigns {
		t.Errorf("the signs are still %v", signs)
	}
	if got := *g.board.desk.need(id); got.RWC != thirsty.RWC {
		t.Errorf("it is %.2f full before the past was read again, want the %.2f last known", got.RWC, thirsty.RWC)
	}
	g.fetch().doesNotSee(readingWords)
	if got := *g.board.desk.need(id); got.RWC == thirsty.RWC {
		t.Errorf("it is still %.2f full, as the look that was undone said", got.RWC)
	}
	g.asAfresh(t)
}

// What is written while the past is read again, in the same moment, is not lost:
// looks, an edit, another undo.
func TestWhatIsWrittenWhileThePastIsRead(t *testing.T) {
	everyBookIsLong(t)
	g := newGrower(t).shelves()
	d := g.board.desk
	d.enter(&model.Look{Signs: model.Signs{Curl: 3, Tips: 1, Shift: 0}}, 1)
	d.strike()
	for round := range 3 {
		cmd, done := d.startLater(), make(chan readAgain, 1)
		go func() { done <- cmd().(readAgain) }()
		d.enter(&model.Look{Signs: model.Signs{Curl: 2, Tips: 1, Shift: 0}}, 2, 3)
		d.enter(&model.Reading{TempC: 25, RH: 30 + float64(round)})
		switch round {
		case 0:
			d.enter(&model.RuleSet{Name: model.LimitTable[model.DefaultRH].Name, Value: 40})
		case 1:
			d.enter(&model.Split{New: model.Plant{ID: d.book.NextID(), Count: 5, Home: model.Home{Shelf: "Loft"}}}, 4)
			d.strike()
		}
		d.enter(&model.Mist{}, 5, 6)
		d.catchUp(<-done)
	}
	if d.reading {
		t.Fatal("the past is still being read")
	}
	g.asAfresh(t)
}

// Whatever keys come while the past is read, the needs end as those of a board
// started afresh.
func TestRandomKeysWhileThePastIsRead(t *testing.T) {
	everyBookIsLong(t)
	triesOf(t, max(1, *sessions/5)) // each reads a year again many times
	books := scenes(t)
	rapid.Check(t, func(rt *rapid.T) {
		g := visit(t, rt, books)
		defer g.leave(rt)
		g.slow = true
		for range rapid.IntRange(1, 40).Draw(rt, "steps") {
			if rapid.IntRange(0, 5).Draw(rt, "fetch") == 0 {
				g.fetch()
			}
			g.step(rt)
		}
		g.fetch()
		if g.board.desk.reading {
			rt.Fatal("the past is still being read")
		}
		g.asAfresh(rt)
		// With the clock set back a reading is late, and has the past read again.
		g.board.desk.enter(&model.Reading{TempC: 20, RH: 45})
		g.settle(g.board.desk.startLater())
		g.fetch().asAfresh(rt)
	})
}

// An undo of a look, key to frame, in a book of ten years: soaked weekly in loads of
// sixty, a fifth looked at before, a reading a day. The goals are 10 ms with 640
// plants and 50 ms with 5,000; what is read beside the keys counts apart.
func BenchmarkUndoToFrameAfterTenYears(b *testing.B) {
	for _, n := range []int{640, 5000} {
		b.Run(fmt.Sprintf("%d plants", n), func(b *testing.B) {
			g := collection(b, n).lives(10)
			cache := b.TempDir()
			if err := beliefs.In(cache, g.store).Keep(g.board.desk.keeper); err != nil {
				b.Fatal(err)
			}
			g.board.desk.beliefs = beliefs.In(cache, g.store)
			var key, beside time.Duration
			for b.Loop() {
				b.StopTimer()
				g.keys("2", "1", "0")
				b.StartTimer()
				start := b.Elapsed()
				_, cmd := g.board.Update(keyNamed("u"))
				_ = g.board.View()
				shown := b.Elapsed()
				g.settle(cmd)
				key, beside = key+shown-start, beside+b.Elapsed()-shown
			}
			b.ReportMetric(key.Seconds()/float64(b.N), "s-to-frame/op")
			b.ReportMetric(beside.Seconds()/float64(b.N), "s-beside/op")
		})
	}
}

// lives has years of soak days go by.
func (g *grower) lives(years int) *grower {
	g.t.Helper()
	ids := g.board.desk.book.IDs()
	n := len(ids)
	var all []model.Entry
	say := func(at time.Time, f model.Fact, plants ...model.ID) {
		all = append(all, model.NewEntry(at, f, plants...))
	}
	load := g.board.desk.book.NextLoad()
	for d := range years * 365 {
		now := soakDay.AddDate(0, 0, d+1)
		say(now, &model.Reading{TempC: 20 + float64(d%7)/2, RH: 35 + float64(d*7%20)})
		if d%7 != 6 {
			continue
		}
		part := d / 7 % 5
		say(now, &model.Look{Signs: model.Signs{Curl: model.Grade(d / 7 % 2), Tips: 0, Shift: model.NotSeen}}, ids[part*n/5:(part+1)*n/5]...)
		for from := 0; from < n; from += 60 {
			some := ids[from:min(from+60, n)]
			in := now.Add(time.Duration(from) * time.Minute / 10)
			say(in, &model.Soak{Load: load, Vessel: "tub", Due: in.Add(2 * time.Hour)}, some...)
			say(in.Add(2*time.Hour), &model.Out{Shaken: true}, some...)
			say(in.Add(8*time.Hour), &model.FoundDry{}, some...)
			say(in.Add(9*time.Hour), &model.Hung{}, some...)
			load++
		}
	}
	if _, err := g.store.AppendAll(all, nil); err != nil {
		g.t.Fatal(err)
	}
	g.now = all[len(all)-1].At.AddDate(0, 0, 2)
	g.board.desk.keeper = estimate.New(g.board.desk.book)
	g.board.desk.look()
	g.board.desk.layout++
	g.board.sync()
	return g
}
