package model_test

import (
	"encoding/json"
	"slices"
	"testing"
	"time"

	"tubside/model"
)

// A bloom goes from bud to open to spent. In bud and open the plant is in bloom;
// spent it is not, but the stage is kept until nothing is left or a new bloom
// shows.
func TestABloomThroughItsStages(t *testing.T) {
	d := shelved(t)
	var ended time.Time
	for _, step := range []struct {
		fact   model.Bloom
		stage  model.Stage
		blooms bool
	}{
		{model.Bloom{Stage: model.Bud}, model.Bud, true},
		{model.Bloom{}, model.Bud, true}, // said again with less
		{model.Bloom{Stage: model.Open}, model.Open, true},
		{model.Bloom{Stage: model.Spent}, model.Spent, false},
		{model.Bloom{}, "", true}, // a new one
		{model.Bloom{Stage: model.Spent}, model.Spent, false},
		{model.Bloom{Over: true}, "", false},
	} {
		d.write(&step.fact, 1)
		r := d.Row(1)
		if step.fact.Stage == model.Spent {
			ended = d.at
		}
		if r.Stage != step.stage || r.Bloom.IsZero() == step.blooms {
			t.Errorf("after %+v: stage %q, in bloom %t", step.fact, r.Stage, !r.Bloom.IsZero())
		}
		if step.stage != "" && r.StageAt.IsZero() || step.stage == "" && !r.StageAt.IsZero() {
			t.Errorf("after %+v: stage %q since %s", step.fact, r.Stage, r.StageAt)
		}
	}
	if r := d.Row(1); !r.Bloomed.Equal(ended) {
		t.Errorf("last bloomed until %s, want %s", r.Bloomed, ended)
	}
	d.refuses(
		refusal{&model.Bloom{Stage: "wilting"}, model.IDs{1}, "wilting", "bud, open, spent"},
		refusal{&model.Bloom{Stage: model.Bud, Over: true}, model.IDs{1}, "over and bud", "one of the two"},
	)
}

// Books written before there were stages still read, and say what they said.
func TestOldLinesStillRead(t *testing.T) {
	d := shelved(t)
	for _, line := range []string{
		`{"v":1,"at":"2026-05-02T10:00:00Z","kind":"bloom","plants":"1"}`,
		`{"v":1,"at":"2026-05-02T10:00:01Z","kind":"mist","plants":"1"}`,
		`{"v":1,"at":"2026-05-02T10:00:02Z","kind":"soak","plants":"2","fact":{"load":1,"vessel":"tub","due":"2026-05-02T11:00:00Z"}}`,
		`{"v":1,"at":"2026-05-02T10:00:03Z","kind":"split","plants":"5","fact":{"new":{"id":7,"count":4}}}`,
		`{"v":1,"at":"2026-05-02T10:00:04Z","kind":"bloom","plants":"1","fact":{"over":true}}`,
	} {
		var e model.Entry
		if err := json.Unmarshal([]byte(line), &e); err != nil {
			t.Fatal(err)
		}
		e.Seq = model.Seq(len(d.Entries()) + 1)
		if err := d.Apply(e); err != nil {
			t.Fatal(err)
		}
		if again, err := json.Marshal(e); err != nil || string(again) != line {
			t.Errorf("%s\ncomes back as\n%s, %v", line, again, err)
		}
	}
	if r := d.Row(1); r.Misted.IsZero() || !r.Bloom.IsZero() || r.Stage != "" || !d.Row(2).Fed.IsZero() {
		t.Errorf("the old lines say %+v", *r)
	}
	if d.Row(7).Mother != 0 || d.Row(5).Count != 20 || !d.Row(7).Separated.IsZero() {
		t.Error("a part of a tray was taken for an offset")
	}
}

// From a third the house rule lets an offset be taken, from a half it should be
// (San Diego Bromeliad Society, FAQ). The new plant knows its mother, has her
// soaks, and none of her blooms.
func TestAnOffsetIsSeparated(t *testing.T) {
	d := shelved(t)
	d.write(&model.Edit{Plants: []model.Plant{{ID: 1, Name: "ionantha", Count: 1, Size: 12, Note: "mother"}}})
	d.soak(1)
	d.write(&model.Out{}, 1)
	d.write(&model.FoundDry{}, 1)
	d.write(&model.Hung{}, 1)
	for _, c := range []struct {
		share       float64
		may, should bool
	}{{0.32, false, false}, {0.33, true, false}, {0.49, true, false}, {0.5, true, true}} {
		d.write(&model.Offsets{Count: 2, Share: c.share}, 1)
		if may, should := d.MaySeparate(d.Row(1)); may != c.may || should != c.should {
			t.Errorf("at %g: may %t, should %t", c.share, may, should)
		}
	}
	d.write(&model.Bloom{Stage: model.Open}, 1)
	d.write(&model.Fading{}, 1)
	pup := d.Row(1).AsOffset(d.NextID())
	if pup.Mother != 1 || pup.Size != 6 || pup.Note != "" || pup.Name != "ionantha" {
		t.Errorf("described as %+v", pup)
	}
	d.write(&model.Split{New: pup, Offset: true}, 1)
	mother, child := d.Row(1), d.Row(pup.ID)
	if mother.Offsets != 1 || mother.Count != 1 || !slices.Equal(d.Children(1), model.IDs{pup.ID}) {
		t.Errorf("the mother has %d offsets and counts %d; children %v", mother.Offsets, mother.Count, d.Children(1))
	}
	if child.Separated.IsZero() || !child.Bloom.IsZero() || child.Stage != "" || !child.Fading.IsZero() ||
		child.Offsets != 0 {
		t.Errorf("the offset has her bloom: %+v", *child)
	}
	if !child.LastSoak().Equal(mother.LastSoak()) {
		t.Error("the offset has not lived as she did")
	}
	d.refuses(
		refusal{&model.Split{New: model.Plant{ID: 9, Count: 1, Mother: 2}, Offset: true}, model.IDs{1}, "whose mother is 2", ""},
		refusal{&model.Split{New: model.Plant{ID: 9, Count: 1}}, model.IDs{1}, "cannot be split off", "separated"},
		refusal{&model.Offsets{Count: -1}, model.IDs{1}, "-1 offsets", "0 to"},
		refusal{&model.Offsets{Count: 1, Share: 2}, model.IDs{1}, "200 %", "33 %"},
		refusal{&model.Add{Plants: []model.Plant{{ID: 9, Count: 1, Mother: 9}}}, nil, "mother 9", "taken off"},
	)
}
