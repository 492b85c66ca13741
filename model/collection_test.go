package model_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
)

func TestNewPlantsHangAtHome(t *testing.T) {
	d := shelved(t)
	d.write(&model.Add{Plants: []model.Plant{{ID: 20, Count: 1, Home: model.Home{Shelf: "C"}}, {ID: 9, Count: 2}}})
	r := d.Row(20)
	if r.State != model.AtHome || !r.Since.Equal(d.at) || r.Signs != model.NoSigns || r.Home.Shelf != "C" ||
		r.InSession {
		t.Errorf("a new plant is %+v", r)
	}
	if want := (model.IDs{1, 2, 3, 4, 5, 6, 9, 20}); !cmp.Equal(d.IDs(), want) {
		t.Errorf("plants %v, want %v", []model.ID(d.IDs()), []model.ID(want))
	}
	if d.NextID() != 21 || d.Len() != 8 {
		t.Errorf("next number %d of %d rows", d.NextID(), d.Len())
	}
}

// A number is never given twice, also after the plant is gone.
func TestNumbersAreNeverGivenTwice(t *testing.T) {
	d := shelved(t)
	d.write(&model.Leave{How: model.Sold}, 6)
	if d.NextID() != 7 || d.Len() != 6 {
		t.Errorf("next number %d of %d rows", d.NextID(), d.Len())
	}
	taken := []model.Plant{{ID: 6, Count: 1}}
	twice := []model.Plant{{ID: 8, Count: 1}, {ID: 8, Count: 1}}
	d.refuses(
		refusal{&model.Add{Plants: taken}, nil, "plant number 6 is already taken", "next free number is 7"},
		refusal{&model.Add{Plants: twice}, nil, "plant number 8 is already taken", "next free number is 7"},
		refusal{&model.Import{Added: taken}, nil, "plant number 6 is already taken", "next free number is 7"},
		refusal{&model.Split{New: taken[0]}, model.IDs{5}, "plant number 6 is already taken", "next free number is 7"},
	)
}

func TestEdit(t *testing.T) {
	d := shelved(t)
	d.write(&model.Mist{}, 1)
	misted := d.at
	told := model.Plant{ID: 1, Name: "ionantha", Label: "window", Size: 6, Count: 3}
	d.write(&model.Edit{Plants: []model.Plant{told}})
	if r := d.Row(1); r.Plant != told || !r.Misted.Equal(misted) {
		t.Errorf("the row says %+v", r)
	}
	d.write(&model.Leave{How: model.Sold}, 6)
	d.refuses(
		refusal{&model.Edit{}, nil, "no plants named", "by number"},
		refusal{&model.Edit{Plants: []model.Plant{{ID: 9, Count: 1}}}, nil, "no plant 9", ""},
		refusal{&model.Edit{Plants: []model.Plant{{ID: 6, Count: 1}}}, nil, "plant 6 (#6) has been gone", ""},
		refusal{&model.Edit{Plants: []model.Plant{told, told}}, nil, "plant 1 is named twice", ""},
	)
}

// One file, one line of the book, one strike.
func TestImport(t *testing.T) {
	d := shelved(t)
	d.write(&model.Bloom{}, 2)
	before := look(d.Book)
	seq := d.write(&model.Import{
		File: "shelf.csv", Added: []model.Plant{{ID: 30, Count: 2}}, Changed: []model.Plant{{ID: 1, Count: 5}},
		BloomOn: model.IDs{30, 3}, BloomOff: model.IDs{2}, Stages: map[model.Stage]model.IDs{model.Bud: {4}},
	})
	if d.Row(30).Count != 2 || d.Row(1).Count != 5 || !d.Row(30).Bloom.Equal(d.at) || !d.Row(3).Bloom.Equal(d.at) ||
		!d.Row(2).Bloom.IsZero() || d.Row(4).Stage != model.Bud {
		t.Errorf("after the import: %+v", look(d.Book).Rows)
	}
	d.write(&model.Strike{Seq: seq})
	if diff := before.other(d.Book); diff != "" {
		t.Errorf("struck, the file left something behind:\n%s", diff)
	}
	d.refuses(
		refusal{&model.Import{File: "empty.csv"}, nil, "changes nothing", ""},
		refusal{&model.Import{BloomOn: model.IDs{9}}, nil, "no plant 9", ""},
		refusal{&model.Import{Stages: map[model.Stage]model.IDs{model.Open: {9}}}, nil, "no plant 9", ""},
		refusal{&model.Import{Added: []model.Plant{{ID: 7, Count: 1}}, BloomOff: model.IDs{9}}, nil, "no plant 9", ""},
		refusal{&model.Import{Changed: []model.Plant{{ID: 9, Count: 1}}}, nil, "no plant 9", ""},
	)
}

