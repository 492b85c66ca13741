package paper

import (
	"cmp"
	"fmt"
	"slices"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/ui/show"
)

// ScaleSheet is the ten with boxes for what the scale says and what the leaves show, in walking order: before the soak,
// after it, and half way to the next.
func ScaleSheet(b *model.Book, r advice.Round) *Sheet {
	s := &Sheet{Title: "To the scale", Under: []string{moment(b, r.At)}, Foot: "Nothing counts before it is keyed in: " +
		"on Rounds, weigh, the grams and Enter, plant by plant, or: tubside enter weight 17 --g 33.2"}
	about := show.About{Book: b, Now: r.At}
	s.Add("", Cautions{{Text: show.Line(about.Reason(advice.Reason{Code: advice.ScaleCaution}))}},
		Points{"before: as it hangs, on the day of its soak. curl 0 flat, 1 edges lifting, 2 deep channel, 3 rolled shut",
			"full: after the soak, dry to the heart, before it hangs",
			"half way: three or four days later, as it hangs",
			"two of them, if you like: a minute after they went in and every half hour, out, shaken, weighed and back in"})
	stops := slices.Concat(r.Due, r.Later)
	slices.SortStableFunc(stops, func(x, y advice.Stop) int { return b.Row(x.ID).WalkCompare(b.Row(y.ID)) })
	if len(stops) == 0 {
		s.Add("", Words(show.Line(about.First(r.Notes))))
		return s
	}
	t := &Table{Columns: slices.Concat([]Column{
		{Head: "no.", Right: true}, {Head: "plant", Least: 10}, {Head: "home", Least: 6}, {Head: "full", Right: true},
	}, boxes("before", "curl", "full", "half way"))}
	for _, stop := range stops {
		row, full := b.Row(stop.ID), ""
		if row.WetWeight.Grams > 0 {
			full = show.Grams(row.WetWeight.Grams)
		}
		t.Add(stop.ID.String(), row.Title(), show.Home(row.Home), full, "", "", "", "")
	}
	s.Add("", t)
	return s
}

// WeighedSheet is what the scale has shown: what was taken for such plants at first, what is believed now, and what
// that changes for plants that were never on it.
func WeighedSheet(b *model.Book, p *advice.WeighedPage) *Sheet {
	weighings := 0
	for _, w := range p.Plants {
		weighings += w.Weighings
	}
	s := &Sheet{Title: "What the scale has shown", Under: []string{fmt.Sprintf("%s, %s, %s that tell of loss",
		moment(b, p.At), show.Count(len(p.Plants), "plant"), show.Count(weighings, "weight"))}}
	if len(p.Plants) == 0 {
		s.Add("", Words("Nothing yet: a weight tells when it is held against one before. "+
			"Whom to weigh and when stands on Rounds."))
		return s
	}
	s.Foot = "At first is what was taken for such plants by print or by guess, before anything was known of this home. " +
		"In brackets is where it lies eight times in ten. What was seen without a scale counts in what is believed now, too."
	loss := &Table{Columns: []Column{{Head: "no.", Right: true}, {Head: "plant", Least: 6}, {Head: "weights", Right: true},
		{Head: "at first", Right: true}, {Head: "now", Right: true}}}
	drinks := &Table{Columns: []Column{{Head: "no.", Right: true}, {Head: "plant", Least: 6},
		{Head: "at first", Right: true}, {Head: "now", Right: true}}}
	for _, w := range p.Plants {
		name := b.Row(w.ID).Title()
		loss.Add(w.ID.String(), name, fmt.Sprint(w.Weighings), show.PercentRange(w.LossBefore), show.PercentRange(w.LossNow))
		drinks.Add(w.ID.String(), name, show.MinutesRange(w.UptakeBefore), show.MinutesRange(w.UptakeNow))
	}
	s.Add("Water lost in a day, in the air as it is now", loss)
	s.Add("In water until two thirds of what it lacked are back", drinks)
	signs := &Table{Columns: []Column{{Head: "form", Least: 11}, {Head: "what"}, {Head: "at first", Right: true},
		{Head: "now", Right: true}}}
	for _, f := range p.Forms {
		name := fmt.Sprintf("%s (%d)", f.Form, f.Plants)
		for i, what := range []string{"edges lift", "deep channel", "rolled shut"} {
			signs.Add(name, what, show.PercentRange(f.EdgesBefore[i]), show.PercentRange(f.EdgesNow[i]))
			name = ""
		}
	}
	s.Add("Water gone when leaves show it, as you grade them", signs)
	s.Add("The rest of the house", bandsChanged(p)...)
	return s
}

// bandsChanged counts the plants that get another soak, from band to band.
func bandsChanged(p *advice.WeighedPage) []Block {
	words := Words(fmt.Sprintf("%d of %s that were not weighed get another soak than without the scale.", len(p.Changed),
		show.Count(p.Others, "plant")))
	if len(p.Changed) == 0 {
		return []Block{words}
	}
	type change struct{ before, now soak.Band }
	counts := map[change]int{}
	for _, c := range p.Changed {
		counts[change{c.Before, c.Now}]++
	}
	all := make([]change, 0, len(counts))
	for c := range counts {
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b change) int {
		return cmp.Or(counts[b]-counts[a], cmp.Compare(a.before, b.before), cmp.Compare(a.now, b.now))
	})
	t := &Table{Columns: []Column{{Head: "plants", Right: true}, {Head: "without"}, {Head: "now"}}}
	for _, c := range all {
		t.Add(fmt.Sprint(counts[c]), c.before.String(), c.now.String())
	}
	return []Block{words, t}
}
