package answer_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"tubside/tests/plan/answer"
)

var nine = time.Date(2026, 1, 31, 9, 0, 0, 0, time.UTC)

func at(minutes, seconds int) time.Time {
	return nine.Add(time.Duration(minutes)*time.Minute + time.Duration(seconds)*time.Second)
}

// good is a right plan: a tub filled twice, two loads of it, and a plant left
// out.
func good() answer.Plan {
	plant := func(id int, company string, in, out time.Time) answer.Plant {
		return answer.Plant{ID: id, Bulk: 4, From: 20, To: 60, HandsIn: 15, HandsOut: 20, Company: company, In: in, Out: out}
	}
	var p answer.Plan
	p.Vessels = append(p.Vessels, struct {
		Name   string  `json:"name"`
		Litres float64 `json:"litres"`
	}{"tub", 10})
	p.Loads = []answer.Load{
		{Vessel: "tub", Fill: 1, Start: at(5, 0), Out: at(25, 0), Plants: []answer.Plant{
			plant(1, "healthy", at(5, 0), at(25, 0)), plant(2, "healthy", at(5, 15), at(25, 20)),
		}},
		{Vessel: "tub", Fill: 2, Start: at(31, 0), Out: at(51, 0), Plants: []answer.Plant{plant(3, "sick", at(31, 0), at(51, 0))}},
	}
	p.Actions = []answer.Action{
		{At: at(0, 0), Until: at(5, 0), Do: "fill", Vessel: "tub"},
		{At: at(5, 0), Until: at(5, 30), Do: "in", Vessel: "tub", IDs: []int{1, 2}},
		{At: at(25, 0), Until: at(25, 40), Do: "out", Vessel: "tub", IDs: []int{1, 2}},
		{At: at(25, 40), Until: at(25, 40), Do: "empty", Vessel: "tub"},
		{At: at(25, 40), Until: at(30, 40), Do: "fill", Vessel: "tub"},
		{At: at(31, 0), Until: at(31, 15), Do: "in", Vessel: "tub", IDs: []int{3}},
		{At: at(51, 0), Until: at(51, 20), Do: "out", Vessel: "tub", IDs: []int{3}},
		{At: at(51, 20), Until: at(51, 20), Do: "empty", Vessel: "tub"},
	}
	p.HandsFree, p.AllDry, p.Bound = at(51, 20), at(300, 0), at(50, 0)
	p.Left = []answer.Unplaced{{ID: 4, Reason: "hands taken"}}
	return p
}

func faults(t *testing.T, p answer.Plan) string {
	t.Helper()
	text, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	all, err := answer.Check(text, answer.Limits{From: nine, Loads: 2, Used: 2 * time.Hour})
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(all, "\n")
}

func TestARightPlanHasNoFaults(t *testing.T) {
	if got := faults(t, good()); got != "" {
		t.Error(got)
	}
}

func TestEveryRuleIsHeld(t *testing.T) {
	for rule, break1 := range map[string]struct {
		do   func(*answer.Plan)
		want string
	}{
		"twice":        {func(p *answer.Plan) { p.Left[0].ID = 1 }, "2 times"},
		"no reason":    {func(p *answer.Plan) { p.Left[0].Reason = "" }, "without a reason"},
		"too short":    {func(p *answer.Plan) { p.Loads[0].Plants[0].From = 21 }, "soaks"},
		"too long":     {func(p *answer.Plan) { p.Loads[0].Plants[0].To = 19 }, "soaks"},
		"order":        {func(p *answer.Plan) { l := p.Loads[0].Plants; l[0].Out, l[1].Out = l[1].Out, l[0].Out }, "first in"},
		"room":         {func(p *answer.Plan) { p.Loads[0].Plants[0].Bulk = 6.1 }, "litres"},
		"company":      {func(p *answer.Plan) { p.Loads[0].Plants[1].Company = "suspect" }, "healthy with suspect"},
		"no vessel":    {func(p *answer.Plan) { p.Loads[0].Vessel = "sink" }, "no vessel"},
		"start":        {func(p *answer.Plan) { p.Loads[0].Start = at(4, 0) }, "not the first plant's"},
		"hands":        {func(p *answer.Plan) { p.Loads[0].Plants[0].HandsIn = 16 }, "hands on plants 1 and 2"},
		"free":         {func(p *answer.Plan) { p.HandsFree = at(51, 0) }, "free at"},
		"dry":          {func(p *answer.Plan) { p.AllDry = at(51, 0) }, "all dry by"},
		"bound":        {func(p *answer.Plan) { p.Bound = at(52, 0) }, "no plan could"},
		"same water":   {func(p *answer.Plan) { p.Loads[1].Fill = 1 }, "sick in water"},
		"fill skipped": {func(p *answer.Plan) { p.Loads[1].Fill = 3 }, "fill 3 after 1"},
		"no filling":   {func(p *answer.Plan) { p.Actions[4].Until = at(31, 1) }, "no filling"},
		"too early":    {func(p *answer.Plan) { p.Loads[1].Start = at(25, 30) }, "before the last one is out"},
		"clock order":  {func(p *answer.Plan) { p.Actions[0].At = at(6, 0) }, "clock order"},
		"not put in":   {func(p *answer.Plan) { p.Actions[1].IDs = []int{1} }, "no action puts it in"},
		"not taken":    {func(p *answer.Plan) { p.Actions[2].Until = at(25, 30) }, "no action takes it out"},
		"done twice":   {func(p *answer.Plan) { p.Actions[5].IDs = []int{3, 1} }, "in twice"},
		"not emptied":  {func(p *answer.Plan) { p.Actions = p.Actions[:7] }, "not emptied"},
	} {
		p := good()
		break1.do(&p)
		if got := faults(t, p); !strings.Contains(got, break1.want) {
			t.Errorf("%s: no %q in %q", rule, break1.want, got)
		}
	}
}

func TestAFillServesSoManyLoadsForSoLong(t *testing.T) {
	p := good()
	p.Loads[1].Fill, p.Loads[1].Plants[0].Company = 1, "newcomer"
	text, _ := json.Marshal(p)
	for _, c := range []struct {
		limits answer.Limits
		want   string
	}{
		{answer.Limits{From: nine, Loads: 1, Used: time.Hour}, "serves 2 loads"},
		{answer.Limits{From: nine, Loads: 2, Used: 25 * time.Minute}, "in use since"},
		{answer.Limits{From: nine, Loads: 2, Used: time.Hour}, ""},
		{answer.Limits{From: at(6, 0), Loads: 2, Used: time.Hour}, ""},
		{answer.Limits{From: at(26, 0), Loads: 2, Used: time.Hour}, "before they are there"},
	} {
		all, err := answer.Check(text, c.limits)
		if got := strings.Join(all, "\n"); err != nil || !strings.Contains(got, c.want) || c.want == "" && got != "" {
			t.Errorf("%+v: %q, %v", c.limits, got, err)
		}
	}
}
