package accounts

import (
	"time"

	"tubside/model"
	"tubside/model/ledger"
)

// Survival is how long the rows of one kind have lasted, over the whole book
// until the end of the period. A row counts once however many plants stand in
// it, because a tray is lost together.
type Survival struct {
	Of     Group
	Form   model.Form // of a group ByForm; may be empty: nobody said
	Rows   int        // watched at all
	Lost   int        // lost in that time
	Curve  ledger.Curve
	Median ledger.Median
}

// Group says which rows a survival or a table of intervals is about.
type Group string

// The groups.
const (
	All       Group = "all"
	Newcomers Group = "newcomers" // new to the home when they came into the book
	ByForm    Group = "form"
)

// BandLevel is the coverage of the bands around a survival curve at each single
// time: the usual 95 %.
const BandLevel = 0.95

// watch is one row under watch.
type watch struct {
	model.Form
	newcomer bool
	ledger.Observation
}

// watches lists how long each row was watched until a time. The watch begins
// when the row comes into the book; for one that was new to the home then, when
// it came. Counting an old plant from the day it was acquired would count years
// in which it could not be seen lost, for had it been, it would not be in the
// book: every curve would look too good. What was sold or given away, and what
// is alive, is watched no longer (censored).
func (w *past) watches(until time.Time) []watch {
	began, ended, fresh := map[model.ID]time.Time{}, map[model.ID]change{}, map[model.ID]bool{}
	for _, c := range w.changes {
		switch {
		case !c.at.Before(until):
		case !c.was.here && c.is.here:
			began[c.id], fresh[c.id] = w.start(c)
		case c.was.here && !c.is.here:
			ended[c.id] = c
		}
	}
	var all []watch
	for _, id := range w.book.IDs() {
		from, known := began[id]
		if !known {
			continue
		}
		end, lost := until, false
		if c, gone := ended[id]; gone {
			end, lost = c.at, c.is.how == model.Lost
		}
		days := max(0, end.Sub(from).Hours()/24)
		all = append(all, watch{w.formOf(id), fresh[id], ledger.Observation{Days: days, Lost: lost}})
	}
	return all
}

// start is when the watch on a new row begins, and whether it was new to the
// home.
func (w *past) start(c change) (time.Time, bool) {
	var f Flow
	newcomer := w.gain(c, &f) == &f.Came
	if came := w.book.Row(c.id).Acquired; newcomer && came != 0 {
		if noon := model.NoonOf(came, w.book.Zone()); noon.Before(c.at) {
			return noon, true
		}
	}
	return c.at, newcomer
}

func (w *past) survival(until time.Time) ([]Survival, error) {
	all := w.watches(until)
	groups := []Survival{{Of: All}, {Of: Newcomers}}
	for _, form := range append(model.Forms[:len(model.Forms):len(model.Forms)], "") {
		groups = append(groups, Survival{Of: ByForm, Form: form})
	}
	kept := []Survival{}
	for _, g := range groups {
		if err := g.fill(all); err != nil {
			return nil, err
		}
		if g.Rows > 0 || g.Of == All {
			kept = append(kept, g)
		}
	}
	return kept, nil
}

// fill works out a group's curve.
func (g *Survival) fill(all []watch) error {
	var some []ledger.Observation
	for _, o := range all {
		if g.Of == All || g.Of == Newcomers && o.newcomer || g.Of == ByForm && o.Form == g.Form {
			some = append(some, o.Observation)
			if o.Lost {
				g.Lost++
			}
		}
	}
	g.Rows = len(some)
	var err error
	g.Curve, err = ledger.Survival(some, BandLevel)
	g.Median = g.Curve.Median()
	return err
}
