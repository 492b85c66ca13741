package accounts

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"

	"tubside/model"
)

// Flow is what came and went in one place over the period, in plants.
// Opening + Gained - Left + Recounted + Moved = Closing, always.
type Flow struct {
	Opening   int // there when the period began
	Listed    int // in the home already, and written into the book in the period
	Came      int // new to the home
	Offsets   int // taken off a mother as plants of their own
	Lost      int
	Sold      int
	Given     int
	Recounted int // counted anew: more is positive
	Moved     int // in from elsewhere, less those gone elsewhere; 0 for the whole
	Closing   int // there at the end
	Rows      int // rows they stand in at the end
}

// Gained is what came into the book in the period.
func (f Flow) Gained() int { return f.Listed + f.Came + f.Offsets }

// Left is what went in the period, by whichever way.
func (f Flow) Left() int { return f.Lost + f.Sold + f.Given }

// newcomerDays is how long before its entry a plant may have come and still be
// new to the home. A choice: an order unpacked, and written up within the month.
const newcomerDays = 31

// keyOf says which line of a table a row belongs to as it stands.
type keyOf func(id model.ID, s standing) string

func everything(model.ID, standing) string { return "" }

// flows adds up the changes by key. The key "" is there even when nothing came.
func (w *past) flows(p period, key keyOf) map[string]*Flow {
	lines := map[string]*Flow{}
	line := func(k string) *Flow {
		if lines[k] == nil {
			lines[k] = &Flow{}
		}
		return lines[k]
	}
	line("")
	for _, c := range w.changes {
		if !c.at.Before(p.until) {
			continue
		}
		was, is := line(key(c.id, c.was)), line(key(c.id, c.is))
		if c.at.Before(p.from) {
			was.Opening -= c.was.plants()
			is.Opening += c.is.plants()
		} else {
			w.enter(c, was, is)
		}
		was.Closing -= c.was.plants()
		is.Closing += c.is.plants()
		was.Rows -= c.was.rows()
		is.Rows += c.is.rows()
	}
	return lines
}

// enter puts one change of the period in its columns.
func (w *past) enter(c change, was, is *Flow) {
	switch {
	case !c.was.here && c.is.here:
		*w.gain(c, is) += c.is.count
	case c.was.here && !c.is.here:
		*loss(c, was) += c.was.count
	case c.was.here:
		was.Moved -= c.was.count
		is.Moved += c.was.count
		recount := &is.Recounted
		if _, split := c.fact.(*model.Split); split {
			recount = &is.Moved // the rest is the new row
		}
		*recount += c.is.count - c.was.count
	}
}

// gain is the column of a row that came.
func (w *past) gain(c change, f *Flow) *int {
	switch fact := c.fact.(type) {
	case *model.Split:
		if fact.Offset {
			return &f.Offsets
		}
		return &f.Moved
	case *model.Add, *model.Import:
		if w.isNewcomer(c) {
			return &f.Came
		}
		return &f.Listed
	}
	return &f.Offsets
}

// isNewcomer reports whether a row was new to the home when it came into the
// book. Without a day acquired, one of a file was there before and one added by
// hand is new.
func (w *past) isNewcomer(c change) bool {
	came := w.book.Row(c.id).Acquired
	if came == 0 {
		_, list := c.fact.(*model.Import)
		return !list
	}
	return c.at.Sub(model.NoonOf(came, w.book.Zone())) < newcomerDays*24*time.Hour
}

func loss(c change, f *Flow) *int {
	switch c.is.how {
	case model.Sold:
		return &f.Sold
	case model.Given:
		return &f.Given
	}
	return &f.Lost
}

func (s standing) plants() int {
	if !s.here {
		return 0
	}
	return s.count
}

func (s standing) rows() int {
	if !s.here {
		return 0
	}
	return 1
}

// byForm goes by what the grower says of a row in the end: a form put right
// later is right for all its past.
func (w *past) byForm(p period) []Line {
	return sorted(w.flows(p, func(id model.ID, _ standing) string { return string(w.formOf(id)) }), compareForms)
}

func (w *past) formOf(id model.ID) model.Form { return w.book.Row(id).Form }

func compareForms(a, b string) int { return cmp.Compare(formRank(a), formRank(b)) }

func formRank(form string) int {
	if i := slices.Index(model.Forms, model.Form(form)); i >= 0 {
		return i
	}
	return len(model.Forms)
}

// byShelf goes by where a row hung at the time.
func (w *past) byShelf(p period) []Line {
	return sorted(w.flows(p, func(_ model.ID, s standing) string { return s.shelf }), func(a, b string) int {
		if (a == "") != (b == "") {
			return strings.Compare(b, a) // those without a shelf last
		}
		return model.NaturalCompare(a, b)
	})
}

// sorted lists the lines on which there is anything, in order.
func sorted(lines map[string]*Flow, compare func(a, b string) int) []Line {
	all := []Line{}
	for _, k := range slices.SortedFunc(maps.Keys(lines), compare) {
		if f := *lines[k]; f != (Flow{}) {
			all = append(all, Line{k, f})
		}
	}
	return all
}

// byMonth cuts the period at the first of each month.
func (w *past) byMonth(p period) []Line {
	var lines []Line
	for from := p.from; from.Before(p.until); {
		local := from.In(w.book.Zone())
		next := time.Date(local.Year(), local.Month()+1, 1, 0, 0, 0, 0, w.book.Zone())
		month := period{from, next}
		if p.until.Before(next) {
			month.until = p.until
		}
		lines = append(lines, Line{local.Format("2006-01"), *w.flows(month, everything)[""]})
		from = next
	}
	return lines
}
