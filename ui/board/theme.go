package board

import (
	"strings"

	"github.com/charmbracelet/lipgloss"

	"tubside/model/soak"
)

// paint is a text style worked out once. A frame is painted hundreds of times
// a keystroke would otherwise pay for a full style each time.
type paint struct{ open, close string }

// of paints s, which must stay on one line.
func (p paint) of(s string) string {
	if p.open == "" || s == "" {
		return s
	}
	return p.open + s + p.close
}

// paintOf works a style out into what stands before and after the text.
func paintOf(s lipgloss.Style) paint {
	open, end, _ := strings.Cut(s.Render("x"), "x")
	return paint{open, end}
}

// theme is every style of the board. Meaning is carried by the 16 colours of
// the person's own terminal theme, and never by colour alone: a word, a letter
// or a sign stands beside it.
type theme struct {
	title  paint // headings, the chosen screen
	quiet  paint // what need not be read
	plain  paint
	cursor paint // the row under the cursor
	marked paint // a marked row's sign
	good   paint
	warn   paint // look at this
	alarm  paint // do something now
	input  paint // what is being typed
	bands  [len(bandColours)]paint
}

// midGrey reads on dark paper and on light.
const midGrey = "245"

// bandColours follow the length of the soak from cool to hot; the letter and
// the word stand beside them.
var bandColours = [...]string{
	soak.Rest:      midGrey,
	soak.Mist:      "6",
	soak.Dip:       "4",
	soak.Short:     "2",
	soak.Long:      "3",
	soak.Deep:      "5",
	soak.Overnight: "1",
}

// newTheme works the styles out for the terminal at hand.
func newTheme() theme {
	colour := func(c string) lipgloss.Style { return lipgloss.NewStyle().Foreground(lipgloss.Color(c)) }
	t := theme{
		title:  paintOf(lipgloss.NewStyle().Bold(true)),
		quiet:  paintOf(colour(midGrey)),
		cursor: paintOf(lipgloss.NewStyle().Bold(true)),
		marked: paintOf(colour("6").Bold(true)),
		good:   paintOf(colour("2")),
		warn:   paintOf(colour("3")),
		alarm:  paintOf(colour("1").Bold(true)),
		input:  paintOf(colour("6").Bold(true)),
	}
	for band, c := range bandColours {
		t.bands[band] = paintOf(colour(c))
	}
	return t
}
