package board

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"tubside/model"
	"tubside/ui/show"
)

// minute is the one-minute test on one plant: a question at a time, a key an
// answer, until something is found.
type minute struct {
	desk    *desk
	id      model.ID
	at      int
	verdict *show.Verdict
}

func newMinute(d *desk, id model.ID) *minute { return &minute{desk: d, id: id} }

func (q *minute) groups() []group {
	leave := func(tea.KeyMsg) tea.Cmd { q.desk.drop(q); return nil }
	keys := []binding{act("esc", "leave the test", func() { q.desk.drop(q) }).pad("/")}
	if q.verdict == nil {
		for i, a := range show.MinuteTest[q.at].Answers {
			keys = append(keys, act(string(a.Key), a.Text, func() { q.answer(a) }).pad(strconv.Itoa(i+1)))
		}
		keys = append(keys, remark("a letter answers"))
	} else {
		keys = append(keys, act("enter", "write it down", q.write).unless(func() string {
			if q.verdict.Fact == nil {
				return "Nothing to write"
			}
			return ""
		}).foot("writes it down"))
	}
	keys = append(keys, act("backspace", "the question before", q.back).pad("-").footWhen("goes back",
		func() bool { return q.begun() }))
	if q.verdict != nil {
		return []group{{"One-minute test", append(keys, anyOther("leave", leave).foot("leaves"))}}
	}
	return []group{{"One-minute test", append(keys, remark("esc leaves"))}}
}

func (q *minute) lead() string { return "" }

// begun reports whether there is a question before.
func (q *minute) begun() bool { return q.at > 0 || q.verdict != nil }

func (q *minute) back() {
	switch {
	case q.verdict != nil:
		q.verdict = nil
	case q.at > 0:
		q.at--
	}
}

func (q *minute) answer(a show.Answer) {
	if q.verdict = a.Verdict; q.verdict == nil {
		q.at++
	}
}

// write enters what was found.
func (q *minute) write() {
	q.desk.drop(q)
	q.desk.enter(q.verdict.Fact, q.id)
}

func (q *minute) draw(p *page, height int) {
	p.line("")
	p.line(q.desk.heading("One-minute test: "+show.Title(q.desk.book.Row(q.id).Plant),
		fmt.Sprintf("%d of %d ", q.at+1, len(show.MinuteTest))))
	p.line("")
	if q.verdict != nil {
		q.drawVerdict(p)
		return
	}
	step := show.MinuteTest[q.at]
	p.line("   " + q.desk.theme.title.of(show.Fit(step.Ask, q.desk.width-4)))
	p.line("   " + q.desk.theme.quiet.of(show.Fit(step.How, q.desk.width-4)))
	p.line("")
	for i, a := range step.Answers {
		key := string(a.Key)
		if q.desk.onPad() {
			key = strconv.Itoa(i + 1)
		}
		p.line("   " + q.desk.theme.input.of(key) + "   " + show.Fit(a.Text, q.desk.width-9))
	}
}

func (q *minute) drawVerdict(p *page) {
	paint := q.desk.theme.good
	if q.verdict.Fact != nil && q.verdict.Fact.Kind() != "looked" {
		paint = q.desk.theme.alarm
	}
	p.line("   " + paint.of(show.Fit(show.Line(q.verdict.What), q.desk.width-4)))
	p.line("")
	for _, step := range q.verdict.Do {
		for i, line := range wrap(step, q.desk.width-8) {
			lead := "   · "
			if i > 0 {
				lead = "     "
			}
			p.line(lead + line)
		}
	}
	p.line("")
	for _, line := range wrap(q.verdict.Mark, q.desk.width-6) {
		p.line(q.desk.theme.quiet.of("   " + line))
	}
	if t, ok := q.verdict.Fact.(*model.Trouble); ok && t.What.Spreads() {
		p.line("")
		for _, line := range wrap(show.PesticideCaution, q.desk.width-6) {
			p.line(q.desk.theme.warn.of("   " + line))
		}
	}
}

// wrap breaks a sentence into lines of a width, at its spaces and hyphens; a date
// stays whole, and a number keeps its unit, as a day does its month.
func wrap(text string, width int) []string {
	text = show.Safe(text)
	held := heldTogether(text)
	lines := ansi.Wrap(held, max(8, width), "")
	if held != text {
		lines = untied.Replace(lines)
	}
	return splitLines(lines)
}

// untied puts back what [heldTogether] took out.
var untied = strings.NewReplacer("\u2011", "-", "\u00a0", " ")

// heldTogether puts a hyphen that no line breaks at between digits, and such a blank
// between a number and its unit.
func heldTogether(text string) string {
	var b strings.Builder
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	from := 0
	for i := range len(text) {
		with := ""
		switch {
		case text[i] == '-' && digit(i-1) && digit(i+1):
			with = "\u2011"
		case text[i] == ' ' && digit(i-1) && unitAt(text[i+1:]),
			text[i] == ' ' && digit(i+1) && i > 2 && text[i-2:i] == " h" && digit(i-3), // "2 h 46 min" is one time
			text[i] == ' ' && digit(i-1) && len(text) > i+3 && isMonth(text[i+1:i+4]),
			text[i] == ' ' && digit(i+1) && i > 4 && isMonth(text[i-3:i]) && text[i-4] == ' ': // "15 Dec 2022" is one day
			with = "\u00a0"
		default:
			continue
		}
		b.WriteString(text[from:i] + with)
		from = i + 1
	}
	if from == 0 {
		return text
	}
	return b.String() + text[from:]
}

// isMonth reports whether three letters are a month's, as dates are written.
func isMonth(letters string) bool {
	return strings.Index("JanFebMarAprMayJunJulAugSepOctNovDec", letters)%len("Jan") == 0
}

// unitAt reports whether a text begins with a unit.
func unitAt(text string) bool {
	for _, unit := range [...]string{"%", "min", "h", "g", "L", "cm", "kPa", "°C", "°F"} {
		rest, ok := strings.CutPrefix(text, unit)
		if ok && (rest == "" || !(rest[0] >= 'a' && rest[0] <= 'z' || rest[0] >= 'A' && rest[0] <= 'Z')) {
			return true
		}
	}
	return false
}
