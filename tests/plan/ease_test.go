package plan_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// Over every scene in several homes, and five invented collections of 640: a load is fetched
// in a walk or two along the shelves, nearly none in more than three, and what is pulled goes
// in soon after. Means and worsts, so that no single home decides.
func TestADayCanBeFollowed(t *testing.T) {
	var walks, waits, many []float64
	look := func(name string, p *soak.Plan) {
		for n, l := range p.Loads {
			if l.Given > 0 {
				continue
			}
			turns := 0.0
			last := -1
			for k, x := range l.Plants {
				if k == 0 || x.Walk < last {
					turns++
				}
				last = x.Walk
			}
			walks = append(walks, turns)
			if turns > 3 {
				many = append(many, turns)
				t.Logf("%s: a load of %d is fetched in %.0f walks", name, len(l.Plants), turns)
			}
			for _, a := range p.Actions {
				if a.Load == n && a.Do == soak.Pull {
					waits = append(waits, float64(l.Start-a.Until)/minute)
				}
			}
		}
	}
	eachHome(func(name string, m household.Moment) { look(name, demoDay(t, m).plan) })
	for seed := range uint64(5) {
		look(fmt.Sprintf("640, no. %d", seed), sampleDay(t, seed).plan)
	}
	t.Logf("%d loads: walks %.2f on average, more than three for %d; %.0f minutes from pulled to in on average, %.0f at most",
		len(walks), mean(walks), len(many), mean(waits), slices.Max(waits))
	if mean(walks) > 2.5 || 20*len(many) > len(walks) {
		t.Errorf("%.2f walks a load, and more than three for %d of %d; at most 2.5, and one load in twenty", mean(walks), len(many), len(walks))
	}
	if mean(waits) > 40 { // as long as it was before loads were pulled late
		t.Errorf("what is pulled waits %.0f minutes on average; at most 40", mean(waits))
	}
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// In every home: a load to come is none of a few plants in a large vessel, and in ten minutes
// in which nobody does anything nobody loses a place.
func TestEveryHomesPlanStandsInFullLoads(t *testing.T) {
	eachHome(func(name string, m household.Moment) {
		h, p := household.Of(m.Book(t), t).Followed(), propose(t, m)
		for _, fault := range tooSmall(h.Book, p) {
			t.Errorf("%s: %s", name, fault)
		}
		h.Say(m.Now, p.Agree(h.Book, m.Now))
		for _, late := range []time.Duration{0, 10 * time.Minute} {
			if q, err := day.Kept(context.Background(), h.Keeper(), m.Now.Add(late)); err != nil || q.Lost {
				t.Errorf("%s: %v late a plant is left out (%v)", name, late, err)
			}
		}
	})
}

// tooSmall is the loads of healthy plants in plain water, to come in the day, that are less
// than the house rules want of one.
func tooSmall(b *model.Book, p *day.Plan) (faults []string) {
	rules, due := b.Rules(), 0
	for _, l := range p.Left {
		if l.Unplaced != nil && !l.Fed && advice.CompanyOf(b, b.Row(l.ID), p.Ask.From) == soak.Healthy {
			due++
		}
	}
	for _, l := range p.Loads {
		if ordinary(l) {
			due += len(l.Plants)
		}
	}
	fewest := int(rules[model.LoadPlants])
	if due < 2*fewest { // their part
		fewest = max(1, due/int(rules[model.DayLoads]))
	}
	litres, smallest := map[string]float64{}, 1e9
	for _, v := range b.Vessels() {
		litres[v.Name], smallest = v.Litres, min(smallest, v.Litres)
	}
	for _, l := range p.Loads {
		if !ordinary(l) {
			continue
		}
		bulk := 0.0
		for _, x := range l.Plants {
			bulk += x.Bulk
		}
		room := litres[l.Vessel]
		if len(l.Plants) < fewest {
			faults = append(faults, fmt.Sprintf("%d plants in %s at %s, at least %d", len(l.Plants), l.Vessel, l.Start.Format("15:04"), fewest))
		}
		if room > smallest && bulk < rules[model.LoadShare]/100*room-1e-6 {
			faults = append(faults, fmt.Sprintf("%.1f litres in %s of %g", bulk, l.Vessel, room))
		}
	}
	return faults
}

// ordinary reports whether the house rules have a least size for a load.
func ordinary(l day.Load) bool {
	return l.ToCome() && !l.Night && !l.Fed && l.Company == soak.Healthy
}
