package ledger_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tubside/model/ledger"
)

func survival(t interface {
	Helper()
	Fatal(...any)
}, observations []ledger.Observation) ledger.Curve {
	t.Helper()
	c, err := ledger.Survival(observations, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// anyWatch draws a small collection with many ties.
func anyWatch(t *rapid.T) []ledger.Observation {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) ledger.Observation {
		return ledger.Observation{Days: float64(rapid.IntRange(0, 30).Draw(t, "days")),
			Lost: rapid.Bool().Draw(t, "lost")}
	}), 1, 40).Draw(t, "plants")
}

// Ten ionantha: one rotted in its second week, one in its fifth, one was given away in between, the rest hang there
// after 60 days.
func TestTenPlantsFromOneOrder(t *testing.T) {
	plants := []ledger.Observation{{12, true}, {20, false}, {33, true}}
	for range 7 {
		plants = append(plants, ledger.Observation{Days: 60})
	}
	c := survival(t, plants)
	for days, want := range map[float64]float64{0: 1, 11.9: 1, 12: 0.9, 32: 0.9, 33: 0.9 * 7 / 8, 60: 0.9 * 7 / 8} {
		if s, ok := c.At(days); !ok || math.Abs(s.Alive-want) > 1e-12 {
			t.Errorf("alive after %v days: %v, %v; want %v", days, s.Alive, ok, want)
		}
	}
	if s, ok := c.At(61); ok {
		t.Errorf("after 61 days, past the last look, the curve says %+v", s)
	}
	if s, ok := c.At(-1); ok {
		t.Errorf("a day before it came, the curve says %+v", s)
	}
	if m := c.Median(); m.Reached() || !math.IsInf(m.High, 1) {
		t.Errorf("median %+v, though most are alive", m)
	}
}

// A plant last looked at on the day another is lost was alive through that day: it counts as at risk.
func TestLastLookOnTheDayOfALoss(t *testing.T) {
	got := survival(t, []ledger.Observation{{7, false}, {7, true}})
	s := got[0]
	if len(got) != 1 || s.AtRisk != 2 || s.Lost != 1 || s.Left != 1 || s.Alive != 0.5 {
		t.Errorf("%+v", got)
	}
}

func TestAllLostSaysSoForEver(t *testing.T) {
	c := survival(t, []ledger.Observation{{3, true}, {9, true}})
	s, ok := c.At(400)
	if !ok || s.Alive != 0 || s.StdErr != 0 || s.Banded() {
		t.Errorf("%+v, %v", s, ok)
	}
	if m := c.Median(); m.Days != 6 {
		t.Errorf("median of losses on day 3 and day 9: %v", m.Days)
	}
}

func TestNothingWatched(t *testing.T) {
	c := survival(t, nil)
	if _, ok := c.At(0); ok || len(c) != 0 || c.Median().Reached() {
		t.Errorf("%+v", c)
	}
}

func TestRefusesWhatCannotBe(t *testing.T) {
	for _, days := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, err := ledger.Survival([]ledger.Observation{{5, true}, {days, true}}, 0.95)
		if err == nil || !strings.Contains(err.Error(), "observation 2, days") {
			t.Errorf("%v days: %v", days, err)
		}
	}
	for _, level := range []float64{0, 1, 95, math.NaN()} {
		if _, err := ledger.Survival(nil, level); err == nil {
			t.Errorf("coverage %v was taken", level)
		}
	}
}

func TestCurveOnlyFallsAndItsBandHoldsIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plants := anyWatch(t)
		c := survival(t, plants)
		before, counted := 1.0, 0
		for _, s := range c {
			if s.Alive > before || s.Alive < 0 || (s.Lost == 0) != (s.Alive == before) {
				t.Fatalf("from %v to %+v", before, s)
			}
			if s.Banded() && !(0 <= s.Low && s.Low < s.Alive && s.Alive < s.High && s.High <= 1) {
				t.Fatalf("band %+v", s)
			}
			before, counted = s.Alive, counted+s.Lost+s.Left
		}
		if counted != len(plants) {
			t.Fatalf("%d plants counted of %d", counted, len(plants))
		}
	})
}

