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

var widerHomes = flag.Int("wider", 0, "`homes` of a few kinds in which ranges are made wider and narrower, to see what else that does")

// wider is what ranges are made wider by, about what is expected.
var wider = [...]float64{0.85, 1, 1.1, 1.2, 1.3, 1.45}

// widerIn are the kinds of world that pull ranges apart: the first is to hold 77 to 83 %, the others 75 or more.
var widerIn = []string{"plain", "season of 40 %", "a helper's unwritten soaks", "everything at half"}

// believers are who is asked: the program, and the limit that knows every law and number but not what was done without a
// word, nor the season.
const (
	believers = 2
	theLimit  = believers * (len(wider) + 1)
)

// asWideAs lives in one home and asks the program and the limit, each for whether its range would hold were it so much
// wider.
func asWideAs(n alien.Nature, seed uint64) figure {
	h := alien.NewHome(n, seed)
	keep, limit := estimate.New(h.Book), alien.NewLimit(h)
	untold := alien.NewLimitBut(h, alien.Ignorance{Secrets: true, Air: true})
	var t tally
	h.Wrote = func(e model.Entry) { keep.Follow(e) }
	h.Ask = func(bool) {
		look, best, guess := advice.Look(keep, h.Now), limit.Now(), untold.Now()
		for i, p := range h.Plants {
			need := look.Need(p.Row.ID)
			for who, b := range [believers]alien.Belief{{Mean: need.RWC, Low: need.Low, High: need.High}, guess[i]} {
				first := who * (len(wider) + 1)
				for k, by := range wider {
					t.holds(first+k, b.Mean-by*(b.Mean-b.Low), p.Left(), b.Mean+by*(b.High-b.Mean))
				}
				t.add(first+len(wider), b.High-b.Low)
			}
			t.add(theLimit, best[i].High-best[i].Low)
		}
	}
	h.Live()
	return t.mean()
}

// What holds in one kind of world where ranges are as wide as another kind asks for: no width is right for all.
func TestNoWidthIsRightForAllWorlds(t *testing.T) {
	if *widerHomes == 0 {
		t.Skip("asked for with -wider")
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%d homes of each kind from %d on; ± is one standard error; holds, and its width beside the limit's\n\n%-18s", *widerHomes,
		*alienFirst, "")
	var kinds []kindFigures
	for _, n := range alien.Natures {
		for _, name := range widerIn {
			if n.Name == name {
				kinds = append(kinds, liveInAll(asWideAs, n, *alienFirst, *widerHomes))
				fmt.Fprintf(&b, "%-28s", name)
			}
		}
	}
	for who, name := range [believers]string{"the program's ranges", "of the limit that is told neither what was done in secret nor of the season"} {
		fmt.Fprintf(&b, "\n%s\n", name)
		for k, by := range wider {
			fmt.Fprintf(&b, "  times %-10g", by)
			for _, f := range kinds {
				at := who*(len(wider)+1) + k
				fmt.Fprintf(&b, "%5.1f ± %3.1f  %4.2f%11s", 100*f.mean[at], 100*f.error[at],
					by*f.mean[who*(len(wider)+1)+len(wider)]/f.mean[theLimit], "")
			}
			b.WriteString("\n")
		}
	}
	record(t, "wider", b.String())
}
