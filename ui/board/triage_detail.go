package board

import (
	"strings"

	"tubside/model"
	"tubside/model/advice"
	"tubside/ui/show"
)

// beside reports whether the card stands beside the list.
func (t *triage) beside() bool { return t.desk.room() && !t.mapped }

// listWidth is how wide the list is.
func (t *triage) listWidth() int {
	if t.mapped {
		return t.desk.width
	}
	return t.desk.listWidth()
}

// detailLines is how many lines under the list tell of the cursor's plant, a rule
// among them.
func (t *triage) detailLines() int {
	switch {
	case t.beside():
		return 0
	case t.desk.height < 24:
		return 3
	case t.desk.height < 36, t.desk.width >= besideFrom:
		return 4
	}
	return 6
}

// drawDetail writes the whole of the cursor's plant: what was seen, when it was
// last soaked, and every reason.
func (t *triage) drawDetail(p *page) {
	rule := strings.Repeat("─", t.desk.width-2)
	if t.mapped {
		legend := " " + t.hooks.legend()
		rule = strings.Repeat("─", t.desk.width-2-show.Width(legend)) + legend
	}
	p.line(t.desk.theme.quiet.of(" " + rule))
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
	for _, line := range sentencesIn(t.story(r, n), t.desk.width-2, t.detailLines()-1) {
		p.line(" " + paint.of(line))
	}
}

// sentencesIn breaks as many sentences as fit whole into so many lines; a first one that
// does not fit even so is cut.
func sentencesIn(text string, width, room int) []string {
	lines := wrap(text, width)
	for len(lines) > room {
		at := strings.LastIndex(strings.TrimSuffix(text, "."), ". ")
		for at > 0 && strings.HasSuffix(text[:at], " T") { // "T. ionantha" ends no sentence
			at = strings.LastIndex(text[:at], ". ")
		}
		if at < 0 {
			lines = lines[:room]
			lines[room-1] = show.Fit(lines[room-1]+" …", width)
			break
		}
		text = text[:at+1]
		lines = wrap(text, width)
	}
	return lines
}

// story is a plant in a few short sentences, the first matter most; the figures behind
// them are on its card.
func (t *triage) story(r *model.Row, n *advice.Need) string {
	text := show.Title(r.Plant)
	if home := show.Safe(r.Home.String()); home != "" && t.order == byShelf {
		text += ", " + home
	}
	if r.State.Away() {
		text += ": " + t.whereabouts(r)
	}
	text += ". "
	if note := strings.TrimRight(show.Safe(r.Note), ". "); note != "" {
		text += "Your note: " + note + ". "
	}
	if advice.AskBloom(r, t.desk.now) {
		text += "Still in bloom? B yes, b no, it is over. "
	}
	if moved := t.desk.moved(n.ID); moved != "" {
		text += show.Soak(n.From, n.To) + ", " + moved + ". "
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
