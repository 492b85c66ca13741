package show_test

import (
	"strings"
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"tubside/ui/show"
)

func TestSafe(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"plain", "ionantha 'Fuego'", "ionantha 'Fuego'"},
		{"accents and hybrid sign stay", "T. × floridana, Größe", "T. × floridana, Größe"},
		{"tab and line ends", "a\tb\r\nc\u2028d", "a b  c d"},
		{"a title sequence loses its escape", "\x1b]0;x\x07tag", "]0;xtag"},
		{"C1 control", "a\u009b31mb", "a31mb"},
		{"override", "A1\u202eB", "A1B"},
		{"zero width", "ion\u200bantha\ufeff", "ionantha"},
		{"not UTF-8", "caf\xe9", "caf\ufffd"},
		{"joined emoji stays whole", "👩\u200d🌾", "👩\u200d🌾"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := show.Safe(c.in); got != c.want {
				t.Errorf("Safe(%q) = %q, want %q", c.in, got, c.want)
			}
		})
	}
}

// Whatever stands on a tag, nothing of it steers the terminal, and cleaning
// twice changes nothing.
func TestSafeHoldsForAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOf(rapid.Byte()),
			func(b []byte) string { return string(b) })).Draw(t, "text")
		out := show.Safe(in)
		if i := strings.IndexFunc(out, unicode.IsControl); i >= 0 {
			t.Fatalf("Safe(%q) = %q keeps a control character at %d", in, out, i)
		}
		if again := show.Safe(out); again != out {
			t.Fatalf("Safe twice: %q then %q", out, again)
		}
	})
}

func TestFitAndPadKeepTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := show.Safe(rapid.String().Draw(t, "text"))
		width := rapid.IntRange(-2, 30).Draw(t, "width")
		if got := ansi.StringWidth(show.Fit(text, width)); got > max(width, 0) {
			t.Fatalf("Fit(%q, %d) takes %d cells", text, width, got)
		}
		for _, s := range []string{show.Pad(text, width), show.PadLeft(text, width)} {
			if got := ansi.StringWidth(s); got != max(width, 0) {
				t.Fatalf("%q takes %d cells, want %d", s, got, max(width, 0))
			}
		}
	})
}

// What is counted the short way takes the cells it is said to: any character of
// the ranges that are taken for one cell, alone and beside another.
func TestOneCharacterOneCell(t *testing.T) {
	for r := rune(' '); r <= 0x2fff; r++ {
		text := string([]rune{r, 'a', r, r})
		if got, want := show.Width(text), ansi.StringWidth(text); got != want {
			t.Errorf("%U: width %d, want %d", r, got, want)
		}
		if got, want := show.Fit(text, 2), ansi.Truncate(text, 2, "…"); got != want && ansi.StringWidth(text) > 2 {
			t.Errorf("%U: %q, want %q", r, got, want)
		}
	}
}

func TestFitMarksTheCut(t *testing.T) {
	for _, c := range []struct {
		in    string
		width int
		want  string
	}{
		{"xerographica", 12, "xerographica"},
		{"xerographica", 6, "xerog…"},
		{"日本の花", 4, "日…"},
		{"anything", 0, ""},
	} {
		if got := show.Fit(c.in, c.width); got != c.want {
			t.Errorf("Fit(%q, %d) = %q, want %q", c.in, c.width, got, c.want)
		}
	}
	if got := show.Pad("日本の花", 4); got != "日… " {
		t.Errorf("Pad fills the cell a wide character left: %q", got)
	}
	if got := show.PadLeft("85 %", 6); got != "  85 %" {
		t.Errorf("PadLeft = %q", got)
	}
}

func TestASCII(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"plain", "17 home", "17 home"},
		{"window", "1 h – 1 h 30", "1 h - 1 h 30"},
		{"temperature", "21.0 °C", "21.0 C "},
		{"temperature in a sentence", "likely 21 °C, 40 %\nand 70°F", "likely 21 C, 40 % \nand 70F "},
		{"temperature in a column", "\x1b[1m21 °C\x1b[0m 39 %  fan", "\x1b[1m21 C\x1b[0m 39 %   fan"},
		{"temperature on an axis", "21 °C ┤⠤", "21 C  +*"},
		{"frame", "│ 17 │ Größe…", "| 17 | Gro?e~"},
		{"combining accent", "cafe\u0301", "cafe"},
		{"wide", "日本", "????"},
		{"styled", "\x1b[1m▸ É\x1b[0m", "\x1b[1m> E\x1b[0m"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := show.ASCII(c.in); got != c.want {
				t.Errorf("ASCII(%q) = %q, want %q", c.in, got, c.want)
			}
		})
	}
}

// The columns of a finished screen stay where they are.
func TestASCIIKeepsTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := show.Safe(rapid.String().Draw(t, "text"))
		out := show.ASCII(text)
		if got, want := ansi.StringWidth(out), ansi.StringWidth(text); got != want {
			t.Fatalf("ASCII(%q) = %q takes %d cells, want %d", text, out, got, want)
		}
		if i := strings.IndexFunc(out, func(r rune) bool { return r > '~' }); i >= 0 {
			t.Fatalf("ASCII(%q) = %q is not ASCII", text, out)
		}
	})
}

func TestLine(t *testing.T) {
	if got := show.Line("élan"); got != "Élan" {
		t.Errorf("Line = %q", got)
	}
	if got := show.Line(""); got != "" {
		t.Errorf("Line of nothing = %q", got)
	}
}

func TestAClauseSaysSomethingWhole(t *testing.T) {
	const words = "suspected rot: keep it apart, away from the others"
	for width, want := range map[int]string{60: words, 40: "suspected rot: keep it apart", 20: "suspected rot", 9: "suspecte…"} {
		if got := show.Clause(words, width); got != want {
			t.Errorf("in %d cells: %q, want %q", width, got, want)
		}
	}
	if got := show.Clause("still in bloom? Said to be since 3 May of the year before", 40); got != "still in bloom?" {
		t.Errorf("a question that takes less than half the room: %q", got)
	}
	if got := show.Clause("ionantha 1 and 58 more into tub until 09:36", 40); got != "ionantha 1 and 58 more into tub" {
		t.Errorf("a load without its hour: %q", got)
	}
	if got := show.Clause("still in bloom? Said to be since 3 May", 28); got != "still in bloom?" {
		t.Errorf("a question: %q", got)
	}
}
