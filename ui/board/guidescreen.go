package board

import (
	"fmt"

	"tubside/ui/paper"
	"tubside/ui/show"
)

// guideScreen is the soak day in short pages, with the keys, the cautions and what
// the numbers rest on: the words of the printed guide.
type guideScreen struct {
	reader
	pages []paper.GuidePage
	back  func() // to the screen it was opened from; nil when it was gone to
}

func newGuide(d *desk) *guideScreen {
	s := &guideScreen{pages: paper.Guide()}
	s.reader = reader{desk: d, behind: s}
	return s
}

func (s *guideScreen) name() string   { return "Guide" }
func (s *guideScreen) letter() string { return "g" }
func (s *guideScreen) badge() string  { return "" }
func (s *guideScreen) list() *list    { return nil }
func (s *guideScreen) lead() string   { return "" }

func (s *guideScreen) open() {
	s.back = nil
	s.sync()
}

// sync lays the pages out when the window's width is another.
func (s *guideScreen) sync() {
	if s.wide != s.desk.laid() {
		at := s.partHere()
		s.fill(paper.GuideSheet(s.pages))
		s.turnTo(at)
	}
}

func (s *guideScreen) groups() []group {
	leave := act("esc", "back to the screen it was opened from", func() { s.back() }).
		footWhen("back", func() bool { return s.back != nil }).unless(func() string {
		if s.back == nil {
			return "T and a letter goes to another screen"
		}
		return ""
	})
	return []group{{"Guide", append(s.keys(), leave, remark("(on paper: tubside guide --sheet)"))}}
}

// about turns to the first page on a screen, or to the first of all.
func (s *guideScreen) about(screen string) {
	for i, p := range s.pages {
		if p.Screen == screen {
			s.turnTo(i)
			return
		}
	}
	s.turnTo(0)
}

func (s *guideScreen) draw(p *page, height int) {
	p.line(s.desk.heading("The soak day", fmt.Sprintf("%s ", show.Count(len(s.pages), "page"))))
	s.reader.draw(p, height-1)
}

// guide opens the guide where it is about the screen in front.
func (m *board) guide() {
	about := m.front().name()
	for i, s := range m.screens {
		if s, ok := s.(*guideScreen); ok && i != m.at {
			from := m.at
			m.show(i)
			s.about(about)
			s.back = func() { m.show(from) }
		}
	}
}
