package board

import (
	"errors"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"tubside/ui/show"
)

// form asks for a few values and writes one entry from them. A value it cannot
// take keeps it open, with the cursor on the field.
type form struct {
	desk    *desk
	title   string
	caution string
	fields  []field
	at      int
	problem string
	submit  func(f *form) error // returns a fieldProblem to point at a field
}

// fieldProblem is an error about one field.
type fieldProblem struct {
	field int
	err   error
}

// Error is that of the field.
func (p fieldProblem) Error() string { return p.err.Error() }

func newForm(d *desk, title string, submit func(*form) error, fields ...field) *form {
	f := &form{desk: d, title: title, fields: fields, submit: submit}
	f.fields[0].input.Focus()
	return f
}

// text is the value of a field, trimmed.
func (f *form) text(i int) string { return strings.TrimSpace(f.fields[i].input.Value()) }

// wrong points at a field.
func wrong(i int, err error) error { return fieldProblem{i, err} }

func (f *form) groups() []group {
	return []group{{"A form", []binding{
		act("enter", "next field; after the last, write", f.next).foot("next, then write"),
		act("esc", "drop it, nothing is written", func() { f.desk.drop(f); f.desk.say("Nothing written") }).pad("/").foot("drop"),
		act("ctrl+s", "write now", f.send).pad("*").foot("write now"),
		{keys: "+/-", num: "+/-", help: "the next choice or day, or the one before", hint: "step",
			when: func() bool { return f.fields[f.at].steps() }},
		act("tab ↓", "next field", func() { f.focus(f.at + 1) }).foot("next field"),
		act("shift+tab ↑", "field before", func() { f.focus(f.at - 1) }),
		anyOther("type", f.typed),
	}}}
}

func (f *form) lead() string { return "" }

// next goes to the next field, and on the last one writes.
func (f *form) next() {
	if f.at < len(f.fields)-1 {
		f.focus(f.at + 1)
		return
	}
	f.send()
}

// typed takes a key of a field.
func (f *form) typed(msg tea.KeyMsg) tea.Cmd {
	f.problem = ""
	if f.desk.onPad() && msg.String() == "-" && !f.fields[f.at].steps() {
		msg = tea.KeyMsg{Type: tea.KeyBackspace} // a number pad has no other key for it
	}
	f.fields[f.at].typed(msg)
	return nil
}

func (f *form) focus(i int) {
	f.fields[f.at].input.Blur()
	f.fields[f.at].prefix = ""
	f.at = (i + len(f.fields)) % len(f.fields)
	f.fields[f.at].input.Focus()
}

// send writes the entry; the form stays when a field cannot be taken or the book
// refuses.
func (f *form) send() {
	err := f.submit(f)
	if err == nil {
		f.desk.drop(f)
		return
	}
	f.problem = err.Error()
	if p, ok := errors.AsType[fieldProblem](err); ok {
		f.focus(p.field)
	} else if i := f.named(f.problem); i >= 0 {
		f.focus(i)
	}
}

// named is the field that a refusal of the book is about, -1 when that is not told:
// the one whose unit stands in it, else the one whose name does.
func (f *form) named(problem string) int {
	if i := slices.IndexFunc(f.fields, func(fd field) bool { return fd.unit != "" && strings.Contains(problem, fd.unit) }); i >= 0 {
		return i
	}
	words := strings.FieldsFunc(strings.ToLower(problem), func(r rune) bool { return r < 'a' || r > 'z' })
	return slices.IndexFunc(f.fields, func(fd field) bool { return slices.Contains(words, strings.ToLower(fd.name)) })
}

const fieldWidth = 14

// leastFields are seen of a form whose caution would fill a low window.
const leastFields = 3

