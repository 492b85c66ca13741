package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tubside/model"
	"tubside/model/accounts"
	"tubside/model/ledger"
	"tubside/ui/show"
)

// addLosses is what was lost to what.
func addLosses(s *Sheet, l accounts.Ledger) {
	if len(l.Causes) == 0 {
		s.Add("Losses by cause", Words("Nothing was lost."))
		return
	}
	t := &Table{Wrap: true, Columns: []Column{
		{Head: "cause", Least: 8}, {Head: "plants", Right: true}, {Head: "tray as one", Right: true},
		{Head: "forms", Least: 16},
	}}
	for _, c := range l.Causes {
		var forms []string
		for _, f := range c.ByForm {
			forms = append(forms, fmt.Sprintf("%s %d", formWord(f.Form), f.Plants))
		}
		t.Add(c.Cause, fmt.Sprint(c.Plants), fmt.Sprint(c.Rows), strings.Join(forms, ", "))
	}
	s.Add("Losses by cause", causes(l).Drawing(), t)
}

func formWord(f model.Form) string {
	if f == "" {
		return "not said"
	}
	return string(f)
}

// survivalDays are the times at which the table reads the curves.
var survivalDays = []float64{30, 90, 365}

const survivalWords = "Each plant is watched from the day it came into the book; one that was new then, from the day it came. A tray counts as one. " +
	"Counting old plants from the day they were bought would make the curve too good: those lost before are not in the book. " +
	"Plants sold, given away or alive count until then (Kaplan and Meier 1958). The band holds the true share 95 times in 100 at any one time (Greenwood 1926, log-log), " +
	"if plants given away were as healthy as those kept."

// addSurvival is how long plants lasted.
func addSurvival(s *Sheet, l accounts.Ledger) {
	all := l.Survival[0]
	if all.Rows == 0 {
		s.Add("How long plants last", Words("No plants yet."))
		return
	}
	t := &Table{Columns: []Column{{Head: "plants"}, {Head: "watched", Right: true},
		{Head: "lost", Right: true}}}
	for _, d := range survivalDays {
		t.Columns = append(t.Columns, Column{Head: "alive " + show.Count(int(d), "day"), Right: true})
	}
	for _, g := range l.Survival {
		cells := []string{groupWord(g.Of, g.Form), fmt.Sprint(g.Rows), fmt.Sprint(g.Lost)}
		for _, d := range survivalDays {
			cell := ""
			if step, known := g.Curve.At(d); known {
				cell = shareWords(step)
			}
			cells = append(cells, cell)
		}
		t.Add(cells...)
	}
	s.Add("How long plants last", Words(survivalWords), curve(all).Drawing(), t)
}

func groupWord(g accounts.Group, form model.Form) string {
	if g == accounts.ByForm {
		return formWord(form)
	}
	return string(g)
}

// addRot is what followed the soaks.
func addRot(s *Sheet, l accounts.Ledger) {
	r := l.Rot
	title := fmt.Sprintf("Rot within %d days of a soak", accounts.RotDays)
	if r.Soaks == 0 {
		s.Add(title, Words(fmt.Sprintf("%s of suspected rot; no soaks watched long enough to set beside them.",
			show.Count(r.Cases, "case"))))
		return
	}
	words := fmt.Sprintf("%s of suspected rot: %d turned out sound, %d lost to it. Of %s watched long enough, %d were followed by one; "+
		"a plant soaked weekly has one case behind two soaks. %s in no bar: too recent to tell, or the plant left. The bars compare this home's own habits; few cases prove nothing.",
		show.Count(r.Cases, "case"), r.Sound, r.Lost, show.Count(r.Soaks, "soak"), r.After, areWords(r.Open))
	s.Add(title, Words(words),
		Words("By minutes in the water:"), rotBars("rotminutes", "Rot after a soak, by minutes in the water",
			r.ByMinutes, minutesWord).Drawing(),
		Words("By hours from out of the water to found dry:"),
		rotBars("rotdrying", "Rot after a soak, by drying hours", r.ByDrying, dryingWord).Drawing(),
		Words("By form:"), rotBars("rotform", "Rot after a soak, by form", r.ByForm,
			func(b accounts.Bin) string { return formWord(model.Form(b.Key)) }).Drawing())
}

func areWords(n int) string {
	if n == 1 {
		return "1 soak is"
	}
	return fmt.Sprintf("%d soaks are", n)
}

func minutesWord(b accounts.Bin) string {
	switch {
	case b.From == 0:
		return "up to " + show.Minutes(b.To)
	case b.To > 1e6:
		return "over " + show.Minutes(b.From)
	}
	return show.Window(b.From, b.To)
}

func dryingWord(b accounts.Bin) string {
	switch {
	case b.Unseen:
		return "nobody looked"
	case b.From == 0:
		return fmt.Sprintf("up to %g h", b.To)
	case b.To > 1e6:
		return fmt.Sprintf("over %g h", b.From)
	}
	return fmt.Sprintf("%g to %g h", b.From, b.To)
}

// months is what came and what went, month by month. Plants of an old list are
// left out: they came before.
func months(l accounts.Ledger) ColumnChart {
	c := ColumnChart{
		About: About{
			Name: "months", Title: "Plants that came and plants that went, by month",
			What: "One pair of columns a month: new plants and offsets, and plants lost, sold or given away. The table below has the numbers.",
		},
		First: "came", Second: "went",
	}
	for _, m := range byMonth(l) {
		c.Pairs = append(c.Pairs, Pair{Name: m.Key, First: m.Came + m.Offsets, Second: m.Left()})
	}
	return c
}

// causes is the losses by cause.
func causes(l accounts.Ledger) BarChart {
	b := BarChart{About: About{Name: "causes", Title: "Plants lost, by cause",
		What: "One bar a cause, the longest first."}}
	for _, c := range l.Causes {
		b.Lines = append(b.Lines, Bar{Name: c.Cause, Amount: float64(c.Plants), Says: fmt.Sprint(c.Plants)})
	}
	return b
}

// curve is a survival curve as far as it was watched.
func curve(s accounts.Survival) CurveChart {
	end := s.Curve[len(s.Curve)-1].Days
	c := CurveChart{
		About: About{
			Name: "survival", Title: "Share of plants still alive, by days under watch",
			What: fmt.Sprintf("A curve that falls in steps from 100 %%, with a 95 %% band: %d plants watched, %d lost. %s.", s.Rows, s.Lost, aliveWords(s.Curve, end)),
		},
		End: max(end, 1), Below: "plants under watch",
	}
	for _, step := range s.Curve {
		if step.Lost > 0 {
			c.Steps = append(c.Steps, Step{X: step.Days, Y: step.Alive, Low: step.Low, High: step.High})
		}
	}
	every := tickDays(end)
	for x := 0.0; x <= end; x += every {
		c.Marks = append(c.Marks, Mark{X: x, Name: fmt.Sprintf("%.0f d", x), Count: fmt.Sprint(atRisk(s.Curve, x))})
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
func rotBars(name, title string, bins []accounts.Bin, label func(accounts.Bin) string) BarChart {
	b := BarChart{About: About{Name: name, Title: title,
		What: "One bar a group of soaks; the words behind it are the counts."}}
	for _, bin := range bins {
		if bin.Soaks == 0 {
			continue
		}
		share := float64(bin.Rot) / float64(bin.Soaks)
		b.Lines = append(b.Lines, Bar{Name: label(bin), Amount: share,
			Says: fmt.Sprintf("%d of %d", bin.Rot, bin.Soaks)})
	}
	return b
}
