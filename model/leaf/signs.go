package leaf

import (
	"cmp"
	"math"
)

// NotSeen is the grade of a sign the grower did not look at.
const NotSeen = -1

// Signs are the grower's grades, 0 to 3, or NotSeen. A grade outside that counts as NotSeen.
type Signs struct {
	Curl  int8 // flat, edges lifting, deep channel, rolled shut
	Tips  int8 // brown new tips: none, a few, many, most
	Shift int8 // colour when a drop wets the leaf: already dark, slow or patchy, quick and full, stays pale

	Slip float64 // the share of grades of curl like this that are one too high, and as many one too low; 0: CommonSlip
}

// Unseen are the signs of a plant nobody looked at. (The zero Signs say flat, no brown tips, already dark.)
func Unseen() Signs { return Signs{Curl: NotSeen, Tips: NotSeen, Shift: NotSeen} }

// At what thirst a leaf lifts its edges or rolls nobody has measured, for any Tillandsia. So it is held as unknown:
// signs come at a thirst that is some multiple of the usual one, and the multiple is learned, of all plants together,
// which is also how strict this grower's eye is, of each form and of each plant. What is known is the order of the
// grades, and about how far they lie apart: rice leaves begin to roll at a thirst of 0.10 to 0.15 and are shut at 0.30
// to 0.40 (from memory).
const (
	// Lifts is the thirst at which the edges of most leaves begin to lift, in the middle of what is thought possible. A
	// guess: growers soak a plant whose edges lift for an hour and a half to two hours, which is what a plant needs
	// that is 0.15 to 0.30 down. Marker plants graded, weighed, soaked to constant mass and weighed again would replace
	// it, some ten plants of each form.
	Lifts = 0.21
	// CurlsReadily is the multiple for forms that curl as a normal sign of being dry. A guess. Such plants graded and
	// weighed would replace it.
	CurlsReadily = 0.8
)

// SignRows and SignStep are the multiples of the usual thirst that are told apart: SignRows of them, SignStep apart in
// the logarithm, with 1 in the middle. Between them edges lift at a thirst of 0.11 to 0.43.
const (
	SignRows = 7
	SignStep = 0.26
)

// RowMultiple is the multiple of a row.
func RowMultiple(row int) float64 { return math.Exp(SignStep * float64(row-SignRows/2)) }

// SignsScale fits the signs to a form or a plant.
type SignsScale struct {
	// Multiple is the multiple of the usual thirst at which each grade of curl and tips begins; 0 counts as 1.
	Multiple float64
}

// Times is the same scale with signs that come at a multiple of its thirst.
func (p SignsScale) Times(multiple float64) SignsScale {
	return SignsScale{Multiple: math.Exp(p.log()) * multiple}
}

func (p SignsScale) log() float64 {
	if p.Multiple > 0 {
		return math.Log(p.Multiple)
	}
	return 0
}

// When the grades of a sign begin, beside the first of curl, and how blurred (the scale of a logistic in the logarithm
// of thirst). The blur is a guess; so are the beginnings, from what growers soak each grade for. Plants graded and
// weighed would replace them.
var (
	trueCurl = graded(0.09, 1, 1.42, 1.80)
	curl     = slipped(trueCurl)
	// Brown tips tell of dryness that may be weeks old, and of much else: a weak sign.
	tips = slipped(graded(0.40, 1, 1.45, 1.90))
)

// Tillandsias turn green at once on wetting (Schimper 1888): the colour shows a wet surface and not a full plant. A
// drop that is drawn in quickly has found dry scales, though, and those are dry before the leaf is: a weak sign of
// early thirst. Staying pale says that the scales do not work (dead, oiled, limed), which is no word about thirst.
//
// T. usneoides fills its scales early in the night and has emptied them early in the day (Martin & Schmitt 1989, Bot.
// Gaz. 150:1): so they are dry while the leaf has lost little. At what loss is a guess, and the blur is as wide as what
// is not known of it. Plants tried with a drop, and weighed, would replace them.
var shift = slipped(graded(0.45, 0.20, 0.48))

// LogLikelihood is the log probability of seeing these signs on a plant of the given thirst (0 to 1): evidence about
// its thirst. It is 0 where nothing was seen, and never -Inf: a wrong grade can be outweighed by later ones.
func (s Signs) LogLikelihood(thirst float64, p SignsScale) float64 {
	sum := 0.0
	for _, one := range [...]struct {
		sign     sign
		grade    int8
		multiple float64
	}{{curl, s.Curl, p.log()}, {tips, s.Tips, p.log()}, {shift, s.Shift, 0}} {
		if c := one.sign.of(one.grade); c != nil {
			sum += math.Log(c.at(place(thirst, one.multiple)))
		}
	}
	return sum
}

// CurlChance is the probability of seeing at least this grade of curl on a plant of the given thirst (0 to 1).
func (p SignsScale) CurlChance(grade int8, thirst float64) float64 {
	at, chance := place(thirst, p.log()), 0.0
	for g := max(grade, 0); int(g) < len(curl); g++ {
		chance += curl[g].at(at)
	}
	return chance
}

