package trade_test

import (
	"testing"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
)

// uncapped sets the house rules so that nothing cuts a need: no rest days, no
// caps to speak of.
func (c *collection) uncapped() {
	for _, l := range []model.Limit{model.CapBulbous, model.CapFuzzy, model.CapTank, model.CapPendent, model.CapXeric} {
		c.enter(today.AddDate(0, 0, -60), &model.RuleSet{Name: model.LimitTable[l].Name, Value: 1440})
	}
	c.enter(today.AddDate(0, 0, -60), &model.RuleSet{Name: "rest-days", Value: 0})
}

// anyPlant draws a plant that anybody might have.
func anyPlant(t *rapid.T) model.Plant {
	return model.Plant{
		Form:  rapid.SampledFrom(model.Forms).Draw(t, "form"),
		Leaf:  rapid.SampledFrom(model.Leaves).Draw(t, "leaf"),
		Size:  rapid.Float64Range(3, 60).Draw(t, "size"),
		Count: rapid.IntRange(1, 30).Draw(t, "count"),
	}
}

// notShorter fails when the second need is for less water than the first.
func notShorter(t *rapid.T, less, more advice.Need) {
	if more.Band < less.Band || more.From < less.From || more.To < less.To {
		t.Fatalf("need fell from %v %.0f-%.0f (RWC %.4f) to %v %.0f-%.0f (RWC %.4f)",
			less.Band, less.From, less.To, less.RWC, more.Band, more.From, more.To, more.RWC)
	}
}

func TestMoreSignsNeverShortenANeed(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p, days := anyPlant(rt), rapid.Float64Range(1, 40).Draw(rt, "days")
		less := model.Signs{Curl: grade(rt, 3), Tips: grade(rt, 3),
			Shift: model.Grade(rapid.IntRange(1, 2).Draw(rt, "shift"))}
		more := less
		switch rapid.IntRange(0, 2).Draw(rt, "which") {
		case 0:
			more.Curl = min(more.Curl+1, model.MaxGrade)
		case 1:
			more.Tips = min(more.Tips+1, model.MaxGrade)
		case 2:
			more.Shift = 2
		}
		notShorter(rt, lookedAt(t, p, days, less), lookedAt(t, p, days, more))
	})
}

func grade(t *rapid.T, most int) model.Grade {
	return model.Grade(rapid.IntRange(0, most).Draw(t, "grade"))
}

func lookedAt(t *testing.T, p model.Plant, days float64, s model.Signs) advice.Need {
	c := newCollection(t)
	c.uncapped()
	id := c.plant(p, days)
	c.enter(today, &model.Look{Signs: s}, id)
	return c.need(id)
}

func TestMoreDaysNeverShortenANeed(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := anyPlant(rt)
		days := rapid.Float64Range(0, 40).Draw(rt, "days")
		more := days + rapid.Float64Range(0, 10).Draw(rt, "longer")
		look := rapid.Bool().Draw(rt, "look")
		s := model.Signs{Curl: grade(rt, 3), Tips: grade(rt, 3), Shift: model.NotSeen}
		notShorter(rt, after(t, p, days, look, s), after(t, p, more, look, s))
	})
}

func after(t *testing.T, p model.Plant, days float64, look bool, s model.Signs) advice.Need {
	c := newCollection(t)
	c.uncapped()
	id := c.plant(p, days)
	if look {
		c.enter(today, &model.Look{Signs: s}, id)
	}
	return c.need(id)
}

func TestDrierAirNeverShortensANeed(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p, days := anyPlant(rt), rapid.Float64Range(0, 40).Draw(rt, "days")
		rh := rapid.Float64Range(5, 95).Draw(rt, "rh")
		drier := rapid.Float64Range(1, rh).Draw(rt, "drier")
		notShorter(rt, inAir(t, p, days, rh), inAir(t, p, days, drier))
	})
}

func inAir(t *testing.T, p model.Plant, days, rh float64) advice.Need {
	c := &collection{t, model.NewBook(today.Location())}
	c.enter(today.AddDate(0, 0, -20), &model.Reading{TempC: 21, RH: rh})
	c.uncapped()
	return c.need(c.plant(p, days))
}
