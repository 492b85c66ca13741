package store_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tubside/model"
	"tubside/store"
)

// seen is all that can be seen of a book's state.
type seen struct {
	Rows     []model.Row
	Waiting  string
	Tally    model.Tally
	Loads    []model.Load
	Vessels  []model.Vessel
	Readings []model.ReadingAt
	Fan      model.Fan
	Rules    model.Rules
	Next     string
}

// whole compares what a row keeps to itself as well.
var whole = cmp.AllowUnexported(model.Row{})

func see(b *model.Book) seen {
	s := seen{
		Waiting: b.Waiting().String(), Tally: b.Tally(), Vessels: b.Vessels(), Readings: b.Readings(),
		Fan: b.Fan(sunday.AddDate(1, 0, 0)), Rules: b.Rules(), Next: fmt.Sprint(b.NextID(), b.NextLoad()),
	}
	for _, id := range b.IDs() {
		s.Rows = append(s.Rows, *b.Row(id))
	}
	for id := model.LoadID(1); id < b.NextLoad(); id++ {
		if l := b.Load(id); l != nil {
			s.Loads = append(s.Loads, *l)
		}
	}
	return s
}

// A book of version 1 with the kinds of entry of the first day, as on disk. Every
// later version must read it and come to the same state.
func TestABookOfVersion1(t *testing.T) {
	lines, err := os.ReadFile(filepath.Join("testdata", "v1.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	path := write(t, bolted(t, putBook("1", strings.Split(strings.TrimSpace(string(lines)), "\n")...)))
	s, err := store.Open(path, store.Options{Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	b := s.Book()
	var got []string
	for _, id := range b.IDs() {
		r := b.Row(id)
		got = append(got, fmt.Sprintf("%s: %s ×%d at %s, %s since %s, signs %s, bloom %t, rot %t, misted %t", id,
			r.Title(), r.Count, r.Home,
			r.State, r.Since.Format("15:04"), r.Signs, !r.Bloom.IsZero(), !r.Rot.IsZero(), !r.Misted.IsZero()))
	}
	want := []string{
		"1: A1 ×1 at A 1, home since 13:05, signs 20-, bloom false, rot false, misted false",
		"2: A2 ×1 at A 2, drying since 10:16, signs 20-, bloom false, rot true, misted false",
		"3: B tray ×10 at B, soaking since 09:15, signs ---, bloom false, rot false, misted false",
		"5: C1 ×1 at C 9, gone since 14:05, signs ---, bloom false, rot false, misted true",
		"6: B pup ×2 at B 7, home since 09:00, signs ---, bloom true, rot false, misted true",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if b.Rules()[model.CapBulbous] != 90 || b.Fan(sunday) != model.FanLow || len(b.Readings()) != 1 ||
		len(b.Vessels()) != 3 {
		t.Errorf("the house: cap %g, fan %s, %d readings, vessels %v", b.Rules()[model.CapBulbous], b.Fan(sunday),
			len(b.Readings()), b.Vessels())
	}
	r, err := s.Check()
	if err != nil || r.Schema != store.Schema || len(r.Copies) != 1 || r.Entries != 28 || r.Struck != 2 ||
		r.Plants != 5 ||
		r.First.Format("15:04") != "09:00" || r.Last.Format("15:04") != "14:09" || r.Bytes == 0 {
		t.Errorf("report %+v, %v", r, err)
	}
}

// fact draws something a grower may do, sensible or not, about few enough
// plants that entries meet.
func fact(t *rapid.T, b *model.Book, at time.Time) (model.Fact, model.IDs) {
	ids := model.IDs(rapid.SliceOfNDistinct(rapid.Map(rapid.IntRange(1, 6),
		func(n int) model.ID { return model.ID(n) }), 1, 4, rapid.ID).Draw(t, "ids"))
	over := rapid.Bool().Draw(t, "over")
	p := ionantha(b.NextID())
	p.Count = 3
	edited := ionantha(ids[0])
	edited.Note = "edited"
	return rapid.SampledFrom([]model.Fact{
		&model.Add{Plants: []model.Plant{p}}, &model.Edit{Plants: []model.Plant{edited}}, &model.Move{To: model.Home{Shelf: "Z"}},
		&model.Split{New: ionantha(b.NextID())}, &model.Leave{How: model.Sold}, &model.Bloom{Over: over}, &model.Rot{Over: over},
		&model.Mist{}, &model.Note{Text: "seen"}, &model.Look{Signs: model.LooksFine}, &model.Pull{}, &model.PutBack{},
		&model.Soak{Load: b.NextLoad(), Vessel: "tub", Due: at.Add(time.Hour)}, &model.Out{Shaken: over}, &model.Damp{},
		&model.FoundDry{}, &model.Hung{}, &model.Reading{TempC: 20, RH: 40, Fan: model.FanNear}, &model.RuleSet{Name: "cap-fuzzy", Value: 7},
		&model.Strike{Seq: model.Seq(rapid.IntRange(1, len(b.Entries())+1).Draw(t, "entry"))},
	}).Draw(t, "fact"), ids
}

// openFor opens a new book for one case of a property.
func openFor(t *testing.T, rt *rapid.T) (*store.Store, string) {
	path := filepath.Join(t.TempDir(), "book")
	s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		rt.Fatal(err)
	}
	for id := model.ID(1); id <= 4; id++ {
		if _, err := s.Append(model.NewEntry(sunday, &model.Add{Plants: []model.Plant{ionantha(id)}})); err != nil {
			rt.Fatal(err)
		}
	}
	return s, path
}

// live appends entries as they come; what the book refuses is left out.
func live(rt *rapid.T, s *store.Store, most int) {
	for i := range rapid.IntRange(1, most).Draw(rt, "entries") {
		at := sunday.Add(time.Duration(i) * 10 * time.Minute)
		f, ids := fact(rt, s.Book(), at)
		before := see(s.Book())
		if _, err := s.Append(model.NewEntry(at, f, ids...)); err != nil {
			if diff := cmp.Diff(before, see(s.Book()), whole); diff != "" {
				rt.Fatalf("refused (%v) and yet changed: %s", err, diff)
			}
		}
	}
}

func TestAReopenedBookIsTheSame(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, path := openFor(t, rt)
		live(rt, s, 40)
		want, entries := see(s.Book()), s.Book().Entries()
		if err := s.Close(); err != nil {
			rt.Fatal(err)
		}
		again, err := store.Open(path, store.Options{Zone: time.UTC})
		if err != nil {
			rt.Fatal(err)
		}
		defer again.Close()
		if diff := cmp.Diff(want, see(again.Book()), whole); diff != "" {
			rt.Fatalf("state: %s", diff)
		}
		if diff := cmp.Diff(entries, again.Book().Entries()); diff != "" {
			rt.Fatalf("entries: %s", diff)
		}
	})
}

func TestStrikeAndRestoreIsTheSame(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, _ := openFor(t, rt)
		defer s.Close()
		live(rt, s, 25)
		before := see(s.Book())
		last, ok := s.Book().LastToStrike()
		if !ok {
			return
		}
		strike, err := s.Append(model.NewEntry(sunday, &model.Strike{Seq: last.Seq}))
		if err != nil {
			return // a later entry builds on it
		}
		if _, err := s.Append(model.NewEntry(sunday, &model.Strike{Seq: strike.Seq})); err != nil {
			rt.Fatalf("bring back entry %d: %v", last.Seq, err)
		}
		if diff := cmp.Diff(before, see(s.Book()), whole); diff != "" {
			rt.Fatal(diff)
		}
	})
}
