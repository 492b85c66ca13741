package trade_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/show"
)

func (c *collection) water(vessel string, at time.Time) advice.VesselWater {
	c.t.Helper()
	for _, w := range advice.Waters(estimate.New(c.book).Book(), at) {
		if w.Vessel.Name == vessel {
			return w
		}
	}
	c.t.Fatalf("no vessel %s", vessel)
	return advice.VesselWater{}
}

func (c *collection) fill(f model.Fill) {
	c.t.Helper()
	f.Vessel = "tub"
	c.enter(today, &f)
}

func wantWater(t *testing.T, c *collection, w advice.VesselWater, f advice.Fitness, why string) {
	t.Helper()
	if words := c.words(0, w.Reasons...); w.Fitness != f || !strings.Contains(words[0], why) {
		t.Errorf("%s (%v), want %s because of %q", w.Fitness, words, f, why)
	}
}

// Common practice, no source, but for the conductivity: none to slight below 0.7
// dS/m, FAO Irrigation and Drainage Paper 29, Ayers & Westcot 1985, table 1.
func TestWatersAreJudged(t *testing.T) {
	for _, w := range []struct {
		fill model.Fill
		want advice.Fitness
		why  string
	}{
		{model.Fill{Of: []model.Source{model.Rain}}, advice.Fine, "fit for plants"},
		{model.Fill{Of: []model.Source{model.Rain}, EC: 0.69}, advice.Fine, "fit for plants"},
		{model.Fill{Of: []model.Source{model.Rain}, EC: 0.71}, advice.Warned, "conductivity 0.71 dS/m"},
		{model.Fill{Of: []model.Source{model.Rain}, EC: 0.9, Fed: &weak}, advice.Fine, "fit for plants"}, // the feed itself
		{model.Fill{Of: []model.Source{model.RO}}, advice.Warned, "blend it"},
		{model.Fill{Of: []model.Source{model.Distilled}}, advice.Warned, "blend it"},
		{model.Fill{Of: []model.Source{model.RO, model.Tap}}, advice.Fine, "tap water, stood"},
		{model.Fill{Of: []model.Source{model.RO}, Fed: &weak}, advice.Fine, "fit for plants"},
		{model.Fill{Of: []model.Source{model.Pond}}, advice.Warned, "rot"},
		{model.Fill{Of: []model.Source{model.Rain}, TempC: 14}, advice.Warned, "let it warm"},
		{model.Fill{Of: []model.Source{model.Rain}, TempC: 31}, advice.Warned, "let it cool"},
		{model.Fill{Of: []model.Source{model.Rain}, TempC: 21}, advice.Fine, "fit for plants"},
	} {
		c := newCollection(t)
		c.fill(w.fill)
		wantWater(t, c, c.water("tub", today), w.want, w.why)
	}
	c := newCollection(t)
	wantWater(t, c, c.water("tub", today), advice.Fine, "empty, or not on record")
	c.enter(today, &model.Sample{Of: model.Tap, Hardness: 151})
	c.fill(model.Fill{Of: []model.Source{model.RestedTap}})
	wantWater(t, c, c.water("tub", today), advice.Warned, "hard (151 mg/L)")
	c.enter(today.Add(time.Hour), &model.Sample{Vessel: "tub", TempC: 12})
	if w := c.water("tub", today.Add(time.Hour)); w.TempC != 12 {
		t.Errorf("the meter said 12 °C, the board %g", w.TempC)
	}
	c.enter(today.Add(2*time.Hour), &model.Fill{Vessel: "tub", Of: []model.Source{model.Rain}})
	if w := c.water("tub", today.Add(3*time.Hour)); w.TempC != 0 {
		t.Errorf("what the meter said of the last filling, %g °C, is said of this one", w.TempC)
	}
}

