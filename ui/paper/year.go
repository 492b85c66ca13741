package paper

import (
	"fmt"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/accounts"
	"tubside/ui/show"
)

// YearSheet is the ledger of a book as a sheet. The book names plants.
func YearSheet(l accounts.Ledger, b *model.Book) *Sheet {
	last := l.Until.Add(-time.Second)
	s := &Sheet{
		Title: "Ledger",
		Under: []string{
			show.Date(l.From, b.Zone()) + " to " + show.Date(last, b.Zone()),
			"Plants are single plants: a tray of twelve counts twelve. Entries that were undone do not count.",
		},
	}
	addCounts(s, l)
	addLosses(s, l)
	addSurvival(s, l)
	addRot(s, l)
	addIntervals(s, l)
	addWork(s, l, b.Rules())
	addDepartures(s, l, b)
	return s
}

// addCounts is what came and went, in all and by form, shelf and month.
func addCounts(s *Sheet, l accounts.Ledger) {
	s.Add("What came and went",
		Words(closingWords(l.Whole)+" at the end"+changeWords(l.Whole)+"."),
		flowTable("", []accounts.Line{{Key: "all", Flow: l.Whole}}))
	s.Add("By form", flowTable("form", named(l.ByForm, "not said")))
	s.Add("By shelf", flowTable("shelf", named(l.ByShelf, "no shelf")))
	s.Add("By month", months(l).Drawing(), flowTable("month", byMonth(l)))
}

func closingWords(f accounts.Flow) string {
	plants := show.Count(f.Closing, "plant")
	if f.Rows == f.Closing {
		return plants
	}
	return fmt.Sprintf("%s (%d if a tray counts as one)", plants, f.Rows)
}

// changeWords goes on with how the count changed. An old list written up in the period
// is no change in the home.
func changeWords(f accounts.Flow) string {
	n := f.Closing - f.Opening - f.Listed
	if f.Listed > 0 {
		words := "as many came as went"
		switch {
		case n > 0:
			words = fmt.Sprintf("%d more came than went", n)
		case n < 0:
			words = fmt.Sprintf("%d more went than came", -n)
		}
		entered := "were entered in this time; apart from them"
		if f.Listed == 1 {
			entered = "was entered in this time; apart from it"
		}
		return fmt.Sprintf(". %s you already had %s %s", show.Count(f.Listed, "plant"), entered, words)
	}
	switch {
	case n > 0:
		return fmt.Sprintf(", %d more than at the start", n)
	case n < 0:
		return fmt.Sprintf(", %d fewer than at the start", -n)
	}
	return ", as many as at the start"
}

