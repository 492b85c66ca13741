// Package board is the full-screen board: the screens of a soak day, drawn from
// the outlook and changed only by entries.
package board

import (
	"fmt"
	"io"
	"slices"
	"strings"
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
	ready   bool   // what the plants need is known
	early   []tea.KeyMsg
	waits   *workedOut // what the plants need, known before the window's size
	every   func(time.Duration, func(time.Time) tea.Msg) tea.Cmd
	page    page
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

// begin shows the board with what was worked out, and does the keys that came
// meanwhile.
func (m *board) begin(r workedOut) tea.Cmd {
	m.desk.know(r)
	m.ready = true
	ring, overdue := m.bell.check(m.desk)
	m.show(m.urgent())
	m.sync()
	if said := m.sinceYouLeft(); said != "" {
		m.desk.say("%s", said)
		m.desk.trouble = overdue
	} else if overdue {
		l := m.desk.loads[0]
		m.desk.say("%s is due since %s: take out %s", show.Line(show.Safe(l.Vessel)),
			show.Clock(l.Due, m.desk.now, m.desk.book.Zone()), show.Count(l.Left, "plant"))
		m.desk.trouble = true
	}
	if m.desk.said == "" {
		m.sayRefused()
	}
	if m.demo != "" {
		m.desk.say("Only a demo: %s. Nothing here touches your own book", m.demo)
	}
	m.takeIn()
	cmds := []tea.Cmd{ring, m.tick(), m.listen(), m.askPaper()}
	if m.first {
		m.desk.push(newFirstMinute(m.desk))
	}
	for _, msg := range m.early {
		cmds = append(cmds, m.keys(msg))
	}
	m.early = nil
	m.sync()
	return tea.Batch(cmds...)
}

// away is how long nothing must have been written for the grower to have been away.
const away = 20 * time.Minute

// sinceYouLeft says what has come due since the last entry; "" when nothing has, or
// when the grower has hardly been away.
func (m *board) sinceYouLeft() string {
	last, ok := m.desk.book.LastToStrike()
	if !ok || m.desk.now.Sub(last.At) < away {
		return ""
	}
	var late, dry int
	for _, l := range m.desk.loads {
		if l.Due.After(last.At) && !m.desk.now.Before(l.Due) {
			late++
		}
	}
	for i := range m.desk.outlook.Drying {
		d := &m.desk.outlook.Drying[i]
		if m.desk.book.Row(d.ID).State == model.Drying && d.Expected.After(last.At) && m.desk.toCheck(d) {
			dry++
		}
	}
	var parts []string
	if late > 0 {
		parts = append(parts, show.Count(late, "load")+" late")
	}
	if dry > 0 {
		parts = append(parts, fmt.Sprintf("%d ready to check", dry))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Since you left, " + show.Clock(last.At, m.desk.now, m.desk.book.Zone()) + ": " + strings.Join(parts, ", ")
}

// urgent is the screen where something is overdue: a load that is due, plants that
// dry for longer than they should. With nothing overdue it is the first.
func (m *board) urgent() int {
	letter := m.screens[0].letter()
	switch {
	case len(m.desk.loads) > 0 && !m.desk.now.Before(m.desk.loads[0].Due):
		letter = "s"
	case m.desk.overdue > 0:
		letter = "d"
	}
	return slices.IndexFunc(m.screens, func(s screen) bool { return s.letter() == letter })
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

// Init works out what the plants need, which on a large book takes longer than a
// first frame may.
func (m *board) Init() tea.Cmd {
	believed, book, now := m.desk.beliefs, m.desk.book, m.desk.now
	return tea.Batch(tea.SetWindowTitle("tubside"), func() tea.Msg { return workOut(believed, book, now) })
}

// tickMsg is the clock's beat; it only asks for a look at the time.
type tickMsg struct{}

// tick beats each second while something is in the water, else each minute.
func (m *board) tick() tea.Cmd {
	pause := time.Minute
	if len(m.desk.loads) > 0 {
		pause = time.Second
	}
	return m.every(pause, func(time.Time) tea.Msg { return tickMsg{} })
}

// Update takes one message. Every message sees one time.
func (m *board) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	m.desk.now = m.desk.clock()
	if !m.ready {
		return m, tea.Batch(m.updateEarly(msg), m.desk.startLater())
	}
	defer m.desk.redress()
	before := len(m.desk.loads)
	var cmd tea.Cmd
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.desk.width, m.desk.height = msg.Width, msg.Height
		m.sync()
	case tea.KeyMsg:
		cmd = m.keys(msg)
		m.sync()
	case planBegun, planMade:
		for _, s := range m.screens {
			if s, ok := s.(*planScreen); ok {
				cmd = s.arrive(msg)
			}
		}
		m.sync()
	case scaleShown:
		msg.of.page = &msg.page
	case chartMsg:
		m.screens[0].(*triage).drawChart(msg)
	case readAgain:
		m.desk.catchUp(msg)
		m.sync()
	case tickMsg:
		cmd = tea.Batch(m.beat(), m.tick())
	case inboxMsg:
		m.takeIn()
		cmd = m.listen()
	case tea.ResumeMsg:
		cmd = m.beat()
	case paperMsg:
		m.desk.learn(msg)
	}
	cmd = tea.Batch(cmd, m.desk.startLater())
	if before == 0 && len(m.desk.loads) > 0 {
		cmd = tea.Batch(cmd, m.tick()) // the slow beat would miss the first due time
	}
	return m, cmd
}

// beat looks at the time: loads that have come due ring, and once a minute the
// whole outlook is worked out again.
func (m *board) beat() tea.Cmd {
	if m.desk.now.Sub(m.desk.outlook.At) >= time.Minute || m.desk.now.Before(m.desk.outlook.At) {
		m.desk.look()
		m.sync()
	}
	ring, justDue := m.bell.check(m.desk)
	if justDue && len(m.desk.over) == 0 {
		m.desk.push(newClock(m.desk)) // to be seen from wherever the grower is
	}
	return ring
}

// sync makes what is shown keep up with the book. A card whose plant is no longer
// in the book, because the entry that brought it was struck, closes.
func (m *board) sync() {
	m.desk.over = slices.DeleteFunc(m.desk.over, func(o overlay) bool {
		about, ok := o.(interface{ about() model.IDs })
		return ok && slices.ContainsFunc(about.about(), func(id model.ID) bool { return m.desk.book.Row(id) == nil })
	})
	m.front().sync()
}

// keys splits what came in one read into single keys: held-down keys and slow
// links join them, and a joined key would match nothing.
func (m *board) keys(msg tea.KeyMsg) tea.Cmd {
	if m.desk.width < minWidth || m.desk.height < minHeight {
		if msg.String() == "q" || msg.String() == "ctrl+c" {
			return tea.Quit
		}
		return nil // nobody should act on what cannot be seen
	}
	if msg.Type != tea.KeyRunes || len(msg.Runes) < 2 || msg.Paste {
		return m.key(msg)
	}
	var cmds []tea.Cmd
	for i, r := range msg.Runes {
		if i > 0 {
			m.sync() // each key finds what the one before left
		}
		cmds = append(cmds, m.key(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: msg.Alt}))
	}
	return tea.Batch(cmds...)
}

