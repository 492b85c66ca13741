package day_test

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/tests/household"
	"tubside/ui/show"
)

// follow does the steps of a plan that begin before a time, as they are told.
func follow(h household.Home, p *day.Plan, until time.Time) {
	for _, s := range p.Steps {
		if !s.At.Before(until) {
			return
		}
		switch s.Do {
		case soak.PutIn:
			_, at, _ := p.Placed(s.Plants[0])
			h.Say(s.At, &model.Soak{Load: h.NextLoad(), Vessel: s.Vessel, Due: s.At.Add(time.Duration(at.From) * time.Second)}, s.Plants...)
		case soak.GetOut:
			h.Say(s.At, &model.Out{Shaken: true}, s.Plants...)
		}
	}
}

func TestPlannedAgainAtOnceNothingChanges(t *testing.T) {
	h := household.Greens(t, 40)
	k := estimate.New(h.Book)
	first := planned(t, h, may(8, 8), day.Ask{})
	again, err := day.Replan(context.Background(), k, may(8, 8), first)
	if err != nil {
		t.Fatal(err)
	}
	if changes := day.Changes(first, again); len(changes) != 0 {
		t.Errorf("changes: %v", changes)
	}
}

func TestPlannedAgainWhatIsInStaysAndTheRestFollows(t *testing.T) {
	h := household.Greens(t, 40)
	first := planned(t, h, may(8, 8), day.Ask{})
	now := may(8, 9)
	follow(h, first, now)
	late := now.Add(40 * time.Minute) // the telephone
	again, err := day.Replan(context.Background(), estimate.New(h.Book), late, first)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range again.Loads {
		for _, plant := range l.Plants {
			if h.Row(plant.ID).State == model.Soaking != (l.Load != 0) {
				t.Errorf("plant %d is %s, and in load %d of the book", plant.ID, h.Row(plant.ID).State, l.Load)
			}
		}
		if l.Load == 0 && l.Start.Before(late) {
			t.Errorf("a load in %s at %v, which is past", l.Vessel, l.Start)
		}
	}
	if again.Ask.Until != first.Ask.Until || again.Ask.DryBy != first.Ask.DryBy {
		t.Errorf("the hours changed: %+v", again.Ask)
	}
}

func TestChangesSayWhatALostHourCosts(t *testing.T) {
	h := household.Greens(t, 40)
	for _, v := range slices.Clone(h.Vessels()[1:]) {
		h.Say(may(2, 9), &model.VesselSet{Vessel: v, Away: true})
	}
	k := estimate.New(h.Book)
	first := planned(t, h, may(8, 8), day.Ask{From: may(8, 8), Until: may(8, 13), DryBy: may(8, 18)})
	again, err := day.Replan(context.Background(), k, may(8, 9).Add(40*time.Minute), first)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(show.PlanChanges(day.Changes(first, again)), "\n")
	for _, want := range []string{"hands free ", "all dry by ", "tub: in at "} {
		if !strings.Contains(text, want) {
			t.Errorf("no word of %q in\n%s", want, text)
		}
	}
	gone, err := day.Replan(context.Background(), k, may(8, 12).Add(30*time.Minute), first)
	if err != nil {
		t.Fatal(err)
	}
	if text := strings.Join(show.PlanChanges(day.Changes(first, gone)), "\n"); !strings.Contains(text, "no place any more for 40 plants") {
		t.Errorf("after noon:\n%s", text)
	}
	if text := strings.Join(show.PlanChanges(day.Changes(gone, first)), "\n"); !strings.Contains(text, "a place now for 40 plants") {
		t.Errorf("from there back:\n%s", text)
	}
}

func TestAPlanWhoseHoursAreOverIsNotMadeAgain(t *testing.T) {
	h := household.Greens(t, 3)
	first := planned(t, h, may(8, 8), day.Ask{})
	_, err := day.Replan(context.Background(), estimate.New(h.Book), may(8, 19), first)
	if _, ok := model.AsProblem(err); !ok {
		t.Errorf("got %v", err)
	}
}

