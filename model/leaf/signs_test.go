package leaf_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
	"tubside/model/leaf"
)

// tabled is what a table of steps h = 1/512 may be off: h^2/8 times the steepest bend, 1/(2 spread^2) at the spread
// of 0.06.
const tabled = 1.0 / (512 * 512) / 8 / (2 * 0.06 * 0.06)

// one gives signs of which only one was graded.
var one = map[string]func(grade int8) leaf.Signs{
	"curl":  func(g int8) leaf.Signs { s := leaf.Unseen(); s.Curl = g; return s },
	"tips":  func(g int8) leaf.Signs { s := leaf.Unseen(); s.Tips = g; return s },
	"shift": func(g int8) leaf.Signs { s := leaf.Unseen(); s.Shift = g; return s },
}

// lastTelling is the highest grade that speaks about thirst.
var lastTelling = map[string]int8{"curl": 3, "tips": 3, "shift": 2}

func TestGradesShareOutAllChance(t *testing.T) {
	for name, signs := range one {
		for thirst := 0.0; thirst <= 1; thirst += 0.05 {
			var sum float64
			for g := int8(0); g <= lastTelling[name]; g++ {
				sum += math.Exp(signs(g).LogLikelihood(thirst, leaf.SignsScale{}))
			}
			near(t, name+": sum over the grades", sum, 1, tabled)
		}
	}
}

func TestHigherGradesSpeakForMoreThirst(t *testing.T) {
	for name, signs := range one {
		rapid.Check(t, func(t *rapid.T) {
			high := int8(rapid.IntRange(1, int(lastTelling[name])).Draw(t, "high"))
			low := int8(rapid.IntRange(0, int(high)-1).Draw(t, "low"))
			wet := rapid.Float64Range(0, 1).Draw(t, "wet")
			dry := rapid.Float64Range(wet, 1).Draw(t, "dry")
			p := leaf.SignsScale{CurlShift: rapid.Float64Range(-0.2, 0.2).Draw(t, "shift")}
			atDry := signs(high).LogLikelihood(dry, p) - signs(low).LogLikelihood(dry, p)
			atWet := signs(high).LogLikelihood(wet, p) - signs(low).LogLikelihood(wet, p)
			if !(atDry >= atWet-1e-8) {
				t.Fatalf("%s %d against %d: %v at thirst %v, %v at %v", name, high, low, atDry, dry, atWet, wet)
			}
		})
	}
}

func TestWhatIsNotSeenSaysNothing(t *testing.T) {
	silent := []leaf.Signs{leaf.Unseen(), one["shift"](3), one["curl"](4), one["tips"](-7), one["shift"](100)}
	for _, s := range silent {
		for _, thirst := range []float64{0, 0.3, 0.9} {
			if got := s.LogLikelihood(thirst, leaf.SignsScale{}); got != 0 {
				t.Errorf("%+v at thirst %v: %v, want 0", s, thirst, got)
			}
		}
	}
	both := leaf.Signs{Curl: 2, Tips: 1, Shift: leaf.NotSeen}
	sum := one["curl"](2).LogLikelihood(0.4, leaf.SignsScale{}) + one["tips"](1).LogLikelihood(0.4, leaf.SignsScale{})
	near(t, "two signs", both.LogLikelihood(0.4, leaf.SignsScale{}), sum, 1e-12)
}

func TestWorstSignsAreNeverImpossible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grade := rapid.Int8Range(-1, 3)
		s := leaf.Signs{Curl: grade.Draw(t, "curl"), Tips: grade.Draw(t, "tips"), Shift: grade.Draw(t, "shift")}
		p := leaf.SignsScale{CurlShift: rapid.Float64Range(-0.2, 0.2).Draw(t, "shift")}
		if got := s.LogLikelihood(rapid.Float64Range(-1, 2).Draw(t, "thirst"), p); !(got > -50 && got <= 0) {
			t.Fatalf("log likelihood %v", got)
		}
	})
}

// The ordered logistic model, written out, with three grades in a hundred one too low and as many one too high.
func TestGradesAreOrderedLogistic(t *testing.T) {
	const slip = 0.03
	for _, c := range []struct {
		name   string
		begins []float64
		spread float64
	}{
		{"curl", []float64{0.345, 0.49, 0.60}, 0.06},
		{"tips", []float64{0.35, 0.50, 0.65}, 0.20},
		{"shift", []float64{0.10, 0.30}, 0.15},
	} {
		for thirst := 0.0; thirst <= 1; thirst += 0.0137 {
			upTo := func(grade int) float64 { // the chance that the true grade is no higher
				switch {
				case grade < 0:
					return 0
				case grade >= len(c.begins):
					return 1
				}
				return 1 / (1 + math.Exp((thirst-c.begins[grade])/c.spread))
			}
			under := 0.0
			for i := range c.begins {
				under += math.Exp(one[c.name](int8(i)).LogLikelihood(thirst, leaf.SignsScale{}))
				near(t, c.name+": chance of less", under, (1-2*slip)*upTo(i)+slip*(upTo(i-1)+upTo(i+1)), tabled)
			}
		}
	}
}

