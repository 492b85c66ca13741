package show

import (
	"math/bits"
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"github.com/clipperhouse/uax29/v2/graphemes"
	"golang.org/x/text/unicode/norm"
)

// asciiSigns are the plain signs for the ones tubside draws itself, one cell
// for one cell, so that a finished screen keeps its columns.
var asciiSigns = map[rune]byte{
	'°': ' ', '²': '2', '³': '3', '·': '-', '×': 'x', '–': '-', '—': '-', '−': '-', '…': '~', '½': '+',
	'→': '>', '←': '<', '↑': '^', '↓': 'v', '▸': '>', '◂': '<', '▾': 'v', '›': '>', '‹': '<', '≈': '~', '≤': '<', '≥': '>',
	'▁': '_', '▂': '_', '▃': '-', '▀': '^', '▄': '-', '▅': '=', '▆': '=', '▇': '#',
	'✓': '+', '✗': 'x', '●': '*', '○': 'o', '◐': 'o', '•': '*', '█': '#', '▌': '#', '▒': '=', '░': '.', '▏': '|',
	'╵': '|',
	'─': '-', '│': '|', '┌': '+', '┐': '+', '└': '+', '┘': '+', '├': '+', '┤': '+', '┬': '+', '┴': '+', '┼': '+',
	'╭': '+', '╮': '+', '╰': '+', '╯': '+', '━': '=', '╍': '~', '╌': '~', '┏': '+', '┓': '+', '┗': '+', '┛': '+', '┣': '+', '┫': '+', '┃': '|', '╹': '|', '╻': '|', '╸': '=', '╺': '=', '═': '=', '║': '|', '‘': '\'', '’': '\'', '“': '"',
	'”': '"',
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
	for cluster := graphemes.FromString(s); cluster.Next(); {
		b.WriteString(asciiOf(cluster.Value()))
	}
	return b.String()
}

// asciiOf is the plain form of one character with its marks.
func asciiOf(cluster string) string {
	if isASCII(cluster) {
		return cluster
	}
	r, _ := utf8.DecodeRuneInString(cluster)
	if sign, ok := asciiSigns[r]; ok {
		return string(sign)
	}
	if r >= 0x2800 && r <= 0x28ff { // a cell of a chart: a loose dot, or a line
		if bits.OnesCount32(uint32(r)&0xff) < 2 {
			return "."
		}
		return "*"
	}
	width := ansi.StringWidth(cluster)
	if base := norm.NFD.String(cluster)[0]; base < utf8.RuneSelf && width == 1 {
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
