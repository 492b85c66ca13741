package board

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"tubside/ui/show"
)

// help lists the keys that work on the screen behind it, made from the same
// bindings that do the work.
type help struct {
	*desk
	lines []string
	top   int
	shown int
}

const helpKeyWidth = 12

func newHelp(m *board) *help {
	h := &help{desk: m.desk}
	groups := m.front().groups()
	groups = append(groups, group{"Everywhere", notIn(m.global, groups)})
	if m.at == 0 {
		h.lines = append(h.lines, m.theme.title.of(" Keying in signs, three digits a plant"))
		for _, s := range []string{
			"curl   0 flat   1 edges lifting   2 deep channel   3 rolled shut",
			"tips   0 no brown new tips   1 a few   2 many   3 most",
			"shift  0 already dark when a drop wets it   1 slow or patchy",
			"       2 quick and full   3 stays pale        - not looked at",
		} {
			h.lines = append(h.lines, "   "+s)
		}
		h.lines = append(h.lines, "")
	}
	for _, g := range groups {
		h.lines = append(h.lines, m.theme.title.of(" "+g.title))
		for _, b := range g.keys {
			h.lines = append(h.lines, h.line(b))
		}
		h.lines = append(h.lines, "")
	}
	return h
}

// notIn is the bindings whose keys no group takes first.
func notIn(bs []binding, groups []group) []binding {
	taken := map[string]bool{}
	for _, g := range groups {
		for _, b := range g.keys {
			for _, k := range b.Keys() {
				taken[k] = true
			}
		}
	}
	var rest []binding
	for _, b := range bs {
		if !taken[b.Keys()[0]] {
			rest = append(rest, b)
		}
	}
	return rest
}

func (h *help) line(b binding) string {
	text := "   " + show.Pad(b.Help().Key, helpKeyWidth) + b.Help().Desc
	if why := b.why(); why != "" {
		return h.theme.quiet.of(text + "   (" + why + ")")
	}
	return text
}

var helpKeys = struct{ down, up, out key.Binding }{
	down: key.NewBinding(key.WithKeys("j", "down", "pgdown", " ")),
	up:   key.NewBinding(key.WithKeys("k", "up", "pgup")),
	out:  key.NewBinding(key.WithKeys("esc", "?", "q", "enter")),
}

func (h *help) update(msg tea.KeyMsg) (bool, tea.Cmd) {
	step := 1
	if s := msg.String(); s == "pgdown" || s == "pgup" || s == " " {
		step = max(1, h.shown-1)
	}
	switch {
	case key.Matches(msg, helpKeys.out):
		return true, nil
	case key.Matches(msg, helpKeys.down):
		h.top += step
	case key.Matches(msg, helpKeys.up):
		h.top -= step
	}
	h.top = min(max(h.top, 0), max(0, len(h.lines)-h.shown))
	return false, nil
}

func (h *help) draw(p *page, height int) {
	h.shown = height
	h.top = min(max(h.top, 0), max(0, len(h.lines)-height))
	for i := h.top; i < len(h.lines) && i < h.top+height; i++ {
		p.line(fitStyled(h.lines[i], h.width))
	}
}

func (h *help) hints() string {
	if h.top+h.shown < len(h.lines) {
		return "j k scroll: there is more below   esc back"
	}
	return "j k scroll   esc back"
}
