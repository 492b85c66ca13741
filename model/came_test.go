package model_test

import (
	"testing"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// When a plant came is as exact as the grower remembers it, and is read back as it is
// shown.
func TestWhenAPlantCameIsAsExactAsItIsKnown(t *testing.T) {
	today := date.New(2026, 11, 28)
	for text, want := range map[string]struct {
		came  string
		exact model.Exact
		day   date.Date
	}{
		"2021":       {"2021", model.ToYear, date.New(2021, 12, 31)},
		"2026":       {"2026", model.ToYear, today},
		"June 2022":  {"Jun 2022", model.ToMonth, date.New(2022, 6, 30)},
		"Sept. 2023": {"Sep 2023", model.ToMonth, date.New(2023, 9, 30)},
		"2026-01-31": {"2026-01-31", "", date.New(2026, 1, 31)},
	} {
		day, exact, err := model.ParseCame(text, today)
		p := model.Plant{Acquired: day, AcquiredTo: exact}
		if err != nil || day != want.day || exact != want.exact || p.Came() != want.came {
			t.Errorf("%q: %s %q, shown as %q, %v", text, day, exact, p.Came(), err)
		}
		if again, same, err := model.ParseCame(p.Came(), today); err != nil || again != day || same != exact {
			t.Errorf("%q is read back as %s %q, %v", p.Came(), again, same, err)
		}
	}
	for _, text := range []string{"2027", "Dec 2026", "Spring 2021", "Xmas 2024", "Ma 2024", "Marc3 2024"} {
		if day, exact, err := model.ParseCame(text, today); err == nil {
			t.Errorf("%q was read as %s %q", text, day, exact)
		}
	}
}
