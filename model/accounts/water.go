package accounts

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/feed"
)

// Water is the water used in vessels over the period. Litres are those of the
// vessels as they were then.
type Water struct {
	Litres  float64
	Fills   int // vessels filled
	Assumed int // of those, nobody entered the filling: see [past.begins]
	Sources []SourceUse
}

// SourceUse is the water of one source, in the words of [model.SourceWords].
type SourceUse struct {
	Source string
	Fills  int
	Litres float64
}

// Feed is what was mixed of one powder over the period.
type Feed struct {
	Powder   string  // as on its label; may be empty
	Mixes    int     // how often it was mixed
	Litres   float64 // of fed water, where the amount is known
	Grams    float64 // of powder, where its nitrogen, the strength and the amount are known
	Nitrogen float64 // g, where the strength in ppm and the amount are known
	Unknown  int     // mixes of which the grams could not be worked out
}

// fill is a vessel filled.
type fill struct {
	at      time.Time
	source  string
	litres  float64
	assumed bool
}

// mix is fed water mixed.
type mix struct {
	at     time.Time
	litres float64 // 0 unknown
	model.Mix
}

// filled is what stood in a vessel before an entry.
type filled struct {
	water *model.Water
	fed   *model.Mix
}

// waterOf is what stands in the vessel that an entry is about.
func (w *past) waterOf(e model.Entry) (f filled) {
	if soak, ok := e.Fact.(*model.Soak); ok {
		if f.water = w.then.Water(soak.Vessel); f.water != nil {
			f.fed = f.water.Fed
		}
	}
	return f
}

// noteWater keeps what an entry says of water and feed.
func (w *past) noteWater(e model.Entry, before filled) {
	switch f := e.Fact.(type) {
	case *model.Fill:
		litres := w.litresOf(f.Vessel)
		w.fills = append(w.fills, fill{e.At, model.SourceWords(f.Of), litres, false})
		w.noteMix(e.At, litres, f.Fed)
	case *model.Soak:
		fresh := w.begins(e, f.Vessel, before)
		if fresh {
			w.fills = append(w.fills, fill{e.At, model.SourceWords(nil), w.litresOf(f.Vessel), true})
		}
		if fresh || before.fed == nil || f.Fed != nil && *before.fed != *f.Fed {
			w.noteMix(e.At, w.litresOf(f.Vessel), f.Fed)
		}
	case *model.Feed:
		w.noteMix(e.At, f.Litres, &f.Mix)
	case *model.Bottle:
		w.noteMix(e.At, 0, f.Fed)
	}
}

// served is how often a vessel took a load on a day since it was last filled.
type served struct {
	day   string
	loads int
}

// begins reports whether a load began a filling that nobody entered: the vessel
// was empty, or it was filled by nobody and served on another day, or as many
// loads as the house rule lets one filling serve. Water is not kept for the next
// day (common practice, no source).
func (w *past) begins(e model.Entry, vessel string, before filled) bool {
	now := w.then.Water(vessel)
	s := w.served[now.Vessel]
	fresh := now.Assumed &&
		(now != before.water || s.day != dayOf(e.At, w.book) || s.loads >= int(w.book.Rules()[model.FillLoads]))
	if fresh {
		s = served{day: dayOf(e.At, w.book)}
	}
	s.loads++
	w.served[now.Vessel] = s
	return fresh
}

func (w *past) litresOf(vessel string) float64 {
	v, _ := w.then.Vessel(vessel)
	return v.Litres
}

func (w *past) noteMix(at time.Time, litres float64, m *model.Mix) {
	if m != nil {
		w.mixes = append(w.mixes, mix{at, litres, *m})
	}
}

func (w *past) water(p period) Water {
	var all Water
	by := map[string]*SourceUse{}
	for _, f := range w.fills {
		if !p.has(f.at) {
			continue
		}
		if by[f.source] == nil {
			by[f.source] = &SourceUse{Source: f.source}
		}
		by[f.source].Fills++
		by[f.source].Litres += f.litres
		all.Fills++
		all.Litres += f.litres
		if f.assumed {
			all.Assumed++
		}
	}
	for _, u := range by {
		all.Sources = append(all.Sources, *u)
	}
	slices.SortFunc(all.Sources, func(a, b SourceUse) int {
		return cmp.Or(cmp.Compare(b.Litres, a.Litres), cmp.Compare(a.Source, b.Source))
	})
	return all
}

func (w *past) feeds(p period) []Feed {
	by := map[string]*Feed{}
	for _, m := range w.mixes {
		if !p.has(m.at) {
			continue
		}
		if by[m.Powder] == nil {
			by[m.Powder] = &Feed{Powder: m.Powder}
		}
		by[m.Powder].add(m)
	}
	all := []Feed{}
	for _, powder := range slices.Sorted(maps.Keys(by)) {
		all = append(all, *by[powder])
	}
	return all
}

func (f *Feed) add(m mix) {
	f.Mixes++
	f.Litres += m.litres
	f.Nitrogen += m.litres * m.PPM / 1000
	if m.litres == 0 || m.PPM == 0 || m.N == 0 {
		f.Unknown++
		return
	}
	f.Grams += m.litres * feed.GramsPerLitre(m.PPM, m.N)
}
