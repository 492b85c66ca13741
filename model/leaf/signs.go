package leaf

import "math"

// NotSeen is the grade of a sign the grower did not look at.
const NotSeen = -1

// Signs are the grower's grades, 0 to 3, or NotSeen. A grade outside that counts as NotSeen.
type Signs struct {
	Curl  int8 // flat, edges lifting, deep channel, rolled shut
	Tips  int8 // brown new tips: none, a few, many, most
	Shift int8 // colour when a drop wets the leaf: already dark, slow or patchy, quick and full, stays pale
}

// Unseen are the signs of a plant nobody looked at. (The zero Signs say flat, no brown tips, already dark.)
func Unseen() Signs { return Signs{Curl: NotSeen, Tips: NotSeen, Shift: NotSeen} }

// SignsScale fits the signs to a form.
type SignsScale struct {
	// CurlShift is added to the thirst at which each grade of curl begins: 0 for most, CurlsReadily for forms that curl as a normal
	// sign of being dry. Meant for -0.2 to 0.2.
	CurlShift float64
}

// CurlsReadily is the CurlShift of forms that curl as a normal sign of being dry. A guess.
const CurlsReadily = -0.08

// sign is one graded sign. The grade is at least g with probability 1/(1 + exp(-(thirst - from[g-1])/spread)): an ordered logistic
// model (McCullagh 1980, J. R. Stat. Soc. B 42:109; from memory). A grade never speaks for less thirst than a lower grade does.
type sign struct {
	from   []float64
	spread float64
	gap    []float64 // exp(-(from[g]-from[g-1])/spread) at g, kept so that a grade costs one exponential
}

func graded(spread float64, from ...float64) sign {
	s := sign{from: from, spread: spread, gap: make([]float64, len(from))}
	for g := 1; g < len(from); g++ {
		s.gap[g] = math.Exp((from[g-1] - from[g]) / spread)
	}
	return s
}

// When signs appear, as thirst. All guesses, made to sit between "full" and the lethal limits: nobody has published curl against
// water content for any Tillandsia. Marker plants graded, weighed, soaked to constant mass and weighed again would replace them,
// some ten plants of each form over the whole range.
var (
	curl = graded(0.06, 0.25, 0.40, 0.55)
	// Brown tips tell of dryness that may be weeks old: a weak sign.
	tips = graded(0.12, 0.35, 0.50, 0.65)
	// A leaf that is already dark is wet, and one that changes quickly has thirsty scales. Staying pale says the scales do not work
	// (dead, oiled, limed), which is no word about thirst.
	shift = graded(0.15, 0.10, 0.30)
)

// LogLikelihood is the log probability of seeing these signs on a plant of the given thirst (0 to 1): evidence about its thirst. It
// is 0 where nothing was seen, and never -Inf: a wrong grade can be outweighed by later ones.
func (s Signs) LogLikelihood(thirst float64, p SignsScale) float64 {
	thirst = held(thirst)
	seen := curl.chance(s.Curl, thirst-p.CurlShift) * tips.chance(s.Tips, thirst) * shift.chance(s.Shift, thirst)
	if seen == 1 {
		return 0
	}
	return math.Log(seen)
}

// chance is the probability of just this grade; 1 for a grade that says nothing. A middle grade is the difference of "at least this"
// and "at least the next", multiplied out so that nothing cancels.
func (s *sign) chance(grade int8, thirst float64) float64 {
	g := int(grade)
	switch {
	case g < 0 || g > len(s.from):
		return 1
	case g == 0:
		short := s.short(0, thirst)
		return short / (1 + short)
	case g == len(s.from):
		return 1 / (1 + s.short(g-1, thirst))
	}
	short, gap := s.short(g-1, thirst), s.gap[g]
	return (1 - gap) * short / ((1 + short) * (short + gap))
}

// short is the odds against having reached a threshold.
func (s *sign) short(threshold int, thirst float64) float64 {
	return math.Exp((s.from[threshold] - thirst) / s.spread)
}
