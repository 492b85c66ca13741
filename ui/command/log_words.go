package command

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf16"

	"tubside/model"
	"tubside/ui/show"
)

// line is an entry as [run.enterFrom] takes it: as a person would type it, where
// that says all of it, and as the book has it in JSON where not.
func line(e model.Entry) (string, error) {
	if words := typedWords(e); words != nil {
		quoted := make([]string, len(words))
		for i, word := range words {
			quoted[i] = quote(word)
		}
		return strings.Join(quoted, " "), nil
	}
	text, err := json.Marshal(e)
	return plainJSON(text), err
}

// plainJSON is JSON that cannot steer a terminal: where it holds a sign that
// could, everything beyond ASCII is escaped.
func plainJSON(text []byte) string {
	if show.Safe(string(text)) == string(text) {
		return string(text)
	}
	var b strings.Builder
	for _, r := range string(text) {
		switch {
		case r >= ' ' && r < 0x7f:
			b.WriteRune(r)
		case r > 0xffff:
			high, low := utf16.EncodeRune(r)
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		default:
			fmt.Fprintf(&b, `\u%04x`, r)
		}
	}
	return b.String()
}

// typedWords is what a person would type for an entry, or nil where reading the
// words again would not give the same entry.
func typedWords(e model.Entry) []string {
	w := wordsOf(e)
	if len(w) == 0 {
		return nil
	}
	w.text("once", e.Once)
	words := append([]string{"at", e.At.Format(time.RFC3339)}, w...)
	if slices.ContainsFunc(words, func(word string) bool { return show.Safe(word) != word }) {
		return nil // it would break the line, or steer a terminal
	}
	in, err := typedLine(words, e.At)
	if err != nil {
		return nil
	}
	f, err := in.act.read(in)
	if err != nil || !in.now.Equal(e.At) || !sameFact(f, e.Fact) {
		return nil
	}
	return words
}

// sameFact reports whether two facts stand in the book alike.
func sameFact(a, b model.Fact) bool {
	first, err := json.Marshal(a)
	second, err2 := json.Marshal(b)
	return err == nil && err2 == nil && a.Kind() == b.Kind() && string(first) == string(second)
}

// quote writes a word so that a shell, and [typed.entry], read it as one.
func quote(word string) string {
	plain := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' ||
			strings.ContainsRune("-_.,:/%+@=", r)
	}
	if word != "" && strings.TrimLeftFunc(word, plain) == "" {
		return word
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}

// wording builds the words of an entry.
type wording []string

func (w *wording) add(words ...string) { *w = append(*w, words...) }

// plants names plants by number and range.
func (w *wording) plants(ids model.IDs) {
	if len(ids) > 0 {
		w.add(strings.Fields(ids.String())...)
	}
}

// text gives a flag where there is something to say.
func (w *wording) text(flag, text string) {
	if text != "" {
		w.add("--"+flag, text)
	}
}

// amount gives a flag with a number that is not 0.
func (w *wording) amount(flag string, v float64) {
	if v != 0 {
		w.add("--"+flag, strconv.FormatFloat(v, 'f', -1, 64))
	}
}

// yes gives a flag that is given or not.
func (w *wording) yes(flag string, given bool) {
	if given {
		w.add("--" + flag)
	}
}

// mix says what is in fed water.
func (w *wording) mix(m *model.Mix) {
	if m != nil {
		w.text("powder", m.Powder)
		w.amount("n", m.N)
		w.amount("ppm", m.PPM)
		w.amount("part", m.Part)
		w.yes("strong", m.Over)
	}
}

// wordsOf is the words of an entry after its time; none for a kind that is not
// typed. They are the table of acts read backwards.
func wordsOf(e model.Entry) wording {
	var w wording
	switch f := e.Fact.(type) {
	case *model.Pull, *model.PutBack, *model.Damp, *model.FoundDry, *model.Hung, *model.LookedOver:
		w.add(string(f.Kind()))
		w.plants(e.Plants)
	case *model.Look:
		w.add("signs")
		w.plants(e.Plants)
		w.add(f.Signs.Curl.String(), f.Signs.Tips.String(), f.Signs.Shift.String())
	case *model.Bloom:
		w.add("bloom")
		w.plants(e.Plants)
		w.yes(string(f.Stage), f.Stage != "")
		w.yes("over", f.Over)
	case *model.Rot:
		w.add("rot")
		w.plants(e.Plants)
		w.yes("over", f.Over)
	case *model.Fading:
		w.add("fading")
		w.plants(e.Plants)
		w.yes("over", f.Over)
	case *model.Offsets:
		w.add("offsets")
		w.plants(e.Plants)
		w.add("--count", strconv.Itoa(f.Count))
		w.amount("size", f.Share*100)
	case *model.Quarantine:
		w.add("quarantine")
		w.plants(e.Plants)
		w.yes("over", f.Over)
		w.yes("early", f.Early)
	case *model.Trouble:
		w.add("trouble")
		w.plants(e.Plants)
		w.text("what", string(f.What))
		w.text("treatment", f.Treatment)
		w.yes("over", f.Over)
	case *model.Weigh:
		w.add("weight")
		w.plants(e.Plants)
		w.amount("g", f.Grams)
		w.yes("wet", f.Wet)
		w.add("--anyway")
	case *model.Weighing:
		w.add("weighing")
		w.plants(e.Plants)
		w.yes("over", f.Over)
	case *model.Note:
		w.add("note")
		w.plants(e.Plants)
		w.text("text", f.Text)
	case *model.Move:
		w.add("move")
		w.plants(e.Plants)
		w.text("shelf", f.To.Shelf)
		w.text("spot", f.To.Spot)
	case *model.Leave:
		w.add("gone")
		w.plants(e.Plants)
		w.yes(f.How, f.How != model.Lost)
		w.text("lost", f.Cause)
		w.text("note", f.Note)
	default:
		w.water(e)
		w.house(e)
	}
	return w
}

