package model_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"tubside/model"
)

// scribe is a book that is written in.
type scribe struct {
	*testing.T
	book *model.Book
	at   time.Time
}

func newScribe(t *testing.T) *scribe {
	d := &scribe{t, model.NewBook(time.UTC), time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)}
	d.write(&model.Add{Plants: []model.Plant{
		{ID: 1, Count: 1, Home: model.Home{Shelf: "Sill"}}, {ID: 2, Count: 1, Home: model.Home{Shelf: "Rail"}},
	}})
	return d
}

func (d *scribe) write(f model.Fact, ids ...model.ID) {
	d.Helper()
	if err := d.try(f, ids...); err != nil {
		d.Fatalf("%s: %v", f.Kind(), err)
	}
}

// try writes a line an hour after the last, through its form on disk.
func (d *scribe) try(f model.Fact, ids ...model.ID) error {
	d.Helper()
	d.at = d.at.Add(time.Hour)
	e := model.NewEntry(d.at, f, ids...)
	if err := d.book.Check(e); err != nil {
		return err
	}
	text, err := json.Marshal(e)
	if err != nil {
		return err
	}
	var back model.Entry
	if err := json.Unmarshal(text, &back); err != nil {
		return err
	}
	back.Seq = model.Seq(len(d.book.Entries()) + 1)
	return d.book.Apply(back)
}

func (d *scribe) refuses(what string, f model.Fact, ids ...model.ID) {
	d.Helper()
	err := d.try(f, ids...)
	if err == nil || !strings.Contains(err.Error(), what) {
		d.Errorf("%s: %v, want a problem with %q", f.Kind(), err, what)
	}
}

func (d *scribe) soaked(ids ...model.ID) {
	d.Helper()
	d.write(&model.Soak{Load: d.book.NextLoad(), Vessel: "tub", Due: d.at.Add(2 * time.Hour)}, ids...)
	d.write(&model.Out{Shaken: true}, ids...)
}

func TestAPlantOnTheScale(t *testing.T) {
	d := newScribe(t)
	d.write(&model.Weigh{Grams: 31}, 1)
	d.refuses("comes out of the water", &model.Weigh{Grams: 40, Wet: true}, 1)
	d.soaked(1)
	d.refuses("weigh it dry", &model.Weigh{Grams: 39}, 1)
	d.write(&model.Weigh{Grams: 40, Wet: true}, 1)
	if r := d.book.Row(1); r.Weight.Grams != 31 || r.WetWeight.Grams != 40 || !r.WetWeight.At.Equal(d.at) {
		t.Errorf("weights %+v and %+v", r.Weight, r.WetWeight)
	}
	d.refuses("grams", &model.Weigh{}, 2)
	d.refuses("one plant at a time", &model.Weigh{Grams: 5}, 1, 2)
}

func TestAShelfHasItsClimate(t *testing.T) {
	d := newScribe(t)
	if f := d.book.ShelfFactor("Sill"); f != 1 {
		t.Errorf("a shelf nobody spoke of: %g", f)
	}
	d.write(&model.ShelfSet{Name: "sill", Factor: 1.4})
	if f := d.book.ShelfFactor(" SILL"); f != 1.4 {
		t.Errorf("shelf sill: %g", f)
	}
	if f := d.book.ShelfFactor("Rail"); f != 1 {
		t.Errorf("another shelf: %g", f)
	}
	d.refuses("no plants on shelf", &model.ShelfSet{Name: "Attic", Factor: 1.4})
	d.refuses("1 is as elsewhere", &model.ShelfSet{Name: "Sill", Factor: 9})
	d.refuses("without a name", &model.ShelfSet{Factor: 2})
}

func TestTheWindow(t *testing.T) {
	d := newScribe(t)
	if w := d.book.Window(d.at); w.Window != model.DoorOpen || !w.At.IsZero() {
		t.Errorf("at first %+v", w)
	}
	d.write(&model.WindowSet{Window: model.WindowOpen})
	opened := d.at
	d.write(&model.WindowSet{Window: model.Extractor})
	if w := d.book.Window(opened.Add(time.Minute)); w.Window != model.WindowOpen || !w.At.Equal(opened) {
		t.Errorf("after opening %+v", w)
	}
	if w := d.book.Window(d.at); w.Window != model.Extractor {
		t.Errorf("now %+v", w)
	}
	d.refuses("shut, door, open or extractor", &model.WindowSet{Window: "ajar"})
	rules := d.book.Rules()
	if s, o, x := rules.AirChangesWith(model.WindowShut), rules.AirChangesWith(model.WindowOpen), rules.AirChangesWith(model.Extractor); !(s < x && x < o) {
		t.Errorf("air changes shut %g, extractor %g, open %g", s, x, o)
	}
}
