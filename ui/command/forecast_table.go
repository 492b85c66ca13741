package command

import (
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"tubside/model"
	"tubside/model/care"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// sayTripLines says a trip to a person: what it comes to, then plant by plant.
func (r *run) sayTripLines(b *model.Book, trip *care.Trip, job care.Job, left []care.Left, q tripQuestion, wrote *model.Entry) error {
	var lines []string
	if wrote != nil {
		lines = append(lines, fmt.Sprintf("wrote %d: %s", wrote.Seq, show.Sentence(*wrote, b)))
	}
	lines = append(lines, trip.Words(b)...)
	lines = append(lines, jobWords(job, b))
	if q.sitter != "" {
		lines = append(lines, "wrote the sitter's sheet to "+show.Safe(q.sitter))
	}
	for _, line := range lines {
		if err := r.wrap(line); err != nil {
			return err
		}
	}
	if err := r.say(""); err != nil {
		return err
	}
	return r.table(leftTable(b, left))
}

func jobWords(job care.Job, b *model.Book) string {
	if len(job.Plants) == 0 && job.Left == 0 {
		return "for a sitter: nothing to water; a look halfway is enough"
	}
	var parts []string
	if len(job.Plants) > 0 {
		days := make([]string, len(job.Days))
		for i, d := range job.Days {
			days[i] = d.In(b.Zone()).Format("2 Jan")
		}
		parts = append(parts, fmt.Sprintf("one soak of %s for %s, on %s", show.Count(len(job.Plants), "plant"), show.Minutes(job.Minutes), strings.Join(days, ", ")))
	}
	if job.Left > 0 {
		parts = append(parts, fmt.Sprintf("%s may come to harm and are not for a sitter: too many, too soon, or plants that hold water", show.Count(job.Left, "plant")))
	}
	return "for a sitter: " + strings.Join(parts, "; ")
}

// wrap says a sentence on as many lines as it needs. Days such as 2026-01-31
// stay whole: hyphens are kept from the library, which breaks lines after them.
func (r *run) wrap(text string) error {
	const hyphen, kept = "-", "\u2011"
	lines := ansi.Wordwrap(strings.ReplaceAll(show.Line(text), hyphen, kept), r.width()-2, "")
	return r.say("%s", strings.NewReplacer(kept, hyphen, "\n", "\n  ").Replace(lines))
}

func leftTable(b *model.Book, left []care.Left) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{
		{Head: "id", Right: true}, {Head: "plant", Least: 10}, {Head: "home", Least: 8},
		{Head: "gone", Right: true}, {Head: "crosses"}, {Head: "before you go", Least: 31},
	}}
	for _, l := range left {
		row := b.Row(l.ID)
		t.Add(l.ID.String(), row.Title(), row.Home.String(), show.Percent(l.Return.Thirst()), crossed(l.Lines, b), beforeYouGo(l, b))
	}
	return t
}

// crossed is the last line a plant crosses, and the day.
func crossed(l care.Lines, b *model.Book) string {
	for _, line := range []struct {
		at   time.Time
		name string
	}{{l.Injury, "injury"}, {l.HalfGone, "half"}, {l.Soak, "soak"}} {
		if !line.at.IsZero() {
			return line.name + " " + line.at.In(b.Zone()).Format("2 Jan")
		}
	}
	return ""
}

// beforeYouGo is what to do with a plant before leaving: how long to soak it, and
// when it must be out by.
func beforeYouGo(l care.Left, b *model.Book) string {
	if s := l.Last; s != nil {
		return fmt.Sprintf("%s, out %s", show.Window(s.From, s.To), s.OutBy.In(b.Zone()).Format("Mon 15:04"))
	}
	for _, reason := range l.Reasons[1:] {
		return reason.Text
	}
	return ""
}
