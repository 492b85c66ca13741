package feed_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/feed"
)

func findings(t *testing.T, w feed.Water) []feed.Finding {
	t.Helper()
	found, err := w.Findings()
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// Water through a softener, where sodium took the place of hardness (made-up numbers, of the common size).
func TestSoftenedTap(t *testing.T) {
	found := findings(t, feed.Water{EC: 0.6, Sodium: 120, Chloride: 40})
	var words []string
	for _, f := range found {
		words = append(words, f.What+": "+f.Restriction.String())
	}
	want := "conductivity: none, sodium: slight to moderate, chloride: none"
	if got := strings.Join(words, ", "); got != want {
		t.Errorf("%s; want %s", got, want)
	}
	if feed.Worst(found) != feed.SlightToModerate {
		t.Errorf("worst %v", feed.Worst(found))
	}
}

func TestNothingMeasuredNothingFound(t *testing.T) {
	if found := findings(t, feed.Water{}); len(found) != 0 || feed.Worst(found) != feed.None {
		t.Errorf("%+v", found)
	}
}

func TestEveryFindingNamesItsSource(t *testing.T) {
	found := findings(t, feed.Water{EC: 1, TDS: 1, Sodium: 1, Chloride: 1, Boron: 1})
	if len(found) != 5 {
		t.Errorf("%d findings", len(found))
	}
	for _, f := range found {
		if f.Source != feed.FAO29 || f.What == "" || f.Unit == "" || f.Limit == 0 {
			t.Errorf("%+v", f)
		}
	}
}

func TestWaterRefusesWhatCannotBe(t *testing.T) {
	for what, w := range map[string]feed.Water{
		"conductivity": {EC: -1}, "dissolved solids": {TDS: math.NaN()}, "sodium": {Sodium: -1},
		"chloride": {Chloride: math.Inf(1)}, "boron": {Boron: -0.1},
	} {
		if _, err := w.Findings(); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func TestSaltierWaterIsNeverFitter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num := func(name string, high float64) float64 { return rapid.Float64Range(0, high).Draw(t, name) }
		w := feed.Water{EC: num("EC", 5), TDS: num("TDS", 3000), Sodium: num("Na", 200), Chloride: num("Cl", 300),
			Boron: num("B", 5)}
		times := rapid.Float64Range(1, 4).Draw(t, "times")
		salty := feed.Water{EC: times * w.EC, TDS: times * w.TDS, Sodium: times * w.Sodium,
			Chloride: times * w.Chloride, Boron: times * w.Boron}
		before, err := w.Findings()
		after, err2 := salty.Findings()
		if err != nil || err2 != nil || feed.Worst(after) < feed.Worst(before) {
			t.Fatalf("%+v, then %+v: %v, %v", before, after, err, err2)
		}
	})
}

func TestChloramineStays(t *testing.T) {
	if low, high := feed.Chloramine.Left(200, 10); low != 1 || high != 1 {
		t.Errorf("left after 200 h: %v to %v", low, high)
	}
	soonest, latest := feed.Chloramine.Hours(2, 0.5, 10)
	if !math.IsInf(soonest, 1) || !math.IsInf(latest, 1) {
		t.Errorf("%v to %v h", soonest, latest)
	}
	if soonest, latest := feed.Chloramine.Hours(0.5, 0.5, 10); soonest != 0 || latest != 0 {
		t.Errorf("there already: %v to %v h", soonest, latest)
	}
}

func TestATubTakesLongerThanAJug(t *testing.T) {
	jug, _ := feed.FreeChlorine.Hours(1, 0.1, 15)
	shallow, _ := feed.FreeChlorine.Hours(1, 0.1, 20)
	tub, _ := feed.FreeChlorine.Hours(1, 0.1, 40)
	if jug != shallow || !alike(tub, 2*jug) {
		t.Errorf("jug %v h, 20 cm %v h, tub of 40 cm %v h", jug, shallow, tub)
	}
}

func TestStandingOnlyTakesChlorineAway(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hours, depth := rapid.Float64Range(0, 200).Draw(t, "hours"), rapid.Float64Range(1, 60).Draw(t, "depth")
		longer := hours + rapid.Float64Range(0.1, 50).Draw(t, "longer")
		low, high := feed.FreeChlorine.Left(hours, depth)
		low2, high2 := feed.FreeChlorine.Left(longer, depth)
		if !(0 < low2 && low2 < low && high2 < high && low <= high && high <= 1) {
			t.Fatalf("%v to %v, later %v to %v", low, high, low2, high2)
		}
		if hours < 1 {
			return
		}
		soonest, _ := feed.FreeChlorine.Hours(1, low, depth)
		_, latest := feed.FreeChlorine.Hours(1, high, depth)
		if math.Abs(soonest-hours) > 1e-6 || math.Abs(latest-hours) > 1e-6 {
			t.Fatalf("%v h came back as %v and %v", hours, soonest, latest)
		}
	})
}