func (f *form) draw(p *page, height int) {
	p.line("")
	p.line(f.desk.heading(f.title, ""))
	p.line("")
	caution := wrap(f.caution, f.desk.width-6)
	if f.caution == "" {
		caution = nil
	}
	room := height - 3 - len(f.underField())
	if n := len(caution); n > 0 {
		room = max(room-n-1, min(room, leastFields))
	}
	first, last := f.inView(max(1, room))
	for i := first; i < last; i++ {
		for _, line := range f.fieldLines(i) {
			p.line(line)
		}
		if i == f.at { // what is wrong, or what may be written, stands at its field
			for _, line := range f.underField() {
				p.line(line)
			}
		}
	}
	if len(caution) > 0 {
		p.line("")
	}
	for _, line := range caution {
		p.line(f.desk.theme.warn.of("   " + line))
	}
}

// inView is which fields stand in so many lines, the one at hand in the middle.
func (f *form) inView(room int) (first, last int) {
	first, last = f.at, f.at+1
	used := len(f.fieldLines(f.at))
	for more := true; more; {
		more = false
		if first > 0 && used+len(f.fieldLines(first-1)) <= room {
			first, more = first-1, true
			used += len(f.fieldLines(first))
		}
		if last < len(f.fields) && used+len(f.fieldLines(last)) <= room {
			used += len(f.fieldLines(last))
			last, more = last+1, true
		}
	}
	return first, last
}

// underField is the lines under the field at hand: what is wrong with it, or what
// may be written.
func (f *form) underField() []string {
	text, paint := f.fields[f.at].hint, f.desk.theme.quiet
	switch {
	case f.problem != "":
		text, paint = show.Line(f.problem), f.desk.theme.alarm
	case f.desk.onPad() && f.fields[f.at].words:
		text = "letters need a keyboard; " + text
	}
	var lines []string
	for _, line := range wrap(text, f.desk.width-fieldWidth-6) {
		lines = append(lines, strings.Repeat(" ", fieldWidth+4)+paint.of(line))
	}
	return lines
}

// choiceLine is the choices of a field with the chosen one marked.
func (f *form) choiceLine(fd *field, room int) string {
	line, used := "", 0
	for i, c := range fd.choices {
		if i > 0 {
			line, used = line+"  ", used+2
		}
		if used += show.Width(c); used > room {
			return f.desk.theme.input.of(show.Fit(fd.input.Value()+"▏", room))
		}
		if c == fd.input.Value() {
			line += f.desk.theme.input.of(c)
		} else {
			line += f.desk.theme.quiet.of(c)
		}
	}
	return line
}

// mostLines is how many lines a value may take that is not at hand, and one that is.
const mostLines, mostAtHand = 2, 4

// fieldLines are a field and its value, in as many lines as it needs.
func (f *form) fieldLines(i int) []string {
	fd := &f.fields[i]
	name := show.PadLeft(fd.name, fieldWidth)
	room := max(8, f.desk.width-fieldWidth-6)
	lead, paint, most := "  "+name+"  ", f.desk.theme.plain, mostLines
	runes, cursor := []rune(fd.input.Value()), 0
	value := show.Safe(string(runes))
	if i == f.at {
		lead = f.desk.theme.cursor.of("▸") + " " + f.desk.theme.title.of(name) + "  "
		if fd.choices != nil {
			return []string{lead + f.choiceLine(fd, room)}
		}
		paint, most = f.desk.theme.input, mostAtHand
		if !fd.fresh {
			cursor = min(fd.input.Position(), len(runes))
		}
		value = show.Safe(string(runes[:cursor])) + cursorSign + show.Safe(string(runes[cursor:]))
	}
	parts := splitLines(ansi.Wrap(value, room, ""))
	first := 0
	for n, part := range parts {
		if strings.Contains(part, cursorSign) {
			first = max(0, n-most+1) // the cursor stays in sight
		}
	}
	parts = parts[first:]
	if len(parts) > most {
		parts[most-1] = show.Fit(parts[most-1]+" "+parts[most], room)
		parts = parts[:most]
	}
	lines := make([]string, len(parts))
	for n, part := range parts {
		lines[n] = lead + paint.of(show.Fit(part, room))
		lead = strings.Repeat(" ", fieldWidth+4)
	}
	return lines
}

// cursorSign is where the next letter goes.
const cursorSign = "▏"
