// Package show is how things are said to a person: words, numbers, units,
// lengths of time, and text that is safe to draw. The board and the shell share
// it; it knows nothing of terminals.
package show

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"github.com/clipperhouse/uax29/v2/graphemes"
)

// Safe cleans text from a file or a form so that it stays on its line and
// cannot steer a terminal: tabs and line ends become spaces; control and format
// characters, bidirectional ones among them, are dropped, and so are marks with
// no letter before them; bytes that are not UTF-8 become U+FFFD. The joiners
// that emoji and some scripts need stay.
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
		case b.Len() == 0 && sitsOn(r):
			// It would sit on whatever is drawn to its left.
		default:
			b.WriteRune(r) // an invalid byte ranges as U+FFFD
		}
	}
	return b.String()
}

// steers reports whether r is drawn as nothing but moves or hides what stands
// around it.
func steers(r rune) bool { return unicode.Is(unicode.Cf, r) && !isJoiner(r) }

// sitsOn reports whether r joins the character before it.
func sitsOn(r rune) bool {
	pair := graphemes.FromString("a" + string(r))
	pair.Next()
	return pair.Value() != "a"
}

// isJoiner reports whether r is the zero width joiner or non-joiner.
func isJoiner(r rune) bool { return r == '\u200d' || r == '\u200c' }

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
	if n, ok := cells(s); ok {
		return n
	}
	return ansi.StringWidth(s)
}

// cells counts the characters of s where each surely takes one cell, as nearly all
// on the board do: letters and signs of the Latin alphabet, the dashes, dots and
// lines it is drawn with. It reports false where one may be wide, joins another, or
// steers the terminal.
func cells(s string) (n int, ok bool) {
	for _, r := range s {
		if r < utf8.RuneSelf {
			if r < ' ' || r > '~' {
				return 0, false
			}
		} else if !oneCell(r) {
			return 0, false
		}
		n++
	}
	return n, true
}

// oneCell reports whether a character beyond ASCII takes one cell.
func oneCell(r rune) bool {
	return r > 0xa0 && r < 0x250 && r != 0xad && r != 0xa9 && r != 0xae || // letters; not the soft hyphen
		r >= 0x2010 && r <= 0x2027 || // dashes, dots and quotes
		r >= 0x2500 && r <= 0x259f || // lines and blocks
		r >= 0x2800 && r <= 0x28ff // braille
}

// Fit cuts s to at most width cells, with an ellipsis where something is
// missing.
func Fit(s string, width int) string {
	if width <= 0 {
		return ""
	}
	n, ok := cells(s)
	switch {
	case ok && n <= width, !ok && ansi.StringWidth(s) <= width:
		return s
	case ok:
		return firstCells(s, width-1) + "…"
	}
	return ansi.Truncate(s, width, "…")
}

// Clause cuts s to at most width cells where a clause of it ends, so that what is left
// says something whole; where none fits, as [Fit] does.
func Clause(s string, width int) string {
	if Width(s) <= width {
		return s
	}
	longest := ""
	for _, end := range []string{"; ", ": ", ", ", " (", "? ", " until "} {
		for rest := s; ; {
			at := strings.LastIndex(rest, end)
			if at < 0 {
				break
			}
			rest = rest[:at]
			whole := rest
			if end[0] == '?' { // a question keeps its mark
				whole += "?"
			}
			if Width(whole) <= width {
				if len(whole) > len(longest) {
					longest = whole
				}
				break
			}
		}
	}
	if 5*Width(longest) > 2*width || strings.HasSuffix(longest, "?") { // less says too little
		return longest
	}
	return Fit(s, width)
}

// firstCells is the first n characters of a text of one cell each.
func firstCells(s string, n int) string {
	for i := range s {
		if n == 0 {
			return s[:i]
		}
		n--
	}
	return s
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
