package board

import (
	"cmp"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/ui/show"
)

// filterMenu narrows triage with one key each for band, form, leaf and shelf: the
// key goes on to the next there is, and after the last to all again.
type filterMenu struct {
	desk   *desk
	triage *triage
	was    string
}

func newFilterMenu(t *triage) *filterMenu { return &filterMenu{desk: t.desk, triage: t, was: t.filter} }

func (m *filterMenu) groups() []group {
	step := func(key string, of func(*model.Row, *advice.Need) string) func() {
		return func() { m.set(stepFilter(m.triage.filter, key, m.values(key, of))) }
	}
	band := func(_ *model.Row, n *advice.Need) string { return n.Band.String() }
	form := func(r *model.Row, _ *advice.Need) string { return string(r.Form) }
	leaf := func(r *model.Row, _ *advice.Need) string { return string(r.Leaf) }
	shelf := func(r *model.Row, _ *advice.Need) string { return r.Home.Shelf }
	return []group{{"Show only some", []binding{
		act("b", "the next band", step("band", band)).pad("1").foot("band"),
		act("f", "the next form", step("form", form)).pad("2").foot("form"),
		act("l", "the next leaf", step("leaf", leaf)).pad("3").foot("leaf"),
		act("s", "the next shelf", step("shelf", shelf)).pad("4").foot("shelf"),
		act("enter", "keep", func() { m.desk.drop(m); m.desk.said = "" }).foot("keeps"),
		act("esc", "show what was shown before", func() { m.set(m.was); m.desk.drop(m); m.desk.said = "" }).pad("/").foot("drops"),
		act("a", "all plants", func() { m.set("") }).pad("0").foot("all"),
		act("/", "words, bloom, rot, mist-only, due, state:drying, load:3", func() {
			m.desk.drop(m)
			m.desk.push(newFilter(m.triage))
		}).foot("words"),
		anyOther("begins a word", m.typed),
	}}}
}

// typed is a letter that is no key here: it begins a word.
func (m *filterMenu) typed(msg tea.KeyMsg) tea.Cmd {
	if msg.Type != tea.KeyRunes || m.desk.onPad() {
		m.desk.say("A key of the line below, or a word to look for")
		return nil
	}
	m.desk.drop(m)
	p := newFilter(m.triage)
	if p.input.Value() != "" {
		p.input.SetValue(p.input.Value() + " ")
		p.input.CursorEnd()
	}
	m.desk.push(p)
	return p.typed(msg)
}

func (m *filterMenu) lead() string { return "" }

func (m *filterMenu) set(filter string) {
	m.triage.filter = filter
	m.triage.build()
}

func (m *filterMenu) draw(p *page, height int) {
	m.triage.draw(p, height)
	p.fill(m.desk.height - 2)
	m.desk.said, m.desk.trouble = "All plants", false
	if m.triage.filter != "" {
		m.desk.said = m.triage.only
	}
}

// values are what the plants have of something that the rest of the filter lets
// through: bands with the longest soak first, anything else by name.
func (m *filterMenu) values(key string, of func(*model.Row, *advice.Need) string) []string {
	want, err := parseFilter(stepFilter(m.triage.filter, key, nil))
	if err != nil {
		return nil
	}
	seen := map[string]bool{"": true}
	var all []string
	for _, id := range m.desk.book.IDs() {
		r, n := m.desk.book.Row(id), m.triage.desk.need(id)
		if n == nil || !want(r, n) {
			continue
		}
		if v := of(r, n); !seen[v] {
			seen[v] = true
			all = append(all, v)
		}
	}
	longest := func(name string) int {
		return -slices.IndexFunc(soak.Bands, func(b soak.Band) bool { return b.String() == name })
	}
	slices.SortFunc(all, func(a, b string) int {
		return cmp.Or(cmp.Compare(longest(a), longest(b)), model.NaturalCompare(a, b))
	})
	return all
}

// stepFilter goes on to the next value of a key in a filter; after the last the key
// is in it no more. What else the filter asks stays.
func stepFilter(filter, key string, values []string) string {
	var others []string
	now := -1
	for _, word := range strings.Fields(filter) {
		if value, ok := strings.CutPrefix(strings.ToLower(word), key+"="); ok {
			now = slices.IndexFunc(values, func(v string) bool { return oneWord(v) == value })
		} else if !strings.HasPrefix(strings.ToLower(word), key+":") {
			others = append(others, word)
		}
	}
	if now+1 < len(values) {
		others = append(others, key+"="+oneWord(values[now+1]))
	}
	return strings.Join(others, " ")
}

// oneWord is a name as it stands in a filter: in lower case, without its spaces.
func oneWord(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), "")) }

// filterWords says which plants the filter lets through, "Bath, Long only".
func (t *triage) filterWords() string {
	var parts []string
	for _, word := range strings.Fields(t.filter) {
		parts = append(parts, t.wordsOf(word))
	}
	return show.Safe(strings.Join(parts, ", ")) + " only"
}

// wordsOf says one part of a filter: a name as the book writes it, where the part
// means just one.
func (t *triage) wordsOf(part string) string {
	key, value, _ := strings.Cut(strings.ToLower(strings.Replace(part, "=", ":", 1)), ":")
	var names []string
	switch key {
	case "bloom":
		return "in bloom"
	case "rot":
		return "suspected rot"
	case "mist-only":
		return "mist only"
	case "due":
		return "due for a soak"
	case "load":
		return "load " + value
	case "band":
		for _, b := range soak.Bands {
			names = append(names, b.String())
		}
	case "shelf":
		for _, id := range t.desk.book.IDs() {
			names = append(names, t.desk.book.Row(id).Home.Shelf)
		}
		names = slices.Compact(slices.Sorted(slices.Values(names)))
	case "form":
		for _, f := range model.Forms {
			names = append(names, string(f))
		}
	case "leaf":
		for _, l := range model.Leaves {
			names = append(names, string(l))
		}
	case "state":
		return value
	default:
		return "“" + part + "”"
	}
	exact := strings.Contains(part, "=")
	names = slices.DeleteFunc(names, func(n string) bool {
		return exact && oneWord(n) != value || !strings.HasPrefix(oneWord(n), value)
	})
	if len(names) == 1 {
		return names[0]
	}
	return value + "…"
}