// What a file tells of rot, troubles and offsets is as if it were entered, and
// goes with the file. The end of a trouble that is not there says nothing.
func TestImportOfHealth(t *testing.T) {
	d := shelved(t)
	d.write(&model.Rot{}, 2)
	d.write(&model.Trouble{What: model.Scale, Treatment: "wiped off"}, 2)
	d.write(&model.Fading{}, 2)
	before := look(d.Book)
	seq := d.write(&model.Import{
		RotOn: model.IDs{1}, RotOff: model.IDs{2}, FadingOn: model.IDs{1}, FadingOff: model.IDs{2},
		TroubleOn:  map[model.Ailment]model.IDs{model.Mites: {1}},
		TroubleOff: map[model.Ailment]model.IDs{model.Scale: {2, 3}},
		Offsets:    []model.OffsetsOf{{Plant: 1, Seen: model.Offsets{Count: 3, Share: 0.4}}},
	})
	one, two := d.Row(1), d.Row(2)
	if !one.Rot.Equal(d.at) || !one.Fading.Equal(d.at) || len(one.Troubles) != 1 ||
		one.Troubles[0].What != model.Mites || one.Offsets != 3 || one.OffsetShare != 0.4 ||
		!one.OffsetsAt.Equal(d.at) {
		t.Errorf("plant 1: %+v", one)
	}
	if !two.Rot.IsZero() || !two.Fading.IsZero() || len(two.Troubles) != 0 || !two.Cleared.Equal(d.at) ||
		!d.Row(3).Cleared.IsZero() {
		t.Errorf("plant 2: %+v", two)
	}
	if h := d.History(1); h[len(h)-1].Seq != seq {
		t.Error("the file is not in the history of a plant it tells of")
	}
	d.write(&model.Strike{Seq: seq})
	if diff := before.other(d.Book); diff != "" {
		t.Errorf("struck, the file left something behind:\n%s", diff)
	}
	d.refuses(
		refusal{&model.Import{RotOn: model.IDs{9}}, nil, "no plant 9", ""},
		refusal{&model.Import{TroubleOff: map[model.Ailment]model.IDs{model.Cold: {9}}}, nil, "no plant 9", ""},
		refusal{&model.Import{TroubleOn: map[model.Ailment]model.IDs{"gloom": {1}}}, nil, "gloom", ""},
		refusal{&model.Import{Offsets: []model.OffsetsOf{{Plant: 1, Seen: model.Offsets{Count: 101}}}}, nil, "101 offsets", "count is 0 to 100"},
	)
}

func TestMove(t *testing.T) {
	d := shelved(t)
	for _, home := range []model.Home{{Shelf: "C", Spot: "4"}, {Shelf: "C"}, {Spot: "window"}} {
		d.write(&model.Move{To: home}, 1, 2)
		if d.Row(1).Home != home || d.Row(2).Home != home || d.Row(3).Home.Shelf != "A" {
			t.Errorf("moved to %v: %v, %v, %v", home, d.Row(1).Home, d.Row(2).Home, d.Row(3).Home)
		}
	}
	d.refuses(refusal{&model.Move{}, model.IDs{1}, "a move without a home", "name the shelf"})
}

// A part of a tray has lived as the tray did until now.
func TestSplit(t *testing.T) {
	d := shelved(t)
	d.write(&model.Weigh{Grams: 900}, 5)
	d.soak(5)
	d.write(&model.Out{}, 5)
	out := d.at
	d.write(&model.FoundDry{}, 5)
	d.write(&model.Hung{}, 5)
	d.write(&model.Split{New: model.Plant{ID: 7, Name: "tectorum", Label: "for the fair", Count: 10}}, 5)
	tray, part := d.Row(5), d.Row(7)
	if tray.Count != 14 || part.Count != 10 || part.Label != "for the fair" || part.ID != 7 {
		t.Errorf("%d left of 24, and %q of %d", tray.Count, part.Title(), part.Count)
	}
	if !part.LastSoak().Equal(out) || part.State != model.AtHome || part.Form != "" || part.Home != (model.Home{}) {
		t.Errorf("the part is %+v", part)
	}
	if tray.Weight.Grams != 0 || part.Weight.Grams != 0 {
		t.Errorf("what the whole tray weighed is said of its parts: %v, %v", tray.Weight, part.Weight)
	}
	if got := d.Tally(); got.Pulled != 1 || !got.Adds() {
		t.Errorf("the part was not pulled, and the tally says %+v", got)
	}
	d.write(&model.Mist{}, 7)
	if !tray.Misted.IsZero() {
		t.Error("a mist on the part came down on the tray")
	}
}

