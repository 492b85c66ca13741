package board

import (
	"fmt"
	"strings"

	"tubside/ui/show"
)

// help lists the keys that work on the screen behind it, made from the same
// bindings that do the work: the keys, what they do, and their key on a number pad.
type help struct {
	desk  *desk
	what  []group
	signs bool     // on Triage, where digits are signs
	words []string // that are not everyday ones
	wide  laidFor  // what it was laid out for
	col   int      // the width of a column of it
	text  scroll
}

func newHelp(m *board) *help {
	return &help{desk: m.desk, what: once(append(m.front().groups(), m.global)), signs: m.at == 0,
		words: wordLines[m.front().letter()]}
}

// signDigits say what each digit of a plant means.
var signDigits = []string{
	"curl   0 flat   1 edges lifting   2 deep channel",
	"       3 rolled shut",
	"tips   0 no brown new tips   1 a few   2 many   3 most",
	"shift  0 already dark when a drop wets it",
	"       1 slow or patchy   2 quick and full   3 stays pale",
	"       - not looked at",
}

// wordLines say in plain English the words of a screen that are not everyday ones, by its
// letter; what a plant shows stands with the digits that say it.
var wordLines = map[string][]string{
	"t": {wordBand, wordThirst, wordAir},
	"s": {wordBand, wordLoad, "heap   the plants of one load, where two lie in one vessel", wordEC},
	"d": {wordAir},
	"p": {wordBand, wordLoad},
	"w": {wordThirst},
	"r": {wordBand, wordThirst, wordEC},
	"a": {wordAir},
	"v": {wordThirst},
	"h": {wordBand, wordAir, wordEC},
}

var (
	wordBand   = "band   how long to soak: Rest and Mist not at all; Dip, Short, Long, Deep, Overnight"
	wordThirst = fmt.Sprintf("thirst how much of its water a plant has lost; from %.0f %% on it is in danger", 100*fullThirst)
	wordAir    = "kPa    " + show.KPaWords()
	wordLoad   = "load   plants that go in together and come out together, by one clock"
	wordEC     = "EC     how much salt is in the water, by a meter, in dS/m; under 0.7 is fine" // Ayers & Westcot 1985, FAO 29
)

// wordIndent is where what a word means begins.
const wordIndent = 7

// padWidth is the column of the keys of the number pad, at the right.
const padWidth = 5

// helpColumn is the width from which a second column of help is drawn.
const helpColumn = 72

// layOut breaks the lines for the window, in two columns where it is wide.
func (h *help) layOut() {
	h.wide, h.col = h.desk.laid(), h.desk.width
	twice := h.col >= 2*helpColumn
	if twice {
		h.col = h.desk.width/2 - 1
	}
	title := h.desk.theme.title.of
	var lines []string
	var heads []int // where a group begins
	if h.signs {
		lines = append(lines, title(" Keying in signs, three digits a plant"))
		for _, s := range signDigits {
			lines = append(lines, "   "+s)
		}
		lines = append(lines, "")
	}
	keys := 0
	for _, g := range h.what {
		for _, b := range g.keys {
			keys = max(keys, show.Width(h.keysOf(b)))
		}
	}
	for i, g := range h.what {
		head := " " + g.title
		if i == 0 && !h.desk.onPad() {
			head = show.Pad(head, h.col-2*padWidth-1) + "number pad" // over the last column
		}
		heads = append(heads, len(lines))
		lines = append(lines, title(head))
		for _, b := range g.keys {
			lines = append(lines, h.lines(b, keys)...)
		}
		lines = append(lines, "")
	}
	if len(h.words) > 0 {
		heads = append(heads, len(lines))
		lines = append(lines, title(" Words"))
		for _, word := range h.words {
			for i, part := range wrap(word, h.col-4-wordIndent) {
				if i > 0 {
					part = strings.Repeat(" ", wordIndent) + part
				}
				lines = append(lines, "   "+part)
			}
		}
		lines = append(lines, "")
	}
	lines = lines[:len(lines)-1]
	if twice {
		lines = h.sideBySide(lines, heads)
	}
	top := h.text.top
	h.text.set(lines)
	h.text.by(top)
}

// sideBySide lays lines in two columns, parted before the group that leaves them
// most alike in length.
func (h *help) sideBySide(lines []string, heads []int) []string {
	part := len(lines)
	for _, head := range heads {
		if max(head, len(lines)-head) < max(part, len(lines)-part) {
			part = head
		}
	}
	left, right := lines[:part], lines[part:]
	both := make([]string, max(len(left), len(right)))
	for i := range both {
		if i < len(left) {
			both[i] = left[i]
		}
		if i < len(right) {
			both[i] = show.Pad(both[i], h.col+1) + right[i]
		}
	}
	return both
}

// keysOf are the keys that do it now.
func (h *help) keysOf(b binding) string {
	if h.desk.onPad() && b.num != "" {
		return b.num
	}
	return b.keys
}

// lines are one binding: its keys, what it does, broken where it must be, and its
// key on the number pad. What does not work now is dim and says why.
func (h *help) lines(b binding, keys int) []string {
	text, paint := b.help, h.desk.theme.plain
	if why := b.why(); why != "" {
		text, paint = text+" ("+why+")", h.desk.theme.quiet
	}
	var lines []string
	for i, part := range wrap(text, h.col-3-keys-2-padWidth-2) {
		if i > 0 {
			lines = append(lines, paint.of(strings.Repeat(" ", 3+keys+2)+part))
			continue
		}
		line := "   " + show.Pad(h.keysOf(b), keys) + "  " + part
		if b.num != "" && !h.desk.onPad() {
			line = show.Pad(line, h.col-padWidth-1) + show.PadLeft(b.num, padWidth)
		}
		lines = append(lines, paint.of(line))
	}
	return lines
}

// once leaves out the bindings whose key an earlier one takes, what is no key, and
// keys that do nothing but say so.
func once(groups []group) []group {
	taken := map[string]bool{}
	var out []group
	for _, g := range groups {
		var keys []binding
		for _, b := range g.keys {
			if b.keys == "" || b.help == "" || taken[keysOf(b.keys)[0]] {
				continue
			}
			for _, k := range keysOf(b.keys) {
				taken[k] = true
			}
			keys = append(keys, b)
		}
		out = append(out, group{g.title, keys})
	}
	return out
}

func (h *help) groups() []group {
	keys := append(h.text.keys(), act("esc ? q enter", "back", func() { h.desk.drop(h) }).foot("back"))
	return []group{{"Help", keys}}
}

func (h *help) lead() string {
	if h.text.below() {
		return "there is more below:"
	}
	return ""
}

func (h *help) draw(p *page, height int) {
	if h.wide != h.desk.laid() {
		h.layOut()
	}
	h.text.draw(p, h.desk.width, height)
}
