package calibration_test

import (
	"flag"
	"fmt"
	"strings"
	"testing"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/tests/calibration/alien"
)

var honestHomes = flag.Int("honest", 0, "`homes` of each kind in which the honest limit is computed as well: nine times the limit's work")

// besideHonest lives in one home and asks the program and the limits, each for whether its range held, its width, and the
// order before signs and after.
func besideHonest(n alien.Nature, seed uint64) figure {
	h := alien.NewHome(n, seed)
	keep := estimate.New(h.Book)
	limits := []*alien.Limit{alien.NewLimit(h), alien.NewHonestLimit(h), alien.NewLimitBut(h, alien.Ignorance{Drop: true})}
	var t tally
	h.Wrote = func(e model.Entry) { keep.Follow(e) }
	h.Ask = func(looked bool) {
		look := advice.Look(keep, h.Now)
		believed := make([]alien.Belief, len(h.Plants))
		for i, p := range h.Plants {
			need := look.Need(p.Row.ID)
			believed[i] = alien.Belief{Mean: need.RWC, Low: need.Low, High: need.High}
		}
		holdAgainst(h, &t, 0, believed, looked)
		for i, limit := range limits {
			holdAgainst(h, &t, i+1, limit.Now(), looked)
		}
	}
	h.Live()
	return t.mean()
}

// The figures of each who believes something.
const (
	believedIn = iota
	believedWidth
	orderBefore
	orderAfter
	figuresEach
)

func holdAgainst(h *alien.Home, t *tally, who int, believed []alien.Belief, looked bool) {
	first, order := who*figuresEach, orderBefore
	if looked {
		order = orderAfter
	}
	var thirst, score []float64
	for i, p := range h.Plants {
		t.holds(first+believedIn, believed[i].Low, p.Left(), believed[i].High)
		t.add(first+believedWidth, believed[i].High-believed[i].Low)
		thirst, score = append(thirst, 1-p.Left()), append(score, 1-believed[i].Mean)
	}
	t.add(first+order, rankCorrelation(thirst, score))
}

// The limit knows by heart by which laws signs come in its world. The honest limit knows their form and learns their
// numbers from the same looks. To the last one the drop of water tells nothing.
func TestHonestLimit(t *testing.T) {
	if *honestHomes == 0 {
		t.Skip("asked for with -honest")
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%d homes of each kind from %d on\n\n%-26s %-23s %-23s %-23s %-23s\n%-26s", *honestHomes, *alienFirst, "",
		"program", "limit", "limit, numbers unknown", "limit without the drop", "")
	for range 4 {
		b.WriteString(" holds width before after ")
	}
	b.WriteString("  program's width, times each limit's\n")
	for _, n := range alien.Natures {
		if !strings.Contains(n.Name, *alienOnly) {
			continue
		}
		k := liveInAll(besideHonest, n, *alienFirst, *honestHomes)
		fmt.Fprintf(&b, "%-26s", n.Name)
		for who := range 4 {
			m := k.mean[who*figuresEach:]
			fmt.Fprintf(&b, "  %4.1f %.3f  %.3f %.3f ", 100*m[believedIn], m[believedWidth], m[orderBefore], m[orderAfter])
		}
		for who := 1; who < 4; who++ {
			fmt.Fprintf(&b, "  %.2f", k.mean[believedWidth]/k.mean[who*figuresEach+believedWidth])
		}
		b.WriteString("\n")
	}
	record(t, "honest", b.String())
}