// water is the words of what goes on at the water.
func (w *wording) water(e model.Entry) {
	switch f := e.Fact.(type) {
	case *model.Soak:
		w.add("soak", "--vessel", f.Vessel, "--load", strconv.FormatUint(uint64(f.Load), 10))
		w.amount("minutes", f.Due.Sub(e.At).Minutes())
		w.mix(f.Fed)
		w.add("--anyway")
		w.plants(e.Plants)
	case *model.Out:
		w.add("out")
		w.plants(e.Plants)
		w.yes("not-shaken", !f.Shaken)
		w.yes("upright", !f.Inverted)
		w.text("bench", f.Bench)
	case *model.Laid:
		w.add("laid")
		w.plants(e.Plants)
		w.text("bench", f.Bench)
	case *model.Mist:
		w.add("mist")
		w.plants(e.Plants)
		w.text("water", string(f.Of))
	case *model.Feed:
		w.add("feed")
		w.plants(e.Plants)
		w.text("by", string(f.How))
		w.mix(&f.Mix)
		w.amount("litres", f.Litres)
		w.add("--anyway")
	case *model.Bottle:
		w.add("bottle")
		switch {
		case f.Empty:
			w.add("empty")
		case f.Fed != nil:
			w.add("fed")
		default:
			w.add("plain")
		}
		w.text("water", string(f.Of))
		w.mix(f.Fed)
	case *model.Fill:
		w.add("fill", f.Vessel)
		for _, of := range f.Of {
			w.text("water", string(of))
		}
		w.amount("stood", f.Stood)
		w.amount("ec", f.EC)
		w.amount("temp", f.TempC)
		w.mix(f.Fed)
	case *model.Drain:
		w.add("drain", f.Vessel)
	case *model.Sample:
		w.add("water")
		w.text("vessel", f.Vessel)
		w.text("of", string(f.Of))
		w.amount("ec", f.EC)
		w.amount("temp", f.TempC)
		w.amount("tds", f.TDS)
		w.amount("hardness", f.Hardness)
		w.amount("sodium", f.Sodium)
		w.amount("chloride", f.Chloride)
		w.amount("boron", f.Boron)
	}
}

// house is the words of what is said of the room and the house.
func (w *wording) house(e model.Entry) {
	switch f := e.Fact.(type) {
	case *model.Reading:
		w.add("reading", "--temp", strconv.FormatFloat(f.TempC, 'f', -1, 64), "--rh",
			strconv.FormatFloat(f.RH, 'f', -1, 64))
		w.text("fan", string(f.Fan))
	case *model.FanSet:
		w.add("fan", string(f.Fan))
	case *model.WindowSet:
		w.add("window", string(f.Window))
	case *model.Outside:
		w.add("outside", "--temp", strconv.FormatFloat(f.TempC, 'f', -1, 64), "--rh",
			strconv.FormatFloat(f.RH, 'f', -1, 64))
	case *model.ShelfSet:
		w.add("shelf", f.Name, strconv.FormatFloat(f.Factor, 'f', -1, 64))
	case *model.ShelfDays:
		if len(f.Days) == 1 {
			for shelf, day := range f.Days {
				if day == "" {
					day = "none"
				}
				w.add("shelfday", shelf, string(day))
			}
		}
	case *model.RuleSet:
		if l, err := model.FindLimit(f.Name); err == nil {
			value := strconv.FormatFloat(f.Value, 'f', -1, 64)
			if words := model.LimitTable[l].Choices; words != nil && int(f.Value) < len(words) {
				value = words[int(f.Value)]
			}
			w.add("rule", f.Name, value)
			w.yes("today", f.Today)
		}
	case *model.Trip:
		w.add("trip", "--from", f.From.Format(time.RFC3339), "--until", f.Until.Format(time.RFC3339))
		w.text("note", f.Note)
	case *model.Back:
		w.add("back")
	case *model.Strike:
		w.add("strike", strconv.FormatUint(uint64(f.Seq), 10))
	}
}
