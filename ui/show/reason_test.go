package show_test

import (
	"strings"
	"testing"

	"tubside/model"
	"tubside/model/advice"
	"tubside/tests/household"
	"tubside/ui/show"
)

// A reason without a sentence would be a blank line where somebody looks for why.
func TestEveryReasonHasItsSentence(t *testing.T) {
	h := household.Greens(t, 1)
	at := household.May(5, 9)
	h.Say(at, &model.Look{Signs: model.Signs{Curl: 2, Tips: 0, Shift: model.NotSeen}}, 1)
	h.Say(at, &model.Trouble{What: model.Burn}, 1)
	h.Say(at, &model.Quarantine{}, 1)
	h.Say(at, &model.Feed{How: model.ByMist, Mix: model.Mix{PPM: 50}}, 1)
	a := show.About{Book: h.Book, Row: h.Row(1), Now: at.AddDate(0, 0, 1)}
	said := map[string]advice.Code{}
	for c := advice.NoCode + 1; c <= advice.StandingWater; c++ {
		name := "conductivity"
		if c == advice.SourceWarns {
			name = string(model.Rice)
		}
		text := a.Reason(advice.Reason{Code: c, N: [4]float64{0, 30, 45, 4}, Name: name})
		if text == "" || strings.Contains(text, "%!") || strings.Contains(text, "  ") {
			t.Errorf("code %d says %q", c, text)
		}
		said[text] = c
	}
	if len(said) < int(advice.StandingWater)-12 { // a few say the same on purpose, as rot on different rounds
		t.Errorf("%d codes, and only %d sentences", advice.StandingWater, len(said))
	}
}
