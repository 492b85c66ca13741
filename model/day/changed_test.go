package day

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// loadOf is a load of plants in a vessel.
func loadOf(vessel string, ids ...model.ID) Load {
	l := Load{Vessel: vessel}
	for _, id := range ids {
		l.Plants = append(l.Plants, Plant{ID: id})
	}
	return l
}

// What changed is told by plants: who is left out, which loads whole, and that the day is
// shorter. What went in or came out is no change.
func TestWhatChangedSinceTheLastStep(t *testing.T) {
	free := time.Date(2026, time.May, 23, 17, 44, 0, 0, time.UTC)
	steps := []Step{{Do: soak.PutIn}}
	was := &Plan{DayFree: free, Steps: steps, Loads: []Load{loadOf("tub", 1, 2), loadOf("crate", 3, 4, 5), loadOf("bucket", 6)}}
	was.numberRest(0)
	if c := was.Since(was); len(c.Loads)+len(c.Left)+len(c.Back) > 0 || !c.Was.IsZero() {
		t.Errorf("nothing changed: %+v", c)
	}
	in := loadOf("tub", 1, 2)
	in.Load = 7
	is := &Plan{DayFree: free.Add(-45 * time.Minute), Steps: steps, Left: []LeftOut{{ID: 5}, {ID: 6}},
		Loads: []Load{in, loadOf("crate", 3, 4)}}
	c := is.Since(was)
	if !slices.Equal(c.Left, model.IDs{5, 6}) || !slices.Equal(c.Loads, []int{3}) {
		t.Errorf("%+v", c)
	}
	if !c.Was.Equal(free) || !c.Is.Equal(is.DayFree) || len(c.Back) > 0 {
		t.Errorf("%+v", c)
	}
	if c := was.Since(is); !slices.Equal(c.Back, model.IDs{5, 6}) {
		t.Errorf("two are back: %+v", c)
	}
}
