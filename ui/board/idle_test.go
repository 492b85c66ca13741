package board

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tubside/demo"
	"tubside/store"
)

// A board that nobody touches writes next to nothing, also over a slow line: at
// most 200 bytes a second on every screen, three loads in the water, one of them
// late. Bubble Tea writes the lines that have changed, each after a few bytes that
// go to it. The big clock, which is there to move, is apart.
func TestAnIdleBoardWritesLittle(t *testing.T) {
	const beats, most, goToLine = 60, 200, 8
	path := filepath.Join(t.TempDir(), "book.db")
	s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := demo.Build(s, demo.Options{Scene: "soakday", Seed: 1, Now: soakDay}); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	g := &grower{t: t, path: path, now: soakDay, rung: &strings.Builder{}}
	g.open()
	defer func() { _ = g.store.Close() }()
	for i := range g.board.screens {
		g.now = soakDay.Add(time.Minute) // every screen in the same minute, in which a late load counts its seconds
		g.restart(0)
		g.board.desk.dress([]string{"TERM=xterm-256color", "COLORTERM=truecolor"})
		g.size(160, 50)
		screen := g.board.screens[i]
		g.keys("T", screen.letter())
		before := strings.Split(g.board.View(), "\n")
		written := 0
		for range beats {
			g.after(time.Second)
			after := strings.Split(g.board.View(), "\n")
			for i, line := range after {
				if line != before[i] {
					written += len(line) + goToLine
				}
			}
			before = after
		}
		t.Logf("%s: %d bytes a second", screen.name(), written/beats)
		if written > beats*most {
			t.Errorf("%s: %d bytes a second, at most %d", screen.name(), written/beats, most)
		}
	}
}
