package day_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
	"tubside/ui/show"
)

// toEmpty is what a plan says of the emptying of a vessel that is still to be done; "" for
// nothing.
func toEmpty(h household.Home, p *day.Plan, vessel string) string {
	for _, s := range p.Steps {
		if s.Do == soak.Empty && s.Vessel == vessel && !s.Done {
			return show.Step(h.Book, p, &s)
		}
	}
	return ""
}

// followed does all steps of the agreed plan in turn until one is of some kind.
func followed(t *testing.T, h household.Home, p *day.Plan, now time.Time, until func(*day.Plan, day.Step) bool) (*day.Plan, day.Step, time.Time) {
	t.Helper()
	for range 200 {
		n := p.Next()
		if n < 0 {
			break
		}
		s := p.Steps[n]
		now = model.Later(now, s.Until)
		if until(p, s) {
			return p, s, now
		}
		does(h, p, s, now)
		p = current(t, h, now)
	}
	t.Fatal("no such step comes")
	return nil, day.Step{}, now
}

// Water that a sick plant was in is thrown out, and its vessel disinfected (common practice,
// no source). That is left to do until it is done, also after the day's last load.
func TestTheWaterOfTheSickIsThrownOutUntilItIsEmptied(t *testing.T) {
	h := household.Greens(t, 6)
	h.Say(may(2, 9), &model.Trouble{What: model.Mites}, 6)
	p, now := agreed(t, h, may(8, 8), day.Ask{}), may(8, 8)
	p, s, now := followed(t, h, p, now, func(p *day.Plan, s day.Step) bool {
		return s.Do == soak.GetOut && p.Loads[s.Load].Company == soak.Sick
	})
	does(h, p, s, now)
	for _, after := range []time.Duration{0, time.Minute, 47 * time.Minute, 3 * time.Hour} {
		p = current(t, h, now.Add(after))
		said := toEmpty(h, p, s.Vessel)
		if !strings.Contains(said, "throw this water out") || !strings.Contains(said, "disinfect") {
			t.Errorf("%v after the sick came out of %s: %q", after, s.Vessel, said)
		}
		if n := p.Next(); len(h.OpenLoads()) == 0 && (n < 0 || p.Steps[n].Do != soak.Empty) {
			t.Errorf("%v after the sick came out something else is next: %q", after, texts(h, p))
		}
	}
	h.Say(now.Add(time.Minute), &model.Drain{Vessel: s.Vessel})
	if said := toEmpty(h, current(t, h, now.Add(2*time.Minute)), s.Vessel); said != "" {
		t.Errorf("emptied, and still: %q", said)
	}
}

// A child can drown in a tub or a bucket (U.S. Consumer Product Safety Commission): what
// nothing more goes into is emptied right away, also when the day breaks off.
func TestWaterThatNothingMoreGoesIntoIsEmptiedRightAway(t *testing.T) {
	h := household.Greens(t, 150)
	h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
	p, now := agreed(t, h, may(8, 8), day.Ask{}), may(8, 8)
	p, s, now := followed(t, h, p, now, func(p *day.Plan, s day.Step) bool {
		return s.Do == soak.PutIn
	})
	does(h, p, s, now)
	for _, v := range h.Vessels() { // and one that nothing has been in
		if h.Water(v.Name) == nil {
			h.Say(now.Add(time.Minute), &model.Fill{Vessel: v.Name})
			break
		}
	}
	now = now.Add(5 * time.Minute)
	h.Say(now, &model.Out{Shaken: true}, day.AllOut(h.Book, now)...)
	h.Say(now, day.Stop(h.Book, current(t, h, now), now))
	p = current(t, h, now.Add(time.Minute))
	stands := 0
	for _, v := range h.Vessels() {
		if h.Water(v.Name) == nil {
			continue
		}
		stands++
		if toEmpty(h, p, v.Name) == "" || slices.Contains(p.Standing, v.Name) {
			t.Errorf("a minute after the day broke off nothing says to empty %s: %q", v.Name, texts(h, p))
		}
	}
	if stands < 2 {
		t.Errorf("water stands in %d vessels: it shows nothing", stands)
	}
}

// Swimming spores go from a sick plant to others through the water they share (Stanghellini et
// al. 2000, Plant Disease 84:1147): the water of a plant that is found rotting in it is the
// sick's from then on.
func TestTheWaterOfAPlantFoundRottingInItServesNobodyElse(t *testing.T) {
	h := household.Greens(t, 150)
	h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
	p, now := agreed(t, h, may(8, 8), day.Ask{}), may(8, 8)
	var next model.ID
	p, s, now := followed(t, h, p, now, func(p *day.Plan, s day.Step) bool {
		l := p.Loads[max(0, s.Load)]
		for _, m := range p.Loads {
			if s.Do == soak.PutIn && m.Vessel == l.Vessel && m.Fill == l.Fill && m.Start.After(l.Start) {
				next = m.Plants[0].ID
			}
		}
		return next > 0
	})
	does(h, p, s, now)
	rots := s.Plants[1]
	h.Say(now.Add(9*time.Minute), &model.Rot{}, rots)
	now = now.Add(10 * time.Minute)
	p = current(t, h, now)
	if w := h.Water(s.Vessel); w.Worst != model.Sick {
		t.Errorf("its water is of the %v", w.Worst)
	}
	if said := toEmpty(h, p, s.Vessel); !strings.Contains(said, "throw this water out") || !strings.Contains(said, "disinfect") {
		t.Errorf("of its water is said: %q", said)
	}
	if l, _, ok := p.Placed(next); ok && p.Loads[l].Vessel == s.Vessel && p.Loads[l].Fill == 0 {
		t.Errorf("plant %d goes into the same water", next)
	}
}
