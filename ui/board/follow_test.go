package board

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
)

func (g *grower) planned() *day.Plan { return g.board.front().(*planScreen).plan }

// A plan that changes with every step done, or while the hands are at one, cannot
// be followed: what was pulled for the next load would be the wrong plants. Done on
// time, step by step, the day ends as it was planned.
func TestAPlanThatIsFollowedStaysAsItIs(t *testing.T) {
	g := onPlan(t)
	planned := *g.planned()
	for len(g.planned().Steps) > 0 && g.planned().Steps[0].At.Before(planned.DayFree) {
		step := g.planned().Steps[0]
		for g.now.Add(time.Minute).Before(step.Until) {
			g.after(time.Minute)
		}
		g.after(max(0, step.Until.Sub(g.now))).keys("esc", "g", "d").doesNotSee("Plan changed")
	}
	if g.now.After(planned.DayFree.Add(time.Minute)) {
		t.Errorf("done at %v, planned for %v", g.now, planned.DayFree)
	}
	for i, l := range g.planned().Loads {
		if l.Vessel != planned.Loads[i].Vessel || len(l.Plants) != len(planned.Loads[i].Plants) {
			t.Errorf("load %d is of %d in %s", i, len(l.Plants), l.Vessel)
		}
	}
}

// When its hours are over the plan is of those to come, and no complaint.
func TestAPlanWhoseHoursAreOverIsMadeForThoseToCome(t *testing.T) {
	g := onPlan(t)
	g.after(12 * time.Hour).doesNotSee("give an hour").sees("Steps")
}

// Coming back to the plan from another screen is no reason to shuffle it.
func TestComingBackKeepsToThePlan(t *testing.T) {
	g := onPlan(t)
	before := g.planned()
	g.after(2*time.Minute).keys("T", "t", "T", "p")
	for _, l := range g.planned().Loads {
		for _, p := range l.Plants {
			if was, _, ok := before.Placed(p.ID); !ok || before.Loads[was].Vessel != l.Vessel {
				t.Errorf("plant %d goes into %s", p.ID, l.Vessel)
			}
		}
	}
}

func TestPullingForAPlanDoesNotChangeIt(t *testing.T) {
	g := onPlan(t)
	for g.planned().Steps[g.board.front().(*planScreen).rows.cursor].Do != soak.PutIn {
		g.keys("j")
	}
	before := g.planned().Steps
	g.keys("p").sees("pulled").doesNotSee("Plan changed")
	if len(g.planned().Steps) != len(before) {
		t.Errorf("%d steps, want %d", len(g.planned().Steps), len(before))
	}
}

// What the plan says of itself has its own line, and is not written again and
// again after what was said last.
func TestThePlansNewsDoesNotPileUp(t *testing.T) {
	g := onPlan(t)
	g.board.say("said before")
	for range 5 {
		g.after(11 * time.Minute)
	}
	g.sees("Plan changed: ")
	if g.board.said != "said before" {
		t.Errorf("the status line says %q", g.board.said)
	}
}

// The next action is the tub that must be emptied, not the bucket that may fill
// meanwhile.
func TestTakingOutComesFirst(t *testing.T) {
	steps := []day.Step{{At: soakDay, Do: soak.Fill}, {At: soakDay, Do: soak.GetOut}, {At: soakDay.Add(-time.Minute), Do: soak.Empty}}
	inOrder(steps)
	var got []soak.Do
	for _, s := range steps {
		got = append(got, s.Do)
	}
	if diff := cmp.Diff([]soak.Do{soak.Empty, soak.GetOut, soak.Fill}, got); diff != "" {
		t.Errorf("order (-want +got):\n%s", diff)
	}
}

// A load has one time due. What the plan puts in together but takes out apart
// must not all come out with the first.
func TestWhatIsPutInTogetherComesOutAtItsOwnTime(t *testing.T) {
	g := onPlan(t)
	s := g.board.front().(*planScreen)
	start := g.now
	at := func(minutes int) time.Time { return start.Add(time.Duration(minutes) * time.Minute) }
	s.plan = &day.Plan{
		Loads: []day.Load{{Vessel: "tub", Start: at(2), Out: at(12), End: at(90), Plants: []day.Plant{
			{ID: 3, From: 300, To: 600, In: at(2), Out: at(12)},
			{ID: 1, From: 3600, To: 10800, In: at(2), Out: at(72)},
			{ID: 4, From: 3600, To: 10800, In: at(2), Out: at(77)},
		}}},
		Steps: []day.Step{
			{At: at(2), Do: soak.PutIn, Vessel: "tub", Plants: model.IDs{1, 3, 4}},
			{At: at(12), Until: at(13), Do: soak.GetOut, Vessel: "tub", Plants: model.IDs{3}},
			{At: at(72), Until: at(73), Do: soak.GetOut, Vessel: "tub", Plants: model.IDs{1, 4}},
			{At: at(73), Until: at(73), Do: soak.Empty, Vessel: "tub"},
		},
	}
	g.keys("g", "d").sees("3 plants into tub in 2 loads, out from 09:10 to 10:10; u takes")
	var got []string
	for _, l := range g.board.book.OpenLoads() {
		got = append(got, l.Plants.String()+" "+l.Due.Format("15:04"))
	}
	if diff := cmp.Diff([]string{"3 09:10", "1 4 10:10"}, got); diff != "" {
		t.Errorf("loads (-want +got):\n%s", diff)
	}
}

// On the morning of the soak no water can be filled the night before.
func TestWaterIsNotFilledTonightForThisMorning(t *testing.T) {
	onPlan(t).doesNotSee("tonight")
}

func TestThePlansKeysAreThoseOfTheStep(t *testing.T) {
	g := onPlan(t).doesNotSee("enter plants") // filling has no plants
	for g.planned().Steps[g.board.front().(*planScreen).rows.cursor].Do != soak.PutIn {
		g.keys("j")
	}
	g.sees("enter plants   p pull")
}

// The evening's load is not the end of the day: when the hands are free before it
// is what a tired grower wants to know, at every width.
func TestThePlanTellsTheDayFromTheNight(t *testing.T) {
	g := onPlan(t)
	s := g.board.front().(*planScreen)
	s.plan.DayFree, s.plan.HandsFree, s.plan.AllDry = soakDay.Add(4*time.Hour), soakDay.Add(11*time.Hour), soakDay.Add(10*time.Hour)
	for width, want := range map[int]string{60: "free 13:00, night 20:00, dry by 19:00", 80: "free 13:00, night 20:00, dry by 19:00", 100: "hands free 13:00, a load for the night until 20:00, all dry by 19:00"} {
		g.size(width, 24)
		g.sees(want)
	}
}

// In a low window the lanes of vessels that the plan uses come before idle ones.
func TestALowWindowShowsTheLanesInUse(t *testing.T) {
	g := onPlan(t)
	s := g.board.front().(*planScreen)
	for i := range 6 {
		s.plan.Vessels = append([]model.Vessel{{Name: "idle " + string(rune('a'+i)), Litres: 5}}, s.plan.Vessels...)
	}
	g.size(60, 20)
	for _, l := range s.plan.Loads {
		g.sees(" " + l.Vessel + " ")
	}
}