func TestProgressFollowsTheBook(t *testing.T) {
	h := household.Greens(t, 12)
	p := planned(t, h, may(8, 8), day.Ask{})
	if g := p.Progress(h.Book, may(8, 8)); g.Plants != 12 || g.In != 0 || g.Out != 0 || p.Steps[g.Step].Do != soak.PutIn {
		t.Errorf("at the beginning %+v", g)
	}
	half := p.Loads[0].Out.Add(-time.Minute)
	follow(h, p, half)
	g := p.Progress(h.Book, half)
	if g.In != 12 || g.Out != 0 || g.Step < 0 || p.Steps[g.Step].Do != soak.GetOut && p.Steps[g.Step].Do != soak.Empty || g.Behind > 0 {
		t.Errorf("when all are in %+v", g)
	}
	follow2 := p.HandsFree
	for _, s := range p.Steps {
		if s.Do == soak.GetOut {
			h.Say(s.At, &model.Out{Shaken: true}, s.Plants...)
		}
	}
	if g := p.Progress(h.Book, follow2); g.In != 0 || g.Out != 12 || g.Step != -1 {
		t.Errorf("at the end %+v", g)
	}
}

func TestEveryPlanOfAnyBookHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := household.Drawn(t)
		k := estimate.New(h.Book)
		now := may(5, 11).Add(time.Duration(rapid.IntRange(0, 600).Draw(t, "minutes")) * time.Minute)
		ask := day.Ask{Effort: soak.Effort{Work: 2000}}
		if rapid.Bool().Draw(t, "hours") {
			ask.Until = now.Add(time.Duration(rapid.IntRange(30, 600).Draw(t, "long")) * time.Minute)
		}
		p, err := day.NewPlan(context.Background(), k, now, ask)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := day.NewPlan(context.Background(), estimate.New(h.Book), now, ask)
		if !reflect.DeepEqual(p, again) {
			t.Fatal("two plans of one book differ")
		}
		holds(t, h, k, p)
	})
}

// holds checks a plan against the book: every plant once, in its window, hands
// one at a time, dry by its hour.
func holds(t *rapid.T, h household.Home, k *estimate.Keeper, p *day.Plan) {
	seen := map[model.ID]int{}
	for _, l := range p.Left {
		seen[l.ID]++
	}
	busy := time.Time{}
	for _, s := range p.Steps {
		if !s.Do.Hands() {
			continue
		}
		if s.At.Before(busy) && len(p.Late) == 0 {
			t.Errorf("%v at %v, hands busy until %v", s.Do, s.At, busy)
		}
		busy = s.Until
	}
	for _, l := range p.Loads {
		room := 0.0
		for _, plant := range l.Plants {
			seen[plant.ID]++
			room += plant.Bulk
			if soaked := int(plant.Out.Sub(plant.In).Seconds()); l.Load == 0 && (soaked < plant.From || soaked > plant.To) {
				t.Errorf("plant %d soaks %d s, not %d to %d", plant.ID, soaked, plant.From, plant.To)
			}
			if l.Load == 0 && !l.Night && plant.Out.Before(p.Ask.Until) && plant.Dry.After(p.Ask.DryBy) {
				t.Errorf("plant %d is dry at %v, after %v", plant.ID, plant.Dry, p.Ask.DryBy)
			}
		}
		if v, _ := h.Vessel(l.Vessel); l.Load == 0 && room > v.Litres+1e-6 {
			t.Errorf("%s holds %g of %g litres", l.Vessel, room, v.Litres)
		}
	}
	for _, id := range h.IDs() {
		row := h.Row(id)
		n, _ := advice.NeedOf(k, id, p.Ask.From)
		want := 0
		if row.State == model.AtHome && n.Band.InWater() {
			want = 1
		}
		if row.State != model.Soaking && seen[id] != want {
			t.Errorf("plant %d (%s, %s) is planned or left out %d times", id, row.State, n.Band, seen[id])
		}
	}
}

// mixed is a household of plants of every form and leaf, thirsty.
func mixed(t testing.TB, n int) household.Home {
	h := household.New(t)
	var plants []model.Plant
	for id := model.ID(1); int(id) <= n; id++ {
		plants = append(plants, model.Plant{
			ID: id, Count: 1, Form: model.Forms[int(id)%len(model.Forms)], Leaf: model.Leaves[int(id/3)%len(model.Leaves)],
			Size: 8 + float64(id%9), Home: model.Home{Shelf: string(rune('A' + id%8))},
		})
	}
	h.Say(may(1, 8), &model.Add{Plants: plants})
	return h
}

// told is when a step is told: a filling when the tap is opened, anything else
// when it is done.
func told(s day.Step) time.Time {
	if s.Do == soak.Fill {
		return s.At
	}
	return s.Until
}

