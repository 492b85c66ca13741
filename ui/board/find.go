package board

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/advice"
	"tubside/ui/show"
)

// prompt is one line of typing at the foot of the screen, over a screen that
// stays visible.
type prompt struct {
	desk   *desk
	behind screen
	input  textinput.Model
	ask    string
	change func(string) // called as the text changes
	accept func(string)
	cancel func()
}

func newPrompt(d *desk, behind screen, ask, text string) *prompt {
	p := &prompt{desk: d, behind: behind, ask: ask, input: textinput.New()}
	p.input.Prompt, p.input.CharLimit = "", 200
	p.input.SetValue(text)
	p.input.CursorEnd()
	p.input.Focus()
	p.tell()
	return p
}

func (p *prompt) groups() []group {
	return []group{{"A line to type", []binding{
		act("enter", "keep", func() { p.desk.drop(p); p.accept(p.input.Value()) }).foot("keep"),
		act("esc", "drop", func() { p.desk.drop(p); p.cancel() }).foot("drop"),
		anyOther("type", p.typed),
	}}}
}

func (p *prompt) lead() string { return "" }

// typed takes a key of the text.
func (p *prompt) typed(msg tea.KeyMsg) tea.Cmd {
	before := p.input.Value()
	p.input, _ = p.input.Update(msg)
	if after := p.input.Value(); after != before && p.change != nil {
		p.change(after)
	}
	p.tell() // before the screen behind is laid out
	return nil
}

func (p *prompt) draw(pg *page, height int) {
	p.behind.draw(pg, height)
	pg.fill(p.desk.height - 2)
	p.tell()
}

// tell writes what is asked and typed where the board says what just happened.
func (p *prompt) tell() { p.desk.said, p.desk.trouble = p.ask+" "+p.input.Value()+"▏", false }

// newFind jumps to the first plant that matches while the person types.
func newFind(m *board) *prompt {
	from := m.front().list().current()
	p := newPrompt(m.desk, m.front(), "Find:", "")
	p.change = func(text string) { m.find(text, 0) }
	p.accept = func(text string) {
		m.sought, m.desk.said = text, ""
		if !m.find(text, 0) {
			if at := m.elsewhere(text); at != "" {
				m.desk.say("No plant here matches %s%s", show.Safe(text), at)
				return
			}
			m.desk.say("No plant matches %s%s", show.Safe(text), m.orMeant(text))
		}
	}
	p.cancel = func() { m.desk.said = ""; m.front().list().goTo(from) }
	return p
}

// elsewhere says where a plant is that is not on this screen, "" when there is none.
func (m *board) elsewhere(text string) string {
	text = strings.ToLower(strings.TrimSpace(text))
	for _, id := range m.desk.book.IDs() {
		if r := m.desk.book.Row(id); text != "" && matches(r, text) {
			at := ": " + show.Line(show.Title(r.Plant)) + " is " + show.Standing(r, m.desk.book, m.desk.now)
			if r.State == model.Gone {
				return at
			}
			return at + ", on Triage (T t)"
		}
	}
	return ""
}

// orMeant asks for the label or name that was likely meant, "" where none is near.
func (m *board) orMeant(text string) string {
	var known []string
	for _, id := range m.desk.book.IDs() {
		r := m.desk.book.Row(id)
		known = append(known, r.Label, r.Name)
	}
	if near := model.Near(text, known); near != "" {
		return ": did you mean " + show.Safe(near) + "?"
	}
	return ""
}

// finder is a screen of words that finds in them itself.
type finder interface {
	find()
	findAgain(dir int)
}

// seek asks what to find.
func (m *board) seek() {
	if f, ok := m.front().(finder); ok {
		f.find()
		return
	}
	m.desk.push(newFind(m))
}

// findAgain goes to the next or the previous match.
func (m *board) findAgain(dir int) {
	if f, ok := m.front().(finder); ok {
		f.findAgain(dir)
		return
	}
	switch {
	case m.sought == "":
		m.toNamesake(dir)
	case !m.find(m.sought, dir):
		m.desk.say("No other plant matches %s", show.Safe(m.sought))
	}
}

// toNamesake goes to the next plant of the same name as the one in hand: where
// nothing is sought, that is the other one that may be meant.
func (m *board) toNamesake(dir int) {
	id := m.plant()
	if t, ok := m.front().(*triage); ok && t.walked.from != 0 && t.walked.to == id {
		id = t.walked.from
	}
	r := m.desk.book.Row(id)
	if r == nil {
		m.desk.say("Nothing looked for yet: / finds")
		return
	}
	namesake := func(o *model.Row) bool {
		return o.ID != id && (strings.EqualFold(show.Title(o.Plant), show.Title(r.Plant)) ||
			r.Name != "" && strings.EqualFold(o.Name, r.Name))
	}
	if !m.findRow(namesake, dir) {
		m.desk.say("No other plant here is called %s: / finds", show.Title(r.Plant))
	}
}

