package plan_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/store"
	"tubside/tests/plan/answer"
	"tubside/ui/command"
)

// shell runs a command line at a time and gives what it answers.
func shell(t testing.TB, now time.Time, args ...string) []byte {
	t.Helper()
	var out, errs bytes.Buffer
	code := command.Main(command.Env{
		Args: append([]string{"--now", now.Format(time.RFC3339)}, args...), In: &bytes.Buffer{}, Out: &out, Err: &errs,
		Clock: func() time.Time { return now }, Getenv: func(string) string { return "" },
	})
	if code != 0 {
		t.Fatalf("%v: exit %d: %s", args, code, errs.String())
	}
	return out.Bytes()
}

// scene is the book of a scene of the demo at a time.
func scene(t testing.TB, name string, now time.Time) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name+".db")
	shell(t, now, "demo", "--scene", name, "--keep", path)
	return path
}

// Each scene of the demo, planned as the house rules have it, in parts, and in
// hours cut short. The plan as it is asked for most ends within 5 % of what no
// plan beats; it has a load for the night in it, whose hour is the house's. How
// near the hours cut short come is only told: there the bound is loose.
func TestTheDemosPlans(t *testing.T) {
	now := time.Date(2026, 1, 31, 9, 0, 0, 0, time.Local)
	limits := answer.Limits{From: now, Loads: 2, Used: 2 * time.Hour} // the house rules of the demo
	morning := []string{"--from", "09:30", "--until", "14:00", "--pause", "12:00-12:30", "--dry-by", "21:00"}
	asks := map[string][][]string{
		"homecoming": {nil, {"--shelf", "Bay"}, morning}, "soakday": {nil, {"--shelf", "Bay"}, {"--until", "22:00"}},
		"bench": {nil, {"--until", "18:00"}}, "quiet": {nil, {"--shelf", "Bay"}, {"--until", "18:00"}}, "first": {nil, morning},
	}
	if testing.Short() {
		asks = map[string][][]string{"quiet": {nil}}
	}
	for name, all := range asks {
		book := scene(t, name, now)
		for _, flags := range all {
			text := shell(t, now, append([]string{"--book", book, "plan", "--json"}, flags...)...)
			faults, err := answer.Check(text, limits)
			if err != nil {
				t.Fatal(err)
			}
			for _, fault := range faults {
				t.Errorf("%s %v: %s", name, flags, fault)
			}
			over := overBound(t, text)
			t.Logf("%s %v: hands free %.1f %% after the bound", name, flags, 100*over)
			if flags == nil {
				t.Log(dayOf(t, book, now))
			}
			if usual := flags == nil || flags[0] == "--shelf"; usual && over > 0.05 {
				t.Errorf("%s %v: hands free %.1f %% after the bound", name, flags, 100*over)
			}
		}
	}
}

// overBound is by what part of its bound a plan ends after it, both from the
// first thing to do.
func overBound(t *testing.T, text []byte) float64 {
	var plan struct {
		Free    time.Time `json:"hands_free_at"`
		Bound   time.Time `json:"lower_bound"`
		Actions []struct{ At time.Time }
	}
	if err := json.Unmarshal(text, &plan); err != nil {
		t.Fatal(err)
	}
	if len(plan.Actions) == 0 || plan.Bound.After(plan.Free) {
		t.Fatalf("%d actions, hands free %v, bound %v", len(plan.Actions), plan.Free, plan.Bound)
	}
	start := plan.Actions[0].At
	return plan.Free.Sub(plan.Bound).Seconds() / plan.Bound.Sub(start).Seconds()
}

// dayOf tells of a scene's day without its load for the night.
func dayOf(t *testing.T, book string, now time.Time) string {
	s, err := store.Open(book, store.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	p, err := day.NewPlan(context.Background(), estimate.New(s.Book()), now, day.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("  its day: free %s, bound %s (%.0f %% after it); serves %.1f of a thirst of %.1f", p.DayFree.Format("15:04"), p.DayBound.Format("15:04"),
		100*p.Gap(), p.Thirst.Got, p.Thirst.Of)
}
