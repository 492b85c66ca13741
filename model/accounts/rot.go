package accounts

import (
	"math"
	"slices"
	"time"

	"tubside/model"
)

// spell is one suspicion of rot on one row.
type spell struct {
	at    time.Time
	sound time.Time // found sound after all; zero when not
	lost  bool      // the row was lost to rot
	part  bool      // it came with the tray the row was split off, whose case it is
}

// noteRot keeps when a suspicion begins and how it ends. A loss to rot that
// nobody suspected before is a spell of its own.
func (w *past) noteRot(at time.Time, id model.ID, was, is standing) {
	all := w.spells[id]
	lost := was.here && !is.here && is.how == model.Lost && plainCause(is.cause) == "rot"
	switch {
	case !was.rot && (is.rot || lost):
		w.spells[id] = append(all, spell{at: at, lost: lost})
	case was.rot && lost:
		all[len(all)-1].lost = true
	case was.rot && !is.rot:
		all[len(all)-1].sound = at
	}
}

// RotDays is how long after a soak suspected rot is put beside it. Growers see
// it 3 to 10 days after; two weeks is a choice, to miss
// few.
const RotDays = 14

// Rot is what followed the soaks of the period. A plant soaked weekly has two
// soaks in two weeks, so one case can stand behind two soaks. The shares
// compare this home's habits with each other; they prove no cause.
type Rot struct {
	Cases int // suspicions that began in the period, and losses to rot nobody suspected before
	Sound int // of those, found sound after all
	Lost  int // of those, lost to rot
	Soaks int // soaks of the period, a row each, that were watched long enough
	After int // of those, followed by suspected rot within RotDays
	Open  int // soaks not watched long enough: too lately, or the plant left. They are in no bin

	ByMinutes []Bin // by minutes in the water, cut where the house rules end a band
	ByDrying  []Bin // by hours from out of the water to found dry; the last: nobody looked
	ByForm    []Bin // by form, those nobody gave a form last
}

// Bin is the soaks of one kind, and after how many rot was suspected.
type Bin struct {
	Key      string  // the form, for ByForm
	From, To float64 // above From, up to To; To is +Inf where there is no end
	Unseen   bool    // nobody looked when the plant was dry
	Soaks    int
	Rot      int
}

func (b *Bin) add(rot bool) {
	b.Soaks++
	if rot {
		b.Rot++
	}
}

// dryingHours cuts the drying bins: the house rules' defaults for a fuzzy plant,
// any plant and a clump, and twice the last.
var dryingHours = []float64{2, 4, 6, 12}

func (w *past) rot(p period) Rot {
	rules := w.book.Rules()
	r := Rot{
		ByMinutes: bins(rules[model.DipTo], rules[model.ShortTo], rules[model.LongTo], rules[model.OvernightFrom]),
		ByDrying:  append(bins(dryingHours...), Bin{Unseen: true}),
	}
	for _, form := range append(model.Forms[:len(model.Forms):len(model.Forms)], "") {
		r.ByForm = append(r.ByForm, Bin{Key: string(form)})
	}
	w.countCases(p, &r)
	left := map[model.ID]time.Time{}
	for _, c := range w.gone(period{until: p.until}) {
		left[c.id] = c.at
	}
	for _, x := range w.baths {
		if p.has(x.out) {
			w.countBath(x, p.until, left[x.id], &r)
		}
	}
	r.ByForm = slices.DeleteFunc(r.ByForm, func(b Bin) bool { return b.Soaks == 0 })
	return r
}

// bins are as many as the edges and one more.
func bins(edges ...float64) []Bin {
	var all []Bin
	from := 0.0
	for _, to := range append(edges, math.Inf(1)) {
		all = append(all, Bin{From: from, To: to})
		from = to
	}
	return all
}

func (w *past) countCases(p period, r *Rot) {
	for _, spells := range w.spells {
		for _, s := range spells {
			if s.part || !p.has(s.at) {
				continue
			}
			r.Cases++
			if !s.sound.IsZero() && s.sound.Before(p.until) {
				r.Sound++
			}
			if s.lost {
				r.Lost++
			}
		}
	}
}

// countBath puts one soak in its bins, if it was watched long enough.
func (w *past) countBath(x bath, until, left time.Time, r *Rot) {
	end := x.out.AddDate(0, 0, RotDays)
	after, before := w.suspected(x, end, until)
	switch {
	case before:
		r.Open++ // it was suspected when it went in: nothing can be learned from it
		return
	case end.After(until), !after && !left.IsZero() && left.Before(end):
		r.Open++ // counting the early cases among these alone would make soaks look worse
		return
	}
	r.Soaks++
	if after {
		r.After++
	}
	r.bin(x, w.formOf(x.id), after)
}

func (r *Rot) bin(x bath, form model.Form, rot bool) {
	at(r.ByMinutes, x.out.Sub(x.in).Minutes()).add(rot)
	if x.dry.IsZero() {
		r.ByDrying[len(r.ByDrying)-1].add(rot)
	} else {
		at(r.ByDrying, x.dry.Sub(x.out).Hours()).add(rot)
	}
	r.ByForm[formRank(string(form))].add(rot)
}

// at is the bin a value falls in.
func at(all []Bin, v float64) *Bin {
	return &all[slices.IndexFunc(all, func(b Bin) bool { return v <= b.To })]
}

// suspected reports whether a suspicion began after the plant went into the
// water and by an end, and whether one stood already when it went in.
func (w *past) suspected(x bath, end, until time.Time) (after, before bool) {
	for _, s := range w.spells[x.id] {
		switch {
		case !s.at.Before(until) || s.at.After(end):
		case s.at.After(x.in):
			after = true
		case s.sound.IsZero() || s.sound.After(x.in):
			before = true
		}
	}
	return after, before
}
