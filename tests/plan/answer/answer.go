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
	DayFree   time.Time  `json:"day_free_at"`
	Bound     time.Time  `json:"lower_bound"`
	Visits    int        `json:"visits"`
	Left      []Unplaced `json:"left_out"`
}

// Load is one load of it.
type Load struct {
	Vessel string    `json:"vessel"`
	Fill   int       `json:"fill"`
	Heap   int       `json:"heap"`
	Night  bool      `json:"night"`
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
	Pull     int       `json:"hands_pull_s"`
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
	Litres float64   `json:"litres"`
	Hands  int       `json:"hands"`
}

// Unplaced is a plant without a place.
type Unplaced struct {
	ID     int    `json:"id"`
	Reason string `json:"reason"`
}

// Limits are what the house rules said when the plan was made.
type Limits struct {
	From  time.Time     // no hands before; what went in earlier was in the water already, and may be late
	Flow  float64       // litres a minute from the tap
	Most  int           // loads of healthy plants before the night, but for what was in the water
	Few   int           // plants in such a load at least
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
	f.tap(&p, limits)
	f.few(&p, limits)
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
	for i := range p.Loads { // of what lies in the vessel when it goes in
		if m := &p.Loads[i]; m.Vessel == l.Vessel && !m.Start.After(l.Start) && end(m).After(l.Start) {
			for _, t := range m.Plants {
				room += t.Bulk
			}
		}
	}
	for i, t := range l.Plants {
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
		f.add("%s: start %s and out %s are not the first plant's, or one comes out before all are in", l.Vessel,
			l.Start, l.Out)
	}
}

// few: no more loads before the night than the house rule says, and none of a
// plant or two but for their company.
func (f *faults) few(p *Plan, limits Limits) {
	n := 0
	for _, l := range p.Loads {
		if l.Night || len(l.Plants) == 0 || l.Plants[0].Company != companies[0] || l.Start.Before(limits.From) {
			continue
		}
		n++
		if len(l.Plants) < limits.Few {
			f.add("%s at %s: a load of %d", l.Vessel, l.Start, len(l.Plants))
		}
	}
	if n > limits.Most {
		f.add("%d loads before the night", n)
	}
}
