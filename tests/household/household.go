// Package household is a book in the making, for tests: entries are said one by
// one, as a grower would.
package household

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rickb777/date/v2"
	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// Home is a book in the making, at noons of May 2026. Every entry is checked as
// the program would check it.
type Home struct {
	*model.Book
	t interface {
		Helper()
		Fatalf(string, ...any)
	}
	keeper *estimate.Keeper
}

// New is an empty book.
func New(t interface {
	Helper()
	Fatalf(string, ...any)
}) Home {
	return Home{Book: model.NewBook(time.UTC), t: t}
}

// Say writes an entry into the book.
func (h Home) Say(at time.Time, f model.Fact, ids ...model.ID) {
	h.t.Helper()
	e := model.NewEntry(at, f, ids...)
	e.Seq = model.Seq(len(h.Entries()) + 1)
	if err := h.Check(e); err != nil {
		h.t.Fatalf("%s: %v", f.Kind(), err)
	}
	if err := h.Apply(e); err != nil {
		h.t.Fatalf("%s: %v", f.Kind(), err)
	}
	if h.keeper != nil {
		h.keeper.Follow(e)
	}
}

// Followed is the home with one keeper, which takes in what is said through it from now on.
func (h Home) Followed() Home {
	h.keeper = estimate.New(h.Book)
	return h
}

// Keeper is what is believed of the book as it stands.
func (h Home) Keeper() *estimate.Keeper {
	if h.keeper != nil {
		return h.keeper
	}
	return estimate.New(h.Book)
}

// Of is a book that has entries already.
func Of(b *model.Book, t interface {
	Helper()
	Fatalf(string, ...any)
}) Home {
	return Home{Book: b, t: t}
}

// NewIn is an empty book in a zone.
func NewIn(zone *time.Location, t interface {
	Helper()
	Fatalf(string, ...any)
}) Home {
	return Home{Book: model.NewBook(zone), t: t}
}

// Soaked takes plants through a whole soak day that ends dry and hung at a time.
func (h Home) Soaked(hung time.Time, minutes int, ids ...model.ID) {
	h.t.Helper()
	in := hung.Add(-5*time.Hour - time.Duration(minutes)*time.Minute)
	out := in.Add(time.Duration(minutes) * time.Minute)
	h.Say(in, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: out}, ids...)
	h.Say(out, &model.Out{Shaken: true}, ids...)
	h.Say(hung, &model.FoundDry{}, ids...)
	h.Say(hung, &model.Hung{}, ids...)
}

// May is an hour of a day in May 2026.
func May(d, hour int) time.Time { return time.Date(2026, 5, d, hour, 0, 0, 0, time.UTC) }

// Greens is a shelf of n mesic rosettes of 15 cm, soaked and hung on 1 May.
func Greens(t *testing.T, n int) Home {
	t.Helper()
	h := New(t)
	h.AddGreens(n)
	return h
}

// AddGreens adds such a shelf.
func (h Home) AddGreens(n int) {
	h.t.Helper()
	var plants []model.Plant
	var ids model.IDs
	for id := model.ID(1); id <= model.ID(n); id++ {
		plants = append(plants, model.Plant{ID: id, Count: 1, Form: model.Rosette, Leaf: model.Mesic, Size: 15,
			Home: model.Home{Shelf: "A", Spot: id.String()}})
		ids = append(ids, id)
	}
	h.Say(May(1, 8), &model.Add{Plants: plants})
	h.Soaked(May(1, 18), 240, ids...)
}

// Drawn is a book as nobody would keep it: plants of every form in every state.
func Drawn(t *rapid.T) Home {
	h := New(t)
	var plants []model.Plant
	n := rapid.IntRange(1, 12).Draw(t, "plants")
	for id := model.ID(1); id <= model.ID(n); id++ {
		p := model.Plant{
			ID: id, Count: rapid.SampledFrom([]int{1, 6}).Draw(t, "count"),
			Form: rapid.SampledFrom(model.Forms).Draw(t, "form"),
			Leaf: rapid.SampledFrom(model.Leaves).Draw(t, "leaf"), Size: rapid.Float64Range(4, 50).Draw(t, "size"),
			MistOnly: rapid.IntRange(0, 5).Draw(t, "mist only") == 5,
		}
		if rapid.Bool().Draw(t, "told") {
			p.SoakedOn = date.NewAt(May(1, 12)) - date.Date(rapid.IntRange(0, 40).Draw(t, "days"))
		}
		plants = append(plants, p)
	}
	h.Say(May(1, 8), &model.Add{Plants: plants})
	for id := model.ID(1); id <= model.ID(n); id++ {
		switch rapid.IntRange(0, 7).Draw(t, "fate") {
		case 0:
			h.Soaked(May(4, 18), 60, id)
		case 1:
			h.Say(May(5, 10), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: May(5, 13)}, id)
		case 2:
			h.Say(May(5, 9), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: May(5, 10)}, id)
			h.Say(May(5, 10), &model.Out{Shaken: rapid.Bool().Draw(t, "shaken")}, id)
		case 3:
			h.Say(May(5, 9), &model.Look{Signs: model.Signs{Curl: model.Grade(rapid.IntRange(0, 3).Draw(t, "curl")),
				Tips: 0, Shift: model.NotSeen}}, id)
		case 4:
			h.Say(May(5, 9), &model.Bloom{}, id)
		case 5:
			h.Say(May(5, 9), &model.Rot{}, id)
		}
	}
	if rapid.Bool().Draw(t, "read") {
		h.Say(May(5, 11), &model.Reading{TempC: 22, RH: 45})
	}
	return h
}

// DrawnAir is any air that a grower may expect.
func DrawnAir(t *rapid.T) estimate.ExpectedAir {
	return estimate.AirGiven(rapid.Float64Range(15, 30).Draw(t, "temp"), rapid.Float64Range(15, 90).Draw(t, "rh"))
}

// A longer trip never leaves a plant wetter, and never uncrosses a line.

// Need is what the house rules give a plant at a time.
func (h Home) Need(id model.ID, at time.Time) advice.Need {
	h.t.Helper()
	n, ok := advice.NeedOf(estimate.New(h.Book), id, at)
	if !ok {
		h.t.Fatalf("no need of plant %d", id)
	}
	return n
}

// Words are the sentences that a person reads for some reasons about a plant.
func (h Home) Words(id model.ID, all ...advice.Reason) []string {
	entries := h.Entries()
	return show.About{Book: h.Book, Row: h.Row(id), Now: entries[len(entries)-1].At}.Reasons(all)
}

// Says reports whether some reason of a need has a text in it.
func (h Home) Says(n advice.Need, text string) bool {
	return slices.ContainsFunc(h.Words(n.ID, n.Reasons...), func(s string) bool { return strings.Contains(s, text) })
}