// CurlBegins is the thirst (0 to 1) from which at least a grade of curl, 1 to 3, is seen more often than not.
func (p SignsScale) CurlBegins(grade int8) float64 {
	low, high := 0.0, 1.0
	for high-low > 1e-4 {
		if middle := (low + high) / 2; p.CurlChance(grade, middle) < 0.5 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// Rows fills each row with the chance of seeing the signs on a plant that has the relative water content of its place,
// at each of the SignRows multiples beside that of the scale.
func (s Signs) Rows(rows [][]float64, rwc []float64, p SignsScale) {
	c, t, d := curl.orAny(s.Curl), tips.orAny(s.Tips), shift.of(s.Shift)
	trueC, slips := trueCurl.orAny(s.Curl), cmp.Or(s.Slip, CommonSlip)/CommonSlip
	lowest := p.log() - SignStep*(SignRows/2)
	for i, r := range rwc {
		at, drop := place(1-r, 0), 1.0
		if d != nil {
			drop = d.at(at)
		}
		at += 0.5 - lowest*curvePerUnit
		for _, row := range rows {
			here := uint(min(max(int(at), 0), len(c)-1))
			row[i] = drop * t[here] * (trueC[here] + slips*(c[here]-trueC[here]))
			at -= SignStep * curvePerUnit
		}
	}
}

// sign is one graded sign, a curve for each grade. At least grade g is seen with probability 1/(1 + exp(-(x -
// begins[g-1])/blur)), x the logarithm of the thirst: an ordered logistic model (McCullagh 1980, J. R. Stat. Soc. B
// 42:109; from memory). A grade never speaks for less thirst than a lower grade does.
type sign []curve

func (s sign) of(grade int8) *curve {
	if grade < 0 || int(grade) >= len(s) {
		return nil
	}
	return &s[grade]
}

// orAny is the curve of a grade, or that of any grade.
func (s sign) orAny(grade int8) *curve {
	if c := s.of(grade); c != nil {
		return c
	}
	return &anyGrade
}

// anyGrade is certain.
var anyGrade = func() (c curve) {
	for i := range c {
		c[i] = 1
	}
	return c
}()

// curve is the chance of a grade, tabled over the logarithm of thirst beside that at which edges lift.
type curve [(curveTo-curveFrom)*curvePerUnit + 1]float64

// The table reaches as far as the chances change.
const (
	curveFrom    = -4
	curveTo      = 3
	curvePerUnit = 128
)

// place is where a thirst stands in the table, for signs that come at a multiple (as a logarithm) of the usual thirst.
func place(thirst, multiple float64) float64 {
	return (logOf(max(thirst, 1e-6)/Lifts) - multiple - curveFrom) * curvePerUnit
}

func (c *curve) at(place float64) float64 {
	return c[int(min(max(place+0.5, 0), (curveTo-curveFrom)*curvePerUnit))]
}

// graded tables a sign of some blur whose grades begin at multiples of Lifts.
func graded(blur float64, begins ...float64) sign {
	edges := []float64{math.Inf(-1)}
	for _, b := range begins {
		edges = append(edges, math.Log(b))
	}
	edges = append(edges, math.Inf(1))
	s := make(sign, len(begins)+1)
	for i := range s[0] {
		x := curveFrom + float64(i)/curvePerUnit
		for g := range s {
			s[g][i] = between((x-edges[g])/blur, (x-edges[g+1])/blur)
		}
	}
	return s
}

// CommonSlip is the share of grades that are seen or keyed one too low, and as many one too high. A guess; two people
// grading the same shelf would replace it. Slips this rare leave the order of the grades as it is: a higher one still
// never speaks for less thirst.
const CommonSlip = 0.03

// Twice is the share of slips that is left where a second look writes the same grade.
func Twice(slip float64) float64 {
	right := 1 - 2*slip
	return slip * slip / (right*right + 2*slip*slip)
}

// slipped is a sign as it is written down. There is nothing below the lowest grade nor above the highest.
func slipped(there sign) sign {
	written := make(sign, len(there))
	for g := range there {
		under, over := &written[max(g-1, 0)], &written[min(g+1, len(there)-1)]
		for i, c := range &there[g] {
			under[i] += CommonSlip * c
			written[g][i] += (1 - 2*CommonSlip) * c
			over[i] += CommonSlip * c
		}
	}
	return written
}

// between is the logistic function at a less that at b, multiplied out so that nothing cancels.
func between(a, b float64) float64 {
	return -math.Expm1(b-a) / ((1 + math.Exp(-a)) * (1 + math.Exp(b)))
}

// logTable is the logarithm of the middles of 1<<logBits pieces of 1 to 2, and one over them.
var logTable = func() (t [1 << logBits]struct{ log, inverse float64 }) {
	for i := range t {
		middle := 1 + (float64(i)+0.5)/float64(len(t))
		t[i].log, t[i].inverse = math.Log(middle), 1/middle
	}
	return t
}()

const logBits = 8

// logOf is the natural logarithm of x > 0, for those who ask by the million: by the table and the first terms of the
// series for what is left over, of which the next is under 4e-12.
func logOf(x float64) float64 {
	const mantissa = 52
	bits := math.Float64bits(x)
	near := &logTable[bits>>(mantissa-logBits)&(1<<logBits-1)]
	off := math.Float64frombits(bits&(1<<mantissa-1)|1023<<mantissa)*near.inverse - 1
	return float64(int(bits>>mantissa)-1023)*math.Ln2 + near.log + off*(1-off*(1.0/2-off*(1.0/3)))
}