// Somebody who does what the plan says, when it says so, finds every plant in
// its place after each step, and none much later; a load that is not in yet may
// slip into a gap before its hour.
func TestAPlanThatIsFollowedStands(t *testing.T) {
	h := mixed(t, 90)
	k := estimate.New(h.Book)
	plan := planned(t, h, may(9, 8), day.Ask{})
	if plan.Count() < 60 || len(plan.Steps) < 10 {
		t.Fatalf("%d plants in %d steps", plan.Count(), len(plan.Steps))
	}
	for range len(plan.Steps) {
		if len(plan.Steps) == 0 {
			break
		}
		s := slices.MinFunc(plan.Steps, func(a, b day.Step) int { return told(a).Compare(told(b)) })
		fact := model.Fact(model.TakenOut(true))
		switch s.Do {
		case soak.Fill:
			fact = &model.Fill{Vessel: s.Vessel}
		case soak.Empty:
			fact = &model.Drain{Vessel: s.Vessel}
		case soak.PutIn:
			_, first, _ := plan.Placed(s.Plants[0])
			fact = &model.Soak{Load: h.NextLoad(), Vessel: s.Vessel, Due: s.At.Add(first.Out.Sub(first.In))}
		}
		if s.Do.Hands() {
			h.Say(s.At, fact, s.Plants...)
		} else {
			h.Say(told(s), fact)
		}
		k.Follow(h.Entries()[len(h.Entries())-1])
		again, err := day.Replan(context.Background(), k, told(s), plan)
		if _, over := model.AsProblem(err); over && s.Until.After(may(9, 18)) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range again.Loads {
			for _, p := range l.Plants {
				was, before, ok := plan.Placed(p.ID)
				if !ok || plan.Loads[was].Vessel != l.Vessel || p.Out.Sub(before.Out) > 5*time.Minute {
					t.Fatalf("after %v (%s): plant %d comes out of %s at %v, and came out of %s at %v", s.Do, s.At, p.ID, l.Vessel, p.Out, plan.Loads[was].Vessel, before.Out)
				}
			}
		}
		plan = again
	}
}

// The same where what soaks over night goes in within the hours asked for.
func TestPlannedAgainAtOnceTheNightStandsToo(t *testing.T) {
	h := mixed(t, 160)
	h.Say(may(9, 7), &model.Look{Signs: model.Signs{Curl: 3, Tips: 0, Shift: model.NotSeen}}, 6, 7, 8, 14, 27, 28)
	first := planned(t, h, may(9, 8), day.Ask{From: may(9, 8), Until: may(9, 22)})
	if !slices.ContainsFunc(first.Loads, func(l day.Load) bool { return l.Night }) {
		t.Fatal("nothing soaks over night")
	}
	again, err := day.Replan(context.Background(), estimate.New(h.Book), may(9, 8), first)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range first.Loads {
		for _, p := range l.Plants {
			if at, _, ok := again.Placed(p.ID); !ok || again.Loads[at].Vessel != l.Vessel {
				t.Fatalf("plant %d was to go into %s", p.ID, l.Vessel)
			}
		}
	}
	if len(again.Loads) != len(first.Loads) {
		t.Errorf("%d loads instead of %d", len(again.Loads), len(first.Loads))
	}
}

// The tap is opened, and the plan made again twice while it runs: nothing goes
// in before the tub is full.
func TestATubThatFillsIsFullWhenThePlanSaysSo(t *testing.T) {
	h := mixed(t, 120)
	plan := planned(t, h, may(9, 8), day.Ask{})
	at := slices.IndexFunc(plan.Steps, func(s day.Step) bool { return s.Do == soak.Fill && s.Vessel == "tub" })
	if at < 0 {
		t.Fatal("the tub is not filled")
	}
	fill := plan.Steps[at]
	h.Say(fill.At, &model.Fill{Vessel: "tub"})
	k := estimate.New(h.Book)
	for minute := range 3 {
		again, err := day.Replan(context.Background(), k, fill.At.Add(time.Duration(minute)*time.Minute), plan)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range again.Loads {
			if l.Vessel == "tub" && l.Start.Before(fill.Until) {
				t.Fatalf("minute %d: in at %v, the tub is full at %v", minute, l.Start, fill.Until)
			}
		}
		plan = again
	}
}
