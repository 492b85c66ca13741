// Package yearend lays a book's ledger out as a sheet: tables, charts and the
// words that say what they can and cannot tell.
package yearend

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/accounts"
	"tubside/ui/sheet"
	"tubside/ui/show"
)

// Sheet is the ledger of a book as a sheet. The book names plants.
func Sheet(l accounts.Ledger, b *model.Book) *sheet.Sheet {
	last := l.Until.Add(-time.Second)
	s := &sheet.Sheet{
		Title: "Ledger",
		Under: []string{
			show.Day(l.From, b.Zone()) + " to " + show.Day(last, b.Zone()),
			"Plants are single plants: a tray of twelve counts twelve, unless it says rows. Struck entries do not count.",
		},
	}
	addCounts(s, l)
	addLosses(s, l)
	addSurvival(s, l)
	addRot(s, l)
	addIntervals(s, l)
	addWork(s, l)
	addDepartures(s, l, b)
	return s
}

// addCounts is what came and went, in all and by form, shelf and month.
func addCounts(s *sheet.Sheet, l accounts.Ledger) {
	s.Add("What came and went",
		sheet.Words(fmt.Sprintf("%s in %s at the end, %s.",
			show.Count(l.Whole.Closing, "plant"), show.Count(l.Whole.Rows, "row"), changeWords(l.Whole))),
		flowTable("", []accounts.Line{{Key: "all", Flow: l.Whole}}))
	s.Add("By form", flowTable("form", named(l.ByForm, "not said")))
	s.Add("By shelf", flowTable("shelf", named(l.ByShelf, "no shelf")))
	s.Add("By month", months(l).Drawing(), flowTable("month", l.ByMonth))
}

// changeWords says how the count changed. An old list written up in the period
// is no change in the home.
func changeWords(f accounts.Flow) string {
	words, n := "as many as at the start", f.Closing-f.Opening-f.Listed
	switch {
	case n > 0:
		words = fmt.Sprintf("%d more than at the start", n)
	case n < 0:
		words = fmt.Sprintf("%d fewer than at the start", -n)
	}
	if f.Listed > 0 {
		words += fmt.Sprintf(", not counting %d that were in the home before and were listed in this time", f.Listed)
	}
	return words
}

// named puts a word where a line has no key.
func named(lines []accounts.Line, none string) []accounts.Line {
	all := make([]accounts.Line, len(lines))
	for i, line := range lines {
		if line.Key == "" {
			line.Key = none
		}
		all[i] = line
	}
	return all
}

// flowColumns are the columns of a table of flows. One in which nothing stands
// is left out, but for the first and the last.
var flowColumns = []struct {
	head string
	of   func(accounts.Flow) int
}{
	{"start", func(f accounts.Flow) int { return f.Opening }},
	{"listed", func(f accounts.Flow) int { return f.Listed }},
	{"new", func(f accounts.Flow) int { return f.Came }},
	{"offsets", func(f accounts.Flow) int { return f.Offsets }},
	{"lost", func(f accounts.Flow) int { return -f.Lost }},
	{"sold", func(f accounts.Flow) int { return -f.Sold }},
	{"given", func(f accounts.Flow) int { return -f.Given }},
	{"recount", func(f accounts.Flow) int { return f.Recounted }},
	{"moved", func(f accounts.Flow) int { return f.Moved }},
	{"end", func(f accounts.Flow) int { return f.Closing }},
}

// flowTable is one line a key. Start and the columns between add up to end.
func flowTable(head string, lines []accounts.Line) *sheet.Table {
	t := &sheet.Table{Columns: []sheet.Column{{Head: head, Least: 6}}}
	var used []func(accounts.Flow) int
	for i, c := range flowColumns {
		if i == 0 || i == len(flowColumns)-1 || anyFlow(lines, c.of) {
			t.Columns = append(t.Columns, sheet.Column{Head: c.head, Right: true})
			used = append(used, c.of)
		}
	}
	for _, line := range lines {
		cells := []string{line.Key}
		for i, of := range used {
			cells = append(cells, flowCell(of(line.Flow), i == 0 || i == len(used)-1))
		}
		t.Add(cells...)
	}
	return t
}

func anyFlow(lines []accounts.Line, of func(accounts.Flow) int) bool {
	for _, line := range lines {
		if of(line.Flow) != 0 {
			return true
		}
	}
	return false
}

// flowCell is a stock as it is, a flow with its sign, and no flow as nothing.
func flowCell(n int, stock bool) string {
	switch {
	case stock:
		return fmt.Sprint(n)
	case n == 0:
		return ""
	}
	return fmt.Sprintf("%+d", n)
}
