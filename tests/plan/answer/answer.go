// Package answer holds the plan command's JSON against the rules of a soak day,
// from the JSON alone: it knows nothing of the program that wrote it.
package answer

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"
)

// Plan is the JSON of a plan.
type Plan struct {
	Vessels []struct {
		Name   string  `json:"name"`
		Litres float64 `json:"litres"`
	} `json:"vessels"`
	Loads     []Load     `json:"loads"`
	Actions   []Action   `json:"actions"`
	HandsFree time.Time  `json:"hands_free_at"`
	AllDry    time.Time  `json:"all_dry_by"`
	Bound     time.Time  `json:"lower_bound"`
	Left      []Unplaced `json:"left_out"`
}

// Load is one load of it.
type Load struct {
	Vessel string    `json:"vessel"`
	Fill   int       `json:"fill"`
	Start  time.Time `json:"start"`
	Out    time.Time `json:"out"`
	Plants []Plant   `json:"plants"`
}

// Plant is one row in a load.
type Plant struct {
	ID       int       `json:"id"`
	Bulk     float64   `json:"bulk_litres"`
	From     float64   `json:"minutes_from"`
	To       float64   `json:"minutes_to"`
	HandsIn  int       `json:"hands_in_s"`
	HandsOut int       `json:"hands_out_s"`
	Company  string    `json:"company"`
	In       time.Time `json:"in"`
	Out      time.Time `json:"out"`
}

// Action is one thing to do.
type Action struct {
	At     time.Time `json:"at"`
	Until  time.Time `json:"until"`
	Do     string    `json:"do"`
	Vessel string    `json:"vessel"`
	IDs    []int     `json:"ids"`
}

// Unplaced is a plant without a place.
type Unplaced struct {
	ID     int    `json:"id"`
	Reason string `json:"reason"`
}

// Limits are what the house rules said when the plan was made.
type Limits struct {
	From  time.Time     // no hands before; what went in earlier was in the water already, and may be late
	Loads int           // loads that one fill serves
	Used  time.Duration // from a fill's first plant in to its last load in
}

// faults collects what is wrong.
type faults []string

func (f *faults) add(format string, args ...any) { *f = append(*f, fmt.Sprintf(format, args...)) }

// Check lists every rule that the plan breaks, in words; none if it is right.
func Check(text []byte, limits Limits) ([]string, error) {
	var p Plan
	if err := json.Unmarshal(text, &p); err != nil {
		return nil, fmt.Errorf("read the plan: %w", err)
	}
	var f faults
	f.once(&p)
	for i := range p.Loads {
		f.load(&p, &p.Loads[i], limits)
	}
	f.hands(&p, limits)
	for _, v := range p.Vessels {
		f.vessel(&p, v.Name, limits)
	}
	f.actions(&p, limits)
	return f, nil
}

// once: no plant twice, none both planned and left out, none left out without a
// reason.
func (f *faults) once(p *Plan) {
	seen := map[int]int{}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			seen[t.ID]++
		}
	}
	for _, l := range p.Left {
		seen[l.ID]++
		if l.Reason == "" {
			f.add("plant %d is left out without a reason", l.ID)
		}
	}
	for id, n := range seen {
		if n > 1 {
			f.add("plant %d is planned or left out %d times", id, n)
		}
	}
}

// load: windows, order, room and company.
func (f *faults) load(p *Plan, l *Load, limits Limits) {
	if len(l.Plants) == 0 {
		f.add("an empty load in %s", l.Vessel)
		return
	}
	v := slices.IndexFunc(p.Vessels, func(v struct {
		Name   string  `json:"name"`
		Litres float64 `json:"litres"`
	}) bool {
		return v.Name == l.Vessel
	})
	if v < 0 {
		f.add("a load in %s, which is no vessel", l.Vessel)
		return
	}
	room := 0.0
	for i, t := range l.Plants {
		room += t.Bulk
		if soaked := t.Out.Sub(t.In).Minutes(); soaked < t.From || soaked > t.To && !t.In.Before(limits.From) {
			f.add("plant %d soaks %.2f minutes, not %g to %g", t.ID, soaked, t.From, t.To)
		}
		if t.Company != l.Plants[0].Company {
			f.add("plants %d and %d: %s with %s", l.Plants[0].ID, t.ID, l.Plants[0].Company, t.Company)
		}
		if i > 0 && (t.In.Before(l.Plants[i-1].In) || t.Out.Before(l.Plants[i-1].Out)) {
			f.add("plant %d: not first in, first out", t.ID)
		}
	}
	if room > p.Vessels[v].Litres+1e-4 {
		f.add("%s at %s: %.3f litres in %g", l.Vessel, l.Start, room, p.Vessels[v].Litres)
	}
	last := l.Plants[len(l.Plants)-1]
	if !l.Start.Equal(l.Plants[0].In) || !l.Out.Equal(l.Plants[0].Out) || l.Out.Before(last.In) {
		f.add("%s: start %s and out %s are not the first plant's, or one comes out before all are in", l.Vessel, l.Start, l.Out)
	}
}
