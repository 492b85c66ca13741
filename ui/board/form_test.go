package board

import (
	"strings"
	"testing"

	"tubside/model"
)

// What stands in a field is replaced by the first key, and edited after an arrow.
func TestTheFirstKeyReplacesWhatAFieldHolds(t *testing.T) {
	g := newGrower(t).shelves().keys("e").types("door").keys("ctrl+s")
	if name := g.row(1).Name; name != "door" {
		t.Errorf("name %q, want door", name)
	}
	g.keys("e", "left", "right").types("way").keys("ctrl+s")
	if name := g.row(1).Name; name != "doorway" {
		t.Errorf("name %q, want doorway", name)
	}
}

// Enter goes through every field, filled in or not, and a choice takes its letter.
func TestAFormSkipsNoField(t *testing.T) {
	g := newGrower(t).shelves().keys("a").types("70F").keys("enter").types("45").keys("enter")
	if g.board.desk.outlook.Air.RH == 45 {
		t.Fatal("written before the fan was asked about")
	}
	g.sees("off  low  on  near").types("n").keys("enter")
	if air := g.board.desk.outlook.Air; air.RH != 45 || air.Fan != model.FanNear {
		t.Errorf("air %+v", air)
	}
}

// A letter typed again goes on to the next choice; more letters make it certain.
func TestChoicesByLetter(t *testing.T) {
	f := newChoice("x", "", "", "scale", "mealybug", "mites", "sun")
	for _, step := range []struct{ key, want string }{
		{"s", "scale"}, {"s", "sun"}, {"m", "mealybug"}, {"i", "mites"}, {"x", "mites"}, {"backspace", ""},
	} {
		f.typed(keyNamed(step.key))
		if got := f.input.Value(); got != step.want {
			t.Errorf("after %s: %q, want %q", step.key, got, step.want)
		}
	}
}

// What is wrong stands at its field.
func TestAnErrorStandsAtItsField(t *testing.T) {
	g := newGrower(t).shelves().keys("a").types("warm").keys("ctrl+s")
	g.sees("temperature  warm").sees("▸").sees("\"warm\"")
}

// everyForm is the way to each form of the board.
var everyForm = map[string]string{
	"add": "+", "edit": "e", "move": "M", "split": "j j j y", "gone": "x", "note": "w", "list": "L", "trouble": "i",
	"offsets": "I", "air": "a", "fill": "T s W", "vessel": "T s V", "bottle": "T r z W", "trip": "T v H", "hours": "T p H",
	"rule, a choice": "T h enter", "rule, a number": "T h l enter",
}

// In every form Enter goes through every field, the first key replaces what stands
// there, each choice is reached by its letters, and Esc writes nothing.
func TestEveryFormIsFilledTheSameWay(t *testing.T) {
	for name, way := range everyForm {
		t.Run(name, func(t *testing.T) {
			g := newGrower(t).shelves().keys(strings.Fields(way)...)
			entries := len(g.board.desk.book.Entries())
			if len(g.board.desk.over) != 1 {
				t.Fatalf("%s opens no form:\n%s", way, g.screen())
			}
			f := g.board.desk.over[0].(*form)
			for i := range f.fields {
				fd := &f.fields[i]
				if f.at != i {
					t.Fatalf("on field %d, want %d (%s)", f.at, i, fd.name)
				}
				if fd.choices == nil {
					g.keys("q")
					if text := fd.input.Value(); text != "q" {
						t.Errorf("%s: the first key makes %q", fd.name, text)
					}
				}
				for _, c := range fd.choices {
					g.keys("backspace").types(c)
					if text := fd.input.Value(); text != c {
						t.Errorf("%s: the letters of %q choose %q", fd.name, c, text)
					}
				}
				if i < len(f.fields)-1 {
					g.keys("enter")
				}
			}
			g.keys("esc").sees("Nothing written")
			if n := len(g.board.desk.book.Entries()); n != entries {
				t.Errorf("%d entries were written", n-entries)
			}
		})
	}
}

// What the book refuses stands at the field that is to be mended, and the form stays.
func TestWhatTheBookRefusesStandsAtItsField(t *testing.T) {
	for _, c := range []struct{ way, field, text string }{
		{"e", "size", "9999"}, {"e", "size", "big"}, {"e", "count", "0"}, {"e", "count", "two"},
		{"e", "acquired", "soon"},
		{"a", "temperature", "warm"}, {"a", "humidity", "400"}, {"a", "humidity", "wet"},
		{"j j j y", "how many", "40"}, {"j j j y", "how many", "some"},
		{"i", "what", ""}, {"I", "how many", "many"}, {"I", "biggest", "900"}, {"x", "how", ""},
		{"T s W", "water", "lava"}, {"T s W", "stood", "long"}, {"T s W", "EC", "salty"}, {"T s W", "temperature", "90"},
		{"T s W", "ppm nitrogen", "much"}, {"T s V", "name", ""}, {"T s V", "water", "lots"}, {"T s V", "water", "99999"},
		{"T r z W", "water", "lava"}, {"T r z W", "ppm nitrogen", "much"},
		{"T v H", "from", "soon"}, {"T v H", "until", "2020-01-01"},
		{"T h l enter", "dry-by", "25"}, {"M", "shelf", ""}, {"w", "note", ""}, {"L", "file", "/nowhere.csv"},
	} {
		t.Run(c.way+" "+c.field+" "+c.text, func(t *testing.T) {
			g := newGrower(t).shelves().keys(strings.Fields(c.way)...)
			f := g.board.desk.over[0].(*form)
			switch c.way { // else the first empty field is in the way
			case "a":
				f.fields[0].input.SetValue("21")
				f.fields[1].input.SetValue("40")
			case "I":
				f.fields[0].input.SetValue("2")
			}
			for i := range f.fields {
				if f.fields[i].name == c.field {
					f.fields[i].input.SetValue(c.text)
				}
				if c.way == "M" {
					f.fields[i].input.SetValue("")
				}
			}
			g.keys("ctrl+s")
			if len(g.board.desk.over) == 0 {
				t.Fatalf("%q was taken:\n%s", c.text, g.screen())
			}
			if at := f.fields[f.at].name; at != c.field || f.problem == "" {
				t.Errorf("%q stands at %s, want %s", f.problem, at, c.field)
			}
			g.sees(c.field)
		})
	}
}

// In the lowest window a form shows all its fields while there are lines for them.
func TestAFormUsesTheWindow(t *testing.T) {
	g := newGrower(t).shelves().keys("+")
	g.size(60, 20)
	f := g.board.desk.over[0].(*form)
	missing := 0
	for _, fd := range f.fields {
		if !strings.Contains(g.screen(), " "+fd.name) {
			missing++
		}
	}
	if blank := strings.Count(g.screen(), "\n\n"); missing > 0 && blank > 3 {
		t.Errorf("%d fields are not seen, with %d blank lines:\n%s", missing, blank, g.screen())
	}
}

// A value that is longer than the line goes on below it, at every size.
func TestALongNameIsWholeInItsForm(t *testing.T) {
	g := newGrower(t).shelves()
	words := []string{"Tillandsia", "ionantha", "var.", "stricta", "'Peach", "of", "the", "Valley'"}
	g.enters(g.now, &model.Edit{Plants: []model.Plant{{ID: 1, Name: strings.Join(words, " "), Count: 1}}}, 1)
	g.size(60, 20)
	g.keys("e")
	for range 2 { // with the cursor on it, and elsewhere
		for _, word := range words {
			g.sees(word)
		}
		g.keys("tab")
	}
}
