package plan_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"tubside/model/soak"
)

// exactDay is one small soak day of tests/plan/exact, and its optimum, proven
// by a general solver from a model of its own. To solve them again:
//
//	cd tests/plan/exact && npm ci && node solve.mjs < instances.json | diff - answers.json
type exactDay struct {
	Name        string
	Hours       []struct{ From, To int }
	DryBy       int     `json:"dry_by"`
	MostLoads   int     `json:"most_loads"`
	LeastPlants int     `json:"least_plants"`
	LeastShare  float64 `json:"least_share"`

	Vessels []struct {
		Room               float64
		Fill, Rinse, Loads int
		LastIn             int `json:"last_in"`
		Standing, Fed      bool
	}
	Plants []struct {
		ID, Least, Most    int
		Bulk               float64
		Pull, In, Out, Lay int
		Company            soak.Company
		Fed, Urgent        bool
		Thirst             float64
		Dry                int
	}
}

type exactAnswer struct {
	Name      string
	Worth     float64 // thirst, and for each urgent plant all thirst there is
	Visits    int
	HandsFree int `json:"hands_free"`
}

func (d *exactDay) session() *soak.Session {
	s := &soak.Session{Limits: soak.Limits{Loads: d.MostLoads, Plants: d.LeastPlants, Share: d.LeastShare}}
	due := 0
	for _, p := range d.Plants {
		if p.Company == soak.Healthy && !p.Fed {
			due++
		}
	}
	s.Limits.Plants = min(d.LeastPlants, (due+d.MostLoads-1)/d.MostLoads) // as the exact model has it
	if d.oneSize() {                                                      // which has no least share then
		s.Limits.Share = 0
	}
	for _, h := range d.Hours {
		s.Hours = append(s.Hours, soak.Hours{From: h.From, To: h.To, DryBy: d.DryBy})
	}
	for _, v := range d.Vessels {
		vessel := soak.Vessel{Room: v.Room, Fill: v.Fill, Rinse: v.Rinse, Loads: v.Loads, LastIn: v.LastIn, Fed: v.Fed}
		if v.Standing {
			vessel.Water = &soak.Water{}
		}
		s.Vessels = append(s.Vessels, vessel)
	}
	for _, p := range d.Plants {
		s.Items = append(s.Items, soak.Item{ID: p.ID, Least: p.Least, Most: p.Most, Bulk: p.Bulk,
			Hands:   soak.Hands{Pull: p.Pull, In: p.In, Out: p.Out, Lay: p.Lay},
			Company: p.Company, Fed: p.Fed, Urgent: p.Urgent, Thirst: p.Thirst, DryFor: p.Dry})
	}
	return s
}

// oneSize reports whether all vessels for plain water are alike.
func (d *exactDay) oneSize() bool {
	room := 0.0
	for _, v := range d.Vessels {
		if !v.Fed && room > 0 && v.Room != room {
			return false
		}
		if !v.Fed {
			room = v.Room
		}
	}
	return true
}

// worth is what a plan serves, as the solver counts it.
func worth(s *soak.Session, p *soak.Plan) float64 {
	all, sum := 0.0, 0.0
	for _, it := range s.Items {
		all += it.Thirst
	}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			sum += t.Thirst
			if t.Urgent {
				sum += all
			}
		}
	}
	return sum
}

func readJSON(t *testing.T, file string, into any) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
}

// The planner against proven optima: the gap of a day is that of what is served,
// or when that is equal of the visits, or when those are of the hands' end.
func TestSmallDaysAgainstProvenOptima(t *testing.T) {
	var days []exactDay
	var answers []exactAnswer
	readJSON(t, "exact/instances.json", &days)
	readJSON(t, "exact/answers.json", &answers)
	if len(days) < 60 || len(answers) != len(days) {
		t.Fatalf("%d days, %d answers", len(days), len(answers))
	}
	sum, worst := 0.0, 0.0
	for i, a := range answers {
		s := days[i].session()
		p := arrange(t, s, soak.Effort{})
		gap := gapTo(t, &a, s, p)
		if gap > 0 {
			t.Logf("%s: worth %.2f of %.2f, visits %d, best %d, hands free %d, best %d", a.Name, worth(s, p), a.Worth, p.Visits, a.Visits, p.HandsFree, a.HandsFree)
		}
		sum, worst = sum+gap, max(worst, gap)
	}
	mean := sum / float64(len(days))
	t.Logf("%d days: mean gap %.3f %%, worst %.3f %%", len(days), 100*mean, 100*worst)
	if mean > 0.01 || worst > 0.05 {
		t.Errorf("mean gap %.2f %%, worst %.2f %%; at most 1 %% and 5 %%", 100*mean, 100*worst)
	}
}

func gapTo(t *testing.T, a *exactAnswer, s *soak.Session, p *soak.Plan) float64 {
	t.Helper()
	const eps = 1e-6
	serves := worth(s, p)
	switch {
	case serves > a.Worth+eps:
		t.Errorf("%s: %.2f served, more than the proven most, %.2f: one of the two models is wrong", a.Name, serves, a.Worth)
	case serves < a.Worth-eps:
		return (a.Worth - serves) / a.Worth
	case p.Visits < a.Visits:
		t.Errorf("%s: %d visits, fewer than the proven fewest, %d: one of the two models is wrong", a.Name, p.Visits, a.Visits)
	case p.Visits > a.Visits:
		return float64(p.Visits-a.Visits) / float64(a.Visits)
	case p.HandsFree < a.HandsFree-1:
		t.Errorf("%s: hands free at %d, before the proven earliest, %d: one of the two models is wrong", a.Name, p.HandsFree, a.HandsFree)
	case a.HandsFree > 0:
		return math.Max(0, float64(p.HandsFree-a.HandsFree)/float64(a.HandsFree))
	}
	return 0
}
