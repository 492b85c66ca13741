package plan_test

import (
	"encoding/json"
	"os"
	"testing"

	"tubside/model/soak"
)

// exactDay is one small soak day of tests/plan/exact, and its optimum, proven
// by a general solver from a model of its own. To solve them again:
//
//	cd tests/plan/exact && npm ci && node solve.mjs < instances.json | diff - answers.json
type exactDay struct {
	Name  string
	Hours []struct{ From, To int }
	DryBy int `json:"dry_by"`

	Vessels []struct {
		Room          float64
		Refill, Loads int
		Fed           bool
	}
	Plants []struct {
		ID, From, To int
		Bulk         float64
		HandsIn      int `json:"hands_in"`
		HandsOut     int `json:"hands_out"`
		Company      soak.Company
		Fed          bool
		Thirst       float64
		Dry          int
	}
}

type exactAnswer struct {
	Name      string
	Thirst    float64
	HandsFree int `json:"hands_free"`
	Fills     int
}

func (d *exactDay) session() *soak.Session {
	s := &soak.Session{}
	for _, h := range d.Hours {
		s.Hours = append(s.Hours, soak.Hours{From: h.From, To: h.To, DryBy: d.DryBy})
	}
	for _, v := range d.Vessels {
		s.Vessels = append(s.Vessels, soak.Vessel{Room: v.Room, Refill: v.Refill, Loads: v.Loads, Fed: v.Fed})
	}
	for _, p := range d.Plants {
		s.Items = append(s.Items, soak.Item{ID: p.ID, From: p.From, To: p.To, Bulk: p.Bulk, HandsIn: p.HandsIn, HandsOut: p.HandsOut,
			Company: p.Company, Fed: p.Fed, Thirst: p.Thirst, DryFor: p.Dry})
	}
	return s
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

// The planner against proven optima: the gap of a day is that of the thirst
// served, or when that is equal, of the time at which the hands are free.
func TestSmallDaysAgainstProvenOptima(t *testing.T) {
	var days []exactDay
	var answers []exactAnswer
	readJSON(t, "exact/instances.json", &days)
	readJSON(t, "exact/answers.json", &answers)
	if len(days) != 60 || len(answers) != len(days) {
		t.Fatalf("%d days, %d answers", len(days), len(answers))
	}
	if testing.Short() {
		days, answers = days[:6], answers[:6]
	}
	sum, worst, moreFills := 0.0, 0.0, 0
	for i, a := range answers {
		p := arrange(t, days[i].session(), soak.Effort{})
		gap := gapTo(t, &a, p)
		if gap > 0 || p.Fills != a.Fills {
			t.Logf("%s: thirst %.2f of %.2f, hands free %d, best %d, fills %d, best %d", a.Name, p.Thirst, a.Thirst, p.HandsFree, a.HandsFree, p.Fills, a.Fills)
		}
		if gap == 0 && p.Fills > a.Fills {
			moreFills++
		}
		sum, worst = sum+gap, max(worst, gap)
	}
	mean := sum / float64(len(days))
	t.Logf("mean gap %.3f %%, worst %.3f %%; more fills than needed on %d days", 100*mean, 100*worst, moreFills)
	if mean > 0.01 || worst > 0.05 {
		t.Errorf("mean gap %.2f %%, worst %.2f %%; at most 1 %% and 5 %%", 100*mean, 100*worst)
	}
}

func gapTo(t *testing.T, a *exactAnswer, p *soak.Plan) float64 {
	t.Helper()
	switch less := a.Thirst - p.Thirst; {
	case less > 1e-6:
		return less / a.Thirst
	case less < -1e-6:
		t.Errorf("%s: thirst %.2f served, more than the proven most, %.2f: one of the two models is wrong", a.Name, p.Thirst, a.Thirst)
	case p.HandsFree < a.HandsFree:
		t.Errorf("%s: hands free at %d, before the proven earliest, %d: one of the two models is wrong", a.Name, p.HandsFree, a.HandsFree)
	case p.HandsFree == a.HandsFree && p.Fills < a.Fills:
		t.Errorf("%s: %d fills, fewer than the proven fewest, %d: one of the two models is wrong", a.Name, p.Fills, a.Fills)
	}
	if p.HandsFree == 0 {
		return 0
	}
	return float64(p.HandsFree-a.HandsFree) / float64(a.HandsFree)
}
