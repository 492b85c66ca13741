package leaf_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/leaf"
)

func drawFilm(t *rapid.T) leaf.Film {
	return leaf.Film{Share: rapid.Float64Range(0, 1).Draw(t, "share"),
		Hours: rapid.Float64Range(0.05, 20).Draw(t, "hours")}
}

// worn is the thirst left of a film that is followed minute by minute, wet all over to the end: what is not drunk
// evaporates evenly.
func worn(f leaf.Film, thirst, tau float64) float64 {
	const step = 1.0 / 3600
	for water := f.Share; water > 0; {
		drunk := leaf.FilmDraw * thirst / tau * step
		thirst -= drunk
		water -= drunk + f.Share/f.Hours*step
	}
	return thirst
}

// The short way to what is drunk of a film never says more than the long one, and little less: plants of a fuzzy, a
// silver, a green and a small thin sort, in the dry air of heated rooms and in damp air.
func TestWhatIsDrunkOfAFilm(t *testing.T) {
	for _, c := range []struct {
		what      string
		film      leaf.Film
		tau, most float64
	}{
		{"fuzzy", leaf.Film{Share: 0.38, Hours: 1.3}, leaf.TauFuzzy, 0.02},
		{"silver", leaf.Film{Share: 0.23, Hours: 0.8}, leaf.TauDefault, 0.02},
		{"green", leaf.Film{Share: 0.65, Hours: 0.8}, leaf.TauDefault, 0.02},
		{"small and thin", leaf.Film{Share: 0.80, Hours: 0.5}, leaf.TauDefault, 0.02},
		{"fuzzy, damp", leaf.Film{Share: 0.38, Hours: 4}, leaf.TauFuzzy, 0.06},
		{"green, damp", leaf.Film{Share: 0.65, Hours: 3}, leaf.TauDefault, 0.06},
	} {
		for thirst := 0.02; thirst < 0.35; thirst += 0.03 {
			exact, got := worn(c.film, thirst, c.tau), 1-c.film.Drunk(1-thirst, c.tau)
			if over := got - exact; over < -1e-4 || over > c.most {
				t.Errorf("%s, thirst %.2f: %.4f left, minute by minute %.4f", c.what, thirst, got, exact)
			}
		}
	}
}

// No more is drunk than there is, and a drier plant does not come out the fuller.
func TestAFilmGivesWhatItHas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, tau := drawFilm(t), drawTau(t)
		wetter := rapid.Float64Range(0, 1).Draw(t, "wetter")
		drier := rapid.Float64Range(0, wetter).Draw(t, "drier")
		a, b := f.Drunk(drier, tau), f.Drunk(wetter, tau)
		const hair = 1e-12
		if a < drier-hair || a > b+hair || b > 1 || a-drier > f.Share+hair {
			t.Fatalf("%+v: from %v to %v, from %v to %v", f, drier, a, wetter, b)
		}
		more := leaf.Film{Share: f.Share * 1.1, Hours: f.Hours * 1.1}
		damper := leaf.Film{Share: f.Share, Hours: f.Hours * 1.1}
		if more.Drunk(drier, tau) < a-hair || damper.Drunk(drier, tau) < a-hair {
			t.Fatalf("%+v: more or longer gives less than %v", f, a)
		}
	})
}

// A soak and its film in one go come to the soak alone, then the film, but that the film's time goes by the thirst
// before the soak: never fuller, and a longer soak leaves no less.
func TestASoakWearsItsFilm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, tau := drawFilm(t), drawTau(t)
		minutes := rapid.Float64Range(0, 300).Draw(t, "minutes")
		r0 := rapid.Float64Range(0, 1).Draw(t, "r0")
		rwc := []float64{r0, r0, r0}
		leaf.NewSoak(minutes, tau).Refill(rwc[:1])
		leaf.NewSoak(minutes, tau).Wearing(f).Refill(rwc[1:2])
		leaf.NewSoak(minutes+5, tau).Wearing(f).Refill(rwc[2:])
		const off = 5e-6 // of the table
		if rwc[1] < rwc[0]-off || rwc[1] > f.Drunk(rwc[0], tau)+off || rwc[2] < rwc[1]-off {
			t.Fatalf("%+v after %v minutes: %v", f, minutes, rwc)
		}
	})
}

func TestFilmEnds(t *testing.T) {
	f := leaf.Film{Share: 0.3, Hours: 1}
	near(t, "a dry leaf", leaf.Film{}.Drunk(0.7, 1), 0.7, 0)
	near(t, "a full plant", f.Drunk(1, 1), 1, 0)
	near(t, "no part of it", f.Part(0).Drunk(0.7, 1), 0.7, 0)
	rwc := []float64{1}
	leaf.NewSoak(0, 1).Wearing(leaf.Film{Share: 0.3, Hours: math.Inf(1)}).Refill(rwc)
	near(t, "a full plant in air that takes nothing", rwc[0], 1, 0)
	if got := (leaf.Film{Share: 0.3, Hours: math.Inf(1)}).Drunk(0.5, 1); !(got > 0.6 && got <= 0.8) {
		t.Errorf("air that takes nothing: half dry to %v with 0.3 to drink", got)
	}
	near(t, "water in a leaf that loses a hundredth a day", leaf.WaterMM(0.01), 100*leaf.LostMM(leaf.ReferenceKPa),
		1e-12)
}
