package board

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/ui/show"
)

// places is the way to any screen in two keys.
type places struct{ *board } // it switches screens

func newPlaces(m *board) *places { return &places{m} }

func (g *places) update(msg tea.KeyMsg) (bool, tea.Cmd) {
	for i, s := range g.screens {
		if msg.String() == s.letter() {
			g.show(i)
		}
	}
	return true, nil
}

func (g *places) hints() string { return "a letter goes there   any other key goes back" }

func (g *places) draw(p *page, height int) {
	p.line("")
	p.line(g.heading("Go to", ""))
	for _, s := range g.screens {
		name := s.name()
		if badge := s.badge(); badge != "" {
			name += " " + badge
		}
		p.line(fmt.Sprintf("   %s   %s", g.theme.title.of(s.letter()), show.Fit(name, g.width-8)))
	}
}