// byMonth are the lines of the months, each by its name: "Jan 2026".
func byMonth(l accounts.Ledger) []accounts.Line {
	all := slices.Clone(l.ByMonth)
	for i, line := range all {
		if month, err := time.Parse("2006-01", line.Key); err == nil {
			all[i].Key = month.Format("Jan 2006")
		}
	}
	return all
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
func flowTable(head string, lines []accounts.Line) *Table {
	t := &Table{Columns: []Column{{Head: head, Least: 6}}}
	var used []func(accounts.Flow) int
	for i, c := range flowColumns {
		if i == 0 || i == len(flowColumns)-1 || anyFlow(lines, c.of) {
			t.Columns = append(t.Columns, Column{Head: c.head, Right: true})
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

const intervalWords = "An interval runs from coming out of one soak to going into the next. A plant's habit is the median of its own; within a third of it an interval is kept (a measure chosen here: with a weekly soak, 5 to 9 days)."

// addIntervals is how the days between soaks held to the rhythm.
func addIntervals(s *Sheet, l accounts.Ledger) {
	if l.Intervals[0].Count == 0 {
		s.Add("Soak intervals kept", Words("No plant was soaked twice."))
		return
	}
	t := &Table{Columns: []Column{
		{Head: "plants", Least: 8}, {Head: "intervals", Right: true}, {Head: "median", Right: true},
		{Head: "most", Right: true},
		{Head: "kept", Right: true}, {Head: "sooner", Right: true}, {Head: "later", Right: true},
		{Head: "rushed", Right: true}, {Head: "late now", Right: true},
	}}
	for _, i := range l.Intervals {
		t.Add(groupWord(i.Of, i.Form), fmt.Sprint(i.Count), fmt.Sprintf("%.1f d", i.Median),
			fmt.Sprintf("%.1f–%.1f d", i.Low, i.Top),
			part(i.Kept, i.Count), part(i.Sooner, i.Count), part(i.Later,
				i.Count), fmt.Sprint(i.Rushed), fmt.Sprint(i.Due))
	}
	s.Add("Soak intervals kept", Words(intervalWords), t,
		Words("Most: the middle 80 in 100. Rushed: shorter than the house rule for days between soaks. Late now: plants whose interval runs on and is later already."))
}

func part(n, of int) string {
	if of == 0 {
		return ""
	}
	return show.Percent(float64(n) / float64(of))
}

// addWork is what it took.
func addWork(s *Sheet, l accounts.Ledger, rules model.Rules) {
	w := l.Work
	points := Points{
		fmt.Sprintf("%s on %s: %s put into the water (a tray counts as one)",
			show.Count(w.Loads, "load"), show.Count(w.SoakDays, "soak day"), show.Count(w.Soaks, "plant")),
		fmt.Sprintf("%.1f hours of work at the water for one person, worked out from the house rules hands-in and hands-out, not measured; walking and hanging come on top", w.Hours),
		waterWords(l.Water, rules),
		fmt.Sprintf("%s misted, %d fed, %d looked over (each time counted)", show.Count(w.Mists, "plant"), w.Feeds,
			w.Looks),
	}
	s.Add("What it took", points)
	if len(l.Water.Sources) > 1 {
		t := &Table{Columns: []Column{{Head: "water", Least: 8}, {Head: "fillings", Right: true},
			{Head: "amount", Right: true}}}
		for _, u := range l.Water.Sources {
			t.Add(u.Source, fmt.Sprint(u.Fills), show.Volume(math.Round(u.Litres), rules))
		}
		s.Add("", t)
	}
	addFeeds(s, l.Feeds, rules)
}

func waterWords(w accounts.Water, rules model.Rules) string {
	text := fmt.Sprintf("%s of water in %s", show.Volume(math.Round(w.Litres), rules), show.Count(w.Fills, "filling"))
	switch {
	case w.Assumed == 0:
		return text
	case w.Assumed == w.Fills:
		text += ", not entered"
	default:
		text += fmt.Sprintf(", %d of them not entered", w.Assumed)
	}
	return text + ": those are worked out, one a day for as many loads as the house rule fill-loads says"
}

func addFeeds(s *Sheet, feeds []accounts.Feed, rules model.Rules) {
	if len(feeds) == 0 {
		return
	}
	t := &Table{Columns: []Column{
		{Head: "powder", Least: 8}, {Head: "mixes", Right: true}, {Head: "water", Right: true},
		{Head: "grams", Right: true}, {Head: "nitrogen", Right: true}, {Head: "unknown", Right: true},
	}}
	for _, f := range feeds {
		name := f.Powder
		if name == "" {
			name = "not said"
		}
		t.Add(name, fmt.Sprint(f.Mixes), show.Volume(math.Round(f.Litres*10)/10, rules), fmt.Sprintf("%.1f", f.Grams),
			fmt.Sprintf("%.2f g", f.Nitrogen), fmt.Sprint(f.Unknown))
	}
	s.Add("Feed", t, Words("Grams from the strength, the nitrogen on the label and the water; unknown: mixes that lack one of them."))
}

// addDepartures lists who left.
func addDepartures(s *Sheet, l accounts.Ledger, b *model.Book) {
	for _, how := range []struct{ word, title, last string }{
		{model.Sold, "Sold", "note"}, {model.Given, "Given away", "note"}, {model.Lost, "Lost", "cause"},
	} {
		t := &Table{Columns: []Column{{Head: "day"}, {Head: "id", Right: true}, {Head: "plant", Least: 10},
			{Head: "plants", Right: true}, {Head: how.last, Least: 10}}}
		for _, d := range l.Departures {
			if d.How == how.word {
				t.Add(show.Date(d.At, b.Zone()), d.ID.String(), b.Row(d.ID).Title(), fmt.Sprint(d.Plants), lastWord(d))
			}
		}
		if len(t.Rows) > 0 {
			s.Add(how.title, t)
		}
	}
}

func lastWord(d accounts.Departure) string {
	if d.Cause != "" && d.Note != "" {
		return d.Cause + "; " + d.Note
	}
	return d.Cause + d.Note
}
