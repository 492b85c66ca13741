package board

import (
	"strings"

	"tubside/ui/show"
)

// face is the letters and digits of the big clock, five lines of dots each.
var face = map[rune][5]string{
	'A': {" ### ", "#   #", "#####", "#   #", "#   #"},
	'B': {"#### ", "#   #", "#### ", "#   #", "#### "},
	'C': {" ####", "#    ", "#    ", "#    ", " ####"},
	'D': {"#### ", "#   #", "#   #", "#   #", "#### "},
	'E': {"#####", "#    ", "#### ", "#    ", "#####"},
	'F': {"#####", "#    ", "#### ", "#    ", "#    "},
	'G': {" ####", "#    ", "#  ##", "#   #", " ####"},
	'H': {"#   #", "#   #", "#####", "#   #", "#   #"},
	'I': {"###", " # ", " # ", " # ", "###"},
	'J': {"  ###", "   # ", "   # ", "#  # ", " ##  "},
	'K': {"#   #", "#  # ", "###  ", "#  # ", "#   #"},
	'L': {"#    ", "#    ", "#    ", "#    ", "#####"},
	'M': {"#   #", "## ##", "# # #", "#   #", "#   #"},
	'N': {"#   #", "##  #", "# # #", "#  ##", "#   #"},
	'O': {" ### ", "#   #", "#   #", "#   #", " ### "},
	'P': {"#### ", "#   #", "#### ", "#    ", "#    "},
	'Q': {" ### ", "#   #", "#   #", "#  # ", " ## #"},
	'R': {"#### ", "#   #", "#### ", "#  # ", "#   #"},
	'S': {" ####", "#    ", " ### ", "    #", "#### "},
	'T': {"#####", "  #  ", "  #  ", "  #  ", "  #  "},
	'U': {"#   #", "#   #", "#   #", "#   #", " ### "},
	'V': {"#   #", "#   #", "#   #", " # # ", "  #  "},
	'W': {"#   #", "#   #", "# # #", "## ##", "#   #"},
	'X': {"#   #", " # # ", "  #  ", " # # ", "#   #"},
	'Y': {"#   #", " # # ", "  #  ", "  #  ", "  #  "},
	'Z': {"#####", "   # ", "  #  ", " #   ", "#####"},
	'0': {"#####", "#   #", "#   #", "#   #", "#####"},
	'1': {"  #  ", " ##  ", "  #  ", "  #  ", " ### "},
	'2': {"#####", "    #", "#####", "#    ", "#####"},
	'3': {"#####", "    #", " ####", "    #", "#####"},
	'4': {"#   #", "#   #", "#####", "    #", "    #"},
	'5': {"#####", "#    ", "#####", "    #", "#####"},
	'6': {"#####", "#    ", "#####", "#   #", "#####"},
	'7': {"#####", "    #", "   # ", "  #  ", "  #  "},
	'8': {"#####", "#   #", "#####", "#   #", "#####"},
	'9': {"#####", "#   #", "#####", "    #", "#####"},
	':': {" ", "#", " ", "#", " "},
	'+': {"   ", " # ", "###", " # ", "   "},
	'-': {"   ", "   ", "###", "   ", "   "},
	' ': {"  ", "  ", "  ", "  ", "  "},
	'.': {" ", " ", " ", " ", "#"},
	'?': {"#### ", "    #", "  ## ", "     ", "  #  "},
}

// dotRows is how many dots a letter is high.
const dotRows = 5

// big is a text in large letters, each dot so many columns wide and half as many
// lines high, which makes it square. Accents are dropped, and what has no large
// letter is a question mark.
func big(text string, scale int, plain bool) []string {
	var dots [dotRows]strings.Builder
	for i, r := range strings.ToUpper(show.ASCII(text)) {
		letter, ok := face[r]
		if !ok {
			letter = face['?']
		}
		for y := range dotRows {
			if i > 0 {
				dots[y].WriteString(strings.Repeat(" ", scale))
			}
			for _, dot := range letter[y] {
				dots[y].WriteString(strings.Repeat(string(dot), scale))
			}
		}
	}
	var lines []string
	if halfLess(scale, plain) {
		for y := range dotRows {
			lines = append(lines, dots[y].String())
		}
		return lines
	}
	for half := 0; half < dotRows*scale; half += 2 {
		top, foot := dots[half/scale].String(), ""
		if half+1 < dotRows*scale {
			foot = dots[(half+1)/scale].String()
		}
		lines = append(lines, halves(top, foot))
	}
	return lines
}

// halfLess reports whether a dot is a line high: half a line has no plain sign.
func halfLess(scale int, plain bool) bool { return plain && scale == 1 }

// halves puts two lines of dots into one line of text.
func halves(top, foot string) string {
	var b strings.Builder
	for x := range len(top) {
		switch up, down := top[x] == '#', x < len(foot) && foot[x] == '#'; {
		case up && down:
			b.WriteRune('█')
		case up:
			b.WriteRune('▀')
		case down:
			b.WriteRune('▄')
		default:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// bigWidth and bigHeight are the size of a text in large letters.
func bigWidth(text string, scale int) int { return show.Width(big(text, scale, false)[0]) }

func bigHeight(scale int, plain bool) int {
	if halfLess(scale, plain) {
		return dotRows
	}
	return (dotRows*scale + 1) / 2
}

// strokes are the digits three lines high, in lines as thin as the words beside them.
var strokes = map[rune][3]string{
	'0': {"┏━┓", "┃ ┃", "┗━┛"},
	'1': {"╺┓ ", " ┃ ", "╺┻╸"},
	'2': {"╺━┓", "┏━┛", "┗━╸"},
	'3': {"╺━┓", " ━┫", "╺━┛"},
	'4': {"╻ ╻", "┗━┫", "  ╹"},
	'5': {"┏━╸", "┗━┓", "╺━┛"},
	'6': {"┏━╸", "┣━┓", "┗━┛"},
	'7': {"╺━┓", "  ┃", "  ╹"},
	'8': {"┏━┓", "┣━┫", "┗━┛"},
	'9': {"┏━┓", "┗━┫", "╺━┛"},
	':': {" ", ":", " "},
	' ': {" ", " ", " "},
}

// fineDigits is a number or an hour in digits three lines high, each line of one width;
// what has no stroke stands on the middle line. Where lines are plain signs it stands as it
// is written, on the line in the middle.
func fineDigits(text string, plain bool) [3]string {
	if plain {
		blank := strings.Repeat(" ", show.Width(text))
		return [3]string{blank, text, blank}
	}
	var lines [3]string
	for i, r := range text {
		digit, ok := strokes[r]
		if !ok {
			digit = [3]string{" ", string(r), " "}
		}
		for y := range digit {
			if i > 0 {
				lines[y] += " "
			}
			lines[y] += digit[y]
		}
	}
	return lines
}
