package ledger

import "math"

// Median is the time by which half are lost, in days, with the range of its band. A time that the curve does not reach
// is +Inf: "longer than anything seen".
type Median struct{ Days, Low, High float64 }

// Reached reports whether half were lost within the time watched.
func (m Median) Reached() bool { return !math.IsInf(m.Days, 1) }

// A share within rounding of one half counts as one half: products of fractions miss it by rounding.
const half, rounding = 0.5, 1e-9

// Median returns where the curve crosses one half. Where it lies at exactly one half for a while, the middle of that
// while is taken, as with the median of an even count of numbers; where it lies there to the end, its beginning. The
// range is where the band's ends cross one half (R. Brookmeyer and J. Crowley 1982, Biometrics 38:29-41), at the
// coverage the curve was made with. With no band at the curve's end to read it from, as before any loss, a low end that
// is not crossed is 0: nothing is known.
func (c Curve) Median() Median {
	m := Median{
		Days: c.crossing(func(s Step) float64 { return s.Alive }),
		Low:  c.crossing(func(s Step) float64 { return end(s, s.Low) }),
		High: c.crossing(func(s Step) float64 { return end(s, s.High) }),
	}
	if math.IsInf(m.Low, 1) && (len(c) == 0 || !c[len(c)-1].Banded()) {
		m.Low = 0
	}
	return m
}

// end is one end of a step's band; where there is none it is 1, which crosses nothing.
func end(s Step, share float64) float64 {
	if !s.Banded() {
		return 1
	}
	return share
}

func (c Curve) crossing(of func(Step) float64) float64 {
	for i, s := range c {
		switch share := of(s); {
		case share < half-rounding:
			return s.Days
		case share <= half+rounding:
			return c.middle(i, of)
		}
	}
	return math.Inf(1)
}

// middle is the middle of the while at one half that begins at step i.
func (c Curve) middle(i int, of func(Step) float64) float64 {
	for _, s := range c[i:] {
		if of(s) < half-rounding {
			return (c[i].Days + s.Days) / 2
		}
	}
	return c[i].Days
}
