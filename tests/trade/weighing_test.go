package trade_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
)

// Common practice, no source: what a plant weighs tells of its water when it is one plant, sound, settled in and not in
// bloom; and a plant of a gram tells nothing on a scale for flour.
func TestOnlyAPlantThatTellsSomethingIsProposedForTheScale(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := newCollection(rt)
		step := rapid.SampledFrom([]float64{0.01, 0.1, 1}).Draw(rt, "step")
		c.enter(today, &model.RuleSet{Name: "scale-step", Value: step})
		fit := map[model.ID]bool{}
		for range rapid.IntRange(0, 25).Draw(rt, "plants") {
			p := anyPlant(rt)
			id := c.plant(p, rapid.Float64Range(0, 15).Draw(rt, "days"))
			life := rapid.SliceOfN(rapid.SampledFrom([]model.Fact{
				&model.Bloom{Stage: model.Bud}, &model.Rot{}, &model.Quarantine{}, &model.Trouble{What: model.Burn},
				&model.Fading{}, &model.Mist{}, &model.Leave{How: model.Sold},
			}), 0, 1).Draw(rt, "life")
			for _, f := range life {
				c.enter(today, f, id)
			}
			_, misted := append(life, &model.Mist{})[0].(*model.Mist)
			fit[id] = misted && p.Count == 1 && p.Form != model.Tank && p.Form != model.Pendent
		}
		ten := advice.ChooseTen(estimate.New(c.book), today)
		seen := map[model.ID]bool{}
		for _, w := range ten {
			switch {
			case !fit[w.ID]:
				rt.Fatalf("plant %d is proposed: %+v", w.ID, c.book.Row(w.ID))
			case seen[w.ID]:
				rt.Fatalf("plant %d is proposed twice", w.ID)
			case w.Grams < 30*step:
				rt.Fatalf("plant %d weighs about %.2f g on a scale with a step of %g g", w.ID, w.Grams, step)
			}
			seen[w.ID] = true
		}
		if step == 0.01 {
			all := 0
			for id, ok := range fit {
				if ok && c.book.Row(id).Size >= 4 {
					all++
				}
			}
			if len(ten) < min(all, 10) { // a hundredth of a gram tells of all but the smallest
				rt.Fatalf("%d proposed of %d that would do", len(ten), all)
			}
		}
	})
}

// The house is told of by all it has much of: no form and leaf gets a fifth plant before another that is as common has
// its first; and who is swapped does not come back.
func TestTheTenStandForTheHouse(t *testing.T) {
	c := newCollection(t)
	for range 30 {
		c.medium(model.Rosette, model.Mesic, 5)
		c.medium(model.Rosette, model.Xeric, 5)
		c.medium(model.Wispy, model.Mesic, 5)
	}
	rare := c.medium(model.Bulbous, model.Mesic, 5)
	k := estimate.New(c.book)
	kinds := map[[2]string]int{}
	ten := advice.ChooseTen(k, today)
	for _, w := range ten {
		row := c.book.Row(w.ID)
		kinds[[2]string{string(row.Form), string(row.Leaf)}]++
		if w.ID == rare {
			t.Errorf("the only bulb of %d plants is weighed", c.book.Len())
		}
		if w.Alike != 30 {
			t.Errorf("plant %d stands for %d, want 30", w.ID, w.Alike)
		}
	}
	if len(ten) != 10 || len(kinds) != 3 {
		t.Errorf("%d plants of %v", len(ten), kinds)
	}
	for kind, n := range kinds {
		if n < 3 {
			t.Errorf("%v: %d", kind, n)
		}
	}
	first := ten[0].ID
	if again := advice.ChooseTen(k, today, first); len(again) != 10 ||
		slices.ContainsFunc(again, func(w advice.Weighable) bool { return w.ID == first }) {
		t.Errorf("without %d: %v", first, again)
	}
}

