package calibration_test

import (
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/tests/calibration/alien"
)

// What is measured of a home with and without a scale: of the plants that never lie on it, and of those that do.
const (
	othersIn = iota
	othersWidth
	othersOff // |mean believed less the truth|
	tenIn
	tenWidth
	tenOff
	weighedFigures
)

type weighedFigure [weighedFigures]float64

// liveWeighed lives in one home; with a scale, ten plants that the program proposes lie on it for four weeks.
func liveWeighed(n alien.Nature, seed uint64, weigh bool) (f weighedFigure) {
	h := alien.NewHome(n, seed)
	h.Weighs = weigh
	keep := estimate.New(h.Book)
	h.Wrote = keep.Follow
	var ten model.IDs
	h.Choose = func() model.IDs {
		for _, c := range advice.ChooseTen(keep, h.Now) {
			ten = append(ten, c.ID)
		}
		return ten
	}
	var sums [weighedFigures]float64
	var count [2]float64
	h.Ask = func(bool) {
		look := advice.Look(keep, h.Now)
		for _, p := range h.Plants {
			need, truth, at := look.Need(p.Row.ID), p.Left(), 0
			if slices.Contains(ten, p.Row.ID) {
				at = 1
			}
			count[at]++
			if need.Low <= truth && truth <= need.High {
				sums[3*at+othersIn]++
			}
			sums[3*at+othersWidth] += need.High - need.Low
			sums[3*at+othersOff] += math.Abs(need.RWC - truth)
		}
	}
	h.Live()
	for i := range f {
		f[i] = sums[i] / count[i/3]
	}
	return f
}

// Ten plants weighed through four weeks in an alien home make what is believed of all the others better: narrower,
// nearer to the truth, and no less often true. Homes are compared with themselves.
func TestTenPlantsWeighed(t *testing.T) {
	homes := max(*alienHomes, 12) // in six, sixty weighed plants are too few to tell
	var b strings.Builder
	fmt.Fprintf(&b, "%d homes of each kind from %d on, ten of %d plants weighed for four weeks; "+
		"± is one standard error of the difference\n\n", homes, *alienFirst, alien.Plants)
	fmt.Fprintf(&b, "%-27s %-45s %s\n", "", "the plants that were not weighed", "the ten")
	fmt.Fprintf(&b, "%-27s %-13s %-22s %-16s   %-13s %-14s %s\n", "",
		"holds", "width", "off by", "holds", "width", "off by")
	only := *alienOnly
	if only == "" && *alienHomes < enough {
		only = alien.Natures[0].Name
	}
	for _, n := range alien.Natures {
		if !strings.Contains(n.Name, only) {
			continue
		}
		without, with := make([]weighedFigure, homes), make([]weighedFigure, homes)
		var group sync.WaitGroup
		hands := make(chan struct{}, runtime.GOMAXPROCS(0))
		for i := range homes {
			group.Go(func() {
				hands <- struct{}{}
				defer func() { <-hands }()
				without[i], with[i] = liveWeighed(n, *alienFirst+uint64(i), false), liveWeighed(n, *alienFirst+uint64(i), true)
			})
		}
		group.Wait()
		before, after, change, off := compared(without, with)
		fmt.Fprintf(&b, "%-27s %4.1f to %4.1f  %.3f to %.3f ± %.3f %.4f to %.4f   "+
			"%4.1f to %4.1f  %.3f to %.3f %.4f to %.4f\n", n.Name,
			100*before[othersIn], 100*after[othersIn], before[othersWidth], after[othersWidth], off[othersWidth],
			before[othersOff], after[othersOff], 100*before[tenIn], 100*after[tenIn], before[tenWidth], after[tenWidth],
			before[tenOff], after[tenOff])
		if n.Name == alien.Natures[0].Name {
			judgeWeighed(t, &before, &after, &change, &off)
		}
	}
	record(t, "weighed", b.String())
}

// judgeWeighed holds a plain world to narrower ranges that hold no less often, and the ten to be believed nearer to the
// truth: beyond two standard errors. That the others are nearer to it as well takes more homes to see.
func judgeWeighed(t *testing.T, before, after, change, off *weighedFigure) {
	if change[othersOff] > 2*off[othersOff] {
		t.Errorf("plants not weighed are further off than before: %.4f ± %.4f", change[othersOff], off[othersOff])
	}
	for i, what := range map[int]string{othersWidth: "ranges of plants not weighed are as wide",
		tenWidth: "ranges of the ten are as wide", tenOff: "the ten are as far off"} {
		if change[i] > -2*off[i] {
			t.Errorf("%s as before: %.4f ± %.4f of %.4f", what, change[i], off[i], before[i])
		}
	}
	for i, what := range map[int]string{othersIn: "plants not weighed", tenIn: "the ten"} {
		if held := after[i]; held < plainLeast && change[i] < -2*off[i] {
			t.Errorf("ranges of %s hold %.1f %%, before %.1f %%", what, 100*held, 100*before[i])
		}
	}
}

// compared is the means without and with a scale, and the mean of the difference with its standard error.
func compared(without, with []weighedFigure) (before, after, change, off weighedFigure) {
	n := float64(len(with))
	for f := range weighedFigures {
		sum, squares := 0.0, 0.0
		for i := range with {
			d := with[i][f] - without[i][f]
			before[f] += without[i][f] / n
			after[f] += with[i][f] / n
			sum += d
			squares += d * d
		}
		change[f] = sum / n
		off[f] = math.Sqrt(max(squares/n-change[f]*change[f], 0) / (n - 1))
	}
	return before, after, change, off
}
