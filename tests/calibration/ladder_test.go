package calibration_test

import (
	"flag"
	"fmt"
	"math"
	"strings"
	"testing"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/tests/calibration/alien"
)

var ladderHomes = flag.Int("ladder", 0, "`homes` of each kind in which the limit is told less and less: a dozen times its work")

// rung is a limit that is not told something.
type rung struct {
	name string
	not  alien.Ignorance
}

// rungs are limits that take what they are not told as the program does.
func rungs(keep *estimate.Keeper) []rung {
	rate := func(p *alien.Plant) float64 { return keep.Traits(p.Row.ID).LossRate }
	drink := func(p *alien.Plant, minutes, slow, left float64) float64 {
		const wetHours = 2 // about as long as leaves are wet here
		t, rwc := keep.Traits(p.Row.ID), []float64{left}
		leaf.NewSoak(minutes, t.Tau*slow).Wearing(leaf.Film{Share: t.Film, Hours: wetHours}).Refill(rwc)
		return rwc[0]
	}
	most := alien.Ignorance{Rate: rate, Shelves: true, Air: true, Stores: true, Drink: drink}
	all, dropless := most, most
	all.Secrets = true
	dropless.Secrets, dropless.Drop, dropless.Tips = true, true, true
	return []rung{
		{"the limit", alien.Ignorance{}},
		{"not what happened in secret", alien.Ignorance{Secrets: true}},
		{"not what kinds lose", alien.Ignorance{Rate: rate}},
		{"not what shelves do", alien.Ignorance{Shelves: true}},
		{"not the air between readings", alien.Ignorance{Air: true}},
		{"not how plants drink", alien.Ignorance{Drink: drink}},
		{"not that there are two stores", alien.Ignorance{Stores: true}},
		{"not what a drop tells", alien.Ignorance{Drop: true}},
		{"not what tips tell", alien.Ignorance{Tips: true}},
		{"none of it but secrets, drop, tips", most},
		{"none of it but drop, tips", all},
		{"none of it", dropless},
	}
}

// climb lives in one home and asks the program and the limits, as besideHonest does.
func climb(n alien.Nature, seed uint64) figure {
	h := alien.NewHome(n, seed)
	keep := estimate.New(h.Book)
	var t tally
	var limits []*alien.Limit
	h.Wrote = func(e model.Entry) {
		keep.Follow(e)
		for _, r := range rungs(keep)[len(limits):] { // plants are in the book from its first entry on
			limits = append(limits, alien.NewLimitBut(h, r.not))
		}
	}
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

// What stands between the program and the limit, one thing at a time.
func TestLimitToldLess(t *testing.T) {
	if *ladderHomes == 0 {
		t.Skip("asked for with -ladder")
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%d homes of each kind from %d on; ± is one standard error of the difference from the limit\n",
		*ladderHomes, *alienFirst)
	for _, n := range alien.Natures {
		if !strings.Contains(n.Name, *alienOnly) {
			continue
		}
		homes := liveInEach(climb, n, *alienFirst, *ladderHomes)
		fmt.Fprintf(&b, "\n%-36s holds   width            order before signs    after\n", n.Name)
		for r, name := range append([]string{"the program"}, names()...) {
			fmt.Fprintf(&b, "%-36s", name)
			for f := range figuresEach {
				mean, off, e := besideLimit(homes, r*figuresEach+f, figuresEach+f)
				switch f {
				case believedIn:
					fmt.Fprintf(&b, " %4.1f  ", 100*mean)
				default:
					fmt.Fprintf(&b, "  %.3f %+.3f ± %.3f", mean, off, e)
				}
			}
			b.WriteString("\n")
		}
	}
	record(t, "ladder", b.String())
}

func names() (all []string) {
	for _, r := range rungs(nil) {
		all = append(all, r.name)
	}
	return all
}

// besideLimit is the mean of a figure, of its difference from that of the limit, and the standard error of that.
func besideLimit(homes []figure, of, limit int) (mean, off, e float64) {
	count, squares := float64(len(homes)), 0.0
	for _, h := range homes {
		d := h[of] - h[limit]
		mean += h[of] / count
		off += d / count
		squares += d * d / count
	}
	return mean, off, math.Sqrt(max(squares-off*off, 0) / max(count-1, 1))
}
