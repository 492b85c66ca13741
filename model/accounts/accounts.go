// Package accounts is the year-end view of a book: what came and went and why,
// how long plants lasted, what followed a soak, which intervals were kept, and
// what it all took. It is plain data; who shows it adds the words.
package accounts

import (
	"fmt"
	"time"

	"tubside/model"
)

// Ledger is the account of a book over a period. Plants are single plants: a
// tray of twelve counts twelve, unless a field says rows. Struck entries do not
// count, and neither does what was entered for a time after Until.
type Ledger struct {
	From, Until time.Time // From counts, Until does not

	Whole   Flow   // the whole collection
	ByForm  []Line // a line a form, in the order of model.Forms, those nobody gave a form last
	ByShelf []Line // a line a shelf, in walking order
	ByMonth []Line // a line a month of the grower's calendar that the period touches; the key is 2026-01
	Causes  []Loss // the losses by cause, the most plants first

	Departures []Departure // every loss, sale and gift, the earliest first

	Survival  []Survival // the whole first, then newcomers, then a form each
	Rot       Rot
	Intervals []Intervals // the whole first, then a form each
	Work      Work
	Water     Water
	Feeds     []Feed // by powder, in order of its name
}

// Line is one line of a table: its key and what came and went there.
type Line struct {
	Key string
	Flow
}

// Of draws up the ledger of a book from one time to another. Until must not be
// in the future: plants are counted as watched until then. A period that ends
// before it begins is a [model.Problem].
func Of(b *model.Book, from, until time.Time) (Ledger, error) {
	if !from.Before(until) {
		return Ledger{}, &model.Problem{
			What: fmt.Sprintf("a period from %s to %s", dayOf(from, b), dayOf(until, b)),
			Do:   "give one that ends after it begins",
		}
	}
	w, err := walk(b)
	if err != nil {
		return Ledger{}, fmt.Errorf("read the past: %w", err)
	}
	p := period{from, until}
	l := Ledger{
		From: from, Until: until, Whole: *w.flows(p, everything)[""],
		ByForm: w.byForm(p), ByShelf: w.byShelf(p), ByMonth: w.byMonth(p), Causes: w.causes(p),
		Departures: w.departures(p), Rot: w.rot(p), Intervals: w.intervals(p), Work: w.work(p), Water: w.water(p),
		Feeds: w.feeds(p),
	}
	l.Survival, err = w.survival(until)
	return l, err
}

func dayOf(t time.Time, b *model.Book) string { return t.In(b.Zone()).Format("2006-01-02") }

// period is the times from From on, before Until.
type period struct{ from, until time.Time }

func (p period) has(t time.Time) bool { return !t.Before(p.from) && t.Before(p.until) }