// Water that stood for a day has lost 51 to 62 % of its free chlorine (Toxin
// Reviews 2021, 40:1407-1420; less in a deep tub); chloramine stays.
func TestChlorineLeavesAndChloramineStays(t *testing.T) {
	c := newCollection(t)
	c.fill(model.Fill{Of: []model.Source{model.Tap}, Stood: 10})
	if c.water("tub", today).Chlorine.Known {
		t.Error("nobody has said what the waterworks adds")
	}
	c.enter(today, &model.RuleSet{Name: "tap-treated", Value: 1})
	left := c.water("tub", today.Add(14*time.Hour)).Chlorine
	low, high := math.Exp(-24*0.040*20/25), math.Exp(-24*0.030*20/25)
	if !left.Known || math.Abs(left.Low-low) > 0.001 || math.Abs(left.High-high) > 0.001 {
		t.Errorf("after 24 h %+v, want %.3f to %.3f", left, low, high)
	}
	id := c.medium(model.Rosette, model.Mesic, 7)
	c.enter(today, &model.Soak{Load: c.book.NextLoad(), Vessel: "tub", Due: today.Add(time.Hour)}, id)
	if c.water("tub", today.Add(time.Hour)).Chlorine.Known {
		t.Error("water that plants were in is still judged by its chlorine")
	}
	c.enter(today.Add(time.Hour), &model.Out{}, id)
	c.fill(model.Fill{Of: []model.Source{model.Tap}})
	c.enter(today, &model.RuleSet{Name: "tap-treated", Value: 2})
	if left := c.water("tub", today.Add(48*time.Hour)).Chlorine; left.Low != 1 || left.High != 1 {
		t.Errorf("chloramine left: %+v", left)
	}
}

// Shared water carries rot: so many loads and hours, never for the next day, and
// thrown out after a sick plant (Stanghellini et al. 2000, Plant Disease 84:1147,
// in peppers; the numbers are house rules).
func TestWhenToChangeTheWater(t *testing.T) {
	c := newCollection(t)
	a, b, n := c.medium(model.Rosette, model.Mesic, 7), c.medium(model.Rosette, model.Mesic,
		7), c.medium(model.Rosette, model.Mesic, 7)
	sick := c.medium(model.Rosette, model.Mesic, 7)
	in := func(at time.Time, id model.ID) {
		t.Helper()
		c.enter(at, &model.Soak{Load: c.book.NextLoad(), Vessel: "tub", Due: at.Add(time.Hour)}, id)
		c.enter(at.Add(time.Hour), &model.Out{}, id)
	}
	c.fill(model.Fill{Of: []model.Source{model.Rain}})
	in(today, a)
	wantWater(t, c, c.water("tub", today.Add(time.Hour)), advice.Fine, "fit for plants")
	wantWater(t, c, c.water("tub", today.Add(2*time.Hour)), advice.Change, "2 h since its first plant")
	wantWater(t, c, c.water("tub", today.Add(12*time.Hour)), advice.Change, "do not keep it for another day")
	in(today.Add(time.Hour), b)
	wantWater(t, c, c.water("tub", today.Add(90*time.Minute)), advice.Change, "2 loads")

	c.fill(model.Fill{Of: []model.Source{model.Rain}})
	c.enter(today, &model.Quarantine{}, n)
	in(today, n)
	wantWater(t, c, c.water("tub", today.Add(time.Hour)), advice.Warned, "no healthy plants after")
	c.fill(model.Fill{Of: []model.Source{model.Rain}})
	c.enter(today, &model.Trouble{What: model.Scale}, sick)
	in(today, sick)
	wantWater(t, c, c.water("tub", today.Add(time.Hour)), advice.Change, "disinfect")

	c.fill(model.Fill{Of: []model.Source{model.Rain}})
	cleared := c.medium(model.Rosette, model.Mesic, 7)
	c.enter(today, &model.Rot{}, cleared)
	c.enter(today, &model.Rot{Over: true}, cleared)
	in(today, cleared)
	wantWater(t, c, c.water("tub", today.Add(time.Hour)), advice.Change, "a plant just over a trouble was in it")
}

// The evening before, when there is a soak and nothing stands ready.
func TestFillTheTubTonight(t *testing.T) {
	c := newCollection(t)
	tonight, start := today.Add(11*time.Hour), today.AddDate(0, 0, 1)
	remind := func(plants int, start time.Time) (day.Reminder, bool) {
		return day.FillTonight(estimate.New(c.book).Book(), start, plants, nil, tonight)
	}
	r, ok := remind(140, start)
	if !ok || len(r.Vessels) != 1 || r.Vessels[0] != "tub" ||
		!strings.Contains(show.Reminder(r)[0], "fill tub tonight: 140 plants want a soak Mon 09:00") {
		t.Errorf("%t %+v", ok, r)
	}
	if !r.By.Equal(start.Add(-12 * time.Hour)) {
		t.Errorf("by %s, want the house rule's 12 h before", r.By)
	}
	if _, ok := remind(0, start); ok {
		t.Error("reminded for no plants")
	}
	if _, ok := remind(140, start.AddDate(0, 0, 3)); ok {
		t.Error("reminded three days before")
	}
	c.enter(tonight, &model.Fill{Vessel: "tub", Of: []model.Source{model.Tap}})
	if _, ok := remind(140, start); ok {
		t.Error("reminded of a tub that is filled")
	}
	id := c.medium(model.Rosette, model.Mesic, 7)
	c.enter(tonight, &model.Soak{Load: c.book.NextLoad(), Vessel: "tub", Due: tonight.Add(time.Minute)}, id)
	c.enter(tonight, &model.Out{}, id)
	tonight = tonight.Add(3 * time.Hour)
	if _, ok := remind(140, start); !ok {
		t.Error("not reminded of a tub whose water is used up")
	}
	c.enter(tonight, &model.Drain{Vessel: "tub"})
	c.enter(tonight, &model.Fill{Vessel: "bucket 1", Of: []model.Source{model.Rain}})
	if _, ok := remind(140, start); ok {
		t.Error("rain needs no rest")
	}
}

