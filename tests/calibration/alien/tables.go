package alien

import "math"

func level() *table {
	var t table
	for u := range t {
		for v := range t[u] {
			t[u][v] = 1
		}
	}
	return &t
}

// normal is a normal distribution around the middle.
func normal(leak, lift float64) *table {
	var t table
	for u := range t {
		for v := range t[u] {
			x, y := leakStep*float64(u-leaks/2)/leak, liftStep*float64(v-measures/2)/lift
			t[u][v] = math.Exp(-(x*x + y*y) / 2)
		}
	}
	return &t
}

// times multiplies and lifts the highest to 1, and returns the logarithm of what it was: minus infinity where nothing is
// left.
func (t *table) times(by *table) (log float64) {
	top := 0.0
	for u := range t {
		for v := range t[u] {
			t[u][v] *= by[u][v]
			top = max(top, t[u][v])
		}
	}
	if top == 0 {
		return math.Inf(-1)
	}
	for u := range t {
		for v := range t[u] {
			t[u][v] /= top
		}
	}
	return math.Log(top)
}

func (t *table) sum() (all float64) {
	for u := range t {
		for v := range t[u] {
			all += t[u][v]
		}
	}
	return all
}

// without takes a factor out again.
func (t *table) without(by *table) {
	for u := range t {
		for v := range t[u] {
			if by[u][v] > 0 {
				t[u][v] /= by[u][v]
			}
		}
	}
}

// kernel is a normal step of leak and of lift, by whole steps of the grid.
type kernel struct{ leak, lift []float64 }

func step(leak, lift float64) kernel {
	return kernel{steps(leak/leakStep, leaks), steps(lift/liftStep, measures)}
}

// steps is cut off at four spreads.
func steps(spread float64, n int) []float64 {
	reach := min(int(4*spread)+1, n-1)
	k := make([]float64, reach+1)
	for i := range k {
		z := float64(i) / spread
		k[i] = math.Exp(-z * z / 2)
	}
	return k
}

// spread is up and down the same: what is believed one level on.
func (k kernel) spread(t *table) (out table) {
	var half table
	for u := range leaks {
		for v := range measures {
			sum := 0.0
			for w := max(v-len(k.lift)+1, 0); w < min(v+len(k.lift), measures); w++ {
				sum += k.lift[max(v-w, w-v)] * t[u][w]
			}
			half[u][v] = sum
		}
	}
	for u := range leaks {
		for w := max(u-len(k.leak)+1, 0); w < min(u+len(k.leak), leaks); w++ {
			by := k.leak[max(u-w, w-u)]
			for v := range measures {
				out[u][v] += by * half[w][v]
			}
		}
	}
	return out
}
