package board

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"tubside/demo"
	"tubside/store"
)

// sessions is how many sessions of random keys are tried; a fifth of them with
// -short.
var sessions = flag.Int("sessions", 30, "sessions of random keys to try")

// Whatever keys come, on whatever screen, in whatever window, at whatever time,
// the board draws whole frames and the book stays sound. Many more sessions:
//
//	go test ./ui/board -run TestRandomKeys -sessions 3000
func TestRandomKeys(t *testing.T) {
	triesOf(t, *sessions)
	books := scenes(t)
	rapid.Check(t, func(rt *rapid.T) {
		g := visit(t, rt, books)
		defer g.leave(rt)
		for range rapid.IntRange(1, 40).Draw(rt, "steps") {
			g.step(rt)
		}
	})
}

// Held-down keys and slow links join keys into one message: each of them finds what
// the one before left, and the book is that of the same keys one by one.
func TestJoinedKeysWriteWhatSingleKeysWrite(t *testing.T) {
	triesOf(t, *sessions)
	books := scenes(t)
	runes := slices.DeleteFunc(slices.Clone(anyKey), func(key string) bool { return len([]rune(key)) != 1 || key == "q" })
	rapid.Check(t, func(rt *rapid.T) {
		scene := rapid.SampledFrom(sceneNames).Draw(rt, "scene")
		screen := rapid.SampledFrom([]string{"t", "s", "d", "r"}).Draw(rt, "screen")
		keys := rapid.SliceOfN(rapid.SampledFrom(runes), 2, 8).Draw(rt, "keys")
		var written [2]string
		for i := range written {
			g := visitOn(t, books, scene)
			g.keys("T", screen)
			before := len(g.store.Book().Entries())
			if i == 0 {
				g.keys(keys...)
			} else {
				g.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(strings.Join(keys, ""))})
			}
			for _, e := range g.store.Book().Entries()[before:] {
				line, err := json.Marshal(e)
				if err != nil {
					rt.Fatal(err)
				}
				written[i] += fmt.Sprintln(e.Seq, string(line))
			}
			g.leave(rt)
		}
		if written[0] != written[1] {
			rt.Errorf("one by one the keys %q write\n%s\njoined\n%s", keys, written[0], written[1])
		}
	})
}

// triesOf sets how often the test's property is tried.
func triesOf(t *testing.T, n int) {
	t.Helper()
	checks := flag.Lookup("rapid.checks")
	before := checks.Value.String()
	t.Cleanup(func() { _ = checks.Value.Set(before) })
	if err := checks.Value.Set(fmt.Sprint(n)); err != nil {
		t.Fatal(err)
	}
}

// scenes are the books that random sessions begin with: every scene of the demo,
// and an empty one.
func scenes(t *testing.T) map[string][]byte {
	t.Helper()
	books := map[string][]byte{}
	for _, name := range sceneNames {
		path := filepath.Join(t.TempDir(), name)
		s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
		if err != nil {
			t.Fatal(err)
		}
		if name != "empty" {
			if _, err := demo.Build(s, demo.Options{Scene: name, Seed: 1, Now: soakDay}); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		if books[name], err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
	}
	return books
}

var sceneNames = func() []string {
	names := []string{"empty"}
	for _, s := range demo.Scenes {
		names = append(names, s.Name)
	}
	return names
}()

// visit opens the board on a copy of one of the books, on any screen, in a
// window of any size.
func visit(t *testing.T, rt *rapid.T, books map[string][]byte) *grower {
	g := visitOn(t, books, rapid.SampledFrom(sceneNames).Draw(rt, "scene"))
	g.anySize(rt)
	g.keys("T", rapid.SampledFrom(screenLetters).Draw(rt, "screen"))
	return g
}

// visitOn opens the board on a copy of the book of a scene.
func visitOn(t *testing.T, books map[string][]byte, scene string) *grower {
	path := filepath.Join(t.TempDir(), scene+".db")
	if err := os.WriteFile(path, books[scene], 0o600); err != nil {
		t.Fatal(err)
	}
	g := &grower{t: t, path: path, now: soakDay, rung: &strings.Builder{}}
	g.open()
	return g
}

// leave closes the book and checks it.
func (g *grower) leave(rt *rapid.T) {
	defer g.store.Close()
	if _, err := g.store.Check(); err != nil {
		rt.Errorf("the book after the session: %v", err)
	}
}

// step is one thing that happens: mostly a key, sometimes time or the window.
func (g *grower) step(rt *rapid.T) {
	switch rapid.IntRange(0, 19).Draw(rt, "what") {
	case 0:
		g.anySize(rt)
	case 1:
		minutes := rapid.SampledFrom([]int{0, 1, 20, 90, 600, 3 * 24 * 60, -60}).Draw(rt, "minutes")
		g.after(time.Duration(minutes) * time.Minute)
	case 2:
		g.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(rapid.SampledFrom(typedTexts).Draw(rt, "text")), Paste: rapid.Bool().Draw(rt, "paste")})
	case 3, 4:
		g.keys("T", rapid.SampledFrom(screenLetters).Draw(rt, "screen"))
	default:
		g.keys(rapid.SampledFrom(anyKey).Draw(rt, "key"))
	}
	if g.board.desk.width > 0 && g.board.desk.height > 0 {
		frameFits(rt, g.board)
	}
	countsHold(rt, g.board)
}

// countsHold checks that what triage kept count of, entry by entry, is what counting
// all plants comes to.
func countsHold(rt *rapid.T, m *board) {
	t := m.screens[0].(*triage)
	if !m.ready || t.placed != m.desk.layout {
		return
	}
	t.recount()
	kept, groups, done, all := t.counts, slices.Clone(t.perGroup), t.keyingIn.done, t.keyingIn.all
	t.count()
	if kept != t.counts || !slices.Equal(groups, t.perGroup) || done != t.keyingIn.done || all != t.keyingIn.all {
		rt.Fatalf("kept %v, %v, %d of %d; counted anew %v, %v, %d of %d", kept, groups, done, all, t.counts, t.perGroup,
			t.keyingIn.done, t.keyingIn.all)
	}
}

func (g *grower) anySize(rt *rapid.T) {
	if rapid.IntRange(0, 3).Draw(rt, "tiny") == 0 {
		g.size(rapid.IntRange(0, 70).Draw(rt, "width"), rapid.IntRange(0, 25).Draw(rt, "height"))
		return
	}
	size := rapid.SampledFrom([][2]int{{60, 20}, {80, 24}, {100, 30}, {160, 50}}).Draw(rt, "size")
	g.size(size[0], size[1])
}

var screenLetters = strings.Split("tsdpwravlhyg", "")

// typedTexts are what a person may type or paste into a field.
var typedTexts = []string{"tub", "21", "70F", "0", "-3", "1e309", "lost", "rot", "2026-02-30", "25:00", "shelf:A", "band:x", "%4", "é世\u202e", strings.Repeat("w", 300), "210f"}

// anyKey is every key there is; those that lead deep and those that lead out
// stand more than once.
var anyKey = func() []string {
	keys := []string{"enter", "enter", "enter", "esc", "esc", "esc", "tab", "shift+tab", "space", "A", "A", "p", "p", "s", "o", "d", "u", "U"}
	for name := range keyTypes {
		if name != "ctrl+c" {
			keys = append(keys, name)
		}
	}
	for r := '!'; r <= '~'; r++ {
		keys = append(keys, string(r))
	}
	return keys
}()