// A form that curls as a normal sign is less thirsty at the same curl: the same evidence, 0.08 of thirst lower.
func TestFormsThatCurlReadily(t *testing.T) {
	s := one["curl"](2)
	near(t, "edges deep", s.LogLikelihood(0.40, leaf.SignsScale{CurlShift: leaf.CurlsReadily}), s.LogLikelihood(0.48, leaf.SignsScale{}), 1e-12)
}

// A shift past the table still gives an answer: the tail of the logistic of the grade next to it, of which one in 33
// slips.
func TestAShiftPastTheTable(t *testing.T) {
	got := one["curl"](3).LogLikelihood(0, leaf.SignsScale{CurlShift: 0.4})
	near(t, "rolled shut", got, math.Log(0.94*math.Exp(-(0.60+0.4)/0.06)+0.03*math.Exp(-(0.49+0.4)/0.06)), 1e-3)
	got = one["curl"](0).LogLikelihood(1, leaf.SignsScale{CurlShift: -0.4})
	near(t, "flat", got, math.Log(0.94*math.Exp(-(1+0.4-0.345)/0.06)+0.03*math.Exp(-(1+0.4-0.49)/0.06)), 1e-3)
}

// look weighs signs into the pace of a plant a week after its soak.
func look(b *belief.Mass, paces *[belief.Points]float64, seen leaf.Signs) {
	var evidence [belief.Points]float64
	dose := leaf.Dose(0, 7, 1.4)
	for i, pace := range paces {
		evidence[i] = seen.LogLikelihood(1-leaf.Remaining(0.95, leaf.KMesic*pace, dose), leaf.SignsScale{})
	}
	*b = b.ObserveLog(&evidence)
}

// The tighter the curl on the same day, the faster the plant is taken to dry.
func TestMoreCurlMeansAFasterPace(t *testing.T) {
	paces := belief.Multipliers()
	before := 0.0
	for grade := int8(0); grade <= 3; grade++ {
		b := belief.Prior(0.5)
		look(&b, &paces, one["curl"](grade))
		mean := b.MeanOf(&paces)
		if mean <= before {
			t.Errorf("curl %d: multiplier %v, not above %v", grade, mean, before)
		}
		before = mean
	}
}

func BenchmarkPlantCurl(bench *testing.B) { benchLook(bench, one["curl"](1)) }

func BenchmarkPlantAllSigns(bench *testing.B) {
	benchLook(bench, leaf.Signs{Curl: 1, Tips: 1, Shift: 1})
}

func benchLook(bench *testing.B, seen leaf.Signs) {
	prior, paces := belief.Prior(0.5), belief.Multipliers()
	bench.ReportAllocs()
	for bench.Loop() {
		b := prior
		look(&b, &paces, seen)
	}
}

func TestCurlChanceIsTheSumOfItsGrades(t *testing.T) {
	scale := leaf.SignsScale{CurlShift: leaf.CurlsReadily}
	for thirst := 0.0; thirst < 0.95; thirst += 0.1 {
		near(t, "any curl or none", scale.CurlChance(0, thirst), 1, tabled)
		third := math.Exp(one["curl"](3).LogLikelihood(thirst, scale))
		near(t, "rolled shut", scale.CurlChance(3, thirst), third, tabled)
		if more, less := scale.CurlChance(1, thirst+0.05), scale.CurlChance(1, thirst); more <= less {
			t.Errorf("chance of curl falls from %.4f to %.4f", less, more)
		}
	}
}

func TestManyWatersAtOnceAreEachAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grade := func() int8 { return int8(rapid.IntRange(-1, 3).Draw(t, "grade")) }
		s := leaf.Signs{Curl: grade(), Tips: grade(), Shift: grade()}
		scale := leaf.SignsScale{CurlShift: rapid.Float64Range(-0.2, 0.2).Draw(t, "shift")}
		rwc := rapid.SliceOfN(rapid.Float64Range(0, 1), 1, 5).Draw(t, "rwc")
		likelihood := slices.Repeat([]float64{1}, len(rwc))
		likelihood[0] = 0.3
		s.TimesLikelihood(likelihood, rwc, scale)
		for i, r := range rwc {
			want := math.Exp(s.LogLikelihood(1-r, scale))
			if i == 0 {
				want *= 0.3
			}
			if math.Abs(likelihood[i]/want-1) > 4*tabled { // the logarithm by its table, the chance by its own, which bends at most twice as much
				t.Fatalf("at RWC %g: %g, want %g", r, likelihood[i], want)
			}
		}
	})
}
