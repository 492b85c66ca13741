package board

import (
	"cmp"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// binding is one key as data: what it is called, what it does, and why it does
// nothing just now. What a key does, the footer, the help page and the README's
// table of keys are all made from it.
type binding struct {
	keys string // as they are shown in help, the arrows as arrows: "j ↓"; "" for every key
	help string // what it does, in full; "" keeps it out of help
	hint string // a word or two for the footer; "" keeps it out
	num  string // its key on a number pad, "" for none
	do   func(tea.KeyMsg) tea.Cmd
	off  func() string // why it does not work here; nil or "" when it does
	when func() bool   // whether the footer names it now; nil: whenever it works
}

// group is bindings under one heading in help.
type group struct {
	title string
	keys  []binding
}

// bind makes a binding.
func bind(keys, help string, do func(tea.KeyMsg) tea.Cmd) binding {
	return binding{keys: keys, help: help, do: do}
}

// act is bind for something that starts no command.
func act(keys, help string, do func()) binding {
	return bind(keys, help, func(tea.KeyMsg) tea.Cmd { do(); return nil })
}

// anyOther takes every key that no binding before it has.
func anyOther(help string, do func(tea.KeyMsg) tea.Cmd) binding {
	return bind("", help, do)
}

// remark stands in the footer like a key, and is none.
func remark(text string) binding { return binding{hint: text} }

// foot puts the binding into the footer with a word or two.
func (b binding) foot(hint string) binding {
	b.hint = hint
	return b
}

// footWhen is foot for what is worth naming only at times.
func (b binding) footWhen(hint string, when func() bool) binding {
	b.hint, b.when = hint, when
	return b
}

// pad gives the binding a key on a number pad, or several.
func (b binding) pad(keys string) binding {
	b.num = keys
	return b
}

// unless gives the reason for which the binding does nothing.
func (b binding) unless(off func() string) binding {
	b.off = off
	return b
}

// why is the reason the binding does nothing now, or "".
func (b binding) why() string {
	if b.off == nil {
		return ""
	}
	return b.off()
}

// signsOfKeys are the keys that are shown otherwise than they are called.
var signsOfKeys = map[string]string{"↓": "down", "↑": "up", "←": "left", "→": "right", "space": " ", "pgdn": "pgdown"}

// keysOf reads the keys as they are shown; "0-3" is a range of digits.
func keysOf(shown string) []string {
	var keys []string
	for word := range strings.FieldsSeq(shown) {
		if from, to, ok := digitsOf(word); ok {
			for c := from; c <= to; c++ {
				keys = append(keys, string(c))
			}
			continue
		}
		keys = append(keys, cmp.Or(signsOfKeys[word], word))
	}
	return keys
}

// digitsOf reads "0-3".
func digitsOf(word string) (from, to byte, ok bool) {
	if len(word) == 3 && word[1] == '-' && word[0] >= '0' && word[2] <= '9' {
		return word[0], word[2], true
	}
	return 0, 0, false
}

// names reports whether a key is among those shown, without reading them all: it is
// asked of every binding at every key.
func names(shown, key string) bool {
	for word := range strings.FieldsSeq(shown) {
		if word == key || signsOfKeys[word] == key {
			return true
		}
		if from, to, ok := digitsOf(word); ok && len(key) == 1 && key[0] >= from && key[0] <= to {
			return true
		}
	}
	return false
}

// catchesAll is a binding made by anyOther.
func (b binding) catchesAll() bool { return b.do != nil && b.keys == "" }

// takes reports whether a key is the binding's. In number-pad mode the keys of the
// pad mean what they mean there, and nothing else.
func (b binding) takes(key string, pad bool) bool {
	if pad && onPad(key) {
		return names(b.num, key)
	}
	return names(b.keys, key)
}

// onPad reports whether a key stands on a number pad and is a character.
func onPad(key string) bool { return len(key) == 1 && strings.Contains("0123456789+-*/.", key) }

// shown is the key as it is called, the first one of several.
func (b binding) shown(pad bool) string {
	if b.catchesAll() {
		return "any other key"
	}
	keys := b.keys
	if pad && b.num != "" {
		keys = b.num
	}
	first, _, _ := strings.Cut(keys, " ")
	return first
}

// press finds the binding for a key and does it. A binding that is off says
// why. It reports whether the key meant anything.
func (d *desk) press(groups []group, msg tea.KeyMsg) (tea.Cmd, bool) {
	pad := d.onPad()
	for _, g := range groups {
		for _, b := range g.keys {
			if b.do == nil || !b.catchesAll() && !b.takes(msg.String(), pad) {
				continue
			}
			if why := b.why(); why != "" {
				d.say("%s", why)
				return nil, true
			}
			return b.do(msg), true
		}
	}
	return nil, false
}

// onPad reports whether the number-pad mode is on.
func (d *desk) onPad() bool { return d.book.Rules()[model.NumberPad] == 1 }

// key is what a key is called in a sentence: by its letter, or on a number pad by the
// key that does the same there.
func (d *desk) key(letter, pad string) string {
	if d.onPad() {
		return pad
	}
	return letter
}

// offPad reports whether a key is a letter that means nothing while the number pad is on:
// there / goes to the next screen, and the letters of what was to be found would each act.
func offPad(msg tea.KeyMsg) bool {
	return msg.Type == tea.KeyRunes && !onPad(msg.String()) && !strings.Contains("#?q"+model.CodeSign, msg.String())
}

// switchPad turns the number-pad mode on or off, for this time and the next.
func (d *desk) switchPad() {
	on := 1 - d.book.Rules()[model.NumberPad]
	if d.enter(&model.RuleSet{Name: model.LimitTable[model.NumberPad].Name, Value: on}) && on == 1 {
		d.say("Number pad on, # ends it: + and - move, / next screen, * the next step here, enter all else")
	}
}

// hintGap stands between the hints of a footer, padGap between those of the number pad.
const (
	hintGap = "   "
	padGap  = "  "
)

// hints are the keys of the footer as far as they fit whole: half a word tells
// nobody what a key does. Keys that say the same stand together.
func hints(lead string, groups []group, width int, pad bool) string {
	type hint struct{ keys, words string }
	var all []hint
	for _, g := range groups {
		for _, b := range g.keys {
			if b.hint == "" || b.why() != "" || b.when != nil && !b.when() {
				continue
			}
			if pad && b.do != nil && b.num == "" && !b.catchesAll() && !names(b.keys, "enter") {
				continue
			}
			keys := b.shown(pad)
			if n := len(all); n > 0 && all[n-1].words == b.hint && keys != "" {
				all[n-1].keys += " " + keys
				continue
			}
			all = append(all, hint{keys, b.hint})
		}
	}
	text, gap := lead, hintGap
	if pad { // the way to all else stands behind them
		gap = padGap
	}
	for _, h := range all {
		next := strings.TrimSpace(h.keys + " " + h.words)
		if text != "" {
			next = text + gap + next
		}
		if show.Width(next) > width {
			break
		}
		text = next
	}
	return show.Fit(text, width)
}