// An offset is taken off its mother, who stays one plant: it has her past in the
// water, and nothing of her bloom.
func TestSeparate(t *testing.T) {
	d := shelved(t)
	d.write(&model.Edit{Plants: []model.Plant{{ID: 1, Name: "ionantha", Size: 8, Count: 1, Note: "a gift"}}})
	d.soak(1)
	d.write(&model.Out{}, 1)
	out := d.at
	d.write(&model.FoundDry{}, 1)
	d.write(&model.Hung{}, 1)
	d.write(&model.Look{Signs: model.LooksFine}, 1)
	d.write(&model.Bloom{Stage: model.Open}, 1)
	d.write(&model.Offsets{Count: 3, Share: 0.5}, 1)
	pup := d.Row(1).AsOffset(7)
	if want := (model.Plant{ID: 7, Name: "ionantha", Size: 4, Count: 1, Mother: 1}); pup != want {
		t.Errorf("the offset is %+v, want %+v", pup, want)
	}
	d.refuses(refusal{&model.Split{New: pup, Offset: true}, model.IDs{2}, "an offset of plant 2 whose mother is 1", ""})
	d.write(&model.Split{New: pup, Offset: true}, 1)
	mother, r := d.Row(1), d.Row(7)
	if mother.Count != 1 || mother.Offsets != 2 || mother.Bloom.IsZero() || !mother.Separated.IsZero() {
		t.Errorf("the mother is %+v", mother)
	}
	if !r.LastSoak().Equal(out) || !r.Separated.Equal(d.at) || !r.Bloom.IsZero() || r.Stage != "" || r.Offsets != 0 ||
		r.Signs != model.NoSigns {
		t.Errorf("the offset is %+v", r)
	}
}

func TestSplitRefused(t *testing.T) {
	d := shelved(t)
	d.soak(2)
	d.refuses(
		refusal{&model.Split{New: model.Plant{ID: 7, Count: 24}}, model.IDs{5}, "plant 5 (tectorum) has 24, so 24 cannot", "leave at least one"},
		refusal{&model.Split{New: model.Plant{ID: 7, Count: 1}}, model.IDs{1}, "plant 1 (ionantha) has 1", "leave at least one"},
		refusal{&model.Split{New: model.Plant{ID: 7, Count: 1}}, model.IDs{5, 1}, "more than one tray", "one tray at a time"},
		refusal{&model.Split{New: model.Plant{ID: 7, Count: 1}}, model.IDs{2}, "plant 2 (bulbosa) is soaking", "at home"},
		refusal{&model.Split{New: model.Plant{ID: 7, Count: 1}}, nil, "no plants named", "by number"},
		refusal{&model.Split{New: model.Plant{ID: 7}}, model.IDs{5}, "plant 7: count 0", "1 to 10000"},
	)
	d.write(&model.Split{New: model.Plant{ID: 7, Count: 23}}, 5) // all but one
}

// Plants leave the shelf, never the book.
func TestLeave(t *testing.T) {
	d := shelved(t)
	d.write(&model.Leave{How: model.Lost, Cause: "rot"}, 1)
	d.write(&model.Leave{How: model.Given, Note: "for the neighbour"}, 2, 3)
	if r := d.Row(1); r.State != model.Gone || !r.Since.Equal(d.at.Add(-time.Minute)) || r.GoneHow != model.Lost ||
		r.GoneCause != "rot" {
		t.Errorf("lost: %+v", r)
	}
	if d.Row(2).GoneHow != model.Given || d.Row(3).State != model.Gone || d.Len() != 6 {
		t.Errorf("given: %+v of %d rows", d.Row(2), d.Len())
	}
	d.refuses(
		refusal{&model.Leave{}, model.IDs{4}, `gone: ""`, "lost, sold or given"},
		refusal{&model.Leave{How: "eaten"}, model.IDs{4}, `gone: "eaten"`, "lost, sold or given"},
		refusal{&model.Leave{How: model.Lost}, model.IDs{4}, "a loss without a cause", "rot, drought, pests"},
		refusal{&model.Leave{How: model.Lost, Cause: " "}, model.IDs{4}, "a loss without a cause", "unknown"},
		refusal{&model.Leave{How: model.Sold, Cause: "rot"}, model.IDs{4}, "a cause goes with lost, not with sold", ""},
	)
	d.write(&model.Leave{How: model.Lost, Cause: "the cat"}, 4) // any word of the grower's own
}
