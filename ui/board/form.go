package board

import (
	"errors"
	"strings"

	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// field is one line of a form.
type field struct {
	name  string
	hint  string // what may be written
	input textinput.Model
}

// newField is a field with what it holds at first.
func newField(name, text, hint string) field {
	f := field{name: name, hint: hint, input: textinput.New()}
	f.input.Prompt, f.input.CharLimit = "", model.MaxText
	f.input.SetValue(text)
	f.input.CursorEnd()
	return f
}

// form asks for a few values and writes one entry from them. A value it cannot
// take keeps it open, with the cursor on the field.
type form struct {
	*desk
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
		act("ctrl+s", "write now", f.send).foot("write now"),
		act("tab ↓", "next field", func() { f.focus(f.at + 1) }).foot("next field"),
		act("shift+tab ↑", "field before", func() { f.focus(f.at - 1) }),
		act("esc", "drop it, nothing is written", func() { f.drop(f); f.say("Nothing written") }).pad("/").foot("drop"),
		anyOther("type", f.typed),
	}}}
}

func (f *form) lead() string { return "" }

// next goes to the next field; on the last, or when the rest is filled in, it
// writes.
func (f *form) next() {
	if f.at < len(f.fields)-1 && !f.complete() {
		f.focus(f.at + 1)
		return
	}
	f.send()
}

// typed takes a key of a field's text.
func (f *form) typed(msg tea.KeyMsg) tea.Cmd {
	f.problem = ""
	f.fields[f.at].input, _ = f.fields[f.at].input.Update(msg)
	return nil
}

// complete reports whether the fields after this one already hold something, so
// that enter can mean done.
func (f *form) complete() bool {
	for _, rest := range f.fields[f.at+1:] {
		if strings.TrimSpace(rest.input.Value()) == "" {
			return false
		}
	}
	return true
}

func (f *form) focus(i int) {
	f.fields[f.at].input.Blur()
	f.at = (i + len(f.fields)) % len(f.fields)
	f.fields[f.at].input.Focus()
}

// send writes the entry; the form stays when a field cannot be taken or the book
// refuses.
func (f *form) send() {
	err := f.submit(f)
	if err == nil {
		f.drop(f)
		return
	}
	f.problem = err.Error()
	if p, ok := errors.AsType[fieldProblem](err); ok {
		f.focus(p.field)
	}
}

const fieldWidth = 14

func (f *form) draw(p *page, height int) {
	p.line("")
	p.line(f.heading(f.title, ""))
	p.line("")
	first := max(0, min(f.at-(height-9)/2, len(f.fields)-(height-9)))
	for i := first; i < len(f.fields) && i < first+height-8; i++ {
		p.line(f.fieldLine(i))
	}
	p.line("")
	if f.problem != "" {
		p.line(f.theme.alarm.of(show.Fit("   "+show.Line(show.Safe(f.problem)), f.width)))
	} else {
		p.line(f.theme.quiet.of(show.Fit("   "+f.fields[f.at].hint, f.width)))
	}
	if f.caution != "" {
		p.line("")
		for _, line := range wrap(f.caution, f.width-6) {
			p.line(f.theme.warn.of("   " + line))
		}
	}
}

func (f *form) fieldLine(i int) string {
	fd := &f.fields[i]
	value := show.Safe(fd.input.Value())
	name := show.PadLeft(fd.name, fieldWidth)
	room := max(8, f.width-fieldWidth-6)
	if i != f.at {
		return "  " + name + "  " + show.Fit(value, room)
	}
	runes := []rune(fd.input.Value())
	at := min(fd.input.Position(), len(runes))
	before, after := show.Safe(string(runes[:at])), show.Safe(string(runes[at:]))
	for show.Width(before) > room-2 { // keep the cursor in sight
		_, rest, _ := strings.Cut(before, before[:len(string([]rune(before)[0]))])
		before = rest
	}
	return f.theme.cursor.of("▸") + " " + f.theme.title.of(name) + "  " + f.theme.input.of(show.Fit(before+"▏"+after, room))
}
