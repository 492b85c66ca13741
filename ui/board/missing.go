package board

import (
	"fmt"

	"tubside/model"
	"tubside/ui/show"
)

// missing asks which plant of a load that is still to go in is not there: while pulling it or
// laying it in the grower finds that it hangs elsewhere, or is lost.
type missing struct {
	desk *desk
	of   *planScreen
	load int // its number
	ids  model.IDs
	rows window
}

func newMissing(s *planScreen) *missing {
	return &missing{desk: s.desk, of: s, load: s.rows.cursor + 1, ids: s.desk.book.Walk(s.load().IDs())}
}

// about has the page close when one of the plants is no longer in the book.
func (m *missing) about() model.IDs { return m.ids }

func (m *missing) groups() []group {
	return []group{{"Not there", append([]binding{
		act("enter m", "this one is not there: another day", m.leave).foot("not there"),
		act("esc", "back", func() { m.desk.drop(m) }).foot("back"),
	}, m.rows.keys()...)}}
}

func (m *missing) lead() string { return "" }

// leave leaves the plant under the cursor for another day. One that is pulled in the book is
// put back home there, so that the counts add up.
func (m *missing) leave() {
	m.desk.drop(m)
	s, id := m.of, m.ids[m.rows.cursor]
	s.before = s.plan
	var fact model.Fact = &model.PutBack{}
	about := model.IDs{id}
	if !m.desk.book.Waiting().Has(id) {
		fact, about = s.plan.Skip(s.desk.book, s.desk.now, id), nil
	}
	if s.desk.enter(fact, about...) {
		s.desk.say("%s is left for another day; u takes it back", s.desk.named(id))
	}
}

func (m *missing) draw(p *page, height int) {
	p.line("")
	p.line(m.desk.heading(fmt.Sprintf("Load %d: which plant is not there?", m.load), show.Count(len(m.ids), "plant")))
	m.rows.fit(len(m.ids), height-2)
	for i, until := m.rows.inView(); i < until; i++ {
		r := m.desk.book.Row(m.ids[i])
		line := show.Fit("  "+loadColumns(m.desk, r, 22, true), m.desk.width)
		if i == m.rows.cursor {
			line = m.desk.barred(line)
		}
		p.line(line)
	}
}
