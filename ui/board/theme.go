package board

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"tubside/model/soak"
	"tubside/ui/ink"
	"tubside/ui/show"
)

// paint is what stands before and after a text to colour it. What it turns on it
// turns off again and nothing else, so that a painted text can lie on the bar.
type paint struct{ open, close string }

// of paints s, which must stay on one line.
func (p paint) of(s string) string {
	if p.open == "" || s == "" {
		return s
	}
	return p.open + s + p.close
}

// theme is every style of the board. Meaning is never carried by colour alone: a
// word, a letter or a sign stands beside it.
type theme struct {
	title  paint // headings, the chosen screen
	quiet  paint // what need not be read
	plain  paint
	cursor paint // the name under the cursor
	marked paint // a marked row's sign
	good   paint
	warn   paint // look at this
	alarm  paint // do something now
	accent paint // the line of a chart
	input  paint // what is being typed
	bands  [soak.Overnight + 1]paint
	cells  [soak.Overnight + 1]paint // a patch in a band's colour with letters on it
	away   paint                     // a patch for a hook whose plant is elsewhere
	danger paint                     // a patch for a plant in danger
	done   paint                     // a patch for what is done
	chosen paint                     // the word under the map's cursor: a hole among the patches
	bar    paint                     // behind the row under the cursor
	bare   bool                      // the bar is reverse: colours on it would be turned too
}

// newTheme works the styles out for a terminal.
func newTheme(paper ink.Paper, depth ink.Depth) theme {
	p := ink.Palettes[paper]
	patches := p
	if paper != ink.Dark && (depth == ink.Truecolor || depth == ink.Many) {
		patches = ink.Palettes[ink.Dark] // under letters pale colours are told apart best, on any paper
	}
	apart := p // what a hook has whose plant is elsewhere
	if paper == ink.Either {
		apart = ink.Palettes[ink.Dark]
	}
	t := theme{
		title:  strong(ink.Ink{}, depth),
		cursor: strong(ink.Ink{}, depth),
		quiet:  over(p.Dim, depth),
		marked: strong(p.Accent, depth),
		accent: over(p.Accent, depth),
		input:  strong(p.Accent, depth),
		good:   over(p.Done, depth),
		warn:   over(p.Care, depth),
		alarm:  strong(p.Danger, depth),
		away:   patch(apart.Bar, apart.Dim, depth),
		danger: patch(p.Danger, p.Letter, depth),
		done:   patch(p.Done, p.Letter, depth),
	}
	for band := range soak.Bands {
		colour, ground := p.Dim, p.Dim
		if band > int(soak.Rest) {
			colour, ground = p.Ramp[band-int(soak.Mist)], patches.Ramp[band-int(soak.Mist)]
		}
		t.bands[band] = over(colour, depth)
		if depth == ink.Sixteen && colour.Bold {
			t.bands[band] = strong(colour, depth)
		}
		t.cells[band] = patch(ground, patches.Letter, depth)
	}
	// Next to nothing to do is worth no patch: what is to be soaked stands out.
	t.cells[soak.Rest], t.cells[soak.Mist] = t.away, patch(apart.Bar, apart.Ramp[0], depth)
	if t.danger.open == "" { // without colours a danger is bold among the other words
		t.danger = t.alarm
	}
	if depth > ink.Plain {
		t.chosen = paint{"\x1b[1m\x1b[7m", "\x1b[27m\x1b[22m"}
	}
	switch {
	case depth > ink.Sixteen && p.Bar != (ink.Ink{}):
		t.bar = paint{p.Bar.Under(depth), "\x1b[49m"}
	case depth > ink.Plain: // reverse is read on every paper
		t.bar, t.bare = paint{"\x1b[7m", "\x1b[27m"}, true
	}
	return t
}

// over writes text in an ink.
func over(i ink.Ink, d ink.Depth) paint {
	if open := i.Over(d); open != "" {
		return paint{open, "\x1b[39m"}
	}
	return paint{}
}

// strong writes bold text in an ink; the zero ink is the terminal's own.
func strong(i ink.Ink, d ink.Depth) paint {
	if d == ink.Plain {
		return paint{}
	}
	var p paint
	if i.Hex != "" {
		p = over(i, d)
	}
	return paint{"\x1b[1m" + p.open, p.close + "\x1b[22m"}
}

// patch writes letters on a patch of an ink.
func patch(ground, letters ink.Ink, d ink.Depth) paint {
	if open := ground.Under(d); open != "" {
		return paint{open + letters.Over(d), "\x1b[39;49m"}
	}
	return paint{}
}

// barred lays the bar behind a line, from edge to edge.
func (d *desk) barred(line string) string { return d.barredIn(line, d.width) }

func (d *desk) barredIn(line string, width int) string {
	if d.theme.bar.open == "" {
		return line
	}
	if d.theme.bare {
		line = ansi.Strip(line)
	}
	return d.theme.bar.of(line + strings.Repeat(" ", max(0, width-show.Width(line))))
}
