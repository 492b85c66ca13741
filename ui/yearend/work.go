package yearend

import (
	"fmt"

	"tubside/model"
	"tubside/model/accounts"
	"tubside/ui/sheet"
	"tubside/ui/show"
)

const intervalWords = "An interval runs from coming out of one soak to going into the next. A plant's habit is the median of its own; within a third of it an interval is kept (our own measure: with a weekly soak, 5 to 9 days)."

// addIntervals is how the days between soaks held to the rhythm.
func addIntervals(s *sheet.Sheet, l accounts.Ledger) {
	if l.Intervals[0].Count == 0 {
		s.Add("Soak intervals kept", sheet.Words("No plant was soaked twice."))
		return
	}
	t := &sheet.Table{Columns: []sheet.Column{
		{Head: "rows", Least: 8}, {Head: "intervals", Right: true}, {Head: "median", Right: true}, {Head: "most", Right: true},
		{Head: "kept", Right: true}, {Head: "sooner", Right: true}, {Head: "later", Right: true}, {Head: "rushed", Right: true}, {Head: "late now", Right: true},
	}}
	for _, i := range l.Intervals {
		t.Add(groupWord(i.Of, i.Form), fmt.Sprint(i.Count), fmt.Sprintf("%.1f d", i.Median), fmt.Sprintf("%.1f–%.1f d", i.Low, i.Top),
			part(i.Kept, i.Count), part(i.Sooner, i.Count), part(i.Later, i.Count), fmt.Sprint(i.Rushed), fmt.Sprint(i.Due))
	}
	s.Add("Soak intervals kept", sheet.Words(intervalWords), t,
		sheet.Words("Most: the middle 80 in 100. Rushed: shorter than the house rule for days between soaks. Late now: rows whose interval runs on and is later already."))
}

func part(n, of int) string {
	if of == 0 {
		return ""
	}
	return show.Percent(float64(n) / float64(of))
}

// addWork is what it took.
func addWork(s *sheet.Sheet, l accounts.Ledger) {
	w := l.Work
	points := sheet.Points{
		fmt.Sprintf("%s on %s: %s put into the water", show.Count(w.Loads, "load"), show.Count(w.SoakDays, "soak day"), show.Count(w.Soaks, "row")),
		fmt.Sprintf("%.1f hours of one pair of hands at the water, by the house rules hands-in and hands-out: reckoned, not measured; walking and hanging come on top", w.Hours),
		waterWords(l.Water),
		fmt.Sprintf("%s misted, %d fed, %d looked over (rows, each time counted)", show.Count(w.Mists, "row"), w.Feeds, w.Looks),
	}
	s.Add("What it took", points)
	if len(l.Water.Sources) > 1 {
		t := &sheet.Table{Columns: []sheet.Column{{Head: "water", Least: 8}, {Head: "fillings", Right: true}, {Head: "litres", Right: true}}}
		for _, u := range l.Water.Sources {
			t.Add(u.Source, fmt.Sprint(u.Fills), fmt.Sprintf("%.0f", u.Litres))
		}
		s.Add("", t)
	}
	addFeeds(s, l.Feeds)
}

func waterWords(w accounts.Water) string {
	text := fmt.Sprintf("%.0f litres of water in %s", w.Litres, show.Count(w.Fills, "filling"))
	switch {
	case w.Assumed == 0:
		return text
	case w.Assumed == w.Fills:
		text += ", not entered"
	default:
		text += fmt.Sprintf(", %d of them not entered", w.Assumed)
	}
	return text + ": those are reckoned, one a day for as many loads as the house rule fill-loads says"
}

func addFeeds(s *sheet.Sheet, feeds []accounts.Feed) {
	if len(feeds) == 0 {
		return
	}
	t := &sheet.Table{Columns: []sheet.Column{
		{Head: "powder", Least: 8}, {Head: "mixes", Right: true}, {Head: "litres", Right: true}, {Head: "grams", Right: true}, {Head: "nitrogen", Right: true}, {Head: "unknown", Right: true},
	}}
	for _, f := range feeds {
		name := f.Powder
		if name == "" {
			name = "not said"
		}
		t.Add(name, fmt.Sprint(f.Mixes), fmt.Sprintf("%.1f", f.Litres), fmt.Sprintf("%.1f", f.Grams), fmt.Sprintf("%.2f g", f.Nitrogen), fmt.Sprint(f.Unknown))
	}
	s.Add("Feed", t, sheet.Words("Grams from the strength, the nitrogen on the label and the litres; unknown: mixes that lack one of them."))
}

// addDepartures lists who left.
func addDepartures(s *sheet.Sheet, l accounts.Ledger, b *model.Book) {
	for _, how := range []struct{ word, title, last string }{
		{model.Sold, "Sold", "note"}, {model.Given, "Given away", "note"}, {model.Lost, "Lost", "cause"},
	} {
		t := &sheet.Table{Columns: []sheet.Column{{Head: "day"}, {Head: "id", Right: true}, {Head: "plant", Least: 10}, {Head: "plants", Right: true}, {Head: how.last, Least: 10}}}
		for _, d := range l.Departures {
			if d.How == how.word {
				t.Add(show.Day(d.At, b.Zone()), d.ID.String(), b.Row(d.ID).Title(), fmt.Sprint(d.Plants), lastWord(d))
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
