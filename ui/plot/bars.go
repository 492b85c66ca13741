package plot

import (
	"strings"

	"tubside/ui/sheet"
	"tubside/ui/show"
)

// Bars compares amounts, a line each.
type Bars struct {
	About
	Lines []Bar
}

// Bar is one amount, 0 or more, with the words that stand before and behind it.
type Bar struct {
	Name   string
	Amount float64
	Says   string // "12", "3 of 40"
}

// Drawing is the chart as text and SVG.
func (b Bars) Drawing() sheet.Drawing { return sheet.Drawing{SVG: b.svg(), Text: b.text()} }

func (b Bars) most() float64 {
	most := 0.0
	for _, l := range b.Lines {
		most = max(most, l.Amount)
	}
	if most == 0 {
		return 1
	}
	return most
}

func (b Bars) text() []string {
	names, says := 0, 0
	for _, l := range b.Lines {
		names, says = max(names, show.Width(show.Safe(l.Name))), max(says, show.Width(show.Safe(l.Says)))
	}
	names = min(names, textWidth/3)
	room := max(textWidth-names-says-4, 10)
	lines := []string{}
	for _, l := range b.Lines {
		line := show.Pad(show.Safe(l.Name), names) + "  " + show.PadLeft(show.Safe(l.Says), says) + "  " + bar(l.Amount/b.most(), room)
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}

// Sizes of the bars, in units of the SVG.
const (
	barStep  = 22.0
	barThick = 14.0
	barNames = 160.0
	barSays  = 110.0
)

// nameCells is how much of a name fits before the bars.
const nameCells = 22

func (b Bars) svg() string {
	c := begin(b.About, barStep*float64(len(b.Lines))+4)
	for i, l := range b.Lines {
		y := 2 + barStep*float64(i)
		base := y + barStep/2 + fontSize/3
		c.text(barNames-8, base, atEnd, show.Fit(l.Name, nameCells))
		width := (svgWidth - barNames - barSays) * l.Amount / b.most()
		c.rect(barNames, y+(barStep-barThick)/2, width, barThick, full)
		c.text(barNames+width+6, base, atStart, l.Says)
	}
	c.line(barNames, 0, barNames, barStep*float64(len(b.Lines))+4)
	return c.end()
}
