package calibration_test

import (
	"flag"
	"fmt"
	"math"
	"runtime"
	"strings"
	"sync"
	"testing"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/tests/calibration/alien"
)

// Homes of each kind of world: a few on every run, more when asked for.
var (
	alienHomes = flag.Int("aliens", 1, "`homes` of each kind of alien world; the table in README.md has 48")
	alienFirst = flag.Uint64("first", 1, "`number` of the first alien home; those from 1001 on were never looked at while the program was made")
	alienOnly  = flag.String("only", "", "`part` of the name of the alien worlds to live in; all")
)

// The figures of one home, and of many.
const (
	waterIn = iota // share of plants whose 80 % range held the truth
	waterOver
	waterBias // mean believed less the truth
	waterWidth
	limitIn
	limitWidth
	dryIn
	dryWidth // logarithm of the ratio of the ends
	dryLimit
	daysBefore
	signsBefore
	plainBefore
	learnBefore
	limitBefore
	daysAfter
	signsAfter
	plainAfter
	learnAfter
	limitAfter
	figuresOf
)

// room is for the figures of any test here.
const room = 64

type figure [room]float64

// tally adds up figures of one home.
type tally struct{ sum, n figure }

func (t *tally) add(i int, value float64) { t.sum[i] += value; t.n[i]++ }

func (t *tally) holds(i int, low, truth, high float64) {
	in := 0.0
	if low <= truth && truth <= high {
		in = 1
	}
	t.add(i, in)
}

func (t *tally) mean() (f figure) {
	for i := range f {
		if t.n[i] > 0 {
			f[i] = t.sum[i] / t.n[i]
		}
	}
	return f
}

// liveIn lives in one home and asks the program along the way.
func liveIn(n alien.Nature, seed uint64) figure {
	h := alien.NewHome(n, seed)
	limit, blind := alien.NewLimit(h), model.NewBook(h.Book.Zone())
	keep, blindly := estimate.New(h.Book), estimate.New(blind)
	var t tally
	h.Wrote = func(e model.Entry) {
		keep.Follow(e)
		switch e.Fact.(type) {
		case *model.Look, *model.Weigh:
			return
		}
		e.Seq = model.Seq(len(blind.Entries()) + 1)
		if err := blind.Apply(e); err != nil {
			panic(err)
		}
		blindly.Follow(e)
	}
	h.Ask = func(looked bool) { askAll(h, &t, keep, blindly, limit, looked) }
	h.Out = func() {
		look := advice.Look(keep, h.Now)
		for _, d := range look.Drying {
			p := h.Plants[d.ID-1]
			low, high := d.Low.Sub(d.OutAt).Hours(), d.High.Sub(d.OutAt).Hours()
			t.holds(dryIn, low, p.Hours(), high)
			t.add(dryWidth, math.Log(high/low))
			t.add(dryLimit, math.Log(h.DryLimit(p)))
		}
	}
	h.Live()
	return t.mean()
}

func askAll(h *alien.Home, t *tally, keep, blindly *estimate.Keeper, limit *alien.Limit, looked bool) {
	look, unlearned, best := advice.Look(keep, h.Now), advice.Look(blindly, h.Now), limit.Now()
	var thirst, days, signs, plain, learned, known []float64
	for i, p := range h.Plants {
		row, need := h.Book.Row(p.Row.ID), look.Need(p.Row.ID)
		truth := p.Left()
		t.holds(waterIn, need.Low, truth, need.High)
		t.holds(waterOver, need.High, truth, 2)
		t.add(waterBias, need.RWC-truth)
		t.add(waterWidth, need.High-need.Low)
		t.holds(limitIn, best[i].Low, truth, best[i].High)
		t.add(limitWidth, best[i].High-best[i].Low)
		thirst = append(thirst, 1-truth)
		days = append(days, math.Floor(h.Now.Sub(row.LastSoak()).Hours()/24))
		signs = append(signs, byEye(row.Signs))
		plain = append(plain, unlearned.Need(p.Row.ID).Thirst())
		learned = append(learned, need.Thirst())
		known = append(known, 1-best[i].Mean)
	}
	first := daysBefore
	if looked {
		first = daysAfter
	}
	for i, score := range [][]float64{days, signs, plain, learned, known} {
		t.add(first+i, rankCorrelation(thirst, score))
	}
}

// byEye orders plants by what was seen last: the curl, then the tips and the drop.
func byEye(s model.Signs) float64 {
	return float64(max(s.Curl, 0)) + 0.25*float64(max(s.Tips, 0)) + 0.2*float64(max(s.Shift, 0))
}