// key gives one key to whatever is in front.
func (m *board) key(msg tea.KeyMsg) tea.Cmd {
	if msg.String() == "ctrl+c" {
		return tea.Quit
	}
	if n := len(m.desk.over); n > 0 && m.scans(msg) {
		m.scan()
		return nil
	} else if n > 0 {
		cmd, _ := m.desk.press(m.desk.over[n-1].groups(), msg)
		return cmd
	}
	if msg.Paste {
		m.desk.say("Pasted text is only taken in forms")
		return nil
	}
	m.desk.said = ""
	return m.pass(msg)
}

// pass gives a key to the screen in front, and to what works everywhere.
func (m *board) pass(msg tea.KeyMsg) tea.Cmd {
	cmd, _ := m.desk.press(append(m.front().groups(), m.global), msg)
	return cmd
}

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

// globalKeys work on every screen.
func (m *board) globalKeys() group {
	none := func() string {
		if m.plant() == 0 && !m.desk.onPad() {
			return "No plant here"
		}
		return ""
	}
	return group{"Everywhere", []binding{
		act("tab", "next screen", func() { m.show(m.at + 1) }).pad("/"),
		act("shift+tab", "screen before", func() { m.show(m.at - 1) }),
		act("enter", "open the plant's card; on a number pad all that has no key there", m.open).unless(none),
		act("T", "to another screen by its letter", func() { m.desk.push(newPlaces(m.desk, m.screens, m.show)) }),
		act("/", "find a plant, or words on the page", m.seek).unless(m.noPlants),
		act("n", "next one found, or the next of the same name", func() { m.findAgain(1) }).unless(m.noPlants),
		act("N", "one found before, or the last of the same name", func() { m.findAgain(-1) }).unless(m.noPlants),
		act("u", "undo the last entry", m.desk.strike).pad("9"),
		act("U", "redo what was undone", m.desk.bringBack),
		act("a", "enter a reading of the air", func() { m.desk.push(readingForm(m.desk)) }),
		act("c", "big clock", func() { m.desk.push(newClock(m.desk)) }),
		act("#", "number pad: digits, + - * / . and enter alone, or not", m.desk.switchPad),
		act(model.CodeSign, "a label's code, as a scanner types it: to the plant, into the load, dry, or hung", m.scan),
		act("E", "the guide, where it explains this screen", m.guide),
		act("?", "help", func() { m.desk.push(newHelp(m)) }),
		bind("ctrl+l", "draw the screen again", func(tea.KeyMsg) tea.Cmd { return tea.ClearScreen }),
		bind("ctrl+z", "suspend", func(tea.KeyMsg) tea.Cmd { return m.suspend() }),
		bind("q", "leave", func(tea.KeyMsg) tea.Cmd { return tea.Quit }),
	}}
}

// open opens the card of the plant under the cursor. On a number pad it opens the
// menu of what has no key there, with the card on top.
func (m *board) open() {
	if m.desk.onPad() {
		m.desk.push(newPadMenu(m))
		return
	}
	m.desk.push(newCard(m.desk, m.front().list(), m.pass))
}

// noPlants says why a plant cannot be sought here, if it cannot.
func (m *board) noPlants() string {
	if _, ok := m.front().(finder); !ok && m.front().list() == nil {
		return "Nothing is listed on this screen"
	}
	return ""
}
