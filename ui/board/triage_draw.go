package board

import (
	"fmt"
	"strings"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/ui/show"
)

// Widths of triage's columns. What is left goes to label and reason.
const (
	spotWidth  = 6
	daysWidth  = 5
	signsWidth = 5
	barWidth   = 8
	bandWidth  = 9

	// From this width on there is room for the minutes beside the band.
	wideScreen  = 100
	windowWidth = 18
)

// draw writes the counts by band, the headings of the columns and the list.
func (t *triage) draw(p *page, height int) {
	if t.book.Len() == 0 {
		t.drawWelcome(p)
		return
	}
	p.line(t.countsLine())
	if len(t.rows.rows) == 0 {
		p.line("")
		p.line("   Nothing matches " + show.Fit(show.Safe(t.filter), t.width-30) + ".  esc shows all again.")
		return
	}
	if t.mapped {
		t.drawMap(p, height-1)
		return
	}
	t.rows.draw(p.line, t.row, t.head)
}

// mapStrip is how many lines stand under the map: a rule, the plant's row, and
// two for its reason.
const mapStrip = 4

// drawMap draws the shelves as they hang, and under them the plant that the
// cursor is on.
func (t *triage) drawMap(p *page, height int) {
	until := p.lines + height - mapStrip
	t.hooks.draw(p, height-mapStrip)
	p.fill(until)
	p.line(t.theme.quiet.of(" " + strings.Repeat("─", t.width-2)))
	id := t.rows.current()
	n := t.need(id)
	if n == nil {
		return
	}
	p.line(t.row(id, t.rows.cursor))
	lines := wrap(t.subject(id).Reason(n.Reasons[0]), t.width-4)
	for _, line := range lines[:min(len(lines), 2)] {
		p.line("   " + t.theme.quiet.of(line))
	}
}

// drawWelcome is what a fresh book shows.
func (t *triage) drawWelcome(p *page) {
	for _, s := range []string{
		"", "   This book is empty.", "",
		"   Bring in a spreadsheet:   tubside import plants.csv",
		"   A file to start from:     tubside import --template",
		"   Or add a plant here:      +",
		"", "   To look around first:     tubside demo",
	} {
		p.line(show.Fit(s, t.width))
	}
}

// countsLine counts the plants at home by band, longest soak first.
func (t *triage) countsLine() string {
	var b strings.Builder
	b.WriteByte(' ')
	used := 1
	for i := len(soak.Bands) - 1; i >= 0; i-- {
		band := soak.Bands[i]
		word := band.String()
		if t.width < wideScreen {
			word = band.Letter()
		}
		text := fmt.Sprintf("%s %d", word, t.counts[band])
		b.WriteString(t.theme.bands[band].of(text))
		b.WriteString("   ")
		used += show.Width(text) + 3
	}
	right := orderWords[t.order]
	if t.mapped {
		right = "the map by " + viewWords[t.hooks.shows]
	}
	if t.filter != "" {
		right = "only " + show.Fit(show.Safe(t.filter), 20) + ", " + right
	}
	if gap := t.width - used - show.Width(right) - 1; gap > 0 {
		b.WriteString(strings.Repeat(" ", gap) + t.theme.quiet.of(right))
	}
	return b.String()
}

// head is a group's heading with its counts by band.
func (t *triage) head(g int) string {
	c := t.perGroup[g]
	remark := show.Count(c.rows, "plant")
	if t.order == byShelf {
		for i := len(soak.Bands) - 1; i > int(soak.Rest); i-- {
			if n := c.bands[soak.Bands[i]]; n > 0 {
				remark += fmt.Sprintf("  %s %d", soak.Bands[i].Letter(), n)
			}
		}
	}
	return t.heading(show.Safe(t.rows.heads[g]), remark+" ")
}

// row draws one plant.
func (t *triage) row(id model.ID, i int) string {
	r, n := t.book.Row(id), t.need(id)
	if n == nil {
		return ""
	}
	here := i == t.rows.cursor
	home := r.Home.Spot
	if t.order != byShelf {
		home = r.Home.String()
	}
	spot, label := t.columns()
	title := show.Pad(show.Title(r.Plant), label)
	if here {
		title = t.theme.cursor.of(title)
	}
	band := t.theme.bands[n.Band]
	left := t.sign(t.rows, id, i) + show.Pad(show.Safe(home), spot) + " " + title + " " +
		show.PadLeft(daysShort(n.DaysSince), daysWidth) + "  " + t.signs(r, n, here) + " " +
		band.of(t.bar(1-n.High, 1-n.Low, barWidth)) + " " + band.of(show.Pad(t.bandWord(r, n), bandWidth)) + " "
	used := 2 + spot + 1 + label + 1 + daysWidth + 2 + signsWidth + 1 + barWidth + 1 + bandWidth + 1
	if t.width >= wideScreen {
		left += show.Pad(show.Soak(n.From, n.To), windowWidth) + " "
		used += windowWidth + 1
	}
	return left + t.reason(n, t.forecast(id), t.width-used-1)
}

// forecast is how thirsty a plant was expected to be on coming home, to stand
// beside what is seen; "" when there was no trip, when it was soaked since, or
// when nobody has looked yet and the bar says the same.
func (t *triage) forecast(id model.ID) string {
	if t.home == nil || t.book.Row(id).SignsAt.Before(t.home.Trip.Home()) {
		return ""
	}
	if stand, ok := t.home.Forecast[id]; ok {
		return fmt.Sprintf("forecast %.0f %%; ", 100*stand.Thirst())
	}
	return ""
}

// columns are the widths of the home and label columns on this screen.
func (t *triage) columns() (spot, label int) {
	spot = spotWidth
	if t.order != byShelf {
		spot = 12
	}
	rest := t.width - spot - daysWidth - signsWidth - barWidth - bandWidth - 10
	if t.width >= wideScreen {
		rest -= windowWidth + 1
	}
	return spot, min(max(rest*2/5, 12), 34)
}

// signs is the column of what was seen: what is being keyed in, else the last
// look if it was since the soak.
func (t *triage) signs(r *model.Row, n *advice.Need, here bool) string {
	if here && len(t.digits) > 0 {
		text := ""
		for i := range 3 {
			switch {
			case i < len(t.digits):
				text += t.digits[i].String() + " "
			case i == len(t.digits):
				text += "_ "
			default:
				text += "  "
			}
		}
		return t.theme.input.of(text[:signsWidth])
	}
	if r.SignsAt.IsZero() || r.SignsAt.Before(r.LastSoak()) {
		return t.theme.quiet.of("· · ·")
	}
	s := r.Signs
	return s.Curl.String() + " " + s.Tips.String() + " " + s.Shift.String()
}

// bandWord is the band, or the state of a plant that is not at home.
func (t *triage) bandWord(r *model.Row, n *advice.Need) string {
	switch {
	case r.State != model.AtHome:
		return r.State.String()
	case t.book.Waiting().Has(r.ID):
		return "pulled"
	}
	return n.Band.String()
}

// reason is the first reason, painted when it is a warning.
func (t *triage) reason(n *advice.Need, before string, width int) string {
	text := show.Fit(before+show.Safe(t.subject(n.ID).Reason(n.Reasons[0])), width)
	switch n.Reasons[0].Kind() {
	case advice.Warning:
		return t.theme.alarm.of(text)
	case advice.Capped:
		return t.theme.warn.of(text)
	}
	return t.theme.quiet.of(text)
}

// daysShort is "12 d", or "?" when no soak is on record.
func daysShort(days int) string {
	if days < 0 {
		return "?"
	}
	return fmt.Sprintf("%d d", days)
}
