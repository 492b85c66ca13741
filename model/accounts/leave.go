package accounts

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"

	"tubside/model"
)

// Loss is what was lost to one cause.
type Loss struct {
	Cause  string // as the grower wrote it, in lower case
	Plants int
	Rows   int
	ByForm []FormCount // in the order of model.Forms
}

// FormCount is a number of plants of one form.
type FormCount struct {
	Form   model.Form
	Plants int
}

// Departure is one row that left.
type Departure struct {
	At     time.Time
	ID     model.ID
	Plants int
	How    string // model.Lost, model.Sold or model.Given
	Cause  string // of a loss
	Note   string // for whom, for how much, what was seen
}

// departures lists who left in the period.
func (w *past) departures(p period) []Departure {
	all := []Departure{}
	for _, c := range w.gone(p) {
		d := Departure{At: c.at, ID: c.id, Plants: c.was.count, How: c.is.how, Cause: c.is.cause}
		if f, ok := c.fact.(*model.Leave); ok {
			d.Note = f.Note
		}
		all = append(all, d)
	}
	slices.SortStableFunc(all, func(a, b Departure) int { return a.At.Compare(b.At) })
	return all
}

// gone lists the changes by which a row left in the period.
func (w *past) gone(p period) []change {
	var gone []change
	for _, c := range w.changes {
		if c.was.here && !c.is.here && p.has(c.at) {
			gone = append(gone, c)
		}
	}
	return gone
}

func (w *past) causes(p period) []Loss {
	by := map[string]*Loss{}
	for _, c := range w.gone(p) {
		if c.is.how != model.Lost {
			continue
		}
		cause := plainCause(c.is.cause)
		if by[cause] == nil {
			by[cause] = &Loss{Cause: cause}
		}
		by[cause].add(w.formOf(c.id), c.was.count)
	}
	all := []Loss{}
	for _, cause := range slices.Sorted(maps.Keys(by)) {
		all = append(all, *by[cause])
	}
	slices.SortStableFunc(all, func(a, b Loss) int { return cmp.Compare(b.Plants, a.Plants) })
	return all
}

func plainCause(s string) string { return strings.ToLower(strings.TrimSpace(s)) }

func (l *Loss) add(form model.Form, plants int) {
	l.Plants += plants
	l.Rows++
	i, known := slices.BinarySearchFunc(l.ByForm, form, func(f FormCount, form model.Form) int {
		return compareForms(string(f.Form), string(form))
	})
	if !known {
		l.ByForm = slices.Insert(l.ByForm, i, FormCount{Form: form})
	}
	l.ByForm[i].Plants += plants
}
