package model

import "unicode"

// Steers reports whether a character is not drawn but moves, turns or hides what
// stands around it: control and format characters. No text of the book keeps
// one, but for tabs and line ends, and the joiners that emoji and some scripts
// need.
func Steers(c rune) bool {
	const joiner, nonJoiner = '\u200d', '\u200c'
	switch c {
	case '\n', '\t', '\r', joiner, nonJoiner:
		return false
	}
	return unicode.IsControl(c) || unicode.Is(unicode.Cf, c)
}
