package model_test

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"tubside/model"
)

// soakDay is the Saturday morning on which the tests' entries begin.
var soakDay = time.Date(2026, 5, 2, 9, 0, 0, 0, time.UTC)

// diary is a book written line by line, by a clock that moves on a minute with
// every line.
type diary struct {
	*model.Book
	t  rapid.TB
	at time.Time
}

// blank is a diary with nothing in it.
func blank(t rapid.TB) *diary { return &diary{model.NewBook(time.UTC), t, soakDay} }

// shelved is a diary of two shelves with three rows each. Row 5 is a tray.
func shelved(t rapid.TB) *diary {
	d := blank(t)
	d.write(&model.Add{Plants: []model.Plant{
		{ID: 1, Name: "ionantha", Count: 1, Home: model.Home{Shelf: "A", Spot: "10"}},
		{ID: 2, Name: "bulbosa", Count: 1, Form: model.Bulbous, Home: model.Home{Shelf: "A", Spot: "2"}},
		{ID: 3, Label: "the big one", Name: "xerographica", Count: 1, Leaf: model.Xeric, Home: model.Home{Shelf: "A", Spot: "1"}},
		{ID: 4, Name: "usneoides", Count: 1, Form: model.Pendent, Home: model.Home{Shelf: "B"}},
		{ID: 5, Name: "tectorum", Count: 24, Form: model.Fuzzy, Home: model.Home{Shelf: "B", Spot: "2"}},
		{ID: 6, Count: 1, Home: model.Home{Shelf: "B", Spot: "1"}},
	}})
	return d
}

// entry is the next line, not yet written.
func (d *diary) entry(f model.Fact, plants ...model.ID) model.Entry {
	e := model.NewEntry(d.at, f, plants...)
	e.Seq = model.Seq(len(d.Entries()) + 1)
	return e
}

// write writes a line that the book must take, and gives its number.
func (d *diary) write(f model.Fact, plants ...model.ID) model.Seq {
	d.t.Helper()
	d.at = d.at.Add(time.Minute)
	e := d.entry(f, plants...)
	if err := d.Check(e); err != nil {
		d.t.Fatalf("%s %v: %v", f.Kind(), e.Plants, err)
	}
	if err := d.Apply(e); err != nil {
		d.t.Fatalf("%s %v, checked and then not taken: %v", f.Kind(), e.Plants, err)
	}
	return e.Seq
}

// soak writes a load of half an hour into the tub.
func (d *diary) soak(plants ...model.ID) model.LoadID {
	d.t.Helper()
	load := d.NextLoad()
	d.write(&model.Soak{Load: load, Vessel: "tub", Due: d.at.Add(31 * time.Minute)}, plants...)
	return load
}

// refusal is a line the book must not take, and what the grower is told.
type refusal struct {
	fact   model.Fact
	plants model.IDs
	what   string // part of what is wrong
	do     string // part of what to do; empty where nothing is advised
}

// refuses holds that the book takes none of the lines, says why and what to do,
// and stays as it was.
func (d *diary) refuses(cases ...refusal) {
	d.t.Helper()
	before := look(d.Book)
	for _, c := range cases {
		err := d.Check(d.entry(c.fact, c.plants...))
		p, told := model.AsProblem(err)
		switch {
		case !told:
			d.t.Errorf("%s of %v: got %v, want a refusal: %s", c.fact.Kind(), c.plants, err, c.what)
		case !strings.Contains(p.What, c.what), !strings.Contains(p.Do+p.Shell, c.do), (p.Do+p.Shell == "") != (c.do == ""):
			d.t.Errorf("%s of %v: told %q and %q, want %q and %q", c.fact.Kind(), c.plants, p.What, p.Do+p.Shell, c.what, c.do)
		}
	}
	if diff := before.other(d.Book); diff != "" {
		d.t.Errorf("a refused line changed the book:\n%s", diff)
	}
}

// sight is all that a book says, for comparing two.
type sight struct {
	Rows     []model.Row
	Waiting  model.IDs
	Tally    model.Tally
	Loads    []model.Load
	Vessels  []model.Vessel
	Readings []model.ReadingAt
	Fan      model.Fan
	Rules    model.Rules
	Waters   []*model.Water
	Bottle   model.BottleAt
	Samples  []model.SampleAt
	Trips    []model.Absence
	Benches  []model.Bench
	Windows  []model.WindowAt
	Shelf    float64
	Next     model.ID
	NextLoad model.LoadID
	Ten      *model.Ten
}

// other is how a book differs from what was seen before; empty when it does not.
func (s sight) other(b *model.Book) string {
	now := look(b)
	if reflect.DeepEqual(s, now) { // most times; a diff costs a hundred times as much
		return ""
	}
	return cmp.Diff(s, now, cmpopts.EquateEmpty())
}

func look(b *model.Book) sight {
	s := sight{
		Waiting: slices.Clone(b.Waiting()), Tally: b.Tally(), Vessels: slices.Clone(b.Vessels()),
		Readings: slices.Clone(b.Readings()), Fan: b.Fan(soakDay.AddDate(10, 0, 0)), Rules: b.Rules(),
		Next: b.NextID(), NextLoad: b.NextLoad(), Bottle: b.Bottle(), Samples: slices.Clone(b.Samples()),
		Trips: slices.Clone(b.Trips()), Benches: slices.Clone(b.Benches()), Windows: slices.Clone(b.Windows()),
		Shelf: b.ShelfFactor("C"), Ten: b.Ten(soakDay),
	}
	for _, v := range b.Vessels() {
		if w := b.Water(v.Name); w != nil {
			stands := *w
			s.Waters = append(s.Waters, &stands)
		}
	}
	for _, id := range b.IDs() {
		s.Rows = append(s.Rows, *b.Row(id))
	}
	for n := model.LoadID(1); n < b.NextLoad(); n++ {
		if l := b.Load(n); l != nil {
			s.Loads = append(s.Loads, *l)
		}
	}
	return s
}

