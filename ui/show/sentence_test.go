package show_test

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/ui/show"
)

var noon = time.Date(2026, 1, 31, 12, 0, 0, 0, time.UTC)

// shelf is a book of 40 plants on shelf A, the first of them labelled.
func shelf(t *testing.T) *model.Book {
	t.Helper()
	b := model.NewBook(time.UTC)
	var plants []model.Plant
	for id := model.ID(1); id <= 40; id++ {
		plants = append(plants, model.Plant{ID: id, Count: 1, Home: model.Home{Shelf: "A", Spot: id.String()}})
	}
	plants[0].Label = "Fuego"
	enter(t, b, &model.Add{Plants: plants})
	return b
}

// enter writes an entry as the store does.
func enter(t *testing.T, b *model.Book, fact model.Fact, ids ...model.ID) model.Entry {
	t.Helper()
	e := model.NewEntry(noon, fact, ids...)
	e.Seq = model.Seq(len(b.Entries()) + 1)
	if err := b.Check(e); err != nil {
		t.Fatal(err)
	}
	if err := b.Apply(e); err != nil {
		t.Fatal(err)
	}
	return e
}

func TestSentence(t *testing.T) {
	for _, c := range []struct {
		fact model.Fact
		ids  model.IDs
		want string
	}{
		{&model.Add{Plants: []model.Plant{{ID: 41, Name: "bulbosa", Count: 1}}}, nil, "added bulbosa (41)"},
		{&model.Edit{Plants: []model.Plant{{ID: 2}, {ID: 3}}}, nil, "changed 2 plants: 2-3"},
		{&model.Import{File: "plants.csv", Added: make([]model.Plant, 600), BloomOn: model.IDs{1, 2}}, nil, "imported plants.csv: 600 plants added, bloom marked on 2"},
		{&model.Reading{TempC: 21, RH: 35, Fan: model.FanLow}, nil, "21.0 °C, 35 % humidity, fan low"},
		{&model.Reading{TempC: 21, RH: 35}, nil, "21.0 °C, 35 % humidity"},
		{&model.FanSet{Fan: model.FanNear}, nil, "fan near"},
		{&model.WindowSet{Window: model.Extractor}, nil, "extractor on"},
		{&model.Outside{TempC: -5, RH: 80}, nil, "outdoors -5.0 °C, 80 % humidity"},
		{&model.ShelfSet{Name: "A", Factor: 1.4}, nil, "shelf A dries plants out 1.4 times as fast"},
		{&model.ShelfSet{Name: "A", Factor: 1}, nil, "shelf A dries plants out like any other"},
		{&model.Weigh{Grams: 31.5}, model.IDs{2}, "2 weighs 31.5 g"},
		{model.NewReadings("log.csv", []model.ReadingAt{{At: noon.Add(-time.Hour), TempC: 20, RH: 40}}), nil, "log.csv: 1 reading from 31 Jan 2026 to 31 Jan 2026"},
		{&model.Trip{From: noon, Until: noon.AddDate(0, 0, 12), Note: "the islands"}, nil, "away from 31 Jan 2026 12:00 until 12 Feb 2026 12:00 (the islands)"},
		{&model.Back{}, nil, "home again"},
		{&model.Look{Signs: model.Signs{Curl: 2, Tips: 1, Shift: model.NotSeen}}, model.IDs{17}, "17: deep channel, a few brown new tips"},
		{&model.Soak{Load: 3, Vessel: "tub", Due: noon.Add(90 * time.Minute)}, model.IDs{12, 13, 14, 20}, "12, 13, 14 and 1 more into tub until 13:30 (load 3)"},
		{&model.Out{Shaken: true}, model.IDs{1}, "Fuego out of the water, shaken"},
		{&model.Out{Inverted: true}, model.IDs{2}, "2 out of the water, not shaken, upside down"},
		{&model.Damp{}, model.IDs{1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21}, "Fuego, 3, 5 and 8 more still damp"},
		{&model.FoundDry{}, model.IDs{2}, "2 dry to the heart"},
		{&model.Hung{}, model.IDs{2}, "2 hung back"},
		{&model.Pull{}, model.IDs{2}, "2 pulled"},
		{&model.PutBack{}, model.IDs{2}, "2 put back without a soak"},
		{&model.Mist{}, model.IDs{2}, "2 misted"},
		{&model.Bloom{}, model.IDs{2}, "2 in bloom"},
		{&model.Bloom{Over: true}, model.IDs{2}, "2 no longer in bloom"},
		{&model.Rot{}, model.IDs{2}, "2 may be rotting"},
		{&model.Rot{Over: true}, model.IDs{2}, "2 sound, no rot"},
		{&model.Leave{How: model.Lost, Cause: "rot"}, model.IDs{2}, "2 lost to rot"},
		{&model.Leave{How: model.Sold, Note: "fair\n"}, model.IDs{2}, "2 sold (fair )"},
		{&model.Move{To: model.Home{Shelf: "B", Spot: "4"}}, model.IDs{2}, "2 moved to B 4"},
		{&model.Split{New: model.Plant{ID: 41, Label: "pups", Count: 3}}, model.IDs{2}, "3 split off 2 as pups (41)"},
		{&model.Note{Text: "new lamp"}, nil, "note: new lamp"},
		{&model.Note{Text: "pup"}, model.IDs{2}, "note on 2: pup"},
		{&model.VesselSet{Vessel: model.Vessel{Name: "sink", Litres: 25}}, nil, "sink holds 25 L"},
		{&model.VesselSet{Vessel: model.Vessel{Name: "sink"}, Away: true}, nil, "sink put away"},
		{&model.RuleSet{Name: "cap-fuzzy", Value: 15}, nil, "house rule: longest soak for a fuzzy plant: 15 min"},
	} {
		t.Run(c.want, func(t *testing.T) {
			if got := show.Sentence(model.NewEntry(noon, c.fact, c.ids...), shelf(t)); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestSentenceOfAStrike(t *testing.T) {
	b := shelf(t)
	misted := enter(t, b, &model.Mist{}, 1)
	strike := enter(t, b, &model.Strike{Seq: misted.Seq})
	if got, want := show.Sentence(strike, b), "undone: Fuego misted"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	back := enter(t, b, &model.Strike{Seq: strike.Seq})
	if got, want := show.Sentence(back, b), "redone: Fuego misted"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestStanding(t *testing.T) {
	b := shelf(t)
	later := noon.Add(30 * time.Minute)
	expect := func(want, state string) {
		t.Helper()
		if got := show.Standing(b.Row(1), b, later); got != want {
			t.Errorf("Standing = %q, want %q", got, want)
		}
		if got := show.State(b.Row(1), b); got != state {
			t.Errorf("State = %q, want %q", got, state)
		}
	}
	expect("at home on A 1", "home")
	enter(t, b, &model.Pull{}, 1)
	expect("at home on A 1", "pulled")
	enter(t, b, &model.Soak{Load: 1, Vessel: "tub", Due: noon.Add(time.Hour)}, 1)
	expect("in tub (load 1), due 13:00", "soaking")
	enter(t, b, &model.Out{}, 1)
	expect("drying since 12:00", "drying")
	enter(t, b, &model.FoundDry{}, 1)
	expect("dry since 12:00, to hang on A 1", "dry")
	enter(t, b, &model.Leave{How: model.Lost, Cause: "rot"}, 1)
	expect("lost to rot 31 Jan 2026", "gone")
}

// A name that two plants have says nothing without the number.
func TestANameThatTwoHaveComesWithItsNumber(t *testing.T) {
	b := model.NewBook(time.UTC)
	enter(t, b, &model.Add{Plants: []model.Plant{{ID: 1, Name: "Spike", Count: 1}, {ID: 2, Name: "Kurt", Count: 1}}})
	if got, want := show.Plants(model.IDs{1, 2}, b), "Spike and Kurt"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	enter(t, b, &model.Add{Plants: []model.Plant{{ID: 3, Name: "Spike", Count: 1}}})
	if got, want := show.Plants(model.IDs{1, 2}, b), "Spike (1) and Kurt"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	enter(t, b, &model.Edit{Plants: []model.Plant{{ID: 3, Name: "Anna", Count: 1}}})
	if got, want := show.Plants(model.IDs{1, 2, 3}, b), "Spike, Kurt and Anna"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
