package accounts_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/accounts"
)

// home is a book being written, and the clock of who writes it.
type home struct {
	t   testing.TB
	b   *model.Book
	now time.Time
	seq model.Seq
}

var (
	newYear = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	nextNew = newYear.AddDate(1, 0, 0)
)

// newHome begins a book at ten in the morning of New Year's Day.
func newHome(t testing.TB) *home {
	return &home{t: t, b: model.NewBook(time.UTC), now: newYear.Add(10 * time.Hour)}
}

func (h *home) tell(fact model.Fact, ids ...model.ID) model.Seq {
	h.t.Helper()
	e := model.NewEntry(h.now, fact, ids...)
	h.seq++
	e.Seq = h.seq
	if err := h.b.Check(e); err != nil {
		h.t.Fatalf("%s: %v", fact.Kind(), err)
	}
	if err := h.b.Apply(e); err != nil {
		h.t.Fatalf("%s: %v", fact.Kind(), err)
	}
	return h.seq
}

func (h *home) wait(d time.Duration) { h.now = h.now.Add(d) }

const day = 24 * time.Hour

// bathe soaks plants and finds them dry after some hours; 0 hours is nobody
// looked, and they stay out.
func (h *home) bathe(minutes int, dryHours float64, ids ...model.ID) {
	h.t.Helper()
	h.tell(&model.Soak{Load: h.b.NextLoad(), Vessel: "tub", Due: h.now.Add(time.Duration(minutes) * time.Minute)},
		ids...)
	h.wait(time.Duration(minutes) * time.Minute)
	h.tell(&model.Out{Shaken: true}, ids...)
	if dryHours > 0 {
		h.wait(time.Duration(dryHours * float64(time.Hour)))
		h.tell(&model.FoundDry{}, ids...)
		h.tell(&model.Hung{}, ids...)
	}
}

func (h *home) ledger(from, until time.Time) accounts.Ledger {
	h.t.Helper()
	l, err := accounts.Of(h.b, from, until)
	if err != nil {
		h.t.Fatal(err)
	}
	return l
}

func plant(id model.ID, form model.Form, shelf string) model.Plant {
	return model.Plant{ID: id, Form: form, Count: 1, Home: model.Home{Shelf: shelf}}
}

func find(t testing.TB, lines []accounts.Line, key string) accounts.Flow {
	t.Helper()
	for _, l := range lines {
		if l.Key == key {
			return l.Flow
		}
	}
	t.Fatalf("no line %q in %+v", key, lines)
	return accounts.Flow{}
}

// A year as a grower would tell it: an old list, an order, a tray taken apart,
// plants moved, sold and lost.
func TestTheYearInNumbers(t *testing.T) {
	h := newHome(t)
	tray := plant(2, model.Wispy, "A")
	tray.Count = 12
	h.tell(&model.Import{Added: []model.Plant{plant(1, model.Bulbous, "A"), tray, plant(3, model.Rosette, "B")}})
	h.wait(40 * day) // 10 February
	order := plant(4, model.Rosette, "B")
	order.Acquired = date.NewAt(h.now) - 3
	h.tell(&model.Add{Plants: []model.Plant{order}})
	h.tell(&model.Split{New: model.Plant{ID: 5, Form: model.Wispy, Count: 4, Home: model.Home{Shelf: "C"}}}, 2)
	tray.Count = 9
	h.tell(&model.Edit{Plants: []model.Plant{tray}}) // eight were left; there are nine
	h.tell(&model.Move{To: model.Home{Shelf: "C"}}, 3)
	h.wait(30 * day) // 12 March
	h.tell(&model.Leave{How: model.Lost, Cause: "Rot "}, 1)
	h.tell(&model.Leave{How: model.Sold, Note: "for 5"}, 5)
	h.tell(&model.Leave{How: model.Given}, 4)
	wrong := h.tell(&model.Leave{How: model.Lost, Cause: "drought"}, 2)
	h.tell(&model.Strike{Seq: wrong})

	l := h.ledger(newYear, nextNew)
	want := accounts.Flow{Listed: 14, Came: 1, Lost: 1, Sold: 4, Given: 1, Recounted: 1, Closing: 10, Rows: 2}
	if l.Whole != want {
		t.Errorf("whole: %+v\nwant   %+v", l.Whole, want)
	}
	for key, want := range map[string]accounts.Flow{
		"A": {Listed: 13, Lost: 1, Recounted: 1, Moved: -4, Closing: 9, Rows: 1},
		"B": {Listed: 1, Came: 1, Given: 1, Moved: -1},
		"C": {Sold: 4, Moved: 5, Closing: 1, Rows: 1},
	} {
		if got := find(t, l.ByShelf, key); got != want {
			t.Errorf("shelf %s: %+v\nwant     %+v", key, got, want)
		}
	}
	if got, want := find(t, l.ByForm, "wispy"), (accounts.Flow{Listed: 12, Sold: 4, Recounted: 1, Closing: 9,
		Rows: 1}); got != want {
		t.Errorf("wispy: %+v, want %+v", got, want)
	}
	if got, want := find(t, l.ByMonth, "2026-03"), (accounts.Flow{Opening: 16, Lost: 1, Sold: 4, Given: 1, Closing: 10,
		Rows: 2}); got != want {
		t.Errorf("March: %+v, want %+v", got, want)
	}
	if len(l.ByMonth) != 12 {
		t.Errorf("%d months", len(l.ByMonth))
	}
	if len(l.Causes) != 1 || l.Causes[0].Cause != "rot" || l.Causes[0].Plants != 1 ||
		l.Causes[0].ByForm[0].Form != model.Bulbous {
		t.Errorf("causes %+v", l.Causes)
	}
	if len(l.Departures) != 3 || l.Departures[1].Plants != 4 || l.Departures[1].Note != "for 5" {
		t.Errorf("departures %+v", l.Departures)
	}
}