// kindFigures are the means over the homes of a kind, and their standard errors.
type kindFigures struct{ mean, error figure }

// liveInEach is the figures of each home.
func liveInEach(live func(alien.Nature, uint64) figure, n alien.Nature, first uint64, homes int) []figure {
	all := make([]figure, homes)
	var group sync.WaitGroup
	hands := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range all {
		group.Go(func() {
			hands <- struct{}{}
			defer func() { <-hands }()
			all[i] = live(n, first+uint64(i))
		})
	}
	group.Wait()
	return all
}

func liveInAll(live func(alien.Nature, uint64) figure, n alien.Nature, first uint64, homes int) (k kindFigures) {
	all := liveInEach(live, n, first, homes)
	for f := range room {
		sum, squares := 0.0, 0.0
		for _, one := range all {
			sum += one[f]
			squares += one[f] * one[f]
		}
		count := float64(homes)
		k.mean[f] = sum / count
		k.error[f] = math.Sqrt(max(squares/count-k.mean[f]*k.mean[f], 0) / max(count-1, 1))
	}
	return k
}

func TestAlienWorlds(t *testing.T) {
	var b strings.Builder
	fmt.Fprintf(&b, "%d homes of each kind from %d on, %d plants each; ± is one standard error\n\n", *alienHomes,
		*alienFirst, alien.Plants)
	fmt.Fprintf(&b, "%-26s %-31s %-15s %-10s %-28s %s\n", "", "80 % range of water left", "limit's", "",
		"hour of being dry", "order by thirst before signs, after: days, signs alone, no learning, learning, limit")
	fmt.Fprintf(&b, "%-26s %-11s %5s %6s %5s   %5s %5s   %5s   %-10s %5s %5s\n", "", "holds", "above", "bias", "width",
		"holds", "width", "ratio", "holds", "ratio", "")
	for _, n := range alien.Natures {
		if !strings.Contains(n.Name, *alienOnly) {
			continue
		}
		k := liveInAll(liveIn, n, *alienFirst, *alienHomes)
		b.WriteString(k.line(n.Name))
		if held, off := k.mean[limitIn], 3*math.Hypot(k.error[limitIn],
			0.40/math.Sqrt(8*alien.Plants)); math.Abs(held-0.80) > 0.03+off {
			t.Errorf("%s: the limit's own 80 %% ranges hold %.1f %%: it does not know the world", n.Name, 100*held)
		}
		if *alienHomes >= enough {
			k.judge(t, n.Name)
		}
	}
	record(t, "aliens", b.String())
}

// enough homes are judged; fewer only run. What an 80 % range must hold: in a plain
// world, and in any other.
const (
	enough                    = 12
	plainLeast, plainMost     = 0.77, 0.83
	strangeLeast, strangeMost = 0.75, 0.92
)

// judge holds a kind of world to the targets, two standard errors granted.
func (k *kindFigures) judge(t *testing.T, name string) {
	least, most := strangeLeast, strangeMost
	if name == alien.Natures[0].Name {
		least, most = plainLeast, plainMost
	}
	for figure, what := range map[int]string{waterIn: "water left", dryIn: "the hour of being dry"} {
		if m, e := k.mean[figure], 2*k.error[figure]; m+e < least || m-e > most {
			t.Errorf("%s: the 80 %% range of %s holds %.1f %% ± %.1f, want %.0f to %.0f", name, what, 100*m, 50*e,
				100*least, 100*most)
		}
	}
	for plainer := range 3 {
		if before, after := k.mean[daysBefore+plainer], k.mean[daysAfter+plainer]; before > k.mean[learnBefore] ||
			after > k.mean[learnAfter] {
			t.Errorf("%s: a plainer order is better: %.3f and %.3f, learning %.3f and %.3f", name, before, after,
				k.mean[learnBefore], k.mean[learnAfter])
		}
	}
}

func (k *kindFigures) line(name string) string {
	m, e := &k.mean, &k.error
	s := fmt.Sprintf("%-26s %5.1f ± %3.1f %5.1f %6.3f %5.3f   %5.1f %5.3f   %5.2f   %4.1f ± %3.1f %5.2f  ", name,
		100*m[waterIn], 100*e[waterIn], 100*m[waterOver], m[waterBias], m[waterWidth],
		100*m[limitIn], m[limitWidth], m[waterWidth]/m[limitWidth], 100*m[dryIn], 100*e[dryIn], m[dryWidth]/m[dryLimit])
	for i := daysBefore; i <= limitAfter; i++ {
		if i == daysAfter {
			s += "  "
		}
		s += fmt.Sprintf(" %.3f", m[i])
	}
	return s + "\n"
}
