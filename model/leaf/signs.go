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
	// CurlShift is added to the thirst at which each grade of curl begins: 0 for most, CurlsReadily for forms that
	// curl as a normal sign of being dry. Meant for -0.2 to 0.2.
	CurlShift float64
}

// CurlsReadily is the CurlShift of forms that curl as a normal sign of being dry. A guess. Such plants graded and
// weighed would replace it.
const CurlsReadily = -0.08

// When signs appear, as thirst. All guesses, made to sit between "full" and the lethal limits: nobody has published
// curl against water content for any Tillandsia. Marker plants graded, weighed, soaked to constant mass and weighed
// again would replace them, some ten plants of each form over the whole range.
var (
	curl = graded(0.06, 0.345, 0.49, 0.60)
	// A weekly soak leaves most green rosettes flat: edges that lift speak of more thirst than a usual week (common
	// practice, no source), so curl begins above it. Brown tips tell of dryness that may be weeks old: a weak sign.
	tips = graded(0.20, 0.35, 0.50, 0.65)
	// A leaf that is already dark is wet, and one that changes quickly has thirsty scales. Staying pale says the
	// scales do not work (dead, oiled, limed), which is no word about thirst.
	shift = graded(0.15, 0.10, 0.30)
)

// LogLikelihood is the log probability of seeing these signs on a plant of the given thirst (0 to 1): evidence about
// its thirst. It is 0 where nothing was seen, and never -Inf: a wrong grade can be outweighed by later ones.
func (s Signs) LogLikelihood(thirst float64, p SignsScale) float64 {
	thirst = held(thirst)
	return curl.at(s.Curl, thirst-p.CurlShift) + tips.at(s.Tips, thirst) + shift.at(s.Shift, thirst)
}

// CurlChance is the probability of seeing at least this grade of curl on a plant of the given thirst (0 to 1).
func (p SignsScale) CurlChance(grade int8, thirst float64) float64 {
	var chance float64
	for g := max(grade, 0); int(g) < len(curl); g++ {
		chance += curl[g].chance.at(held(thirst) - p.CurlShift)
	}
	return chance
}

// sign is one graded sign, a curve for each grade that speaks about thirst. At least grade g is seen with probability
// 1/(1 + exp(-(thirst - begins[g-1])/spread)): an ordered logistic model (McCullagh 1980, J. R. Stat. Soc. B 42:109;
// from memory). A grade never speaks for less thirst than a lower grade does.
type sign []grade

// grade is the probability of one grade, and its logarithm.
type grade struct{ chance, log curve }

// curve is a quantity tabled over thirst: a look-up costs a tenth of the logarithm. Between two points it is
// straight, which is off by less than 1e-4, and keeps the order of the grades. Beyond the ends it goes on straight,
// as the logarithm of the logistic does.
type curve [(curveTo-curveFrom)*curvePerUnit + 1]float64

// The table reaches past 0 to 1 because a scale may shift the thirst.
const (
	curveFrom    = -0.25
	curveTo      = 1.25
	curvePerUnit = 512
)

func graded(spread float64, begins ...float64) sign {
	edges := append(append([]float64{math.Inf(-1)}, begins...), math.Inf(1))
	s := make(sign, len(begins)+1)
	chance := make([]float64, len(s))
	for i := range s[0].log {
		thirst := curveFrom + float64(i)/curvePerUnit
		for g := range s {
			chance[g] = between((thirst-edges[g])/spread, (thirst-edges[g+1])/spread)
		}
		for g, c := range slipped(chance) {
			s[g].chance[i], s[g].log[i] = c, math.Log(c)
		}
	}
	return s
}

// slip is the share of grades that are seen or keyed one too low, and as many one too high. A guess; two people
// grading the same shelf would replace it. Slips this rare leave the order of the grades as it is: a higher one still
// never speaks for less thirst.
const slip = 0.03

// slipped is the chance of each grade to be written down, from its chance to be there. There is nothing below the
// lowest grade nor above the highest.
func slipped(chance []float64) []float64 {
	written := make([]float64, len(chance))
	for g, c := range chance {
		written[max(g-1, 0)] += slip * c
		written[g] += (1 - 2*slip) * c
		written[min(g+1, len(chance)-1)] += slip * c
	}
	return written
}

// between is the logistic function at a less that at b, multiplied out so that nothing cancels.
func between(a, b float64) float64 {
	return -math.Expm1(b-a) / ((1 + math.Exp(-a)) * (1 + math.Exp(b)))
}

func (s sign) at(grade int8, thirst float64) float64 {
	if grade < 0 || int(grade) >= len(s) {
		return 0
	}
	return s[grade].log.at(thirst)
}

func (c *curve) at(thirst float64) float64 {
	x := (thirst - curveFrom) * curvePerUnit
	i := int(x)
	if i < 0 {
		i = 0
	} else if i > len(c)-2 {
		i = len(c) - 2
	}
	return c[i] + (c[i+1]-c[i])*(x-float64(i))
}

// TimesLikelihood multiplies what stands in likelihood by the chance of seeing the signs at each relative water
// content: LogLikelihood for many waters at once. A scale may shift the thirst by 0.25 at most.
func (s Signs) TimesLikelihood(likelihood, rwc []float64, p SignsScale) {
	times := func(sign sign, grade int8, shift float64) {
		if grade < 0 || int(grade) >= len(sign) {
			return
		}
		c := &sign[grade].chance
		for i, r := range rwc {
			likelihood[i] *= c.at(min(max(1-r-shift, curveFrom), curveTo))
		}
	}
	times(curl, s.Curl, p.CurlShift)
	times(tips, s.Tips, 0)
	times(shift, s.Shift, 0)
}
