// Package board is the full-screen board: the screens of a soak day, drawn from
// the outlook and changed only by entries.
package board

import (
	"io"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/store"
	"tubside/store/beliefs"
	"tubside/ui/show"
)

// Smallest screen the board can be used on.
const (
	minWidth  = 60
	minHeight = 20
)

// dayScreens is how many screens belong to a soak day; they come first. In a narrow
// window the last of them is named only in front.
const (
	dayScreens   = 4
	narrowHeader = 76
)

// screen is one of the board's main screens.
type screen interface {
	name() string
	// letter is the key that goes to the screen after T.
	letter() string
	// badge is a count beside the name, "" for none.
	badge() string
	// open is called when the screen comes to the front; while it is there, sync
	// after every entry, look or change of size.
	open()
	sync()
	// groups are the screen's keys.
	groups() []group
	// lead stands in the footer before the keys, "" mostly.
	lead() string
	// draw writes exactly height lines.
	draw(page *page, height int)
	// list is the screen's list of plants, nil when it shows something else.
	list() *list
}

// overlay is something in front of the screen that takes the keys: a card, a
// form, help, a prompt, the big clock.
type overlay interface {
	groups() []group
	lead() string
	draw(page *page, height int)
}

// board is the program: one model, its screens, and what lies over them.
type board struct {
	desk    *desk
	screens []screen
	at      int
	global  group // keys that work on every screen
	bell    *bell
	sought  string // what find looks for
	working bool   // what the plants need is being worked out, or known
	ready   bool   // it is known
	early   []tea.KeyMsg
	every   func(time.Duration, func(time.Time) tea.Msg) tea.Cmd
	page    page
	leaving bool   // it was asked whether to leave with plants in the water
	beating bool   // a look at how long a plan has been in the making is on its way
	first   bool   // the book has just been begun
	demo    string // the moment of a made-up collection, "" for a grower's own book
	ask     func() // asks the terminal for its background, nil where nobody answers
}

// newBoard puts the screens together.
func newBoard(d *desk, b *bell) *board {
	m := &board{desk: d, bell: b, every: tea.Every}
	m.screens = []screen{
		newTriage(d, m.pass), newSoak(d), newDrying(d), newPlan(d), newWeek(d),
		newRounds(d), newRoom(d), newTrip(d), newLedger(d), newRules(d), newHistory(d), newGuide(d),
	}
	for _, s := range m.screens {
		if l := s.list(); l != nil && l.bar == nil {
			l.bar = m.desk.barred
		}
	}
	m.global = m.globalKeys()
	return m
}

func (m *board) front() screen { return m.screens[m.at] }

// plant is the plant under the cursor, 0 when there is none.
func (m *board) plant() model.ID {
	if l := m.front().list(); l != nil {
		return l.current()
	}
	return 0
}

// show brings a screen to the front; what lay over the one before goes with it.
func (m *board) show(i int) {
	m.desk.over = nil
	left := ""
	if t, ok := m.front().(*triage); ok {
		left = t.stopKeying()
	}
	m.at = (i + len(m.screens)) % len(m.screens)
	if m.front().open(); left != "" {
		m.desk.say("%s", left)
	}
}

// Init names the window. All else waits for its size.
func (m *board) Init() tea.Cmd { return tea.SetWindowTitle("tubside") }

// Options say how the board is shown.
type Options struct {
	ASCII  bool      // draw nothing beyond ASCII
	First  bool      // the book has just been begun: ask what a new book has to know
	Demo   string    // the moment of a made-up collection, in words; "" for a grower's own book
	Input  io.Reader // nil for the terminal
	Output io.Writer // nil for the terminal
	Cache  string    // the folder for what can be worked out again; "" for none
}

// Run shows the board until the person leaves it. Every entry made is already
// in the store when Run returns.
func Run(s *store.Store, clock func() time.Time, opt Options) error {
	d := newDesk(s, clock)
	d.beliefs = beliefs.In(opt.Cache, s)
	err := run(d, opt)
	if err == nil && d.keeper != nil {
		_ = beliefs.In(opt.Cache, s).Keep(d.keeper) // without it the next start takes longer, and no more
	}
	return err
}

// View draws the frame.
func (m *board) View() string {
	if m.desk.width == 0 || m.desk.height == 0 {
		return ""
	}
	p := &m.page
	p.reset(m.desk.height)
	if m.desk.width < minWidth || m.desk.height < minHeight {
		m.drawTooSmall(p)
	} else if !m.ready {
		m.drawEarly(p)
	} else {
		m.drawFrame(p)
	}
	out := p.text(m.desk.height)
	if m.desk.ascii {
		return show.ASCII(out)
	}
	return out
}
