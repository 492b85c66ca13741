package calibration_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"tubside/model/estimate"
)

// Simulation-based calibration (S. Talts, M. Betancourt, D. Simpson, A. Vehtari & A. Gelman 2018, arXiv:1804.06788;
// from memory): draw the truth from the prior, invent what is seen of it, and ask where in what is then believed
// the truth lies. If the sums are right, it lies anywhere with equal chance.
const (
	sbcHomes  = 600
	sbcPlants = 20
	sbcWeeks  = 6
	sbcBins   = 20
)

// chi2At99 is the 99 % point of chi-square with 19 degrees of freedom (Abramowitz & Stegun 1964, table 26.8; from
// memory).
const chi2At99 = 36.19

func TestCalibrationBySimulation(t *testing.T) {
	var loss, drying histogram
	for seed := uint64(1); seed <= sbcHomes; seed++ {
		w := newWorld(1000+seed, sbcPlants, asTold)
		w.open()
		for n := range sbcWeeks {
			w.week(n)
		}
		k := estimate.New(w.book)
		l := w.lives[int(seed)%sbcPlants]
		loss.add(k.LossMass(l.row.ID).Below(l.pace))
		drying.add(k.DryingMass(l.row.ID).Below(l.slow))
	}
	record(t, "sbc", fmt.Sprintf("%d homes of %d plants, %d weeks: where the truth lies in what is believed of it\n\n  loses water  %s\n  dries        %s",
		sbcHomes, sbcPlants, sbcWeeks, loss, drying))
	for name, h := range map[string]histogram{"loses water": loss, "dries": drying} {
		if chi2 := h.chi2(); chi2 > chi2At99 {
			t.Errorf("%s: chi-square %.1f, over %.1f", name, chi2, chi2At99)
		}
	}
}

// histogram counts shares from 0 to 1 in even bins.
type histogram [sbcBins]int

func (h *histogram) add(share float64) { h[min(int(share*sbcBins), sbcBins-1)]++ }

// chi2 is Pearson's test against even counts.
func (h *histogram) chi2() float64 {
	n := 0
	for _, c := range h {
		n += c
	}
	even, sum := float64(n)/sbcBins, 0.0
	for _, c := range h {
		sum += math.Pow(float64(c)-even, 2) / even
	}
	return sum
}

// String is the counts and the test.
func (h histogram) String() string {
	var b strings.Builder
	for _, c := range h {
		fmt.Fprintf(&b, "%3d", c)
	}
	return fmt.Sprintf("%s   chi-square %.1f (99 %% lie under %.1f)", b.String(), h.chi2(), chi2At99)
}
