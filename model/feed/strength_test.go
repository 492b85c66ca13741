package feed_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/feed"
)

// The bands of common practice, no source: a quarter-strength feed is usual, orchid strength earns a warning, a lawn's
// is refused.
func TestStrengthInWords(t *testing.T) {
	for _, c := range []struct {
		ppm   float64
		word  string
		warns bool
	}{
		{0, "weak", false}, {24.9, "weak", false}, {25, "usual", false}, {70, "usual", false}, {70.1, "full", false},
		{100, "full", false}, {100.1, "strong", true}, {125, "strong", true}, {200, "strong", true}, {200.1, "harsh", true},
	} {
		s := feed.UsualLimits.Judge(c.ppm)
		if s.String() != c.word || s.Warns() != c.warns {
			t.Errorf("%v ppm: %v, warns %v; want %v", c.ppm, s, s.Warns(), c.word)
		}
	}
}

func TestHarshIsRefusedUnlessOverridden(t *testing.T) {
	s, err := feed.UsualLimits.Check(650, false)
	if !errors.Is(err, feed.ErrTooStrong) || s != feed.Harsh || !strings.Contains(err.Error(), "down to 200") {
		t.Errorf("%v, %v", s, err)
	}
	if s, err := feed.UsualLimits.Check(650, true); err != nil || s != feed.Harsh {
		t.Errorf("overridden: %v, %v", s, err)
	}
	if _, err := feed.UsualLimits.Check(math.NaN(), false); err == nil {
		t.Error("a strength that is not a number was taken")
	}
	if s, err := feed.UsualLimits.Check(200, false); err != nil || !s.Warns() {
		t.Errorf("200 ppm: %v, %v", s, err)
	}
}

func TestLimitsMustRise(t *testing.T) {
	if err := feed.UsualLimits.Valid(); err != nil {
		t.Error(err)
	}
	for _, l := range []feed.Limits{{-1, 70, 100, 200}, {80, 70, 100, 200}, {25, 110, 100, 200}, {25, 70, 210, 200},
		{25, math.NaN(), 100, 200}} {
		if l.Valid() == nil {
			t.Errorf("%+v was taken", l)
		}
	}
}

func TestMorePowderIsNeverAMilderWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ppm := rapid.Float64Range(0, 300).Draw(t, "ppm")
		more := ppm + rapid.Float64Range(0, 300).Draw(t, "more")
		if feed.UsualLimits.Judge(more) < feed.UsualLimits.Judge(ppm) {
			t.Fatalf("%v ppm is %v, %v is %v", ppm, feed.UsualLimits.Judge(ppm), more, feed.UsualLimits.Judge(more))
		}
	})
}
