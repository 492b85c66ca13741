package board

import (
	"strings"

	"tubside/model"
	"tubside/model/advice"
	"tubside/ui/show"
)

// besideFrom is the width from which the card stands beside the list, and
// cardWidth how wide it is there.
const (
	besideFrom = 150
	cardWidth  = 60
)

// beside reports whether the card stands beside the list.
func (t *triage) beside() bool { return t.desk.width >= besideFrom && !t.mapped && !t.desk.lines }

// listWidth is how wide the list is.
func (t *triage) listWidth() int {
	if t.beside() {
		return t.desk.width - cardWidth - 2
	}
	return t.desk.width
}

// detailLines is how many lines under the list tell of the cursor's plant, a rule
// among them.
func (t *triage) detailLines() int {
	switch {
	case t.beside():
		return 0
	case t.desk.height < 24:
		return 3
	case t.desk.height < 36:
		return 4
	}
	return 6
}

// drawDetail writes the whole of the cursor's plant: what was seen, when it was
// last soaked, and every reason.
func (t *triage) drawDetail(p *page) {
	p.line(t.desk.theme.quiet.of(" " + strings.Repeat("─", t.desk.width-2)))
	id := t.rows.current()
	n := t.desk.need(id)
	if n == nil {
		return
	}
	r := t.desk.book.Row(id)
	paint := t.desk.theme.plain
	if _, ink := t.danger(n); ink == t.desk.theme.alarm {
		paint = ink
	}
	room := t.detailLines() - 1
	lines := wrap(t.story(r, n), t.desk.width-2)
	for i, line := range lines[:min(len(lines), room)] {
		if i == room-1 && len(lines) > room {
			line = show.Fit(line+" …", t.desk.width-2)
		}
		p.line(" " + paint.of(line))
	}
}

// story is a plant in a few short sentences; the figures behind them are on its card.
func (t *triage) story(r *model.Row, n *advice.Need) string {
	text := show.Title(r.Plant)
	if home := show.Safe(r.Home.String()); home != "" && t.order == byShelf {
		text += ", " + home
	}
	if r.State.Away() {
		text += ": " + t.whereabouts(r)
	}
	text += ". "
	if advice.AskBloom(r, t.desk.now) {
		text += "Still in bloom? B yes, b no, it is over. "
	}
	signs := show.Signs(r.Signs)
	if !r.SignsAt.IsZero() {
		text += "Seen " + show.Ago(r.SignsAt, t.desk.now, t.desk.book.Zone()) + ": " + signs + ". "
	}
	about := t.desk.subject(n.ID)
	var reasons []string
	for _, reason := range n.Reasons {
		why := about.Brief(reason)
		if why != "" && (r.SignsAt.IsZero() || !strings.Contains(signs, why)) { // said already
			reasons = append(reasons, show.Line(why)+".")
		}
	}
	return show.Safe(text + strings.Join(reasons, " "))
}

// drawBeside writes the list and beside it the card of the cursor's plant.
func (t *triage) drawBeside(p *page, until int) {
	var lines []string
	add := func(line string) { lines = append(lines, line) }
	add(t.columnHeads())
	t.rows.draw(add, t.row, t.head)
	card := t.sideCard()
	blank := strings.Repeat(" ", t.listWidth())
	for i := 0; p.lines < until; i++ {
		left, right := blank, ""
		if i < len(lines) {
			left = lines[i]
		}
		if i < len(card) {
			right = card[i]
		}
		p.line(left + " " + t.desk.theme.quiet.of("│") + right)
	}
}

// sideCard are the lines of the card of the cursor's plant, without what takes long
// to draw.
func (t *triage) sideCard() []string {
	id := t.rows.current()
	if id == 0 {
		return nil
	}
	if t.side == nil || t.side.id != id || t.side.built != t.desk.version {
		desk := *t.desk
		desk.width = cardWidth
		t.side = &card{desk: &desk, id: id, brief: true}
		t.side.build()
	}
	return t.side.lines
}