// Healthy before newcomers before suspects, sick ones last, in their own water:
// common practice, no source.
func TestCompanyInTheWater(t *testing.T) {
	c := newCollection(t)
	for want, fact := range map[soak.Company]model.Fact{
		soak.Healthy: &model.Note{Text: "fine"}, soak.Newcomer: &model.Quarantine{}, soak.Sick: &model.Trouble{What: model.Mites},
	} {
		id := c.medium(model.Rosette, model.Mesic, 7)
		c.enter(today, fact, id)
		company := advice.CompanyOf(c.book, c.book.Row(id), today)
		why := show.Company(company)
		if company != want || (why == "") != (want == soak.Healthy) {
			t.Errorf("%s: %s because of %q", fact.Kind(), company, why)
		}
		if why != "" {
			wantSays(t, c, c.need(id), why)
		}
	}
}

// Growers' habit, from memory: weeks of colour by form and leaf.
func TestBloomsEndInARange(t *testing.T) {
	c := newCollection(t)
	wispy, tank := c.medium(model.Wispy, model.Mesic, 7), c.medium(model.Tank, model.Mesic, 7)
	c.enter(today, &model.Bloom{Stage: model.Bud}, wispy, tank)
	if _, _, ok := advice.BloomEnd(c.book.Row(wispy)); ok {
		t.Error("a bud is given an end")
	}
	opened := today.AddDate(0, 0, 20)
	c.enter(opened, &model.Bloom{Stage: model.Open}, wispy, tank)
	low, high, ok := advice.BloomEnd(c.book.Row(wispy))
	if !ok || !low.Equal(opened.AddDate(0, 0, 7)) || !high.Equal(opened.AddDate(0, 0, 28)) {
		t.Errorf("wispy between %s and %s", low, high)
	}
	if tankLow, _, _ := advice.BloomEnd(c.book.Row(tank)); !tankLow.After(high) {
		t.Errorf("a tank plant's bloom ends from %s, before a wispy one's %s", tankLow, high)
	}
	c.enter(opened, &model.Bloom{Stage: model.Spent}, wispy)
	if _, _, ok := advice.BloomEnd(c.book.Row(wispy)); ok {
		t.Error("a spent bloom has an end to come")
	}
}

// A bloom that lasts beyond its time is asked about, and again two weeks after a yes;
// once it is over the plant gets its soak. Common practice, no source.
func TestALateBloomIsAskedAbout(t *testing.T) {
	c := newCollection(t)
	id := c.medium(model.Wispy, model.Mesic, 20)
	c.enter(today.AddDate(0, 0, -40), &model.Bloom{Stage: model.Open}, id)
	n := c.need(id)
	if !n.LookFirst || n.Band != soak.Mist {
		t.Errorf("asked %v, %s", n.LookFirst, n.Band)
	}
	wantSays(t, c, n, "still in bloom? Said to be since 9 Dec 2025; such blooms are over by 6 Jan")
	c.enter(today, &model.Bloom{}, id)
	row := c.book.Row(id)
	if n := c.need(id); n.LookFirst || advice.AskBloom(row, today.AddDate(0, 0, 13)) || !advice.AskBloom(row, today.AddDate(0, 0, 15)) {
		t.Error("after a yes it is to be asked about again in two weeks")
	}
	if row.Stage != model.Open || !row.Bloom.Equal(today.AddDate(0, 0, -40)) {
		t.Errorf("a yes changed the bloom: %s since %s", row.Stage, row.Bloom)
	}
	c.enter(today, &model.Bloom{Stage: model.Spent}, id)
	if n := c.need(id); !n.Band.InWater() {
		t.Errorf("after the bloom: %s", n.Band)
	}
}
