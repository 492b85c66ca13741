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

// found is the share of the driest n that are among the first m by score. Ties of the score are counted by their
// share of the places.
func found(thirst, score []float64, n, m int) float64 {
	truth := ranks(thirst)
	type plant struct{ score, hit float64 }
	plants := make([]plant, len(score))
	for i := range plants {
		plants[i].score = score[i]
		if truth[i] > float64(len(score)-n)-0.75 {
			plants[i].hit = 1
		}
	}
	slices.SortStableFunc(plants, func(a, b plant) int {
		switch {
		case a.score > b.score:
			return -1
		case a.score < b.score:
			return 1
		}
		return 0
	})
	hits := 0.0
	for i := 0; i < m; {
		j, sum := i, 0.0
		for j < len(plants) && plants[j].score == plants[i].score {
			sum += plants[j].hit
			j++
		}
		take := min(j, m) - i
		hits += sum * float64(take) / float64(j-i)
		i = j
	}
	return hits / float64(n)
}
