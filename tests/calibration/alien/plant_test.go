package alien

import (
	"testing"

	"tubside/model"
)

// leftAlone leaves a full plant of a leak a day (at 21 °C and 40 %) alone in some air, and returns what is left.
func leftAlone(leak, days, tempC, rh float64) float64 {
	s, n := full, Nature{}
	strength := n.strength(halfDay{deficit: kPa(tempC, rh)})
	for range int(days * 2) {
		s.lose(leak*strength, 0.5)
	}
	return s.left()
}

// T. ionantha lost 17 % in 20 days (Nowak & Martin 1997; the air is not known) and lives through half a year (Ohrui et
// al. 2007), which it would not under 0.20 (Benzing & Dahle 1971).
func TestTheWorldsPlantsAreThePublishedOnes(t *testing.T) {
	const ionantha = 0.0093 * freshly
	if left := leftAlone(ionantha, 20, 21, 50); left < 0.80 || left > 0.86 {
		t.Errorf("after 20 days %.3f is left, published 0.83", left)
	}
	if left := leftAlone(ionantha, 182, 21, 60); left < 0.20 {
		t.Errorf("after 182 days %.3f is left, which is injury", left)
	}
	mesic, xeric := usualOf(model.Rosette, model.Mesic).leak, usualOf(model.Rosette, model.Xeric).leak
	if week := leftAlone(mesic, 7, 21, 40); week < 0.89 || week > 0.95 {
		t.Errorf("a mesic rosette has %.3f left after a week; growers soak it for 20 to 60 minutes", week)
	}
	if week := leftAlone(xeric, 7, 21, 40); week < 0.95 {
		t.Errorf("a xeric rosette has %.3f left after a week; growers let it rest", week)
	}
}

// Published: most of the uptake is over in three hours (Ohrui et al. 2007).
func TestASoakOfThreeHoursFillsAPlant(t *testing.T) {
	s := store{0.5, 0.65}
	s.drink(3, usualOf(model.Rosette, model.Intermediate).toFill)
	if left := s.left(); left < 0.95 {
		t.Errorf("three hours fill it to %.3f", left)
	}
}

// The drier it is, the more slowly it loses what it has left.
func TestLossFallsWhileAPlantDries(t *testing.T) {
	s := full
	last := 1.0
	for day := range 200 {
		was := s.left()
		s.lose(0.012, 1)
		rate := (was - s.left()) / was
		if rate > last || rate <= 0 {
			t.Fatalf("day %d: it loses %.4f of what it has, the day before %.4f", day, rate, last)
		}
		last = rate
	}
}
