package show

import (
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"golang.org/x/text/unicode/norm"
)

// asciiSigns are the plain signs for the ones tubside draws itself, one cell
// for one cell, so that a finished screen keeps its columns.
var asciiSigns = map[rune]byte{
	'°': ' ', '²': '2', '³': '3', '·': '-', '×': 'x', '–': '-', '—': '-', '−': '-', '…': '~', '½': '+',
	'→': '>', '←': '<', '↑': '^', '↓': 'v', '▸': '>', '▾': 'v', '›': '>', '‹': '<', '≈': '~', '≤': '<', '≥': '>',
	'✓': '+', '✗': 'x', '●': '*', '○': 'o', '◐': 'o', '•': '*', '█': '#', '▌': '#', '▒': '=', '░': '.', '▏': '|',
	'─': '-', '│': '|', '┌': '+', '┐': '+', '└': '+', '┘': '+', '├': '+', '┤': '+', '┬': '+', '┴': '+', '┼': '+',
	'╭': '+', '╮': '+', '╰': '+', '╯': '+', '━': '=', '═': '=', '║': '|', '‘': '\'', '’': '\'', '“': '"', '”': '"',
}

// ASCII writes s for a terminal that draws nothing else. Accents are dropped,
// what has no plain form becomes question marks, and every character keeps its
// width in cells. Escape sequences pass unchanged.
func ASCII(s string) string {
	if isASCII(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	var state byte
	for len(s) > 0 {
		seq, width, n, next := ansi.DecodeSequence(s, state, nil)
		b.WriteString(asciiOf(seq, width))
		s, state = s[n:], next
	}
	return b.String()
}

// asciiOf is the plain form of one character or escape sequence.
func asciiOf(seq string, width int) string {
	if isASCII(seq) {
		return seq
	}
	r, _ := utf8.DecodeRuneInString(seq)
	if sign, ok := asciiSigns[r]; ok {
		return string(sign)
	}
	if base := norm.NFD.String(seq)[0]; base < utf8.RuneSelf && width == 1 {
		return string(base)
	}
	return strings.Repeat("?", width)
}

func isASCII(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}
