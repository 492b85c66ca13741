package board

import (
	"fmt"
	"strconv"
	"strings"

	"tubside/model/soak"
	"tubside/ui/show"
)

// draw writes the counts by band, the columns' headings, the list or the map, and
// under it the plant that the cursor is on.
func (t *triage) draw(p *page, height int) {
	if t.desk.book.Len() == 0 {
		t.drawWelcome(p)
		return
	}
	until := p.lines + height
	p.line(t.countsLine())
	if len(t.rows.rows) == 0 {
		p.line("")
		p.line("   No plant here: " + show.Fit(t.only, t.desk.width-42) + ".  esc shows all again.")
		return
	}
	t.at = t.columnsIn(t.listWidth())
	switch {
	case t.mapped:
		t.hooks.draw(p, height-1-t.detailLines())
	case t.beside():
		lines := []string{t.columnHeads()}
		t.rows.draw(func(line string) { lines = append(lines, line) }, t.row, t.head)
		t.desk.drawTwo(p, until, lines, t.side.lines())
		return
	default:
		p.line(t.columnHeads())
		t.rows.draw(p.line, t.row, t.head)
	}
	p.fill(until - t.detailLines())
	t.drawDetail(p)
}

// drawWelcome is what a fresh book shows.
func (t *triage) drawWelcome(p *page) {
	p.line("")
	p.line("   This book is empty.")
	for _, way := range []struct{ key, does string }{
		{"Enter", "asks six things, a minute in all: what you soak in, when, the room, the fan, the units, and where the list " +
			"of your plants is"},
		{"+", "adds a plant by hand"},
		{"T g", "the guide: a soak day in short pages"},
	} {
		p.line("")
		for i, line := range wrap(way.does, t.desk.width-14) {
			key := ""
			if i == 0 {
				key = way.key
			}
			p.line("   " + t.desk.theme.input.of(show.Pad(key, 8)) + line)
		}
	}
	p.line("")
	for _, line := range wrap("In the shell: tubside import --template prints a list to start from, and tubside demo shows a "+
		"collection to look around in.", t.desk.width-6) {
		p.line(t.desk.theme.quiet.of("   " + line))
	}
}

// countsLine counts the plants at home by band, longest soak first, and says which
// plants are listed and in what order.
func (t *triage) countsLine() string {
	right := "all plants, " + orderWords[t.order]
	if t.mapped {
		right = "all plants, the map by " + viewWords[t.hooks.shows]
	}
	rule, today := t.desk.book.PullsItself(t.desk.now)
	switch {
	case rule != "off" && today:
		right += ", pulls from " + rule + " today"
	case rule != "off":
		right += ", pulls from " + rule + " every day"
	}
	paint := t.desk.theme.quiet
	if t.filter != "" {
		right = t.only + strings.TrimPrefix(right, "all plants")
		paint = t.desk.theme.input
	}
	least := "" // what is left out of the list is always said
	if t.filter != "" {
		least = t.only
	}
	short := strings.TrimPrefix(right, "all plants, ")
	bare := short // words say more than how the list is sorted, which it shows
	if t.filter == "" && rule == "off" {
		bare = ""
	}
	full := strings.Replace(right, "all plants", "all plants (F shows only some)", 1)
	word := soak.Band.String
	for _, try := range []struct {
		name  func(soak.Band) string
		some  bool
		right string
	}{{word, false, full}, {word, false, right}, {word, true, right}, {word, true, short}, {word, true, bare}, {word, true, least},
		{shortBand, true, bare}} {
		if line, fits := t.countsWith(t.bandWords(try.name, try.some), try.right, paint); fits {
			return line
		}
	}
	counts := t.bandWords(shortBand, true)
	for len(counts) > 0 { // the thirstiest stay
		if line, fits := t.countsWith(counts, least, paint); fits {
			return line
		}
		counts = counts[:len(counts)-1]
	}
	return paint.of(show.Fit(" "+least, t.desk.width))
}

// shortBand is a band's word for where there is little room. A letter would have to be
// learned: D for Dip, and what for Deep?
func shortBand(b soak.Band) string {
	if b == soak.Overnight {
		return "Night"
	}
	return b.String()
}

// countsWith puts the counts at the left and a remark, cut if it must be, at the right,
// and reports whether all of it fits.
func (t *triage) countsWith(counts []bandWords, right string, paint paint) (string, bool) {
	var b strings.Builder
	used := 0
	for _, c := range counts {
		b.WriteString(" " + t.desk.theme.bands[c.band].of(c.words) + " ")
		used += show.Width(c.words) + 2
	}
	gap := t.desk.width - used - show.Width(right) - 1
	if right == "" {
		return b.String(), gap > 0
	}
	b.WriteString(strings.Repeat(" ", max(gap, 1)) + paint.of(show.Fit(right, t.desk.width-used-max(gap, 1))))
	return b.String(), gap > 0
}

// bandWords is the count of one band as it is said.
type bandWords struct {
	band  soak.Band
	words string
}

// bandWords says the counts of the bands, the longest soak first, with or without
// those that no plant is in.
func (t *triage) bandWords(name func(soak.Band) string, some bool) []bandWords {
	var all []bandWords
	for i := len(soak.Bands) - 1; i >= 0; i-- {
		if b := soak.Bands[i]; !some || t.counts[b] > 0 {
			all = append(all, bandWords{b, name(b) + " " + strconv.Itoa(t.counts[b])})
		}
	}
	return all
}

// head is a group's heading: how far its plants are looked at and pulled, and what
// they need.
func (t *triage) head(g int) string {
	c := t.perGroup[g]
	remark := show.Count(c.rows, "plant")
	if c.graded > 0 {
		remark = fmt.Sprintf("%d of %d looked at", c.graded, c.rows)
	}
	if c.pulled > 0 {
		remark += fmt.Sprintf(", %d pulled", c.pulled)
	}
	if t.order == byShelf {
		remark += t.bandRemark(c.bands, show.Width(t.rows.heads[g])+show.Width(remark)+8)
	}
	return t.desk.headingIn(show.Safe(t.rows.heads[g]), remark+" ", t.listWidth())
}

// bandRemark counts a group's plants by band, in words where there is room.
func (t *triage) bandRemark(bands bandCounts, used int) string {
	long, short := "", ""
	for i := len(soak.Bands) - 1; i > int(soak.Rest); i-- {
		if n := bands[soak.Bands[i]]; n > 0 {
			long += fmt.Sprintf("  %s %d", soak.Bands[i], n)
			short += fmt.Sprintf(" %s %d", shortBand(soak.Bands[i]), n)
		}
	}
	for _, try := range []string{long, short} {
		if used+show.Width(try) <= t.listWidth() {
			return try
		}
	}
	return "" // how far one is comes first
}
