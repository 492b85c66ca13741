package accounts_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/accounts"
)

// anyPast draws up to forty entries, some of them told for an earlier day, some
// struck.
func anyPast(rt *rapid.T, t *testing.T) *home {
	h := newHome(t)
	for range rapid.IntRange(1, 40).Draw(rt, "entries") {
		h.wait(time.Duration(rapid.IntRange(-50, 400).Draw(rt, "hours")) * time.Hour)
		e := model.NewEntry(h.now, anyFact(rt, h.b), anyPlants(rt, h.b)...)
		switch e.Fact.(type) {
		case *model.Add, *model.Import, *model.Strike:
			e.Plants = nil
		}
		if h.b.Check(e) == nil {
			h.seq++
			e.Seq = h.seq
			if err := h.b.Apply(e); err != nil {
				rt.Fatal(err)
			}
		}
	}
	return h
}

func anyPlants(rt *rapid.T, b *model.Book) model.IDs {
	if b.Len() == 0 {
		return nil
	}
	return rapid.SliceOfNDistinct(rapid.SampledFrom(b.IDs()), 1, 3, rapid.ID).Draw(rt, "plants")
}

func anyRow(rt *rapid.T, id model.ID) model.Plant {
	return model.Plant{
		ID: id, Count: rapid.IntRange(1, 9).Draw(rt, "count"),
		Form: rapid.SampledFrom([]model.Form{"", model.Tank, model.Wispy}).Draw(rt, "form"), Home: model.Home{Shelf: rapid.SampledFrom([]string{"", "A", "B"}).Draw(rt, "shelf")},
	}
}

func anyFact(rt *rapid.T, b *model.Book) model.Fact {
	fresh := anyRow(rt, b.NextID())
	changed := fresh
	if b.Len() > 0 {
		changed.ID = rapid.SampledFrom(b.IDs()).Draw(rt, "changed")
	}
	return rapid.SampledFrom([]model.Fact{
		&model.Add{Plants: []model.Plant{fresh}}, &model.Import{Added: []model.Plant{fresh}}, &model.Import{Changed: []model.Plant{changed}},
		&model.Edit{Plants: []model.Plant{changed}}, &model.Split{New: fresh}, &model.Move{To: model.Home{Shelf: "C"}},
		&model.Soak{Load: b.NextLoad(), Vessel: "tub", Due: newYear.AddDate(0, 0, 1)},
		&model.Out{}, &model.FoundDry{}, &model.Damp{}, &model.Hung{}, &model.Rot{}, &model.Rot{Over: true}, &model.Mist{},
		&model.Leave{How: model.Lost, Cause: "rot"}, &model.Leave{How: model.Sold},
		&model.Strike{Seq: model.Seq(rapid.IntRange(1, len(b.Entries())+1).Draw(rt, "struck"))},
	}).Draw(rt, "fact")
}

func anyPeriod(rt *rapid.T) (from, until time.Time) {
	from = newYear.AddDate(0, 0, rapid.IntRange(-10, 200).Draw(rt, "from"))
	return from, from.AddDate(0, 0, rapid.IntRange(1, 400).Draw(rt, "days"))
}

// What came less what went is the change in count, on every line and in all.
func TestGainsLessLossesAreTheChangeInCount(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h := anyPast(rt, t)
		from, until := anyPeriod(rt)
		l := h.ledger(from, until)
		for name, lines := range map[string][]accounts.Line{
			"whole": {{Flow: l.Whole}}, "form": l.ByForm, "shelf": l.ByShelf, "month": l.ByMonth,
		} {
			var sum accounts.Flow
			for _, line := range lines {
				f := line.Flow
				if f.Opening+f.Gained()-f.Left()+f.Recounted+f.Moved != f.Closing {
					rt.Fatalf("%s %q does not add up: %+v", name, line.Key, f)
				}
				sum.Moved += f.Moved
				sum.Lost += f.Lost
				sum.Listed += f.Listed
				sum.Came += f.Came
			}
			if sum.Moved != 0 || sum.Lost != l.Whole.Lost || sum.Listed != l.Whole.Listed || sum.Came != l.Whole.Came {
				rt.Fatalf("%s: the lines add up to %+v, the whole is %+v", name, sum, l.Whole)
			}
		}
		for i, m := range l.ByMonth[1:] {
			if m.Opening != l.ByMonth[i].Closing {
				rt.Fatalf("%s opens with %d, the month before closed with %d", m.Key, m.Opening, l.ByMonth[i].Closing)
			}
		}
	})
}

// At the end of all time the ledger has what the book has.
func TestTheLedgerClosesWithWhatTheBookHas(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h := anyPast(rt, t)
		l := h.ledger(newYear.AddDate(-1, 0, 0), newYear.AddDate(50, 0, 0))
		plants, rows := 0, 0
		for _, id := range h.b.IDs() {
			if r := h.b.Row(id); r.State != model.Gone {
				plants, rows = plants+r.Count, rows+1
			}
		}
		if l.Whole.Closing != plants || l.Whole.Rows != rows || l.Survival[0].Rows != h.b.Len() {
			rt.Fatalf("the book has %d plants in %d rows, the ledger %+v", plants, rows, l.Whole)
		}
	})
}

// A book with struck entries has the ledger of a book in which they were never
// written.
func TestStruckEntriesDoNotCount(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h := anyPast(rt, t)
		var left []model.Entry
		for _, e := range h.b.Entries() {
			if _, strike := e.Fact.(*model.Strike); !strike && !h.b.Struck(e.Seq) {
				left = append(left, e)
			}
		}
		clean, err := model.Replay(left, time.UTC)
		if err != nil {
			rt.Fatal(err)
		}
		from, until := anyPeriod(rt)
		want, err := accounts.Of(clean, from, until)
		if err != nil {
			rt.Fatal(err)
		}
		if diff := cmp.Diff(want, h.ledger(from, until), cmpopts.EquateNaNs()); diff != "" {
			rt.Fatal(diff)
		}
	})
}

// Every soak of the period is in one bin of each table or open, and no bin has
// more rot than soaks.
func TestEverySoakIsInOneBin(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h := anyPast(rt, t)
		r := h.ledger(anyPeriod(rt)).Rot
		for name, bins := range map[string][]accounts.Bin{"minutes": r.ByMinutes, "drying": r.ByDrying,
			"form": r.ByForm} {
			soaks, rot := 0, 0
			for _, b := range bins {
				if b.Rot > b.Soaks {
					rt.Fatalf("%s: %+v", name, b)
				}
				soaks, rot = soaks+b.Soaks, rot+b.Rot
			}
			if soaks != r.Soaks || rot != r.After {
				rt.Fatalf("%s: %d soaks and %d with rot in bins, %+v", name, soaks, rot, r)
			}
		}
		if r.Sound+r.Lost > r.Cases {
			rt.Fatalf("%+v", r)
		}
	})
}
