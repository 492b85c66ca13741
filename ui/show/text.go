// Package show is how things are said to a person: words, numbers, units,
// lengths of time, and text that is safe to draw. The board and the shell share
// it; it knows nothing of terminals.
package show

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// Safe cleans text from a file or a form so that it stays on its line and
// cannot steer a terminal: tabs and line ends become spaces, control
// characters, bidirectional marks and zero-width characters are dropped, bytes
// that are not UTF-8 become U+FFFD. The joiners that emoji and some scripts need
// stay.
func Safe(s string) string {
	if plain(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	for _, r := range s {
		switch {
		case r == '\t' || r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029':
			b.WriteByte(' ')
		case unicode.IsControl(r) || steers(r):
		default:
			b.WriteRune(r) // an invalid byte ranges as U+FFFD
		}
	}
	return b.String()
}

// steers reports whether r is drawn as nothing but moves or hides what stands
// around it.
func steers(r rune) bool {
	switch {
	case r == '\u200b' || r == '\u2060' || r == '\ufeff': // zero width
		return true
	case r == '\u061c' || r == '\u200e' || r == '\u200f': // direction marks
		return true
	case r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069': // embeddings, overrides, isolates
		return true
	}
	return r >= 0xE0000 && r <= 0xE007F // tags
}

// plain reports whether s is printable ASCII and nothing else: one byte, one
// cell.
func plain(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// Width is how many cells s takes.
func Width(s string) int {
	if plain(s) {
		return len(s)
	}
	return ansi.StringWidth(s)
}

// Fit cuts s to at most width cells, with an ellipsis where something is
// missing.
func Fit(s string, width int) string {
	switch {
	case width <= 0:
		return ""
	case Width(s) <= width:
		return s
	}
	return ansi.Truncate(s, width, "…")
}

// Pad cuts or fills s to exactly width cells, the text at the left.
func Pad(s string, width int) string {
	s = Fit(s, width)
	return s + blank(width-Width(s))
}

// PadLeft cuts or fills s to exactly width cells, the text at the right.
func PadLeft(s string, width int) string {
	s = Fit(s, width)
	return blank(width-Width(s)) + s
}

const blanks = "                                                                                                                        "

func blank(n int) string {
	switch {
	case n <= 0:
		return ""
	case n <= len(blanks):
		return blanks[:n]
	}
	return strings.Repeat(" ", n)
}

// Line makes a clause stand as a line of its own: its first letter large.
func Line(clause string) string {
	r, n := utf8.DecodeRuneInString(clause)
	if n == 0 {
		return clause
	}
	return string(unicode.ToUpper(r)) + clause[n:]
}
