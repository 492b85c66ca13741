package estimate_test

import (
	"cmp"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// happened is something of a household's life: entries that are written together, whenever that is.
type happened []model.Entry

// lives is what happened in three weeks to the plants of a book, by its time.
func lives(t *rapid.T, h household.Home) (all []happened) {
	plants := func(label string) model.IDs {
		return model.IDs(rapid.SliceOfNDistinct(rapid.SampledFrom(h.IDs()), 1, h.Len(), rapid.ID).Draw(t, label))
	}
	for day := range 21 {
		// Whatever is seen is seen at a minute of its own, so that its time says in which order it was.
		at := func(hour int) time.Time { return may(3+day, hour).Add(time.Duration(day) * time.Minute) }
		switch rapid.IntRange(0, 7).Draw(t, "what") {
		case 0, 1:
			in, out, dry := at(9), at(11), at(15)
			soaked := plants("soaked")
			all = append(all, happened{
				model.NewEntry(in, &model.Soak{Vessel: "tub", Due: out}, soaked...),
				model.NewEntry(out, &model.Out{Shaken: true}, soaked...),
				model.NewEntry(out.Add(time.Minute), &model.Weigh{Grams: 41, Wet: true}, soaked[0]),
				model.NewEntry(dry, &model.FoundDry{}, soaked...),
				model.NewEntry(dry, &model.Hung{}, soaked...),
			})
		case 2:
			all = append(all, happened{model.NewEntry(at(8), &model.Mist{}, plants("misted")...)})
		case 3:
			f := &model.Weigh{Grams: rapid.Float64Range(20, 40).Draw(t, "grams")}
			all = append(all, happened{model.NewEntry(at(18), f, plants("weighed")[:1]...)})
		case 4:
			f := &model.Reading{TempC: 21, RH: float64(rapid.IntRange(20, 70).Draw(t, "humidity"))}
			all = append(all, happened{model.NewEntry(at(7), f)})
		case 5:
			all = append(all, happened{model.NewEntry(at(6), &model.FanSet{Fan: model.FanOn})})
		}
		if rapid.Bool().Draw(t, "looked at") {
			f := &model.Look{Signs: model.Signs{Curl: model.Grade(rapid.IntRange(0, 3).Draw(t, "curl")),
				Shift: model.NotSeen}}
			hour := rapid.SampledFrom([]int{8, 12, 19}).Draw(t, "hour")
			all = append(all, happened{model.NewEntry(at(hour).Add(30*time.Minute), f, plants("seen")...)})
		}
	}
	return all
}

// written writes what happened into a book, in an order, and follows it.
func written(t *rapid.T, h household.Home, all []happened) *estimate.Keeper {
	k := estimate.New(h.Book)
	for _, one := range all {
		for _, e := range one {
			if f, ok := e.Fact.(*model.Soak); ok {
				numbered := *f
				numbered.Load, e.Fact = h.NextLoad(), &numbered
			}
			h.Say(e.At, e.Fact, e.Plants...)
			k.Follow(h.Entries()[len(h.Entries())-1])
		}
	}
	return k
}

// Who keeps a log on paper and keys it in later, or writes a soak anew that was struck, writes up the same life in
// another order. What is believed goes by when things happened.
func TestWhatIsWrittenLateIsReadWhenItHappened(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		newHome := func() household.Home {
			h := household.New(t)
			h.AddGreens(5)
			return h
		}
		inTime, late := newHome(), newHome()
		all := lives(t, inTime)
		slices.SortStableFunc(all, func(a, b happened) int { return a[0].At.Compare(b[0].At) })
		var entries []happened // each by itself, in its time
		for _, one := range all {
			for _, e := range one {
				entries = append(entries, happened{e})
			}
		}
		slices.SortStableFunc(entries, func(a, b happened) int { return a[0].At.Compare(b[0].At) })
		want := written(t, inTime, entries)
		ran := written(t, late, rapid.Permutation(all).Draw(t, "written"))
		now := may(30, 9)
		for name, k := range map[string]*estimate.Keeper{"followed": ran, "read anew": estimate.New(late.Book)} {
			if !estimate.Same(want, k, now) {
				for _, id := range inTime.IDs() {
					if a, b := want.Plant(id, now), k.Plant(id, now); cmp.Compare(a.RWC, b.RWC) != 0 {
						t.Errorf("%s: plant %d in time %+v, late %+v", name, id, a.Stand, b.Stand)
					}
				}
				t.Fatalf("%s: other things are believed", name)
			}
			a, b := advice.Look(want, now), advice.Look(k, now)
			for i := range a.Needs {
				if a.Needs[i].DaysSince != b.Needs[i].DaysSince || a.Needs[i].Band != b.Needs[i].Band {
					t.Fatalf("%s: needs\n%+v in time\n%+v late", name, a.Needs[i], b.Needs[i])
				}
			}
		}
	})
}
