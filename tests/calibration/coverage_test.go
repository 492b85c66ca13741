package calibration_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"tubside/model/advice"
	"tubside/model/estimate"
)

// Years in hard worlds: how often the 80 % ranges hold the truth.
const (
	yearHomes  = 4
	yearPlants = 150
	yearWeeks  = 52
	settledIn  = 8 // weeks before anything is counted
	countEvery = 4 // weeks
)

// cover counts how often a range holds the truth.
type cover struct {
	name          string
	in, over, all int
}

// least and most are what an 80 % range may hold, in %.
const least, most = 77.0, 83.0

func (c *cover) add(low, truth, high float64) {
	c.all++
	switch {
	case truth > high:
		c.over++
	case truth >= low:
		c.in++
	}
}

func (c *cover) share() float64 { return 100 * float64(c.in) / float64(c.all) }

func TestCalibrationOverYears(t *testing.T) {
	loss, rwc := &cover{name: "pace of losing water"}, &cover{name: "water left, before the soak"}
	linger, dry := &cover{name: "pace of drying"}, &cover{name: "hour of being dry"}
	for seed := uint64(1); seed <= yearHomes; seed++ {
		w := newWorld(2000+seed, yearPlants, hard)
		w.keep = estimate.New(w.book)
		w.open()
		week := 0
		w.dried = func() {
			if counts(week) {
				w.countDrying(dry)
			}
		}
		for ; week < yearWeeks; week++ {
			w.pass(w.begin.AddDate(0, 0, 7*week))
			if counts(week) {
				w.countPaces(loss, linger, rwc)
			}
			w.week(week)
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%d years of %d plants, marks late and sloppy: how often the 80 %% range holds the truth\n\n", yearHomes, yearPlants)
	for _, c := range []*cover{loss, rwc, linger, dry} {
		fmt.Fprintf(&b, "  %-28s %5.1f %% of %5d (over it %.1f %%)\n", c.name, c.share(), c.all, 100*float64(c.over)/float64(c.all))
		if s := c.share(); s < least || s > most {
			t.Errorf("%s: %.1f %%, want %.0f to %.0f", c.name, s, least, most)
		}
	}
	record(t, "coverage", b.String())
}

func counts(week int) bool { return week >= settledIn && week%countEvery == 0 }

func (w *world) countPaces(loss, linger, rwc *cover) {
	look := advice.Look(w.keep, w.now)
	for _, l := range w.lives {
		p, _ := w.keep.LossMultiplier(l.row.ID)
		loss.add(p.Low, l.pace, p.High)
		p, _ = w.keep.DryingMultiplier(l.row.ID)
		linger.add(p.Low, l.slow, p.High)
		n := look.Need(l.row.ID)
		rwc.add(n.Low, l.rwc, n.High)
	}
}

// countDrying asks for the hours of being dry when all are out, before anybody
// has looked.
func (w *world) countDrying(dry *cover) {
	look := advice.Look(w.keep, w.now.Add(6*time.Hour))
	for _, d := range look.Drying {
		l := w.lives[d.ID-1]
		hours := func(t time.Time) float64 { return t.Sub(l.out).Hours() }
		dry.add(hours(d.Low), hours(l.dry), hours(d.High))
	}
}
