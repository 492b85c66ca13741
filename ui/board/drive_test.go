package board

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"

	"tubside/model"
	"tubside/model/soak"
	"tubside/store"
)

func TestMain(m *testing.M) {
	lipgloss.SetColorProfile(termenv.Ascii)
	lipgloss.SetHasDarkBackground(true)
	os.Exit(m.Run())
}

// soakDay is a Saturday morning.
var soakDay = time.Date(2026, time.January, 17, 9, 0, 0, 0, time.UTC)

// grower drives a board by keys, with a clock that only she moves.
type grower struct {
	t     testing.TB
	path  string
	store *store.Store
	now   time.Time
	board *board
	rung  *strings.Builder

	offers tea.Cmd     // makes the offers of the plan that was made last
	slow   bool        // what is read beside the keys is there only when fetched
	read   []readAgain // and waits here
}

// newGrower opens a board on a fresh book at 80x24.
func newGrower(t testing.TB) *grower {
	t.Helper()
	g := &grower{t: t, path: filepath.Join(t.TempDir(), "book.db"), now: soakDay, rung: &strings.Builder{}}
	g.open()
	t.Cleanup(func() {
		if _, err := g.store.Check(); err != nil {
			t.Errorf("the book after the test: %v", err)
		}
		_ = g.store.Close()
	})
	return g
}

func (g *grower) open() {
	g.t.Helper()
	s, err := store.Open(g.path, store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		g.t.Fatal(err)
	}
	g.store = s
	g.board = newBoard(newDesk(s, func() time.Time { return g.now }), newBell(g.rung))
	g.board.every = func(time.Duration, func(time.Time) tea.Msg) tea.Cmd { return nil } // the test is the clock
	for _, s := range g.board.screens {
		if s, ok := s.(*planScreen); ok {
			s.ask.Effort = soak.Effort{Work: 1}
		}
	}
	g.size(80, 24)
	if !g.board.ready {
		g.t.Fatal("the board is not ready")
	}
}

// restart leaves the program and starts it again some time later.
func (g *grower) restart(later time.Duration) {
	g.t.Helper()
	if err := g.store.Close(); err != nil {
		g.t.Fatal(err)
	}
	g.now = g.now.Add(later)
	g.open()
}

func (g *grower) size(w, h int) { g.send(tea.WindowSizeMsg{Width: w, Height: h}) }

func (g *grower) send(msg tea.Msg) {
	_, cmd := g.board.Update(msg)
	g.settle(cmd)
}

// settle runs what a command leads to.
func (g *grower) settle(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case tea.BatchMsg:
		for _, c := range msg {
			g.settle(c)
		}
	case workedOut, scaleShown, chartMsg:
		g.send(msg)
	case readAgain:
		if g.read = append(g.read, msg); !g.slow {
			g.fetch()
		}
	case planMade:
		g.send(msg)
	case planBegun:
		_, g.offers = g.board.Update(msg) // other plans of the day are made where a test asks for them
	}
}

// fetch waits for what is read beside the keys.
func (g *grower) fetch() *grower {
	for len(g.read) > 0 {
		msg := g.read[0]
		g.read = g.read[1:]
		g.send(msg)
	}
	return g
}

// keys presses keys by name: single characters, or words such as enter, esc,
// tab, space, backspace, up, down.
func (g *grower) keys(names ...string) *grower {
	g.t.Helper()
	for _, name := range names {
		g.send(keyNamed(name))
	}
	return g
}

// types presses each character of a text.
func (g *grower) types(text string) *grower {
	for _, r := range text {
		g.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	}
	return g
}

