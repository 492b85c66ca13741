package board

import (
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"tubside/ui/show"
)

// Danger stands in place of the soak, and is read whole in the narrowest window.
func TestDangerIsNotCut(t *testing.T) {
	g := newGrower(t).shelves().keys("!")
	for _, size := range [][2]int{{60, 20}, {80, 24}, {100, 30}, {160, 50}} {
		g.size(size[0], size[1])
		g.sees("ROT, keep apart")
	}
}

// The whole reason stands under the list, and beside it where there is room.
func TestTheWholeReasonIsRead(t *testing.T) {
	g := newGrower(t).shelves().keys("2", "1", "0", "k")
	for _, size := range [][2]int{{60, 20}, {80, 24}, {100, 30}} {
		g.size(size[0], size[1])
		if words := strings.Join(strings.Fields(strings.ReplaceAll(g.screen(), "│", "")),
			" "); !strings.Contains(words, "deep channel, a few brown new tips, already dark") {
			t.Errorf("at %v:\n%s", size, g.screen())
		}
	}
	g.size(160, 50)
	g.sees("Seen today: deep channel").sees("Written").sees("1 of 4 looked at")
}

// Bands are said in words at every width: a letter would have to be learned, and P was
// both a band and a key.
func TestBandsAreWordsAtEveryWidth(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("3", "3", "0", "P", "s")
	letters := regexp.MustCompile(`\b[ROLSPDM] [0-9]`)
	for _, size := range [][2]int{{60, 20}, {80, 24}, {100, 30}, {160, 50}} {
		g.size(size[0], size[1])
		if found := letters.FindString(g.screen()); found != "" {
			t.Errorf("at %d columns a band is %q:\n%s", size[0], found, g.screen())
		}
	}
}

// A plant that gets mist and no soak says why where the minutes of the others stand.
func TestMistSaysWhyInItsRow(t *testing.T) {
	g := newGrower(t).shelves().tellMistOnly().keys("j")
	for _, size := range [][2]int{{60, 20}, {80, 24}, {100, 30}, {160, 50}} {
		g.size(size[0], size[1])
		row := regexp.MustCompile(`(?m)^.*stricta by.*Mist .*$`).FindString(g.screen())
		if !strings.Contains(row, "mist only") {
			t.Errorf("at %d columns:\n%s", size[0], g.screen())
		}
	}
}

// Why a plant gets mist is said whole, or as far as its first words go.
func TestMistOfAPlantInBloomIsNotCutInAWord(t *testing.T) {
	g := newGrower(t).shelves().keys("b")
	for _, size := range [][2]int{{60, 20}, {80, 24}, {100, 30}, {160, 50}} {
		g.size(size[0], size[1])
		row := regexp.MustCompile(`Mist  .*in bloom.*`).FindString(g.screen())
		if row == "" || strings.Contains(row, "…") {
			t.Errorf("at %d columns %q:\n%s", size[0], row, g.screen())
		}
	}
}

// However many bands have plants, their counts end at the edge of the window, and what the
// list leaves out is said.
func TestTheCountsFitTheNarrowestWindow(t *testing.T) {
	g := newGrower(t).shelves()
	g.size(60, 20)
	tr := g.board.screens[0].(*triage)
	for b := range tr.counts {
		tr.counts[b] = 294
	}
	for _, only := range []string{"", "“stricta” only"} {
		tr.filter, tr.only = only, only
		line := ansi.Strip(tr.countsLine())
		if show.Width(line) > 60 || !strings.Contains(line, only) || strings.Contains(line, "…") {
			t.Errorf("%d cells: %q", show.Width(line), line)
		}
	}
}

// What is left of a plant's story ends with a sentence, and "T. ionantha" ends none.
func TestASentenceIsNotEndedByAGenus(t *testing.T) {
	text := "Seen 87 days ago: deep channel. Badly dry: T. ionantha does not recover once 75 % is gone."
	for width := 20; width < 60; width++ {
		for room := 1; room < 4; room++ {
			lines := sentencesIn(text, width, room)
			if last := lines[len(lines)-1]; strings.HasSuffix(last, "T.") {
				t.Errorf("%d lines of %d: %q", room, width, lines)
			}
		}
	}
}

// A number and its unit stand on one line.
func TestANumberKeepsItsUnit(t *testing.T) {
	text := "2 h 46 min in water brings it back to 96 %. 5 plants, 12 days, 30 L, came 15 Dec 2022."
	for width := 12; width < 70; width++ {
		lines := wrap(text, width)
		for _, line := range lines[1:] {
			if regexp.MustCompile(`^(%|min|h|L|Dec)|^46|^2022`).MatchString(line) {
				t.Errorf("%d: %q", width, lines)
			}
		}
		if got := strings.Join(lines, " "); got != text {
			t.Errorf("%d: %q", width, got)
		}
	}
}
