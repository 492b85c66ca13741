package board

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/ui/show"
)

// places is the way to any screen in two keys.
type places struct {
	desk    *desk
	screens []screen
	show    func(int)
}

func newPlaces(d *desk, screens []screen, show func(int)) *places {
	return &places{d, screens, show}
}

func (g *places) groups() []group {
	keys := make([]binding, 0, len(g.screens)+1)
	for i, s := range g.screens {
		keys = append(keys, act(s.letter(), s.name(), func() { g.show(i) }))
	}
	keys = append(keys, remark("a letter goes there"),
		anyOther("goes back", func(tea.KeyMsg) tea.Cmd { g.desk.drop(g); return nil }).foot("goes back"))
	return []group{{"Go to", keys}}
}

func (g *places) lead() string { return "" }

func (g *places) draw(p *page, height int) {
	p.line("")
	p.line(g.desk.heading("Go to", ""))
	for _, s := range g.screens {
		name := s.name()
		if badge := s.badge(); badge != "" {
			name += " " + badge
		}
		p.line(fmt.Sprintf("   %s   %s", g.desk.theme.title.of(s.letter()), show.Fit(name, g.desk.width-8)))
	}
}
