package model

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
)

var (
	_ = register[Fill]("fill")
	_ = register[Drain]("drain")
)

// maxLitres bounds an amount of water. A choice: larger is a slip of the comma.
const maxLitres = 1000

// Fill is a vessel filled with fresh water.
type Fill struct {
	Vessel string   `json:"vessel"`
	Of     []Source `json:"of,omitempty"`      // several are a blend; none: not said
	Stood  float64  `json:"stood_h,omitempty"` // hours it had stood elsewhere before
	EC     float64  `json:"ec,omitempty"`      // conductivity at 25 °C, dS/m (= mS/cm); 0 not measured
	TempC  float64  `json:"temp_c,omitempty"`  // °C; 0 not measured
	Fed    *Mix     `json:"fed,omitempty"`     // nil: plain
}

// Kind implements [Fact].
func (Fill) Kind() Kind { return "fill" }

func (f Fill) check(b *Book, e Entry) error {
	if err := b.checkVessel(f.Vessel); err != nil {
		return err
	}
	if open := b.InVessel(f.Vessel); len(open) > 0 {
		return &Problem{
			What: fmt.Sprintf("%s has load %d in it", f.Vessel, open[0].ID),
			Do:   "take the plants out first",
		}
	}
	for _, s := range f.Of {
		if err := s.check(); err != nil {
			return err
		}
	}
	if !(f.Stood >= 0 && f.Stood <= 24*365) {
		return &Problem{
			What: fmt.Sprintf("water that stood for %g hours", f.Stood),
			Do:   "give the hours it stood before",
		}
	}
	if err := checkMeter(f.EC, f.TempC); err != nil {
		return err
	}
	return f.Fed.check()
}

func (f Fill) allow(b *Book, e Entry) error { return f.Fed.allow(b.rules) }

func (f Fill) apply(b *Book, e Entry) {
	v, _ := b.Vessel(f.Vessel)
	f.Vessel = v.Name
	b.waters[v.Name] = &Water{Fill: f, At: e.At}
}

// Drain is a vessel emptied: the closing step of a soak day.
type Drain struct {
	Vessel string `json:"vessel"`
}

// Kind implements [Fact].
func (Drain) Kind() Kind { return "drain" }

func (f Drain) check(b *Book, e Entry) error {
	if err := b.checkVessel(f.Vessel); err != nil {
		return err
	}
	if open := b.InVessel(f.Vessel); len(open) > 0 {
		return &Problem{
			What: fmt.Sprintf("%s has load %d in it", f.Vessel, open[0].ID),
			Do:   "take the plants out first",
		}
	}
	return nil
}

func (f Drain) apply(b *Book, e Entry) {
	v, _ := b.Vessel(f.Vessel)
	delete(b.waters, v.Name)
}

// Water is what stands in a vessel since it was last filled.
type Water struct {
	Fill
	At      time.Time // when it was filled
	Assumed bool      // nobody entered the filling: it began with a load
	Loads   int       // how many it has served, one that is in it included
	FirstIn time.Time // when its first plant went in; zero: none yet
	Worst   Health    // of the plants it served
}

// Water is what stands in a vessel, or nil when it is empty or nobody has said.
// The caller must not change it.
func (b *Book) Water(vessel string) *Water {
	v, _ := b.Vessel(vessel)
	return b.waters[v.Name]
}

// serve notes a load that went into a vessel, and says what it is fed with: what
// was said of the load, else what the vessel was filled with.
func (b *Book) serve(vessel string, fed *Mix, e Entry) *Mix {
	w := b.waters[vessel]
	if w == nil {
		w = &Water{Fill: Fill{Vessel: vessel}, At: e.At, Assumed: true}
		b.waters[vessel] = w
	}
	w.Loads++
	w.Fed = cmp.Or(fed, w.Fed)
	if w.FirstIn.IsZero() {
		w.FirstIn = e.At
	}
	b.each(e.Plants, func(r *Row) { w.Worst = max(w.Worst, b.Health(r, e.At)) })
	return w.Fed
}

// spoilWater notes what an entry finds out of plants whose water still stands: it was theirs
// all the time.
func (b *Book) spoilWater(e Entry) {
	b.each(e.Plants, func(r *Row) {
		l := b.loads[r.Load]
		if l == nil {
			return
		}
		if w := b.waters[l.Vessel]; w != nil && !l.In.Before(w.At) {
			w.Worst = max(w.Worst, b.Health(r, e.At))
		}
	})
}

// forgetAssumed drops the waters that nobody told of, as a new session begins.
func (b *Book) forgetAssumed() {
	for name, w := range b.waters {
		if w.Assumed {
			delete(b.waters, name)
		}
	}
}

func (b *Book) checkVessel(name string) error {
	if _, ok := b.Vessel(name); !ok {
		return b.noVessel(name)
	}
	return nil
}

// noVessel says that there is no vessel of a name, and which was likely meant.
func (b *Book) noVessel(name string) error {
	var names []string
	for _, v := range b.Vessels() {
		names = append(names, v.Name)
	}
	return &Problem{
		What: fmt.Sprintf("there is no vessel %q", name),
		Do:   Meant(name, names, "the vessels are "+b.vesselNames()),
	}
}

// SourceWords says where water comes from: "rain", "a blend of ro, tap", or
// "water" when nobody has said.
func SourceWords(of []Source) string {
	switch len(of) {
	case 0:
		return "water"
	case 1:
		return string(of[0])
	}
	words := make([]string, len(of))
	for i, s := range of {
		words[i] = string(s)
	}
	return "a blend of " + strings.Join(slices.Compact(words), ", ")
}