func TestAFreshBook(t *testing.T) {
	b := model.NewBook(time.UTC)
	if b.Len() != 0 || b.NextID() != 1 || b.NextLoad() != 1 || b.Zone() != time.UTC || b.Row(1) != nil {
		t.Errorf("a fresh book has %d rows, gives number %d and load %d", b.Len(), b.NextID(), b.NextLoad())
	}
	var names []string
	for _, v := range b.Vessels() {
		names = append(names, v.Name)
	}
	if diff := cmp.Diff([]string{"tub", "bucket 1", "bucket 2"}, names); diff != "" {
		t.Errorf("vessels of a fresh book:\n%s", diff)
	}
	if b.Rules() != model.DefaultRules() || b.Tally() != (model.Tally{}) {
		t.Error("a fresh book has other rules than the defaults, or plants pulled")
	}
}

// Two books share nothing: a tub bought for one is not in the other.
func TestBooksShareNoVessels(t *testing.T) {
	d := blank(t)
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "tub", Litres: 7}})
	if v, _ := model.NewBook(time.UTC).Vessel("tub"); v.Litres == 7 {
		t.Error("a vessel changed in one book changed in every other")
	}
}

func TestALineNeedsAFactAndATime(t *testing.T) {
	d := shelved(t)
	if _, told := model.AsProblem(d.Check(model.Entry{At: soakDay})); !told {
		t.Error("took a line that says nothing")
	}
	if _, told := model.AsProblem(d.Check(model.Entry{Fact: &model.Mist{}, Plants: model.IDs{1}})); !told {
		t.Error("took a line without a time")
	}
}

// Every line about plants holds that they are there, are not gone, and are
// named once.
func TestPlantsOfALineMustBeThere(t *testing.T) {
	d := shelved(t)
	d.write(&model.Leave{How: model.Sold}, 6)
	for _, f := range []model.Fact{
		&model.Mist{}, &model.Look{Signs: model.LooksFine}, &model.Bloom{}, &model.Rot{}, &model.Pull{}, &model.PutBack{},
		&model.Soak{Load: 1, Vessel: "tub", Due: d.at.Add(time.Hour)}, &model.Out{}, &model.Damp{}, &model.FoundDry{}, &model.Hung{},
		&model.Move{To: model.Home{Shelf: "C"}}, &model.Leave{How: model.Sold},
	} {
		d.refuses(
			refusal{f, nil, "no plants named", "by number, range"},
			refusal{f, model.IDs{9}, "there is no plant 9", ""},
			refusal{f, model.IDs{6}, "plant 6 (#6) has been gone since 2 May 2026", ""},
		)
	}
	for _, f := range []model.Fact{&model.Mist{}, &model.Pull{}, &model.Leave{How: model.Sold}} {
		d.refuses(refusal{f, model.IDs{1, 2, 1}, "plant 1 is named twice", ""})
	}
}

// Gone at half past eleven at night in London is gone the next day in Tallinn.
func TestDaysAreTheGrowersOwn(t *testing.T) {
	d := &diary{model.NewBook(zone(t, "Europe/Tallinn")), t, time.Date(2026, 5, 2, 22, 28, 0, 0, time.UTC)}
	d.write(&model.Add{Plants: []model.Plant{{ID: 1, Count: 1}}})
	d.write(&model.Leave{How: model.Given}, 1)
	d.refuses(refusal{&model.Mist{}, model.IDs{1}, "gone since 3 May 2026", ""})
}

// A book whose lines do not follow from each other names the line that cannot be.
func TestReplayNamesTheLine(t *testing.T) {
	d := shelved(t)
	d.write(&model.Pull{}, 1, 2)
	past := append(d.Entries(), d.entry(&model.Hung{}, 3))
	_, err := model.Replay(past, time.UTC)
	if err == nil || !strings.Contains(err.Error(), "entry 3 (hung, 2026-05-02T09:02:00Z)") {
		t.Errorf("got %v, want it to name entry 3", err)
	}
	if _, told := model.AsProblem(err); !told {
		t.Error("the reason is lost on the way")
	}
}

// Whoever holds the book sees a strike, too: the book stays where it is.
func TestAStrikeChangesTheBookInPlace(t *testing.T) {
	d := shelved(t)
	held := d.Book
	d.write(&model.Strike{Seq: d.write(&model.Move{To: model.Home{Shelf: "C"}}, 1)})
	if held.Row(1).Home.Shelf != "A" {
		t.Error("the struck move still stands")
	}
}

func TestAProblemReadsAsOneLine(t *testing.T) {
	for _, c := range []struct {
		p    model.Problem
		want string
	}{
		{model.Problem{What: "there is no plant 9"}, "there is no plant 9"},
		{model.Problem{What: "a note with nothing in it", Do: "write something"}, "a note with nothing in it; write something"},
	} {
		if got := c.p.Error(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
	if _, told := model.AsProblem(errors.New("disk full")); told {
		t.Error("a full disk is not a thing the book will not take")
	}
}
