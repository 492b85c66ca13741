package accounts

import (
	"math"
	"slices"
	"time"

	"tubside/model"
)

// bath is one soak of one row.
type bath struct {
	id      model.ID
	in, out time.Time
	dry     time.Time // found dry; zero when nobody looked
}

// noteBaths keeps what an entry says of soaks that ended.
func (w *past) noteBaths(e model.Entry) {
	switch e.Fact.(type) {
	case *model.Out:
		for _, id := range e.Plants {
			r := w.then.Row(id)
			w.last[id] = len(w.baths)
			w.baths = append(w.baths, bath{id: id, in: r.In, out: r.Out})
		}
	case *model.FoundDry, *model.Damp:
		for _, id := range e.Plants {
			if i, soaked := w.last[id]; soaked {
				w.baths[i].dry = w.then.Row(id).DryAt
			}
		}
	}
}

// Intervals is how the days between soaks held to the plants' own rhythm. An
// interval runs from coming out of one soak to going into the next, and counts
// in the period in which it ends. Soaks only told with a plant do not count.
type Intervals struct {
	Of   Group
	Form model.Form // of a group ByForm

	Count            int     // intervals that ended in the period
	Median, Low, Top float64 // days: the middle, and the ends of the middle 80 %

	Kept   int // within a third of the plant's habit
	Sooner int // shorter than that
	Later  int // longer than that
	Rushed int // shorter than the house rule for days between soaks; they are among the others too
	Due    int // rows whose interval runs on at the end and is later already; not among the others
}

// keptWithin is how far from the plant's habit an interval may be and still be
// kept, as a share of the habit. A choice: with a weekly soak, 5 to 9 days.
const keptWithin = 1.0 / 3

// habitFrom is how many intervals a plant must have before their median is its
// habit; until then the median of all plants is. A choice: one odd
// interval moves the mean of two, not the median of three.
const habitFrom = 3

// interval is one while between soaks.
type interval struct {
	id   model.ID
	end  time.Time
	days float64
}

// between lists every interval that ended before a time, and for each plant
// the end of its last soak.
func (w *past) between(until time.Time) (all []interval, lastOut map[model.ID]time.Time) {
	lastOut = map[model.ID]time.Time{}
	for _, x := range w.baths {
		if !x.in.Before(until) {
			continue
		}
		if before, known := lastOut[x.id]; known && x.in.After(before) {
			all = append(all, interval{x.id, x.in, x.in.Sub(before).Hours() / 24})
		}
		lastOut[x.id] = x.out
	}
	return all, lastOut
}

// habits is the median interval of each plant with enough of them, and of all
// plants under the number 0.
func habits(all []interval) map[model.ID]float64 {
	days := map[model.ID][]float64{}
	for _, x := range all {
		days[x.id] = append(days[x.id], x.days)
		days[0] = append(days[0], x.days)
	}
	habit := map[model.ID]float64{}
	for id, some := range days {
		if id == 0 || len(some) >= habitFrom {
			habit[id] = quantile(some, 0.5)
		}
	}
	return habit
}

// quantile is the q quantile (over 0 to 1) of some numbers, which it sorts: the
// empirical distribution with straight lines between its steps (definition 4 of
// Hyndman & Fan 1996, The American Statistician 50:361-365; from memory).
func quantile(x []float64, q float64) float64 {
	if len(x) == 0 {
		return 0
	}
	slices.Sort(x)
	at := q * float64(len(x))
	i := min(max(int(math.Ceil(at))-1, 0), len(x)-1)
	if i == 0 {
		return x[0]
	}
	back := float64(i+1) - at
	return back*x[i-1] + (1-back)*x[i]
}

func (w *past) intervals(p period) []Intervals {
	all, lastOut := w.between(p.until)
	habit, rest := habits(all), w.book.Rules()[model.RestDays]
	groups := []Intervals{{Of: All}}
	for _, form := range append(model.Forms[:len(model.Forms):len(model.Forms)], "") {
		groups = append(groups, Intervals{Of: ByForm, Form: form})
	}
	days := make([][]float64, len(groups))
	for _, x := range all {
		if p.has(x.end) {
			for _, g := range []int{0, 1 + formRank(string(w.formOf(x.id)))} {
				groups[g].judge(x.days, habitOf(habit, x.id), rest)
				days[g] = append(days[g], x.days)
			}
		}
	}
	kept := []Intervals{}
	for i, g := range groups {
		g.Median, g.Low, g.Top = quantile(days[i], 0.5), quantile(days[i], 0.1), quantile(days[i], 0.9)
		g.Due = w.due(g, p.until, lastOut, habit)
		if g.Of == All || g.Count+g.Due > 0 {
			kept = append(kept, g)
		}
	}
	return kept
}

func (g *Intervals) has(form model.Form) bool { return g.Of == All || g.Form == form }

func habitOf(habit map[model.ID]float64, id model.ID) float64 {
	if own, known := habit[id]; known {
		return own
	}
	return habit[0]
}

func (g *Intervals) judge(days, habit, rest float64) {
	g.Count++
	switch {
	case days < habit*(1-keptWithin):
		g.Sooner++
	case days > habit*(1+keptWithin):
		g.Later++
	default:
		g.Kept++
	}
	if days < rest {
		g.Rushed++
	}
}

// due counts the rows of a group whose interval at the end is later than their
// habit.
func (w *past) due(g Intervals, until time.Time, lastOut map[model.ID]time.Time, habit map[model.ID]float64) (n int) {
	for id, out := range lastOut {
		r := w.book.Row(id)
		late := until.Sub(out).Hours()/24 > habitOf(habit, id)*(1+keptWithin)
		elsewhere := (r.State == model.Gone || r.State == model.Soaking) && r.Since.Before(until)
		if late && !elsewhere && habit[0] > 0 && g.has(r.Form) {
			n++
		}
	}
	return n
}
