package model_test

import (
	"encoding/json"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
)

// live writes as much of a drawn life as the book takes, and says how much that
// was. A refusal must be a Problem and must leave the book as it was.
func live(rt *rapid.T, d *diary, steps int, always func()) {
	for range steps {
		d.at = d.at.Add(time.Duration(rapid.IntRange(-20, 90).Draw(rt, "minutes")) * time.Minute) // some are entered late
		f, plants := rapid.SampledFrom(acts).Draw(rt, "act")(rt, d)
		e := d.entry(f, plants...)
		before := look(d.Book)
		err := d.Check(e)
		if diff := before.other(d.Book); diff != "" {
			rt.Fatalf("asking whether %s of %v could be changed the book:\n%s", f.Kind(), plants, diff)
		}
		if err != nil {
			if p, told := model.AsProblem(err); !told || p.What == "" {
				rt.Fatalf("%s of %v: %v is not said to a person", f.Kind(), plants, err)
			}
			continue
		}
		if err := d.Apply(e); err != nil {
			rt.Fatalf("%s of %v, checked and then not taken: %v", f.Kind(), plants, err)
		}
		always()
	}
}

// stand is where every plant is by a bookkeeping of its own: a slate beside the
// tub that knows nothing of the book's.
type stand struct {
	state   map[model.ID]model.State
	waiting map[model.ID]bool
	load    map[model.ID]model.LoadID // of those in the water
}

func (s stand) put(ids model.IDs, state model.State) {
	for _, id := range ids {
		s.state[id] = state
		delete(s.waiting, id)
		delete(s.load, id)
	}
}

// slate is the stand that a list of entries comes to.
func slate(entries []model.Entry, struck func(model.Seq) bool) stand {
	s := stand{map[model.ID]model.State{}, map[model.ID]bool{}, map[model.ID]model.LoadID{}}
	for _, e := range entries {
		if struck(e.Seq) {
			continue
		}
		switch f := e.Fact.(type) {
		case *model.Add:
			for _, p := range f.Plants {
				s.state[p.ID] = model.AtHome
			}
		case *model.Import:
			s.state[f.Added[0].ID] = model.AtHome
		case *model.Split:
			s.state[f.New.ID] = model.AtHome
		case *model.Pull:
			for _, id := range e.Plants {
				s.waiting[id] = true
			}
		case *model.PutBack, *model.Hung:
			s.put(e.Plants, model.AtHome)
		case *model.Soak:
			s.put(e.Plants, model.Soaking)
			for _, id := range e.Plants {
				s.load[id] = f.Load
			}
		case *model.Out, *model.Damp:
			s.put(e.Plants, model.Drying)
		case *model.FoundDry:
			s.put(e.Plants, model.Dry)
		case *model.Leave:
			s.put(e.Plants, model.Gone)
		}
	}
	return s
}

// strikes says which entries are struck: those named by a strike that is not
// struck itself.
func strikes(entries []model.Entry) func(model.Seq) bool {
	var struck func(model.Seq) bool
	struck = func(seq model.Seq) bool {
		return slices.ContainsFunc(entries, func(e model.Entry) bool {
			s, ok := e.Fact.(*model.Strike)
			return ok && s.Seq == seq && !struck(e.Seq)
		})
	}
	return struck
}

// After any day, however muddled, no plant is lost: each is where the slate says
// it is, the board's counts add up, and a load has left what is in it.
func TestNoPlantIsLost(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := shelved(rt)
		live(rt, d, rapid.IntRange(60, 300).Draw(rt, "steps"), func() {
			agree(rt, d, slate(d.Entries(), strikes(d.Entries())))
		})
	})
}

func agree(rt *rapid.T, d *diary, s stand) {
	count, inSession := map[model.State]int{}, 0
	for _, id := range d.IDs() {
		r := d.Row(id)
		if r.State != s.state[id] || d.Waiting().Has(id) != s.waiting[id] {
			rt.Fatalf("plant %d is %s, waiting %t; the slate says %s, %t", id, r.State, d.Waiting().Has(id),
				s.state[id], s.waiting[id])
		}
		count[r.State]++
		if r.InSession {
			inSession++
		}
	}
	if len(s.state) != d.Len() || len(s.waiting) != len(d.Waiting()) {
		rt.Fatalf("%d rows, %d waiting; the slate says %d and %d", d.Len(), len(d.Waiting()), len(s.state),
			len(s.waiting))
	}
	got := d.Tally()
	if got.Pulled != inSession {
		rt.Fatalf("%d pulled, and %d rows say they are of the session", got.Pulled, inSession)
	}
	if !got.Adds() || got.Hung < 0 || got.Waiting != len(s.waiting) ||
		got.Soaking != count[model.Soaking] || got.Drying != count[model.Drying] || got.Dry != count[model.Dry] {
		rt.Fatalf("tally %+v of plants %v", got, count)
	}
	loadsAgree(rt, d, s)
}

func loadsAgree(rt *rapid.T, d *diary, s stand) {
	left := map[model.LoadID]int{}
	for _, load := range s.load {
		left[load]++
	}
	for n := model.LoadID(1); n < d.NextLoad(); n++ {
		if l := d.Load(n); l != nil && (l.Left != left[n] || len(d.StillIn(l)) != left[n]) {
			rt.Fatalf("load %d has %d left and %v in the water; the slate says %d", n, l.Left, d.StillIn(l), left[n])
		}
	}
	open := d.OpenLoads()
	if len(open) != len(left) || !slices.IsSortedFunc(open, func(x, y *model.Load) int { return x.Due.Compare(y.Due) }) {
		rt.Fatalf("%d loads are open and the slate has %d; or they are not in the order due", len(open), len(left))
	}
}

// A book closed and opened again is the same book.
func TestALifeReadsBackAsItWas(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := shelved(rt)
		live(rt, d, rapid.IntRange(1, 120).Draw(rt, "steps"), func() {})
		var read []model.Entry
		for _, e := range d.Entries() {
			text, err := json.Marshal(e)
			if err != nil {
				rt.Fatal(err)
			}
			back := model.Entry{Seq: e.Seq}
			if err := json.Unmarshal(text, &back); err != nil {
				rt.Fatalf("%v in %s", err, text)
			}
			read = append(read, back)
		}
		again, err := model.Replay(read, time.UTC)
		if err != nil {
			rt.Fatal(err)
		}
		if diff := look(d.Book).other(again); diff != "" {
			rt.Errorf("read back, the book says something else:\n%s", diff)
		}
	})
}

// A strike goes back to a mark and lives the rest again. What comes of it is what
// the whole book read from the beginning comes to, and a copy lives on its own.
func TestAStrikeComesToWhatTheWholeBookDoes(t *testing.T) {
	defer model.MarkOften()()
	rapid.Check(t, func(rt *rapid.T) {
		d := shelved(rt)
		live(rt, d, rapid.IntRange(1, 60).Draw(rt, "steps"), func() {})
		before := d.Copy()
		was := look(before)
		live(rt, d, rapid.IntRange(1, 60).Draw(rt, "more steps"), func() {
			again, err := model.Replay(slices.Clone(d.Entries()), time.UTC)
			if err != nil {
				rt.Fatal(err)
			}
			if diff := look(d.Book).other(again); diff != "" {
				rt.Fatalf("after entry %d the book says other than when it is read anew:\n%s", len(d.Entries()), diff)
			}
		})
		if diff := was.other(before); diff != "" {
			rt.Fatalf("the copy changed with the book:\n%s", diff)
		}
	})
}
