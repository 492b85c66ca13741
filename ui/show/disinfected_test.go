package show_test

import (
	"strings"
	"testing"
	"time"

	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
	"tubside/ui/show"
)

// A vessel that a sick plant was in stands disinfected (Iowa State University Extension: bleach
// for ten minutes): whoever fills it pours that out first and rinses it.
func TestADisinfectedVesselIsRinsedBeforeItIsFilled(t *testing.T) {
	h := household.Greens(t, 2)
	at := time.Date(2026, time.May, 8, 9, 0, 0, 0, time.UTC)
	p := &day.Plan{Ask: day.Ask{From: at}, Vessels: h.Vessels(),
		Loads: []day.Load{
			{Number: 1, Fill: 1, Vessel: "tub", Company: soak.Sick, Plants: []day.Plant{{ID: 1, Company: soak.Sick}}, Start: at, Out: at.Add(time.Hour)},
			{Number: 2, Fill: 2, Vessel: "tub", Plants: []day.Plant{{ID: 2}}, Start: at.Add(2 * time.Hour), Out: at.Add(3 * time.Hour)},
		},
		Steps: []day.Step{
			{At: at.Add(time.Hour), Until: at.Add(62 * time.Minute), Do: soak.Empty, Vessel: "tub"},
			{At: at.Add(80 * time.Minute), Until: at.Add(100 * time.Minute), Do: soak.Fill, Vessel: "tub", Load: 1, Litres: 100},
		}}
	if said := show.Step(h.Book, p, &p.Steps[1]); !strings.Contains(said, "pour the disinfectant out of tub, rinse it well, and fill tub") {
		t.Errorf("the fill after the sick: %q", said)
	}
	p.Loads[0].Company, p.Loads[0].Plants[0].Company = soak.Healthy, soak.Healthy
	if said := show.Step(h.Book, p, &p.Steps[1]); strings.Contains(said, "disinfectant") {
		t.Errorf("the fill after the healthy: %q", said)
	}
}