// find moves the cursor to a match, starting dir rows from the cursor and going
// round. A direction of 0 counts the cursor's own row.
func (m *board) find(text string, dir int) bool {
	text = strings.ToLower(strings.TrimSpace(text))
	return text != "" && m.findRow(func(r *model.Row) bool { return matches(r, text) }, dir)
}

// findRow is find by a condition.
func (m *board) findRow(is func(*model.Row) bool, dir int) bool {
	l := m.front().list()
	if len(l.rows) == 0 {
		return false
	}
	step := dir
	if step == 0 {
		step = 1
	}
	n := len(l.rows)
	for k := range n {
		i := ((l.cursor+dir+k*step)%n + n) % n
		if id := l.rows[i].id; id != 0 && is(m.desk.book.Row(id)) {
			l.cursor = i
			l.keepInView()
			return true
		}
	}
	return false
}

// matches reports whether a plant is meant by some words: its number, or its
// label, name, home and note contain them. The words are in lower case.
func matches(r *model.Row, words string) bool {
	if "#"+r.ID.String() == words || r.ID.String() == words {
		return true
	}
	for _, text := range []string{r.Label, r.Name, r.Home.String(), r.Note} {
		if strings.Contains(strings.ToLower(text), words) {
			return true
		}
	}
	return false
}

// newFilter narrows triage while the person types.
func newFilter(t *triage) *prompt {
	was := t.filter
	set := func(text string) {
		if _, err := parseFilter(text); err == nil {
			t.filter = strings.TrimSpace(text)
			t.build()
		}
	}
	p := newPrompt(t.desk, t, "Only:", was)
	p.change = set
	p.accept = func(text string) {
		t.desk.said = ""
		if _, err := parseFilter(text); err != nil {
			t.desk.complain(err)
			return
		}
		set(text)
	}
	p.cancel = func() { t.desk.said = ""; set(was) }
	return p
}

// parseFilter reads which plants to show: words that must be found, and
// band:long, shelf:A, form:fuzzy, leaf:xeric, state:drying, load:3, bloom, rot,
// mist-only and due; with = in place of : the whole name is meant. All parts must hold.
func parseFilter(text string) (func(*model.Row, *advice.Need) bool, error) {
	var tests []func(*model.Row, *advice.Need) bool
	for _, word := range strings.Fields(strings.ToLower(text)) {
		test, err := filterWord(word)
		if err != nil {
			return nil, err
		}
		tests = append(tests, test)
	}
	return func(r *model.Row, n *advice.Need) bool {
		for _, test := range tests {
			if !test(r, n) {
				return false
			}
		}
		return true
	}, nil
}

func filterWord(word string) (func(*model.Row, *advice.Need) bool, error) {
	key, value, pair := strings.Cut(word, ":")
	starts := func(s string) bool { return strings.HasPrefix(oneWord(s), value) }
	if name, whole, ok := strings.Cut(word, "="); !pair && ok {
		key, value, pair = name, whole, true
		starts = func(s string) bool { return oneWord(s) == whole }
	}
	switch {
	case !pair && word == "bloom":
		return func(r *model.Row, _ *advice.Need) bool { return !r.Bloom.IsZero() }, nil
	case !pair && word == "rot":
		return func(r *model.Row, _ *advice.Need) bool { return !r.Rot.IsZero() }, nil
	case !pair && word == "mist-only":
		return func(r *model.Row, _ *advice.Need) bool { return r.MistOnly }, nil
	case !pair && word == "due":
		return func(_ *model.Row, n *advice.Need) bool { return n.Band.InWater() }, nil
	case !pair:
		return func(r *model.Row, _ *advice.Need) bool { return matches(r, word) }, nil
	}
	switch key {
	case "band":
		return func(_ *model.Row, n *advice.Need) bool { return starts(n.Band.String()) }, nil
	case "shelf":
		return func(r *model.Row, _ *advice.Need) bool { return starts(r.Home.Shelf) }, nil
	case "form":
		return func(r *model.Row, _ *advice.Need) bool { return starts(string(r.Form)) }, nil
	case "leaf":
		return func(r *model.Row, _ *advice.Need) bool { return starts(string(r.Leaf)) }, nil
	case "state":
		return func(r *model.Row, _ *advice.Need) bool { return starts(r.State.String()) }, nil
	case "load":
		return func(r *model.Row, _ *advice.Need) bool { return r.Load.String() == value }, nil
	}
	return nil, &model.Problem{
		What: fmt.Sprintf("%q is not a way to choose", key),
		Do:   "use band: shelf: form: leaf: state: load: bloom rot mist-only due, or plain words",
	}
}
