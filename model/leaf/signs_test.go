package leaf_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
	"tubside/model/leaf"
)

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
			near(t, name+": sum over the grades", sum, 1, 1e-9)
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
			p := leaf.SignsScale{Multiple: rapid.Float64Range(0.4, 2.5).Draw(t, "multiple")}
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
		p := leaf.SignsScale{Multiple: rapid.Float64Range(0.4, 2.5).Draw(t, "multiple")}
		if got := s.LogLikelihood(rapid.Float64Range(-1, 2).Draw(t, "thirst"), p); !(got > -80 && got <= 0) {
			t.Fatalf("log likelihood %v", got)
		}
	})
}

// The ordered logistic model in the logarithm of thirst, written out: three grades in a hundred one too low and as many
// one too high.
func TestGradesAreOrderedLogistic(t *testing.T) {
	const slip = 0.03
	for _, c := range []struct {
		name   string
		begins []float64
		blur   float64
	}{
		{"curl", []float64{1, 1.42, 1.80}, 0.09},
		{"tips", []float64{1, 1.45, 1.90}, 0.40},
		{"shift", []float64{0.20, 0.48}, 0.45},
	} {
		for thirst := 0.01; thirst <= 1; thirst += 0.0137 {
			upTo := func(grade int) float64 { // the chance that the true grade is no higher
				switch {
				case grade < 0:
					return 0
				case grade >= len(c.begins):
					return 1
				}
				return 1 / (1 + math.Exp(math.Log(thirst/leaf.Lifts/c.begins[grade])/c.blur))
			}
			under := 0.0
			for i := range c.begins {
				under += math.Exp(one[c.name](int8(i)).LogLikelihood(thirst, leaf.SignsScale{}))
				want := (1-2*slip)*upTo(i) + slip*(upTo(i-1)+upTo(i+1))
				near(t, c.name+": chance of less", under, want, 0.012) // the table is read at the nearest of 128 places to a unit
			}
		}
	}
}

// A form that curls as a normal sign is less thirsty at the same curl.
func TestFormsThatCurlReadily(t *testing.T) {
	s := one["curl"](2)
	near(t, "edges deep", s.LogLikelihood(0.40*leaf.CurlsReadily, leaf.SignsScale{Multiple: leaf.CurlsReadily}),
		s.LogLikelihood(0.40, leaf.SignsScale{}), 1e-9)
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
	scale := leaf.SignsScale{Multiple: leaf.CurlsReadily}
	for thirst := 0.0; thirst < 0.95; thirst += 0.1 {
		near(t, "any curl or none", scale.CurlChance(0, thirst), 1, 1e-9)
		third := math.Exp(one["curl"](3).LogLikelihood(thirst, scale))
		near(t, "rolled shut", scale.CurlChance(3, thirst), third, 1e-9)
		if more, less := scale.CurlChance(1, thirst+0.05), scale.CurlChance(1, thirst); more < less {
			t.Errorf("chance of curl falls from %.4f to %.4f", less, more)
		}
	}
}

// Each row is the likelihood for plants that show their thirst at another multiple of the usual.
func TestRowsAreScalesBesideEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grade := func() int8 { return int8(rapid.IntRange(-1, 3).Draw(t, "grade")) }
		s := leaf.Signs{Curl: grade(), Tips: grade(), Shift: grade()}
		rwc := rapid.SliceOfN(rapid.Float64Range(0, 0.99), 1, 5).Draw(t, "rwc")
		multiple := rapid.Float64Range(0.5, 2).Draw(t, "multiple")
		rows := make([][]float64, leaf.SignRows)
		for r := range rows {
			rows[r] = make([]float64, len(rwc))
		}
		s.Rows(rows, rwc, leaf.SignsScale{Multiple: multiple})
		for r, row := range rows {
			scale := leaf.SignsScale{Multiple: multiple * math.Exp(leaf.SignStep*float64(r-leaf.SignRows/2))}
			for i, chance := range row {
				want := math.Exp(s.LogLikelihood(1-rwc[i], scale))
				if math.Abs(chance-want) > 0.05*want+1e-3 { // rows lie whole places of the table apart, almost
					t.Fatalf("row %d at RWC %g: %g, want %g", r, rwc[i], chance, want)
				}
			}
		}
	})
}

// What was published of curl in any plant is rice's, from memory: rolling begins 0.10 to 0.15 down and is shut at 0.30
// to 0.40. The rows reach from there to what used to be guessed.
func TestRowsReachFromEarlyToLate(t *testing.T) {
	edge := leaf.Lifts * math.Exp(leaf.SignStep*(leaf.SignRows/2))
	if low := leaf.Lifts * leaf.Lifts / edge; low > 0.10 || edge < 0.40 {
		t.Errorf("edges lift from %.2f to %.2f", low, edge)
	}
}
