package demo

import (
	"math"
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/drying"
	"tubside/model/leaf"
)

var noon = time.Date(2026, 2, 11, 12, 0, 0, 0, time.UTC)

// steady is air that does not change for some days before noon.
func steady(days int) *weather {
	w := &weather{}
	for i := range days {
		w.days = append(w.days, dayOf(noon.Add(12*time.Hour).AddDate(0, 0, i-days), 21, 40))
	}
	return w
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// Midnights cut the days, and nothing is lost at them.
func TestDosesAddUpOverMidnights(t *testing.T) {
	w := steady(20)
	dry := noon.AddDate(0, 0, -9)
	near(t, "nine days", w.dose(dry, noon), leaf.Dose(0, 9, w.days[0].deficit))
	near(t, "not dry yet", w.dose(noon, dry), 0)
	w.days[len(w.days)-1] = dayOf(w.days[len(w.days)-1].start, 21, 80)
	last := w.days[len(w.days)-1].deficit
	near(t, "a moist last day", w.dose(dry, noon), leaf.Dose(0, 8.5, w.days[0].deficit)+leaf.Dose(8.5, 9, last))
}

func TestMovingAPlantCostsItNoWater(t *testing.T) {
	w, dry := steady(20), noon.AddDate(0, 0, -6)
	l := &life{rwc: 0.9, own: 1, rate: 0.02, tau: 1, dry: dry}
	before := l.water(noon, w)
	l.move(model.Home{Shelf: "Warm", Spot: "A1"}, noon, w)
	near(t, "at the move", l.water(noon, w), before)
	later := noon.Add(6 * time.Hour)
	loss := overRadiator * 0.02 * (w.dose(dry, later) - w.dose(dry, noon))
	near(t, "six hours later", l.water(later, w), before*math.Exp(-loss))
}

func TestASoakFillsAndAWetPlantLosesNothing(t *testing.T) {
	w := steady(20)
	l := &life{rwc: 0.7, own: 1, rate: 0.02, tau: 1, dry: noon}
	l.goIn(noon, w)
	l.comeOut(noon.Add(time.Hour), 3, drying.Stream{}, w) // it wears no film
	full := 1 - 0.3*math.Exp(-1)
	near(t, "an hour in water", l.water(noon.Add(time.Hour), w), full)
	near(t, "still drying", l.water(noon.Add(4*time.Hour), w), full)
	if l.water(noon.Add(10*time.Hour), w) >= full {
		t.Error("dry for six hours, it lost nothing")
	}
}

// Fuzz holds water after a dip, and the plant drinks of it; so it does of a mist.
func TestAPlantDrinksWhatItWears(t *testing.T) {
	w := steady(20)
	over := drying.Stream{Air: air.Air{TempC: 21, RH: 0.4}, Speed: drying.Low}
	wet := func(by func(l *life)) float64 {
		l := &life{rwc: 0.8, own: 1, rate: 0.007, tau: 0.7, dry: noon.AddDate(0, 0, -5),
			clings: wetness(model.Fuzzy, model.Xeric, 15), worn: 0.38}
		by(l)
		return l.water(noon.Add(time.Hour), w)
	}
	dry := wet(func(*life) {})
	misted := wet(func(l *life) { l.mist(noon, over, w) })
	dipped := wet(func(l *life) {
		l.goIn(noon, w)
		l.comeOut(noon.Add(time.Minute), 2, over, w)
	})
	if !(dry+0.02 < misted && misted+0.02 < dipped) {
		t.Errorf("left %.3f, misted %.3f, dipped %.3f", dry, misted, dipped)
	}
}

// The heated rooms are dry, the summer's moist, as promised in weather.go.
func TestTheYearInTheRooms(t *testing.T) {
	p := newPast(1, noon, Scenes[0])
	var winter, summerDays, mean [2]float64
	for _, d := range p.weather.days {
		if d.rh < lowestRH || d.rh > highestRH {
			t.Fatalf("%v: %.1f %%", d.start, d.rh)
		}
		switch d.start.Month() {
		case time.December, time.January, time.February:
			winter[0] += d.rh
			winter[1]++
		case time.July, time.August:
			summerDays[0] += d.rh
			summerDays[1]++
		}
		mean[0] += d.tempC
		mean[1]++
	}
	if rh := winter[0] / winter[1]; rh < 28 || rh > 40 {
		t.Errorf("winter: %.1f %%", rh)
	}
	if rh := summerDays[0] / summerDays[1]; rh < 50 || rh > 65 {
		t.Errorf("summer: %.1f %%", rh)
	}
	if c := mean[0] / mean[1]; c < 19 || c > 25 {
		t.Errorf("the year: %.1f °C", c)
	}
}

// Paces spread as said, and the wall over the radiator is warm.
func TestTruePaces(t *testing.T) {
	p := newPast(1, noon, Scenes[0])
	p.year()
	truth := truthAt(p.lives, noon, p.weather)
	var n, sum, square float64
	var hung, fast [2]float64 // over the radiator, on the sunny sill
	for _, l := range p.lives {
		if !l.here {
			continue
		}
		nature, known := truth.Plants[l.ID]
		if !known || !(nature.RWC > 0 && nature.RWC <= 1) {
			t.Fatalf("plant %d: %+v, known %t", l.ID, nature, known)
		}
		log := math.Log(nature.Pace)
		if i := slices.Index([]string{"Warm", "South"}, l.Home.Shelf); i >= 0 {
			hung[i], fast[i] = hung[i]+1, fast[i]+log
			continue
		}
		if nature.Here != 1 {
			t.Fatalf("plant %d on %s: %+v", l.ID, l.Home.Shelf, nature)
		}
		n, sum, square = n+1, sum+log, square+log*log
	}
	mean := sum / n
	// Four standard errors of some 520 draws.
	if spread := math.Sqrt(square/n - mean*mean); math.Abs(mean) > 0.070 || math.Abs(spread-paceSpread) > 0.050 {
		t.Errorf("log pace %.3f, spread %.3f", mean, spread)
	}
	for i, want := range []float64{overRadiator, inTheSun} {
		// Four standard errors of the mean of that many draws.
		if got := fast[i]/hung[i] - mean; math.Abs(got-math.Log(want)) > 4*paceSpread/math.Sqrt(hung[i]) {
			t.Errorf("plants on shelf %d lose water %.2f times as fast, want %.2f", i, math.Exp(got), want)
		}
	}
}

// What a grower sees follows from how dry the plant is.
func TestSignsFollowThirst(t *testing.T) {
	w, rng := steady(20), stream(1, 99)
	curled := func(rwc float64) (n int) {
		l := &life{rwc: rwc, own: 1, dry: noon}
		for range 1000 {
			if s := l.signs(rng, noon, w, false); s.Curl >= 2 {
				n++
			}
		}
		return n
	}
	u := leaf.Unseen()
	chance := func(thirst float64) float64 {
		return 1 - chanceOf(u, 0, thirst) - chanceOf(u, 1, thirst)
	}
	for _, rwc := range []float64{0.9, 0.6, 0.45} {
		want := 1000 * chance(1-rwc)
		if got := float64(curled(rwc)); math.Abs(got-want) > 4*math.Sqrt(want+1) {
			t.Errorf("at RWC %.2f: %.0f of 1000 in a deep channel, want %.0f", rwc, got, want)
		}
	}
}

func chanceOf(u leaf.Signs, curl int8, thirst float64) float64 {
	u.Curl = curl
	return math.Exp(u.LogLikelihood(thirst, leaf.SignsScale{}))
}
