package calibration_test

import (
	"math"
	"slices"
)

// ranks gives each value its place from 0, ties sharing their mean.
func ranks(values []float64) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case values[a] < values[b]:
			return -1
		case values[a] > values[b]:
			return 1
		}
		return 0
	})
	rank := make([]float64, len(values))
	for i := 0; i < len(order); {
		j := i
		for j+1 < len(order) && values[order[j+1]] == values[order[i]] {
			j++
		}
		for k := i; k <= j; k++ {
			rank[order[k]] = float64(i+j) / 2
		}
		i = j + 1
	}
	return rank
}

// rankCorrelation is Spearman's rho (C. Spearman 1904, Am. J. Psychol. 15:72; from memory): the correlation of
// the ranks.
func rankCorrelation(x, y []float64) float64 {
	a, b := ranks(x), ranks(y)
	mean := float64(len(a)-1) / 2
	var ab, aa, bb float64
	for i := range a {
		ab += (a[i] - mean) * (b[i] - mean)
		aa += (a[i] - mean) * (a[i] - mean)
		bb += (b[i] - mean) * (b[i] - mean)
	}
	if aa*bb == 0 {
		return 0 // one of them does not order anything
	}
	return ab / math.Sqrt(aa*bb)
}
