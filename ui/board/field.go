package board

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/rickb777/date/v2"

	"tubside/model"
)

// field is one line of a form.
type field struct {
	name    string
	hint    string // what may be written
	input   textinput.Model
	fresh   bool     // holds what it held at first: the first key replaces it
	choices []string // what it may be, chosen by the first letters; nil for any text
	prefix  string   // the letters of the choice so far
	offers  []string // what + and - step through, and any other text may stand there
	words   bool     // what is written there wants letters
	unit    string   // what a refusal says of its number
	day     string   // of a field of days: the day that + and - begin with
}

// offering gives a field of text what + and - step through.
func (f field) offering(words ...string) field {
	f.offers, f.words = words, true
	return f
}

// inWords marks a field that wants letters.
func (f field) inWords() field {
	f.words = true
	return f
}

// in says what the book says of the field's number.
func (f field) in(unit string) field {
	f.unit = unit
	return f
}

// ofDays makes a field one of days: from an empty one + and - begin with this day.
func (f field) ofDays(from string) field {
	f.day = from
	return f
}

// newField is a field with what it holds at first.
func newField(name, text, hint string) field {
	f := field{name: name, hint: hint, input: textinput.New()}
	f.input.Prompt, f.input.CharLimit = "", model.MaxText
	f.input.SetValue(text)
	f.input.CursorEnd()
	f.fresh = text != ""
	return f
}

// newChoice is a field that is one of a few words.
func newChoice[T ~string](name string, now T, hint string, choices ...T) field {
	f := newField(name, string(now), hint)
	f.choices = wordsOf(choices)
	return f
}

// wordsOf are the words of a list of choices.
func wordsOf[T ~string](choices []T) []string {
	words := make([]string, len(choices))
	for i, c := range choices {
		words[i] = string(c)
	}
	return words
}

// yesOrNo is a question.
func yesOrNo(name string, yes bool, hint string) field {
	now := "no"
	if yes {
		now = "yes"
	}
	return newChoice(name, now, hint, "yes", "no")
}

// stepOf is 1 for +, -1 for - and 0 for any other key.
func stepOf(msg tea.KeyMsg) int {
	switch msg.String() {
	case "+":
		return 1
	case "-":
		return -1
	}
	return 0
}

// steps reports whether + and - step the field: a choice, or a day as it was put
// there.
func (f *field) steps() bool {
	text := f.input.Value()
	_, err := model.ParseDay(text, model.ISO)
	offered := len(f.offers) > 0 && (text == "" || f.fresh || slices.Contains(f.offers, text))
	return f.choices != nil || offered || f.fresh && err == nil || f.day != "" && text == ""
}

// step goes to the next choice or day, or to the one before, so that a number pad
// will do. It reports whether there was one to go to.
func (f *field) step(by int) bool {
	if !f.steps() {
		return false
	}
	all := f.choices
	if all == nil {
		all = f.offers
	}
	if n := len(all); n > 0 {
		at := slices.Index(all, f.input.Value())
		if at < 0 && by < 0 {
			at = 0
		}
		f.prefix = ""
		f.put(all[(at+by+n)%n])
		return true
	}
	if f.day != "" && f.input.Value() == "" {
		f.put(f.day)
		return true
	}
	day, err := model.ParseDay(f.input.Value(), model.ISO)
	if err != nil {
		return false
	}
	f.put(model.DayWords(day + date.Date(by)))
	return true
}

// put writes a value into the field that the next key replaces.
func (f *field) put(text string) {
	f.input.SetValue(text)
	f.input.CursorEnd()
	f.fresh = true
}

// choose goes to the choice that begins with the letters typed; a letter that does
// not go on from those before begins anew, from the choice after this one.
func (f *field) choose(msg tea.KeyMsg) {
	if msg.Type == tea.KeyBackspace || msg.Type == tea.KeyCtrlU {
		f.prefix = ""
		f.input.SetValue("")
		return
	}
	for _, letter := range msg.Runes {
		if c := f.begins(f.prefix+string(letter), 0); c != "" {
			f.prefix += string(letter)
			f.input.SetValue(c)
		} else if c := f.begins(string(letter), 1+slices.Index(f.choices, f.input.Value())); c != "" {
			f.prefix = string(letter)
			f.input.SetValue(c)
		}
	}
}

// begins is the first choice from one on, going round, that begins with letters;
// "" when none does.
func (f *field) begins(letters string, from int) string {
	for i := range f.choices {
		if c := f.choices[(from+i)%len(f.choices)]; strings.HasPrefix(c, strings.ToLower(letters)) {
			return c
		}
	}
	return ""
}

// typed takes a key: of a choice the letters it begins with, of a text whatever
// there is. The first key replaces what stood there; arrows begin to edit it.
func (f *field) typed(msg tea.KeyMsg) {
	if by := stepOf(msg); by != 0 && f.step(by) {
		return
	}
	if f.choices != nil {
		f.choose(msg)
		return
	}
	if f.fresh && msg.Type == tea.KeyRunes || f.fresh && msg.Type == tea.KeySpace {
		f.input.SetValue("")
	}
	f.fresh = false
	f.input, _ = f.input.Update(msg)
}
