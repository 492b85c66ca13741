package board

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"tubside/model"
	"tubside/store"
	"tubside/store/beliefs"
	"tubside/ui/show"
)

// plainWidth is how wide the screens are written as lines: so wide that no reason is
// cut; nothing stands beside a list there.
const plainWidth = 240

// Plain writes what the screens show as plain lines, for a screen reader or a log:
// every list whole, without colours and without keys. Screens are named as the
// board names them; none are all. It refuses a name that is none with a
// [model.Problem]. The book is not changed.
func Plain(w io.Writer, s *store.Store, clock func() time.Time, opt Options, names ...string) error {
	d := newDesk(s, clock)
	d.beliefs = beliefs.In(opt.Cache, s)
	d.ascii, d.lines = opt.ASCII, true
	d.dress([]string{"NO_COLOR=1", "TERM=dumb"})
	m := newBoard(d, newBell(io.Discard))
	m.every = func(time.Duration, func(time.Time) tea.Msg) tea.Cmd { return nil }
	for _, name := range names {
		if !slices.ContainsFunc(m.screens, func(s screen) bool { return strings.EqualFold(s.name(), name) }) {
			return &model.Problem{
				What: fmt.Sprintf("there is no screen %q", name),
				Do:   "name one of: " + strings.Join(m.names(), ", "),
			}
		}
	}
	m.desk.width, m.desk.height = plainWidth, 4*d.book.Len()+1000 // a plant takes three lines at most, and a shelf its head
	m.desk.know(workOut(d.beliefs, d.book, d.now))
	m.ready = true
	for i, s := range m.screens {
		if len(names) > 0 && !slices.ContainsFunc(names, func(name string) bool { return strings.EqualFold(name, s.name()) }) {
			continue
		}
		if err := m.plain(w, i); err != nil {
			return err
		}
	}
	return nil
}

// names lists the screens.
func (m *board) names() (names []string) {
	for _, s := range m.screens {
		names = append(names, strings.ToLower(s.name()))
	}
	return names
}

// plain writes one screen.
func (m *board) plain(w io.Writer, i int) error {
	m.show(i)
	m.sync()
	later := m.desk.later
	m.desk.later = nil
	for _, made := range later { // the plan; what else could be done is not waited for
		m.Update(made())
	}
	name, body := m.front().name(), m.plainBody()
	if s, ok := m.front().(*roundScreen); ok { // a list for each job
		for range roundJobs[1:] {
			s.change(1)
			m.sync()
			body += "\n\n" + m.plainBody()
		}
	}
	_, err := fmt.Fprintf(w, "%s\n%s\n%s\n\n", name, strings.Repeat("=", len(name)), body)
	return err
}

// plainBody is what the screen in front shows, as lines.
func (m *board) plainBody() string {
	p := &m.page
	p.reset(m.desk.height)
	p.limit = m.desk.height
	m.front().draw(p, m.desk.height)
	text := ansi.Strip(p.text(m.desk.height))
	if m.desk.ascii {
		text = show.ASCII(text)
	}
	var lines []string
	for line := range strings.Lines(text) {
		lines = append(lines, strings.TrimRight(line, " \n"))
	}
	lines = slices.CompactFunc(lines, func(a, b string) bool { return a == "" && b == "" })
	return strings.Trim(strings.Join(lines, "\n"), "\n")
}