// Four weeks of a rosette soaked every Saturday: before the soak with a look, full when it is dry to the heart, and
// half way on Tuesday night; then it is over.
func TestTheScaleThroughFourWeeks(t *testing.T) {
	c := newCollection(t)
	id, other := c.medium(model.Rosette, model.Mesic, 7), c.medium(model.Rosette, model.Mesic, 7)
	c.enter(today, &model.Weighing{}, id)
	for week := range model.WeighingWeeks {
		at := today.AddDate(0, 0, 7*week)
		wantStop(t, c, c.round(advice.WeighRound, at).Due, id, "before its soak, with its signs")
		c.enter(at, &model.Look{Signs: model.LooksFine}, id)
		wantStop(t, c, c.round(advice.WeighRound, at).Due, id, "before its soak")
		c.enter(at, &model.Weigh{Grams: 18}, id)
		wantStop(t, c, c.round(advice.WeighRound, at).Later, id, "weighed, 18 g")
		c.enter(at.Add(time.Hour), &model.Soak{Load: c.book.NextLoad(), Vessel: "tub", Due: at.Add(3 * time.Hour)}, id)
		wantStop(t, c, c.round(advice.WeighRound, at.Add(time.Hour)).Later, id, "in the water")
		c.enter(at.Add(3*time.Hour), &model.Out{Shaken: true, Inverted: true}, id)
		wantStop(t, c, c.round(advice.WeighRound, at.Add(3*time.Hour)).Later, id, "when it is dry inside")
		c.enter(at.Add(8*time.Hour), &model.FoundDry{}, id)
		wantStop(t, c, c.round(advice.WeighRound, at.Add(8*time.Hour)).Due, id, "full, before it hangs")
		c.enter(at.Add(8*time.Hour), &model.Weigh{Grams: 20, Wet: true}, id)
		wantStop(t, c, c.round(advice.WeighRound, at.Add(8*time.Hour)).Later, id, "20 g full")
		c.enter(at.Add(9*time.Hour), &model.Hung{}, id)
		wantStop(t, c, c.round(advice.WeighRound, at.AddDate(0, 0, 2)).Later, id, "half way")
		if week < 3 {
			wantStop(t, c, c.round(advice.WeighRound, at.AddDate(0, 0, 4)).Due, id, "half way")
			c.enter(at.AddDate(0, 0, 4), &model.Weigh{Grams: 19}, id)
			if before, full, half := advice.ToBeWeighed(estimate.New(c.book), at.AddDate(0, 0, 4)); before+full+half > 0 {
				t.Errorf("week %d: %d, %d and %d to weigh after all were", week, before, full, half)
			}
		}
		if r := c.round(advice.WeighRound, at); len(r.Due)+len(r.Later)+len(r.Skipped) != 1 {
			t.Errorf("plant %d is on the scale as well", other)
		}
	}
	if c.book.Ten(today.AddDate(0, 0, 27)) == nil || c.book.Ten(today.AddDate(0, 0, 28)) != nil {
		t.Error("four weeks are not 28 days")
	}
	if r := c.round(advice.WeighRound, today.AddDate(0, 0, 28)); len(r.Due) > 0 || len(r.Notes) != 1 {
		t.Errorf("after four weeks: %+v", r)
	}
}

// Other plants in the place of some go on with the weeks; begun again after they are over, they begin anew.
func TestAPlantOfTheTenIsSwapped(t *testing.T) {
	c := newCollection(t)
	a, b := c.medium(model.Rosette, model.Mesic, 7), c.medium(model.Rosette, model.Mesic, 7)
	c.enter(today, &model.Weighing{}, a)
	c.enter(today.AddDate(0, 0, 9), &model.Weighing{}, b)
	if ten := c.book.Ten(today.AddDate(0, 0, 9)); !ten.Since.Equal(today) || !slices.Equal(ten.Plants, model.IDs{b}) {
		t.Errorf("swapped: %+v", ten)
	}
	c.enter(today.AddDate(0, 0, 40), &model.Weighing{}, a)
	if ten := c.book.Ten(today.AddDate(0, 0, 40)); !ten.Since.Equal(today.AddDate(0, 0, 40)) {
		t.Errorf("begun again: %+v", ten)
	}
	c.enter(today.AddDate(0, 0, 41), &model.Weighing{Over: true})
	if c.book.Ten(today.AddDate(0, 0, 41)) != nil {
		t.Error("over, and weighed still")
	}
}
