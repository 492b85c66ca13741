// Package ink is the board's colours: one palette for dark paper and one for
// light, each chosen three times, for terminals with sixteen million colours,
// with 256 and with 16. Where there are none, bold and reverse are left.
package ink

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/colorprofile"
)

// Depth is how many colours a terminal shows.
type Depth int

// The depths, from nothing at all to every colour.
const (
	Plain     Depth = iota // text alone, for a terminal that knows nothing else
	Mono                   // bold and reverse, no colour
	Sixteen                // the colours of the terminal's own theme
	Many                   // the 256 of xterm
	Truecolor              // red, green and blue in 256 steps each
)

// Paper is the background, which the terminal paints and the board leaves alone.
type Paper int

// The two papers, and that of a terminal that does not say which it has.
const (
	Dark Paper = iota
	Light
	Either
)

// Ink is one colour as each depth has it.
type Ink struct {
	Hex  string // "#rrggbb"
	Many uint8  // its number among the 256 of xterm
	Few  uint8  // its number among the 16 of the terminal's theme
	Bold bool   // with 16 colours, bold to set it off from a neighbour of the same number
}

// Over is the sequence that turns text to this ink, "" where there is no colour.
func (i Ink) Over(d Depth) string { return i.sequence(d, 38, 30, 90) }

// Under is the sequence that puts this ink behind text, "" where there is no
// colour.
func (i Ink) Under(d Depth) string { return i.sequence(d, 48, 40, 100) }

// sequence is the SGR sequence (ECMA-48, 8.3.117) for a colour: wide introduces
// one of many, dim and bright are the first codes of the two rows of eight.
func (i Ink) sequence(d Depth, wide, dim, bright int) string {
	switch d {
	case Truecolor:
		rgb, _ := strconv.ParseUint(strings.TrimPrefix(i.Hex, "#"), 16, 32)
		return fmt.Sprintf("\x1b[%d;2;%d;%d;%dm", wide, rgb>>16, rgb>>8&255, rgb&255)
	case Many:
		return fmt.Sprintf("\x1b[%d;5;%dm", wide, i.Many)
	case Sixteen:
		if i.Few < 8 {
			return fmt.Sprintf("\x1b[%dm", dim+int(i.Few))
		}
		return fmt.Sprintf("\x1b[%dm", bright+int(i.Few)-8)
	}
	return ""
}

// DepthFrom reads the depth from the environment of a program, as "NAME=value",
// for a terminal. NO_COLOR with any value leaves bold and reverse
// (no-color.org).
func DepthFrom(environ []string) Depth {
	var depth Depth
	switch colorprofile.Env(environ) {
	case colorprofile.TrueColor:
		depth = Truecolor
	case colorprofile.ANSI256:
		depth = Many
	case colorprofile.ANSI:
		depth = Sixteen
	case colorprofile.Ascii:
		depth = Mono
	}
	if value(environ, "NO_COLOR") != "" {
		return min(depth, Mono)
	}
	return depth
}

// PaperFrom reads the paper from the environment: from TUBSIDE_PAPER, "dark" or "light",
// by which a person says it for a terminal that does not; else from COLORFGBG, "15;0" or
// "0;default;15", which some terminals set: the last number is the background's. It
// reports false when nothing is said.
func PaperFrom(environ []string) (Paper, bool) {
	switch value(environ, "TUBSIDE_PAPER") {
	case "dark":
		return Dark, true
	case "light":
		return Light, true
	}
	said := value(environ, "COLORFGBG")
	n, err := strconv.Atoi(said[strings.LastIndex(said, ";")+1:])
	switch {
	case err != nil || n < 0 || n > 15:
		return Dark, false
	case n == 7 || n > 8:
		return Light, true
	}
	return Dark, true
}

// PaperOf reads a terminal's answer to the question for its background
// (OSC 11, xterm control sequences): "rgb:ffff/ffff/dddd", with one to four
// digits a colour. It reports false when the answer is no such thing.
func PaperOf(answer string) (Paper, bool) {
	rest, ok := strings.CutPrefix(answer, "rgb:")
	if !ok {
		rest, ok = strings.CutPrefix(answer, "rgba:")
	}
	parts := strings.Split(rest, "/")
	if !ok || len(parts) < 3 {
		return Dark, false
	}
	var light float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v, err := strconv.ParseUint(parts[i], 16, 16)
		if err != nil || len(parts[i]) > 4 {
			return Dark, false
		}
		light += weight * float64(v) / float64(uint64(1)<<(4*len(parts[i]))-1)
	}
	if light > 0.5 {
		return Light, true
	}
	return Dark, true
}

func value(environ []string, name string) string {
	for _, line := range environ {
		if v, ok := strings.CutPrefix(line, name+"="); ok {
			return v
		}
	}
	return ""
}
