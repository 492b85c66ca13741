package yearend

import (
	"fmt"
	"math"
	"slices"

	"tubside/model/accounts"
	"tubside/model/ledger"
	"tubside/ui/plot"
	"tubside/ui/show"
)

// months is what came and what went, month by month. Plants of an old list are
// left out: they came before.
func months(l accounts.Ledger) plot.Columns {
	c := plot.Columns{
		About: plot.About{
			Name: "months", Title: "Plants that came and plants that went, by month",
			What: "One pair of columns a month: new plants and offsets, and plants lost, sold or given away. The table below has the numbers.",
		},
		First: "came", Second: "went",
	}
	for _, m := range l.ByMonth {
		c.Pairs = append(c.Pairs, plot.Pair{Name: m.Key, First: m.Came + m.Offsets, Second: m.Left()})
	}
	return c
}

// causes is the losses by cause.
func causes(l accounts.Ledger) plot.Bars {
	b := plot.Bars{About: plot.About{Name: "causes", Title: "Plants lost, by cause", What: "One bar a cause, the longest first."}}
	for _, c := range l.Causes {
		b.Lines = append(b.Lines, plot.Bar{Name: c.Cause, Amount: float64(c.Plants), Says: fmt.Sprint(c.Plants)})
	}
	return b
}

// curve is a survival curve as far as it was watched.
func curve(s accounts.Survival) plot.Curve {
	end := s.Curve[len(s.Curve)-1].Days
	c := plot.Curve{
		About: plot.About{
			Name: "survival", Title: "Share of rows still alive, by days under watch",
			What: fmt.Sprintf("A curve that falls in steps from 100 %%, with a 95 %% band: %d rows watched, %d lost. %s.", s.Rows, s.Lost, aliveWords(s.Curve, end)),
		},
		End: max(end, 1), Below: "rows under watch",
	}
	for _, step := range s.Curve {
		if step.Lost > 0 {
			c.Steps = append(c.Steps, plot.Step{X: step.Days, Y: step.Alive, Low: step.Low, High: step.High})
		}
	}
	every := tickDays(end)
	for x := 0.0; x <= end; x += every {
		c.Ticks = append(c.Ticks, plot.Tick{X: x, Name: fmt.Sprintf("%.0f d", x), Count: fmt.Sprint(atRisk(s.Curve, x))})
	}
	return c
}

// tickDays is how far the marks under a curve are apart: a number of days that
// people count in, for at most eight marks.
func tickDays(end float64) float64 {
	for _, d := range []float64{1, 7, 14, 30, 60, 90, 180, 365, 730} {
		if end/d <= 8 {
			return d
		}
	}
	return 365 * math.Ceil(end/8/365)
}

// atRisk is how many rows were alive and watched just before a time.
func atRisk(c ledger.Curve, days float64) int {
	i := slices.IndexFunc(c, func(s ledger.Step) bool { return s.Days >= days })
	if i < 0 {
		return 0
	}
	return c[i].AtRisk
}

// aliveWords is the share alive at a time with its band: "96 % (93 to 98) alive
// after 90 days".
func aliveWords(c ledger.Curve, days float64) string {
	s, known := c.At(days)
	if !known {
		return "nothing is known of " + show.Count(int(days), "day")
	}
	return fmt.Sprintf("%s alive after %s", shareWords(s), show.Count(int(days), "day"))
}

// shareWords is a share with its band where there is one.
func shareWords(s ledger.Step) string {
	if !s.Banded() {
		return show.Percent(s.Alive)
	}
	return fmt.Sprintf("%s (%.0f to %.0f)", show.Percent(s.Alive), 100*s.Low, 100*s.High)
}

// rotBars is the share of soaks after which rot was suspected, a bar a bin.
func rotBars(name, title string, bins []accounts.Bin, label func(accounts.Bin) string) plot.Bars {
	b := plot.Bars{About: plot.About{Name: name, Title: title, What: "One bar a group of soaks; the words behind it are the counts."}}
	for _, bin := range bins {
		if bin.Soaks == 0 {
			continue
		}
		share := float64(bin.Rot) / float64(bin.Soaks)
		b.Lines = append(b.Lines, plot.Bar{Name: label(bin), Amount: share, Says: fmt.Sprintf("%d of %d", bin.Rot, bin.Soaks)})
	}
	return b
}
