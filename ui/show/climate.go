package show

import (
	"fmt"
	"math"
	"strings"

	"tubside/model"
)

// WindowWords says each way of airing the room.
var WindowWords = map[model.Window]string{
	model.WindowShut: "window shut", model.DoorOpen: "door open", model.WindowOpen: "window open",
	model.Extractor: "extractor on",
}

// climateSentence says what an entry tells about a weight or about the climate
// of a place; "" for any other entry.
func climateSentence(e model.Entry, who string) string {
	switch f := e.Fact.(type) {
	case *model.Weighing:
		if f.Over {
			return strings.TrimPrefix(who+" weighed no longer", " ")
		}
		return who + " to be weighed for four weeks"
	case *model.Weigh:
		if f.Wet {
			return fmt.Sprintf("%s weighs %g g wet", who, f.Grams)
		}
		return fmt.Sprintf("%s weighs %g g", who, f.Grams)
	case *model.ShelfSet:
		if f.Factor == 1 {
			return "shelf " + Safe(f.Name) + " dries plants out like any other"
		}
		return fmt.Sprintf("shelf %s dries plants out %g times as fast", Safe(f.Name), f.Factor)
	case *model.WindowSet:
		return WindowWords[f.Window]
	case *model.Outside:
		return fmt.Sprintf("outdoors %.1f °C, %.0f %% humidity", f.TempC, f.RH)
	}
	return ""
}

// KPaWords says what a vapour pressure deficit is, and from where on it is what.
func KPaWords() string {
	return fmt.Sprintf("how hard the air pulls at a plant's water: up to %g damp air, from %g thirsty", dampKPa, thirstyKPa)
}

// Where the air of a room is called thirsty and damp, kPa of vapour pressure
// deficit: 21 °C at 40 % and at 70 %. Guesses, for words and not for sums.
const (
	thirstyKPa = 1.5
	dampKPa    = 0.75
)

// AirZone says in a word how the air treats plants by its vapour pressure deficit
// in kPa.
func AirZone(kPa float64) string {
	switch kPa = math.Round(10*kPa) / 10; { // as it is said
	case kPa >= thirstyKPa:
		return "thirsty"
	case kPa > dampKPa:
		return "mild"
	}
	return "damp"
}
