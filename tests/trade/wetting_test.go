package trade_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
)

// watered is the thirst of a plant that is soaked every so many days for so many
// minutes and misted at some hours after the first soak.
func watered(t *rapid.T, p model.Plant, every int, minutes float64, mists []int) float64 {
	c := newCollection(t)
	const days = 28
	begin := today.AddDate(0, 0, -days)
	p.ID = c.book.NextID()
	type act struct {
		at   time.Time
		fact model.Fact
	}
	var acts []act
	for d := 0; d < days; d += every {
		out := begin.AddDate(0, 0, d).Add(12 * time.Hour)
		in := out.Add(-time.Duration(minutes * float64(time.Minute)))
		acts = append(acts, act{in, &model.Soak{Load: model.LoadID(d + 1), Vessel: "tub", Due: out}}, act{out, &model.Out{Shaken: true}},
			act{out.Add(4 * time.Hour), &model.FoundDry{}}, act{out.Add(5 * time.Hour), &model.Hung{}})
	}
	for _, h := range mists {
		acts = append(acts, act{begin.Add(time.Duration(h) * time.Hour), &model.Mist{}})
	}
	slices.SortStableFunc(acts, func(a, b act) int { return a.at.Compare(b.at) })
	c.enter(begin.AddDate(0, 0, -1), &model.Add{Plants: []model.Plant{p}})
	for _, a := range acts {
		c.enter(a.at, a.fact, p.ID)
	}
	return c.need(p.ID).Thirst()
}

// Common practice, no source: water never makes a plant thirstier, soak or mist,
// whatever becomes of it on the leaves.
func TestMoreWaterNeverMakesAPlantThirstier(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p, every := anyPlant(rt), rapid.IntRange(2, 20).Draw(rt, "every")
		minutes := rapid.Float64Range(1, 300).Draw(rt, "minutes")
		mists := rapid.SliceOfN(rapid.IntRange(0, 27*24), 0, 12).Draw(rt, "mists")
		usual := watered(rt, p, every, minutes, mists)
		longer := watered(rt, p, every, minutes+rapid.Float64Range(1, 60).Draw(rt, "longer"), mists)
		more := watered(rt, p, every, minutes, append(mists, rapid.IntRange(0, 27*24).Draw(rt, "once more")))
		const table = 1e-5 // of the exponential
		if longer > usual+table || more > usual+table {
			rt.Fatalf("thirst %.6f, soaked longer %.6f, misted once more %.6f", usual, longer, more)
		}
	})
}
