package show

import (
	"fmt"
	"strings"

	"tubside/model"
)

// Sentence says what an entry tells, as a clause in plain words for a history
// or for what was just done: "Fuego out of the water, shaken". The book
// names plants and house rules; it need not count the entry.
func Sentence(e model.Entry, b *model.Book) string {
	who := Plants(e.Plants, b)
	switch f := e.Fact.(type) {
	case *model.Soak:
		return fmt.Sprintf("%s into %s until %s (load %d)%s", who, Safe(f.Vessel), Clock(f.Due, e.At, b.Zone()),
			f.Load, fedWith(f.Fed))
	case *model.Out:
		return who + " out of the water, " + handling(f)
	case *model.Laid:
		return who + " laid on the " + Safe(f.Bench)
	case *model.Look:
		return who + ": " + Signs(f.Signs)
	case *model.Rot:
		return who + whether(f.Over, " sound, no rot", " may be rotting")
	case *model.Leave:
		return who + " " + withNote(leaving(f.How, f.Cause), f.Note)
	case *model.Move:
		return who + " moved to " + Home(f.To)
	case *model.Swap:
		return swapSentence(e, f, b)
	case *model.Split:
		return fmt.Sprintf("%d %s off %s as %s", f.New.Count, whether(f.Offset, "separated", "split"), who,
			numbered(f.New))
	case *model.Note:
		return noteSentence(who, f.Text)
	case *model.CopiesTo:
		if f.Folder == "" {
			return "copies beside the book alone"
		}
		return "copies in " + Safe(f.Folder) + " too"
	case *model.Unread:
		return "lost to damage: " + Safe(f.Why)
	}
	if text := climateSentence(e, who); text != "" {
		return text
	}
	if tail, ok := tails[e.Fact.Kind()]; ok {
		return who + tail
	}
	if text := lifeSentence(e, who); text != "" {
		return text
	}
	return houseSentence(e, b)
}

// Entries says what several entries tell that came at once: a single one in its
// sentence, many by their number. from is the file they came from, if from one.
func Entries(all []model.Entry, from string, b *model.Book) string {
	if len(all) == 1 {
		return Sentence(all[0], b)
	}
	text := Count(len(all), "entry", "entries")
	if from != "" {
		text += " from " + Safe(from)
	}
	return text
}

// swapSentence says who hangs where after two plants were swapped.
func swapSentence(e model.Entry, f *model.Swap, b *model.Book) string {
	var parts []string
	for i, id := range e.Plants {
		if r := b.Row(id); r != nil && i < len(f.To) {
			parts = append(parts, Title(r.Plant)+" on "+Home(f.To[i]))
		}
	}
	return "swapped: " + strings.Join(parts, ", ")
}

// tails end the sentence of the kinds that have nothing to add.
var tails = map[model.Kind]string{
	"pull": " pulled", "putback": " put back without a soak",
	"damp": " still damp", "dry": " dry to the heart", "hung": " hung back",
}

// houseSentence says what an entry tells about the room, the house or the book.
func houseSentence(e model.Entry, b *model.Book) string {
	switch f := e.Fact.(type) {
	case *model.Add:
		return "added " + rows(f.Plants)
	case *model.Edit:
		return "changed " + rows(f.Plants)
	case *model.Import:
		return importSentence(f)
	case *model.Reading:
		room := Temp(f.TempC, b.Rules()) + ", " + Humidity(f.RH) + " humidity"
		if f.Fan == "" {
			return room
		}
		return room + ", " + Fan(f.Fan)
	case *model.Readings:
		return readingsSentence(f, b)
	case *model.Trip:
		return withNote(fmt.Sprintf("away from %s until %s", stamp(f.From, b), stamp(f.Until, b)), f.Note)
	case *model.Back:
		return "home again"
	case *model.FanSet:
		return Fan(f.Fan)
	case *model.VesselSet:
		return vesselSentence(f, b.Rules())
	case *model.BenchSet:
		return benchSentence(f)
	case *model.ShelfDays:
		return shelfDaysSentence(f)
	case *model.RuleSet:
		if f.Today {
			return "today: " + ruleSentence(f)
		}
		return "house rule: " + ruleSentence(f)
	case *model.Agreed:
		return agreedSentence(f, b)
	case *model.Strike:
		return strikeSentence(f, b)
	}
	return string(e.Fact.Kind())
}

func handling(f *model.Out) string {
	text := whether(f.Shaken, "shaken", "not shaken") + whether(f.Inverted, ", upside down", "")
	if f.Bench != "" {
		text += ", on the " + Safe(f.Bench)
	}
	return text
}

func whether(yes bool, this, that string) string {
	if yes {
		return this
	}
	return that
}

func withNote(clause, note string) string {
	if note == "" {
		return clause
	}
	return clause + " (" + Safe(note) + ")"
}

func noteSentence(who, text string) string {
	if who == "" {
		return "note: " + Safe(text)
	}
	return "note on " + who + ": " + Safe(text)
}

func importSentence(f *model.Import) string {
	parts := []string{Count(len(f.Added), "plant") + " added"}
	if n := len(f.Changed); n > 0 {
		parts = append(parts, fmt.Sprintf("%d changed", n))
	}
	for _, m := range []struct {
		what string
		n    int
	}{
		{"bloom", len(f.BloomOn) + len(f.BloomOff) + listed(f.Stages)},
		{"rot", len(f.RotOn) + len(f.RotOff)}, {"troubles", listed(f.TroubleOn) + listed(f.TroubleOff)},
		{"offsets", len(f.Offsets)}, {"fading", len(f.FadingOn) + len(f.FadingOff)},
	} {
		if m.n > 0 {
			parts = append(parts, fmt.Sprintf("%s marked on %d", m.what, m.n))
		}
	}
	return "imported " + Safe(f.File) + ": " + strings.Join(parts, ", ")
}

// listed counts the plants under all words.
func listed[K comparable](under map[K]model.IDs) (n int) {
	for _, ids := range under {
		n += len(ids)
	}
	return n
}

func ruleSentence(f *model.RuleSet) string {
	l, err := model.FindLimit(f.Name)
	if err != nil {
		return fmt.Sprintf("%s: %g", Safe(f.Name), f.Value)
	}
	var r model.Rules
	r[l] = f.Value
	what, _, _ := strings.Cut(model.LimitTable[l].What, ";")
	return what + ": " + Rule(l, r)
}

// Rule is the value of a house rule with its unit: "120 min", "bell".
func Rule(l model.Limit, rules model.Rules) string {
	return strings.TrimSpace(rules.Word(l) + " " + model.LimitTable[l].Unit)
}

// strikeSentence names what was taken back. A strike of a strike brings the
// first entry back.
func strikeSentence(f *model.Strike, b *model.Book) string {
	for _, e := range b.Entries() {
		if e.Seq != f.Seq {
			continue
		}
		if inner, ok := e.Fact.(*model.Strike); ok {
			return "redone: " + strings.TrimPrefix(strikeSentence(inner, b), "undone: ")
		}
		return "undone: " + Sentence(e, b)
	}
	return fmt.Sprintf("undone: entry %d", f.Seq)
}
