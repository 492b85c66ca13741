package drying

import "math"

// odeTolerance is the error allowed in one step as a share of each value's scale. It leaves dry times good to about a
// minute.
const odeTolerance = 1e-4

// system gives the rates of change of the state y, in hours, into rates.
type system func(y, rates []float64)

// solver integrates a system by the pair of P. Bogacki and L. F. Shampine, "A 3(2) pair of Runge-Kutta formulas",
// Appl. Math. Lett. 2:321-325, 1989: a third-order step with a second-order one inside it whose difference measures
// the error.
type solver struct {
	f     system
	scale []float64 // what counts as 1 of each value
	y     []float64
	next  []float64 // the state a trial reached

	k1, k2, k3, k4 []float64 // rates; k1 belongs to y, k4 to next
	stage          []float64
}

func newSolver(f system, y, scale []float64) *solver {
	n := len(y)
	block := make([]float64, 6*n)
	part := func(i int) []float64 { return block[i*n : (i+1)*n : (i+1)*n] }
	s := &solver{f: f, scale: scale, y: y, next: part(0), stage: part(1)}
	s.k1, s.k2, s.k3, s.k4 = part(2), part(3), part(4), part(5)
	f(y, s.k1)
	return s
}

// try fills next with the state h hours on, and returns its error as a share of what is allowed.
func (s *solver) try(h float64) float64 {
	for i, y := range s.y {
		s.stage[i] = y + h*s.k1[i]/2
	}
	s.f(s.stage, s.k2)
	for i, y := range s.y {
		s.stage[i] = y + h*s.k2[i]*3/4
	}
	s.f(s.stage, s.k3)
	for i, y := range s.y {
		s.next[i] = y + h*(2*s.k1[i]+3*s.k2[i]+4*s.k3[i])/9
	}
	s.f(s.next, s.k4)
	worst := 0.0
	for i := range s.y {
		e := h * (-5*s.k1[i]/72 + s.k2[i]/12 + s.k3[i]/9 - s.k4[i]/8)
		worst = math.Max(worst, math.Abs(e)/s.scale[i])
	}
	return worst / odeTolerance
}

// accept makes the tried state the present one. Its rates were worked out by the trial.
func (s *solver) accept() {
	s.y, s.next = s.next, s.y
	s.k1, s.k4 = s.k4, s.k1
}

// refresh works out the present rates again, after the system or the state was changed from outside.
func (s *solver) refresh() { s.f(s.y, s.k1) }

// resized is the step to take after one of h hours with the given error: third order, with some caution.
func resized(h, err float64) float64 {
	return h * math.Min(4, math.Max(0.2, 0.9/math.Cbrt(math.Max(err, 1e-9))))
}

// crossing returns the share of a tried step of h hours at which value i falls to zero, and false when it stays
// above. Within the step the value is the cubic that meets both ends with their rates.
func (s *solver) crossing(i int, h float64) (float64, bool) {
	if s.next[i] > 0 {
		return 1, false
	}
	low, high := 0.0, 1.0
	for range 40 {
		middle := (low + high) / 2
		if s.within(i, h, middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return high, true
}

// within is value i at a share of a tried step: the cubic Hermite polynomial.
func (s *solver) within(i int, h, share float64) float64 {
	rest := 1 - share
	return rest*rest*((1+2*share)*s.y[i]+share*h*s.k1[i]) +
		share*share*((1+2*rest)*s.next[i]-rest*h*s.k4[i])
}
