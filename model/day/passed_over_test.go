package day_test

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// Hands that pass one load over, and do all else when the plan says, are not late: what the
// plan has them wait for is not their doing. An hour and a half later no more are dropped
// than were passed over.
func TestALoadThatIsPassedOverTakesNoDayWithIt(t *testing.T) {
	seeds := []uint64{1, 2, 3}
	if testing.Short() {
		seeds = seeds[:1]
	}
	for _, seed := range seeds {
		for _, ended := range []bool{false, true} {
			now := time.Date(2026, time.November, 28, 8, 50, 0, 0, time.UTC)
			m := household.Moment{Scene: "homecoming", Seed: seed, Now: now}
			h, p := &onTime{Home: lived(t, m), t: t, ended: ended}, proposed(t, m)
			h.Say(now, p.Agree(h.Book, now))
			passed := p.Loads[2].IDs()
			for until := now.Add(90 * time.Minute); ; {
				s, ok := firstBut(p, passed)
				if !ok || s.At.After(until) {
					break
				}
				now = model.Later(now, h.at(s))
				if s.Do == soak.GetOut { // who was passed over is not in
					s.Plants = slices.DeleteFunc(slices.Clone(s.Plants), func(id model.ID) bool { return h.Row(id).State != model.Soaking })
				}
				does(h.Home, p, s, now)
				p = current(t, h.Home, now)
			}
			if n := p.News(h.Book); len(n.Lost) > len(passed) {
				t.Errorf("homecoming %d, written when done %v: %d plants are passed over, and %d are dropped", seed, ended, len(passed), len(n.Lost))
			}
		}
	}
}

// A tap that is opened late, again and again, is no slow pair of hands: on a day with room
// nobody is dropped.
func TestLateFillsDropNobody(t *testing.T) {
	now := time.Date(2026, time.November, 28, 8, 50, 0, 0, time.UTC)
	m := household.Moment{Scene: "quiet", Seed: 1, Now: now}
	h, p := lived(t, m), proposed(t, m)
	h.Say(now, p.Agree(h.Book, now))
	for _, s := range p.Steps {
		if s.Do == soak.Fill && now.Before(s.At.Add(time.Hour)) {
			now = now.Add(15 * time.Minute)
			does(h, p, s, now)
		}
	}
	p = current(t, h, now)
	if n := p.News(h.Book); len(n.Lost) > 0 {
		t.Errorf("at %s %d plants are dropped", now.Format("15:04"), len(n.Lost))
	}
}

// firstBut is the first step that is open and is not the pulling or laying in of some plants.
func firstBut(p *day.Plan, passed model.IDs) (day.Step, bool) {
	for _, s := range p.Steps {
		if s.Done || (s.Do == soak.Pull || s.Do == soak.PutIn) && slices.Contains(passed, s.Plants[0]) {
			continue
		}
		return s, true
	}
	return day.Step{}, false
}
