package board

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// besideFrom is the width from which something stands beside a list, and cardWidth how
// wide it is there.
const (
	besideFrom = 150
	cardWidth  = 60
)

// beside is what stands at the right of a list in a wide window: the card of the plant
// under the cursor, and what a screen has to say besides.
type beside struct {
	desk  *desk
	rows  *list
	card  *card
	asked chartMsg // the chart asked for last
}

// chartMsg asks for the chart of a card: it takes longer than a key may, and so comes
// after the keys that are waiting.
type chartMsg struct {
	of      *beside
	id      model.ID
	version int
}

// room reports whether there is room beside a list.
func (d *desk) room() bool { return d.width >= besideFrom && !d.lines }

// listWidth is how wide a list is that may have something beside it.
func (d *desk) listWidth() int {
	if d.room() {
		return d.width - cardWidth - 2
	}
	return d.width
}

// last is the last column of a list's row, so wide that what stands beside it stands in
// line.
func (d *desk) last(text string, width int) string {
	if d.room() {
		return show.Pad(text, width)
	}
	return show.Fit(text, width)
}

// lines are the card of the plant under the cursor, without what takes long to draw.
func (b *beside) lines() []string {
	id := b.rows.current()
	if id == 0 {
		return nil
	}
	if b.card == nil || b.card.id != id || b.card.built != b.desk.version {
		desk := *b.desk
		desk.width = cardWidth
		b.card = &card{desk: &desk, id: id, brief: true}
		b.card.build()
	}
	return b.card.lines
}

// ask asks for the chart of the plant that the cursor came to.
func (b *beside) ask() {
	want := chartMsg{b, b.rows.current(), b.desk.version}
	if b.desk.room() && want.id != 0 && want != b.asked {
		b.asked = want
		b.desk.later = append(b.desk.later, func() tea.Msg { return want })
	}
}

// chart works a chart out, unless the cursor has gone on.
func (b *beside) chart(m chartMsg) {
	if m == b.asked && b.rows.current() == m.id {
		b.lines()
		b.card.points = append([]estimate.Point{}, b.card.trace()...) // not nil: it is worked out
		b.card.build()
	}
}

// drawTwo writes lines of the list's width, and others beside them.
func (d *desk) drawTwo(p *page, until int, left, right []string) {
	blank := strings.Repeat(" ", d.listWidth())
	for i := 0; p.lines < min(until, p.limit); i++ {
		line, more := blank, ""
		if i < len(left) {
			line = left[i]
		}
		if i < len(right) {
			more = right[i]
		}
		p.line(line + " " + d.theme.quiet.of("│") + more)
	}
}
