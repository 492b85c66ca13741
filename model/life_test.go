package model_test

import (
	"encoding/json"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tubside/model"
)

// act draws one thing a grower may do. Some of it cannot be: then the book must
// refuse it.
type act func(rt *rapid.T, d *diary) (model.Fact, model.IDs)

// about is an act on plants that stand as a word of Choose says.
func about(f model.Fact, word string) act {
	return func(rt *rapid.T, d *diary) (model.Fact, model.IDs) { return f, some(rt, d, word) }
}

// some draws plants that stand as a word says, and now and then any at all.
func some(rt *rapid.T, d *diary, word string) model.IDs {
	from, err := d.Choose(word)
	if err != nil {
		rt.Fatal(err)
	}
	if len(from) == 0 || rapid.IntRange(0, 9).Draw(rt, "slip") == 0 {
		from = model.IDs{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	}
	return rapid.SliceOfNDistinct(rapid.SampledFrom(from), 1, min(4, len(from)), rapid.ID).Draw(rt, "plants")
}

func newRow(rt *rapid.T, d *diary) model.Plant {
	home := model.Home{Shelf: rapid.SampledFrom([]string{"", "A", "B"}).Draw(rt, "shelf")}
	return model.Plant{ID: d.NextID(), Count: rapid.IntRange(1, 5).Draw(rt, "count"), Home: home}
}

var acts = []act{
	about(&model.Pull{}, "all"), about(&model.Pull{}, "all"), about(&model.PutBack{}, "pulled"),
	about(&model.Out{Shaken: true}, "soaking"), about(&model.Out{}, "soaking"), about(&model.Out{Inverted: true}, "soaking"),
	about(&model.Damp{}, "drying"), about(&model.Damp{}, "dry"), about(&model.FoundDry{}, "drying"), about(&model.FoundDry{}, "drying"),
	about(&model.Hung{}, "dry"), about(&model.Hung{}, "dry"),
	about(&model.Mist{}, "all"), about(&model.Look{Signs: model.LooksFine}, "all"), about(&model.Note{Text: "seen"}, "all"),
	about(&model.Bloom{}, "all"), about(&model.Bloom{Over: true}, "bloom"), about(&model.Rot{}, "all"), about(&model.Rot{Over: true}, "rot"),
	about(&model.Move{To: model.Home{Shelf: "C"}}, "all"), about(&model.Leave{How: model.Sold}, "all"), about(&model.Leave{How: model.Lost, Cause: "rot"}, "soaking"),
	soaks("pulled"), soaks("pulled"), soaks("all"), soaks("dry"),
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.Add{Plants: []model.Plant{newRow(rt, d)}}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		told := newRow(rt, d)
		told.ID = some(rt, d, "all")[0]
		return &model.Import{File: "shelf.csv", Added: []model.Plant{newRow(rt, d)}, Changed: []model.Plant{told}, BloomOn: model.IDs{told.ID}}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.Split{New: newRow(rt, d)}, some(rt, d, "all")[:1]
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.Reading{TempC: 21, RH: 40, Fan: rapid.SampledFrom(model.Fans).Draw(rt, "fan")}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.RuleSet{Name: "dip-to", Value: float64(rapid.IntRange(1, 40).Draw(rt, "minutes"))}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		v := model.Vessel{Name: rapid.SampledFrom([]string{"tub", " Tub", "sink", "bucket 1 "}).Draw(rt, "vessel"), Litres: 30}
		return &model.VesselSet{Vessel: v, Away: rapid.Bool().Draw(rt, "away")}, nil
	},
	func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		return &model.Strike{Seq: model.Seq(rapid.IntRange(1, len(d.Entries())+1).Draw(rt, "entry"))}, nil
	},
	undo, undo,
}

// soaks puts plants that stand as a word says into a vessel.
func soaks(word string) act {
	return func(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
		vessel := rapid.SampledFrom([]string{"tub", "bucket 1", "bucket 2", "sink"}).Draw(rt, "vessel")
		due := d.at.Add(time.Duration(rapid.IntRange(0, 200).Draw(rt, "minutes")) * time.Minute)
		return &model.Soak{Load: d.NextLoad(), Vessel: vessel, Due: due}, some(rt, d, word)
	}
}

func undo(rt *rapid.T, d *diary) (model.Fact, model.IDs) {
	last, ok := d.LastToStrike()
	if !ok {
		return &model.Note{Text: "nothing to strike"}, nil
	}
	return &model.Strike{Seq: last.Seq}, nil
}

// live writes as much of a drawn life as the book takes, and says how much that
// was. A refusal must be a Problem and must leave the book as it was.
func live(rt *rapid.T, d *diary, steps int, always func()) {
	for range steps {
		d.at = d.at.Add(time.Duration(rapid.IntRange(-20, 90).Draw(rt, "minutes")) * time.Minute) // some are entered late
		f, plants := rapid.SampledFrom(acts).Draw(rt, "act")(rt, d)
		e := d.entry(f, plants...)
		before := look(d.Book)
		err := d.Check(e)
		if diff := cmp.Diff(before, look(d.Book)); diff != "" {
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
		live(rt, d, rapid.IntRange(1, 200).Draw(rt, "steps"), func() {
			agree(rt, d, slate(d.Entries(), strikes(d.Entries())))
		})
	})
}

func agree(rt *rapid.T, d *diary, s stand) {
	count := map[model.State]int{}
	for _, id := range d.IDs() {
		r := d.Row(id)
		if r.State != s.state[id] || d.Waiting().Has(id) != s.waiting[id] {
			rt.Fatalf("plant %d is %s, waiting %t; the slate says %s, %t", id, r.State, d.Waiting().Has(id), s.state[id], s.waiting[id])
		}
		count[r.State]++
	}
	if len(s.state) != d.Len() || len(s.waiting) != len(d.Waiting()) {
		rt.Fatalf("%d rows, %d waiting; the slate says %d and %d", d.Len(), len(d.Waiting()), len(s.state), len(s.waiting))
	}
	got := d.Tally()
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
		live(rt, d, rapid.IntRange(1, 60).Draw(rt, "steps"), func() {})
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
		if diff := cmp.Diff(look(d.Book), look(again)); diff != "" {
			rt.Errorf("read back, the book says something else:\n%s", diff)
		}
	})
}
