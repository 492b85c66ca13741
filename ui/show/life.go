package show

import (
	"fmt"
	"strings"

	"tubside/model"
)

// lifeSentence says what an entry tells about the rest of the job: feeding,
// water, bloom, offsets, newcomers and troubles; "" for any other entry.
func lifeSentence(e model.Entry, who string) string {
	switch f := e.Fact.(type) {
	case *model.Bloom:
		return who + bloomTail(f)
	case *model.Mist:
		return who + " misted" + withSource(f.Of)
	case *model.Feed:
		return who + " fed by " + string(f.How) + ", " + Mix(f.Mix)
	case *model.Offsets:
		return who + ": " + offsets(f)
	case *model.Fading:
		return who + whether(f.Over, " not fading after all", " fading")
	case *model.Quarantine:
		return who + whether(f.Over, " released from quarantine", " in quarantine") + whether(f.Early, ", early", "")
	case *model.Trouble:
		return who + ": " + withNote(string(f.What)+whether(f.Over, " is over", ""), f.Treatment)
	case *model.LookedOver:
		return who + " looked over, nothing found"
	}
	return waterSentence(e)
}

// waterSentence says what an entry tells about the water.
func waterSentence(e model.Entry) string {
	switch f := e.Fact.(type) {
	case *model.Fill:
		return Safe(f.Vessel) + " filled with " + waterDrawn(f.Of) + fedWith(f.Fed) +
			measured(f.EC, f.TempC)
	case *model.Drain:
		return Safe(f.Vessel) + " emptied"
	case *model.Sample:
		return "water of " + Safe(orQuestion(strings.TrimSpace(f.Vessel+" "+string(f.Of)), false)) +
			measured(f.EC, f.TempC) + reported(f)
	case *model.Bottle:
		if f.Empty {
			return "mist bottle emptied"
		}
		return "mist bottle holds " + whether(f.Fed == nil, "plain ", "fed ") +
			strings.TrimLeft(Safe(string(f.Of))+" water", " ") + fedWith(f.Fed)
	}
	return ""
}

func bloomTail(f *model.Bloom) string {
	switch {
	case f.Over:
		return " no longer in bloom"
	case f.Stage == model.Bud:
		return " in bud"
	case f.Stage == model.Spent:
		return " has spent its bloom"
	}
	return " in bloom"
}

// Bloom says how far a plant's bloom has come: "in bud", "in bloom", "spent";
// "" where there is none.
func Bloom(r *model.Row) string {
	switch {
	case r.Stage == model.Spent:
		return "spent"
	case r.Bloom.IsZero():
		return ""
	case r.Stage == model.Bud:
		return "in bud"
	}
	return "in bloom"
}

func offsets(f *model.Offsets) string {
	text := Count(f.Count, "offset")
	if f.Share > 0 {
		text += ", the biggest " + Percent(f.Share) + " of its parent"
	}
	return text
}

// Mix says how strong fed water is, and of what: "50 ppm N of orchid 13-3-15",
// "0.25 of the label's rate".
func Mix(m model.Mix) string {
	text := fmt.Sprintf("%g ppm N", m.PPM)
	if m.PPM == 0 {
		text = fmt.Sprintf("%g of the label's rate", m.Part)
	}
	if m.Powder != "" {
		text += " of " + Safe(m.Powder)
	}
	return text
}

func fedWith(m *model.Mix) string {
	if m == nil {
		return ""
	}
	return ", " + Mix(*m)
}

func withSource(s model.Source) string {
	if s == "" {
		return ""
	}
	return " with " + Safe(string(s)) + " water"
}

// measured is the tail of a meter's readings: ", 0.35 dS/m, 21 °C".
func measured(ec, tempC float64) string {
	text := ""
	if ec > 0 {
		text += fmt.Sprintf(", %g dS/m", ec)
	}
	if tempC > 0 {
		text += fmt.Sprintf(", %.0f °C", tempC)
	}
	return text
}

// reported is the tail of a report's numbers.
func reported(f *model.Sample) string {
	text := ""
	for _, n := range []struct {
		what  string
		value float64
	}{{"solids", f.TDS}, {"hardness", f.Hardness}, {"sodium", f.Sodium}, {"chloride", f.Chloride}, {"boron", f.Boron}} {
		if n.value > 0 {
			text += fmt.Sprintf(", %s %g mg/L", n.what, n.value)
		}
	}
	return text
}

// waterDrawn says which water was drawn, as one would aloud.
func waterDrawn(of []model.Source) string {
	if len(of) == 1 && of[0] == model.RestedTap {
		return "tap water that had stood"
	}
	return Safe(model.SourceWords(of))
}
