package estimate_test

import (
	"bytes"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// A keeper that goes on from a snapshot believes, number for number, what one does that
// reads the whole book: whenever the snapshot was made, and whatever came after it.
func TestGoingOnFromASnapshotIsReadingTheWholeBook(t *testing.T) {
	resumed := 0
	rapid.Check(t, func(t *rapid.T) {
		h := household.Drawn(t)
		k, now := estimate.New(h.Book), may(6, 9)
		var kept bytes.Buffer
		n, steps := 0, rapid.IntRange(1, 16).Draw(t, "entries")
		keep := rapid.IntRange(0, steps-1).Draw(t, "kept before")
		for i := range steps {
			if i == keep {
				if n = len(h.Entries()); rapid.Bool().Draw(t, "read anew") {
					k = estimate.New(h.Book)
				}
				if err := k.Snapshot(&kept); err != nil {
					t.Fatal(err)
				}
			}
			now = now.Add(time.Duration(rapid.IntRange(1, 99).Draw(t, "hours")) * time.Hour)
			if rapid.Bool().Draw(t, "looked at") {
				advice.Look(k, now)
			}
			at := now.AddDate(0, 0, -rapid.SampledFrom([]int{0, 0, 0, 1, 9, 99}).Draw(t, "late"))
			e := model.NewEntry(at, anything(t, h, at))
			e.Plants = someone(t, h, e.Fact)
			e.Seq = model.Seq(len(h.Entries()) + 1)
			if h.Check(e) != nil {
				continue
			}
			if err := h.Apply(e); err != nil {
				t.Fatal(err)
			}
			k.Follow(e)
		}
		if !estimate.Resumes(h.Book, n) {
			return
		}
		resumed++
		again, err := estimate.Resume(h.Book, n, &kept)
		if err != nil {
			t.Fatal(err)
		}
		believeTheSame(t, again, estimate.New(h.Book), now)
	})
	if resumed == 0 {
		t.Error("no snapshot was of use")
	}
}

// believeTheSame fails unless two keepers say the same of everything.
func believeTheSame(t *rapid.T, got, want *estimate.Keeper, now time.Time) {
	if a, b := advice.Look(got, now), advice.Look(want, now); !reflect.DeepEqual(a, b) {
		for i := range b.Needs {
			if !reflect.DeepEqual(a.Needs[i], b.Needs[i]) {
				t.Fatalf("from the snapshot\n%+v\nfrom the book\n%+v", a.Needs[i], b.Needs[i])
			}
		}
		for i := range b.Drying {
			if !reflect.DeepEqual(a.Drying[i], b.Drying[i]) {
				t.Fatalf("from the snapshot\n%+v\nfrom the book\n%+v", a.Drying[i], b.Drying[i])
			}
		}
		t.Fatalf("from the snapshot\n%+v\nfrom the book\n%+v", a.Air, b.Air)
	}
	if !estimate.Same(got, want, now) {
		t.Fatal("from the snapshot other things are believed than from the book")
	}
}

// anything is a fact that may change what is believed, or how the past reads.
func anything(t *rapid.T, h household.Home, now time.Time) model.Fact {
	switch rapid.IntRange(0, 12).Draw(t, "what else") {
	case 0, 1, 2:
		return &model.Strike{Seq: model.Seq(rapid.IntRange(1, len(h.Entries())).Draw(t, "struck"))}
	case 3:
		return &model.RuleSet{Name: model.LimitTable[model.DefaultRH].Name, Value: rapid.Float64Range(30, 60).Draw(t, "rh")}
	case 4:
		return &model.FanSet{Fan: model.FanOn}
	case 5:
		return &model.Trip{From: now, Until: now.AddDate(0, 0, 9)}
	case 6:
		return &model.Mist{}
	}
	return something(t, h, now)
}