var keyTypes = map[string]tea.KeyType{
	"enter": tea.KeyEnter, "esc": tea.KeyEsc, "tab": tea.KeyTab, "shift+tab": tea.KeyShiftTab, "backspace": tea.KeyBackspace,
	"up": tea.KeyUp, "down": tea.KeyDown, "left": tea.KeyLeft, "right": tea.KeyRight, "ctrl+s": tea.KeyCtrlS, "ctrl+c": tea.KeyCtrlC,
	"pgdown": tea.KeyPgDown, "home": tea.KeyHome, "ctrl+u": tea.KeyCtrlU,
}

func keyNamed(name string) tea.KeyMsg {
	if name == "space" {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	if t, ok := keyTypes[name]; ok {
		return tea.KeyMsg{Type: t}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

// after lets time pass and the clock beat once.
func (g *grower) after(d time.Duration) *grower {
	g.now = g.now.Add(d)
	g.send(tickMsg{})
	return g
}

func (g *grower) screen() string { return ansi.Strip(g.board.View()) }

// sees fails unless the screen shows a text.
func (g *grower) sees(text string) *grower {
	g.t.Helper()
	if !strings.Contains(g.screen(), text) {
		g.t.Fatalf("the screen does not show %q:\n%s", text, g.screen())
	}
	return g
}

func (g *grower) doesNotSee(text string) *grower {
	g.t.Helper()
	if strings.Contains(g.screen(), text) {
		g.t.Fatalf("the screen shows %q:\n%s", text, g.screen())
	}
	return g
}

func (g *grower) enters(at time.Time, f model.Fact, ids ...model.ID) *grower {
	g.t.Helper()
	e, err := g.store.Append(model.NewEntry(at, f, ids...))
	if err != nil {
		g.t.Fatal(err)
	}
	g.board.desk.keeper.Follow(e)
	g.board.desk.look()
	g.board.desk.layout++
	g.board.sync()
	return g
}

func (g *grower) row(id model.ID) *model.Row {
	g.t.Helper()
	r := g.board.desk.book.Row(id)
	if r == nil {
		g.t.Fatalf("there is no plant %d", id)
	}
	return r
}

// shelves brings in two small shelves: a week-old soak on Bay, two weeks on
// Loft, 21 °C and 40 %.
func (g *grower) shelves() *grower {
	g.t.Helper()
	var plants []model.Plant
	add := func(label string, form model.Form, leaf model.Leaf, home model.Home, count int) {
		plants = append(plants, model.Plant{ID: model.ID(len(plants) + 1), Label: label, Form: form, Leaf: leaf, Size: 15, Count: count, Home: home})
	}
	add("stricta by the door", model.Rosette, model.Mesic, model.Home{Shelf: "Bay", Spot: "1"}, 1)
	add("bulbosa", model.Bulbous, model.Intermediate, model.Home{Shelf: "Bay", Spot: "2"}, 1)
	add("tectorum", model.Fuzzy, model.Xeric, model.Home{Shelf: "Bay", Spot: "3"}, 1)
	add("ionantha tray", model.Rosette, model.Intermediate, model.Home{Shelf: "Bay", Spot: "4"}, 12)
	add("fuchsii", model.Wispy, model.Mesic, model.Home{Shelf: "Loft", Spot: "1"}, 1)
	add("capitata", model.Rosette, model.Mesic, model.Home{Shelf: "Loft", Spot: "2"}, 1)
	add("xerographica", model.Rosette, model.Xeric, model.Home{Shelf: "Loft", Spot: "10"}, 1)
	told := soakDay.AddDate(0, 0, -7)
	for i := range plants {
		day := told
		if plants[i].Home.Shelf == "Loft" {
			day = told.AddDate(0, 0, -7)
		}
		d, err := model.ParseDay(day.Format("2006-01-02"), model.ISO)
		if err != nil {
			g.t.Fatal(err)
		}
		plants[i].SoakedOn = d
	}
	g.enters(soakDay.AddDate(0, 0, -1), &model.Add{Plants: plants})
	return g.enters(soakDay.Add(-time.Hour), &model.Reading{TempC: 21, RH: 40, Fan: model.FanLow})
}
