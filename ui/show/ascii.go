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
	'²': '2', '³': '3', '·': '-', '×': 'x', '–': '-', '—': '-', '−': '-', '…': '~', '½': '+',
	'→': '>', '←': '<', '↑': '^', '↓': 'v', '▸': '>', '◂': '<', '▾': 'v', '›': '>', '‹': '<', '≈': '~', '≤': '<', '≥': '>',
	'▁': '_', '▂': '_', '▃': '-', '▀': '^', '▄': '-', '▅': '=', '▆': '=', '▇': '#',
	'✓': '+', '✗': 'x', '●': '*', '○': 'o', '◐': 'o', '•': '*', '█': '#', '▌': '#', '▒': '=', '░': '.', '▏': '|',
	'╵': '|',
	'─': '-', '│': '|', '┌': '+', '┐': '+', '└': '+', '┘': '+', '├': '+', '┤': '+', '┬': '+', '┴': '+', '┼': '+',
	'╭': '+', '╮': '+', '╰': '+', '╯': '+', '━': '=', '╍': '~', '╌': '~', '┏': '+', '┓': '+', '┗': '+', '┛': '+', '┣': '+', '┫': '+', '┃': '|', '╹': '|', '╻': '|', '╸': '=', '╺': '=', '═': '=', '║': '|', '‘': '\'', '’': '\'', '“': '"',
	'”': '"',
}

// degree has no plain sign: "21 °C" is "21 C".
const degree = "°"

// ASCII writes s for a terminal that draws nothing else. Accents are dropped,
// what has no plain form becomes question marks, and every character keeps its
// width in cells, but for the sign of a degree: it goes, and the blank for it stands
// where the next column begins. Escape sequences pass unchanged.
func ASCII(s string) string {
	if isASCII(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	owed, before := 0, ""
	pay := func() {
		b.WriteString(strings.Repeat(" ", owed))
		owed = 0
	}
	for cluster := graphemes.FromString(s); cluster.Next(); {
		c := cluster.Value()
		if c == degree {
			owed++
			continue
		}
		if owed > 0 && (c == "\n" || before == " " && (c == " " || ofDrawing(c))) {
			pay()
		}
		b.WriteString(asciiOf(c))
		before = c
	}
	pay()
	return b.String()
}

// ofDrawing reports whether a character is part of a frame or a chart, which stays in its place.
func ofDrawing(cluster string) bool {
	r, _ := utf8.DecodeRuneInString(cluster)
	return r >= 0x2500 && r <= 0x28ff || r == '|'
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
