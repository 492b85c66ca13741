package estimate_test

import (
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// What is believed depends on the entries alone: running on and starting again
// come to the same, and so does bringing an outlook up to date and looking
// anew.
func TestRunningOnIsStartingAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := household.Drawn(t)
		k := estimate.New(h.Book)
		now := may(6, 9)
		for range rapid.IntRange(1, 6).Draw(t, "entries") {
			now = now.Add(time.Duration(rapid.IntRange(1, 40).Draw(t, "hours")) * time.Hour)
			o := advice.Look(k, now)
			at := now.Add(-time.Duration(rapid.IntRange(0, 3).Draw(t, "late")) * 9 * time.Hour)
			e := model.NewEntry(at, something(t, h, at))
			e.Plants = someone(t, h, e.Fact)
			e.Seq = model.Seq(len(h.Entries()) + 1)
			if h.Check(e) != nil {
				continue
			}
			if err := h.Apply(e); err != nil {
				t.Fatal(err)
			}
			k.Follow(e)
			advice.Refresh(k, o, e, now)
			if again := advice.Look(k, now); !reflect.DeepEqual(o, again) {
				t.Fatalf("after %s: refreshed and looked at anew differ", e.Fact.Kind())
			}
			if fresh := advice.Look(estimate.New(h.Book), now); !reflect.DeepEqual(o, fresh) {
				for i := range o.Needs {
					if !reflect.DeepEqual(o.Needs[i], fresh.Needs[i]) {
						t.Fatalf("after %s: running on\n%+v\nstarting again\n%+v", e.Fact.Kind(), o.Needs[i],
							fresh.Needs[i])
					}
				}
				t.Fatalf("after %s: running on\n%+v\nstarting again\n%+v", e.Fact.Kind(), o.Drying, fresh.Drying)
			}
		}
	})
}

// So does taking over what was read beside, with what was written meanwhile, whatever clock it was written by.
func TestCatchingUpIsStartingAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := household.Drawn(t)
		k, now := estimate.New(h.Book), may(6, 9)
		var beside *estimate.Keeper
		catchUp := func() {
			if beside != nil {
				k.CatchUp(beside)
				beside = nil
			}
			believeTheSame(t, k, estimate.New(h.Book), now)
		}
		for range rapid.IntRange(1, 16).Draw(t, "entries") {
			now = now.Add(time.Duration(rapid.IntRange(1, 40).Draw(t, "hours")) * time.Hour)
			at := now.AddDate(0, 0, rapid.SampledFrom([]int{0, 0, 0, -1, -9, -99, 2, 99}).Draw(t, "clock"))
			e := model.NewEntry(at, &model.Strike{Seq: model.Seq(len(h.Entries()))}) // an undo, or a redo
			if rapid.IntRange(0, 2).Draw(t, "undo") > 0 {
				e = model.NewEntry(at, anything(t, h, at))
				e.Plants = someone(t, h, e.Fact)
			}
			e.Seq = model.Seq(len(h.Entries()) + 1)
			if h.Check(e) != nil {
				continue
			}
			if err := h.Apply(e); err != nil {
				t.Fatal(err)
			}
			if k.Lag(e) {
				beside = estimate.New(h.Copy())
			}
			if rapid.Bool().Draw(t, "read by now") {
				catchUp()
			}
		}
		catchUp()
	})
}

// something is any fact that may change what is believed.
func something(t *rapid.T, h household.Home, now time.Time) model.Fact {
	switch rapid.IntRange(0, 10).Draw(t, "what") {
	case 0, 1, 2:
		return &model.Look{Signs: model.Signs{Curl: model.Grade(rapid.IntRange(0, 3).Draw(t, "curl")), Tips: 0,
			Shift: model.NotSeen}}
	case 3:
		return &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: now.Add(2 * time.Hour)}
	case 4:
		return &model.Out{Shaken: true}
	case 5:
		return &model.FoundDry{}
	case 6:
		return &model.Damp{}
	case 7:
		return &model.Reading{TempC: 22, RH: float64(rapid.IntRange(20, 70).Draw(t, "rh"))}
	case 8:
		return &model.Move{To: model.Home{Shelf: "B"}}
	case 9:
		return &model.Weigh{Grams: float64(rapid.IntRange(20, 40).Draw(t, "g")), Wet: rapid.Bool().Draw(t, "wet")}
	}
	return &model.Hung{}
}

// someone is the plants of a fact: those whose state it needs.
func someone(t *rapid.T, h household.Home, f model.Fact) model.IDs {
	var fit model.IDs
	for _, id := range h.IDs() {
		if h.Check(model.NewEntry(may(30, 1), f, id)) == nil {
			fit = append(fit, id)
		}
	}
	switch f.(type) {
	case *model.Reading:
		return nil
	case *model.Weigh:
		if len(fit) > 0 {
			return fit[:1]
		}
	}
	if len(fit) == 0 {
		return fit
	}
	return fit[:rapid.IntRange(1, len(fit)).Draw(t, "how many")]
}

// What nothing is learned from is struck, and brought back, without reading the
// past again, and what is believed is what the entries come to all the same.
func TestStrikingWhatTeachesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := household.Drawn(t)
		k := estimate.New(h.Book)
		now := may(6, 9)
		id := h.IDs()[0]
		struck := model.Seq(0)
		write := func(f model.Fact, plants ...model.ID) bool {
			now = now.Add(time.Hour)
			e := model.NewEntry(now, f, plants...)
			e.Seq = model.Seq(len(h.Entries()) + 1)
			if h.Check(e) != nil {
				return false
			}
			if err := h.Apply(e); err != nil {
				t.Fatal(err)
			}
			k.Follow(e)
			if again := advice.Look(estimate.New(h.Book), now); !reflect.DeepEqual(advice.Look(k, now), again) {
				t.Fatalf("after %s: running on and starting again differ", f.Kind())
			}
			return true
		}
		f := rapid.SampledFrom([]model.Fact{
			&model.Note{Text: "seen"}, &model.Bloom{}, &model.Rot{}, &model.Trouble{What: model.Scale}, &model.LookedOver{},
			&model.Offsets{Count: 2, Share: 0.3}, &model.Fading{}, &model.Pull{}, &model.Hung{},
		}).Draw(t, "fact")
		if !write(f, id) {
			return
		}
		struck = model.Seq(len(h.Entries()))
		write(&model.Reading{TempC: 20, RH: 40})
		if write(&model.Strike{Seq: struck}) {
			write(&model.Strike{Seq: model.Seq(len(h.Entries()))})
		}
	})
}
