package yearend

import (
	"fmt"
	"strings"

	"tubside/model"
	"tubside/model/accounts"
	"tubside/ui/sheet"
	"tubside/ui/show"
)

// addLosses is what was lost to what.
func addLosses(s *sheet.Sheet, l accounts.Ledger) {
	if len(l.Causes) == 0 {
		s.Add("Losses by cause", sheet.Words("Nothing was lost."))
		return
	}
	t := &sheet.Table{Columns: []sheet.Column{{Head: "cause", Least: 8}, {Head: "plants", Right: true}, {Head: "rows", Right: true}, {Head: "forms", Least: 16}}, Wrap: true}
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

const survivalWords = "Each row is watched from the day it came into the book; one that was new then, from the day it came. " +
	"Counting old plants from the day they were bought would make the curve too good: those lost before are not in the book. " +
	"Plants sold, given away or alive count until then (Kaplan and Meier 1958). The band holds the true share 95 times in 100 at any one time (Greenwood 1926, log-log), " +
	"if plants given away were as healthy as those kept."

// addSurvival is how long plants lasted.
func addSurvival(s *sheet.Sheet, l accounts.Ledger) {
	all := l.Survival[0]
	if all.Rows == 0 {
		s.Add("How long plants last", sheet.Words("No plants yet."))
		return
	}
	t := &sheet.Table{Columns: []sheet.Column{{Head: "rows", Least: 8}, {Head: "watched", Right: true}, {Head: "lost", Right: true}}}
	for _, d := range survivalDays {
		t.Columns = append(t.Columns, sheet.Column{Head: "alive " + show.Count(int(d), "day")})
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
	s.Add("How long plants last", sheet.Words(survivalWords), curve(all).Drawing(), t)
}

func groupWord(g accounts.Group, form model.Form) string {
	if g == accounts.ByForm {
		return formWord(form)
	}
	return string(g)
}

// addRot is what followed the soaks.
func addRot(s *sheet.Sheet, l accounts.Ledger) {
	r := l.Rot
	title := fmt.Sprintf("Rot within %d days of a soak", accounts.RotDays)
	if r.Soaks == 0 {
		s.Add(title, sheet.Words(fmt.Sprintf("%s of suspected rot; no soaks watched long enough to set beside them.", show.Count(r.Cases, "case"))))
		return
	}
	words := fmt.Sprintf("%s of suspected rot: %d found sound after all, %d lost to it. Of %s watched long enough, %d were followed by one; "+
		"a plant soaked weekly has one case behind two soaks. %s too lately, or the plant left, and are in no bar. The bars compare this home's own habits; few cases prove nothing.",
		show.Count(r.Cases, "case"), r.Sound, r.Lost, show.Count(r.Soaks, "soak"), r.After, wereWords(r.Open))
	s.Add(title, sheet.Words(words),
		sheet.Words("By minutes in the water:"), rotBars("rotminutes", "Rot after a soak, by minutes in the water", r.ByMinutes, minutesWord).Drawing(),
		sheet.Words("By hours from out of the water to found dry:"), rotBars("rotdrying", "Rot after a soak, by drying hours", r.ByDrying, dryingWord).Drawing(),
		sheet.Words("By form:"), rotBars("rotform", "Rot after a soak, by form", r.ByForm, func(b accounts.Bin) string { return formWord(model.Form(b.Key)) }).Drawing())
}

func wereWords(n int) string {
	if n == 1 {
		return "1 soak was"
	}
	return fmt.Sprintf("%d soaks were", n)
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
