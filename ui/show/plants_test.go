package show_test

import (
	"testing"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/ui/show"
)

// Two plants of one name differ by their numbers, which no column cuts off.
func TestANameKeepsItsNumber(t *testing.T) {
	for _, c := range []struct {
		name  string
		width int
		want  string
	}{
		{"brachycaulos 30", 14, "brachycaul… 30"},
		{"ionantha 3", 14, "ionantha 3    "},
		{"stricta by the door", 14, "stricta by th…"},
		{"brachycaulos 1234567", 8, "brachyc…"},
		{"日本の花 12", 8, "日本… 12"},
		{"upper rail A16", 10, "upper… A16"},
		{"ionantha #12", 10, "ionan… #12"},
		{"by the window 2024-2025", 12, "by the wind…"}, // that is no number of a plant
	} {
		if got := show.PadName(c.name, c.width); got != c.want {
			t.Errorf("PadName(%q, %d) = %q, want %q", c.name, c.width, got, c.want)
		}
	}
}

func TestWhenAPlantCame(t *testing.T) {
	day := date.New(2022, time.December, 15)
	for want, p := range map[string]model.Plant{
		"15 Dec 2022": {Acquired: day},
		"Dec 2022":    {Acquired: day, AcquiredTo: model.ToMonth},
		"2022":        {Acquired: day, AcquiredTo: model.ToYear},
		"":            {},
	} {
		if got := show.Came(p); got != want {
			t.Errorf("Came = %q, want %q", got, want)
		}
	}
}