// With nobody given away the curve is the share of plants that lived longer, and Greenwood's variance is the binomial
// one.
func TestWithoutCensoringItIsCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plants := anyWatch(t)
		for i := range plants {
			plants[i].Lost = true
		}
		n := float64(len(plants))
		for _, s := range survival(t, plants) {
			longer := 0.0
			for _, o := range plants {
				if o.Days > s.Days {
					longer++
				}
			}
			p := longer / n
			if math.Abs(s.Alive-p) > 1e-12 || math.Abs(s.StdErr-math.Sqrt(p*(1-p)/n)) > 1e-9 {
				t.Fatalf("%+v, want %v", s, p)
			}
		}
	})
}

// The median of losses alone is the ordinary median.
func TestWithoutCensoringTheMedianIsTheMiddle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var plants []ledger.Observation
		days := rapid.SliceOfN(rapid.Float64Range(0, 1000), 1, 41).Draw(t, "days")
		for _, d := range days {
			plants = append(plants, ledger.Observation{Days: d, Lost: true})
		}
		slices.Sort(days)
		want := (days[(len(days)-1)/2] + days[len(days)/2]) / 2
		m := survival(t, plants).Median()
		if math.Abs(m.Days-want) > 1e-9*want {
			t.Fatalf("median %v, want %v", m.Days, want)
		}
		if !(m.Low <= m.Days && m.Days <= m.High) {
			t.Fatalf("median outside its range: %+v", m)
		}
	})
}

// A median's low end says "longer than anything seen" only where a band says so: three lost of a hundred do, none lost
// of two do not.
func TestWhatFewLossesSayOfTheMedian(t *testing.T) {
	hundred := make([]ledger.Observation, 100)
	for i := range hundred {
		hundred[i] = ledger.Observation{Days: 60 - float64(i)/10, Lost: i > 96}
	}
	if m := survival(t, hundred).Median(); !math.IsInf(m.Low, 1) {
		t.Errorf("three lost of a hundred: %+v", m)
	}
	for _, plants := range [][]ledger.Observation{nil, {{60, false}, {60, false}}, {{5, true}}} {
		if m := survival(t, plants).Median(); m.Low != 0 || !math.IsInf(m.High, 1) {
			t.Errorf("%v: %+v", plants, m)
		}
	}
}

func TestOrderOfTheBookDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plants := anyWatch(t)
		given := slices.Clone(plants)
		shuffled := rapid.Permutation(plants).Draw(t, "shuffled")
		if diff := cmp.Diff(survival(t, plants), survival(t, shuffled)); diff != "" {
			t.Fatal(diff)
		}
		if diff := cmp.Diff(given, plants); diff != "" {
			t.Fatalf("the observations themselves were sorted: %s", diff)
		}
	})
}

// Watching one more plant past the end, which is never lost, can only make the curve better.
func TestOneMoreSurvivorNeverLowersTheCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plants := anyWatch(t)
		more := survival(t, append(slices.Clone(plants), ledger.Observation{Days: 31}))
		for _, s := range survival(t, plants) {
			if m, ok := more.At(s.Days); !ok || m.Alive < s.Alive {
				t.Fatalf("day %v: %v with one survivor more, %v without", s.Days, m.Alive, s.Alive)
			}
		}
	})
}

func TestAHigherCoverageIsAWiderBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plants := anyWatch(t)
		level := rapid.Float64Range(0.1, 0.99).Draw(t, "level")
		wide, err := ledger.Survival(plants, level+(1-level)/2)
		if err != nil {
			t.Fatal(err)
		}
		narrow, err := ledger.Survival(plants, level)
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range narrow {
			if s.Banded() && !(wide[i].Low < s.Low && s.High < wide[i].High) {
				t.Fatalf("%v: %+v, wider %+v", level, s, wide[i])
			}
		}
	})
}

// A year's book: 5,000 plants.
func BenchmarkSurvival(b *testing.B) {
	plants := make([]ledger.Observation, 5000)
	for i := range plants {
		plants[i] = ledger.Observation{Days: float64(i * 7919 % 1000), Lost: i%9 == 0}
	}
	for b.Loop() {
		if _, err := ledger.Survival(plants, 0.95); err != nil {
			b.Fatal(err)
		}
	}
}