// An order brought in as a list is new to the home; a plant written up by hand
// that has been there for years is not.
func TestWhoIsNew(t *testing.T) {
	h := newHome(t)
	h.wait(100 * day)
	fresh, old := plant(1, "", "A"), plant(2, "", "A")
	fresh.Acquired, old.Acquired = date.NewAt(h.now)-10, date.NewAt(h.now)-400
	h.tell(&model.Import{Added: []model.Plant{fresh}})
	h.tell(&model.Add{Plants: []model.Plant{old, plant(3, "", "A")}})
	got := h.ledger(newYear, nextNew).Whole
	if got.Came != 2 || got.Listed != 1 {
		t.Errorf("%+v", got)
	}
}

// Midnight belongs to the day it begins.
func TestWhereAPeriodBeginsAndEnds(t *testing.T) {
	h := newHome(t)
	h.now = newYear
	h.tell(&model.Add{Plants: []model.Plant{plant(1, "", "B"), plant(2, "", ""), plant(3, "", "a10"),
		plant(4, "", "a2")}})
	if f := h.ledger(newYear, nextNew).Whole; f.Came != 4 || f.Opening != 0 {
		t.Errorf("from midnight on: %+v", f)
	}
	if f := h.ledger(newYear.AddDate(-1, 0, 0), newYear).Whole; f != (accounts.Flow{}) {
		t.Errorf("until midnight: %+v", f)
	}
	var shelves []string
	for _, line := range h.ledger(newYear, nextNew).ByShelf {
		shelves = append(shelves, line.Key)
	}
	if diff := cmp.Diff([]string{"a2", "a10", "B", ""}, shelves); diff != "" {
		t.Errorf("not in walking order: %s", diff)
	}
}

func TestAPeriodThatEndsBeforeItBegins(t *testing.T) {
	_, err := accounts.Of(model.NewBook(time.UTC), nextNew, newYear)
	if _, ok := model.AsProblem(err); !ok {
		t.Errorf("%v", err)
	}
}

func TestAnEmptyBook(t *testing.T) {
	l, err := accounts.Of(model.NewBook(time.UTC), newYear, nextNew)
	if err != nil || l.Whole != (accounts.Flow{}) || len(l.ByMonth) != 12 || len(l.Survival) != 1 ||
		len(l.Intervals) != 1 {
		t.Errorf("%+v, %v", l, err)
	}
}

// The board names a new plant in its entry, a list does not: both came once.
func TestAPlantThatItsEntryNamesCameOnce(t *testing.T) {
	h := newHome(t)
	h.tell(&model.Add{Plants: []model.Plant{plant(1, model.Rosette, "A")}}, 1)
	h.tell(&model.Add{Plants: []model.Plant{plant(2, model.Rosette, "A")}})
	if l := h.ledger(newYear, nextNew); l.Whole.Came != 2 || l.Whole.Closing != 2 {
		t.Errorf("%d came and %d are here at the end, want 2 and 2", l.Whole.Came, l.Whole.Closing)
	}
}
