package model_test

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
)

// From dripping to hung: damp as often as looked at, dry, home.
func TestFromDampToHung(t *testing.T) {
	d := shelved(t)
	d.soak(1, 2)
	d.write(&model.Out{}, 1, 2)
	out := d.at
	d.write(&model.Damp{}, 1)
	d.write(&model.Damp{}, 1)
	if r := d.Row(1); r.State != model.Drying || !r.DampAt.Equal(d.at) || !r.Since.Equal(out) {
		t.Errorf("damp twice: %+v", r)
	}
	d.write(&model.FoundDry{}, 1)
	if r := d.Row(1); r.State != model.Dry || !r.DryAt.Equal(d.at) || !r.Since.Equal(d.at) || r.DampAt.IsZero() {
		t.Errorf("dry: %+v", r)
	}
	// Looked at again with better light.
	d.write(&model.Damp{}, 1)
	if r := d.Row(1); r.State != model.Drying || !r.DryAt.IsZero() || !r.DampAt.Equal(d.at) || !r.Since.Equal(out) {
		t.Errorf("damp after all: %+v", r)
	}
	d.write(&model.FoundDry{}, 1, 2)
	d.write(&model.Hung{}, 1)
	if r := d.Row(1); r.State != model.AtHome || !r.HungAt.Equal(d.at) || !r.Since.Equal(d.at) || r.DryAt.IsZero() {
		t.Errorf("hung: %+v", r)
	}
	if d.Row(2).State != model.Dry {
		t.Error("hung one, and the other went with it")
	}
}

// Hanging a plant that nobody found dry is the classic loss.
func TestDrynessRefused(t *testing.T) {
	d := shelved(t)
	d.soak(1, 2, 3)
	d.write(&model.Out{}, 2, 3)
	d.write(&model.FoundDry{}, 3)
	d.refuses(
		refusal{&model.Hung{}, model.IDs{2}, "plant 2 (bulbosa) is drying", "mark it dry first"},
		refusal{&model.Hung{}, model.IDs{1}, "plant 1 (ionantha) is soaking", "mark it dry first"},
		refusal{&model.Hung{}, model.IDs{4}, "plant 4 (usneoides) is home", "mark it dry first"},
		refusal{&model.FoundDry{}, model.IDs{1}, "plant 1 (ionantha) is soaking", "drying can be marked dry"},
		refusal{&model.FoundDry{}, model.IDs{2, 3}, "plant 3 (the big one) is dry", "drying can be marked dry"},
		refusal{&model.FoundDry{}, model.IDs{4}, "plant 4 (usneoides) is home", "drying can be marked dry"},
		refusal{&model.Damp{}, model.IDs{1}, "plant 1 (ionantha) is soaking", "out to dry can be damp"},
		refusal{&model.Damp{}, model.IDs{4}, "plant 4 (usneoides) is home", "out to dry can be damp"},
	)
}

// A bloom and a suspicion begin on the first day they are told, however often
// they are told again.
func TestBloomAndRotKeepTheirFirstDay(t *testing.T) {
	d := shelved(t)
	d.write(&model.Bloom{}, 1)
	d.write(&model.Rot{}, 1)
	bloom, rot := d.at.Add(-time.Minute), d.at
	d.write(&model.Bloom{}, 1, 2)
	d.write(&model.Rot{}, 1)
	if r := d.Row(1); !r.Bloom.Equal(bloom) || !r.Rot.Equal(rot) || !r.Cleared.IsZero() {
		t.Errorf("in bloom since %v, rot since %v; want %v and %v", r.Bloom, r.Rot, bloom, rot)
	}
	d.write(&model.Bloom{Over: true}, 1)
	d.write(&model.Rot{Over: true}, 1)
	if r := d.Row(1); !r.Bloom.IsZero() || !r.Rot.IsZero() {
		t.Errorf("over: in bloom since %v, rot since %v", r.Bloom, r.Rot)
	}
	d.write(&model.Rot{Over: true}, 2) // of which nobody had said that it rots
	if r := d.Row(2); d.Row(1).Cleared.IsZero() || !r.Cleared.IsZero() {
		t.Errorf("cleared %v and %v", d.Row(1).Cleared, r.Cleared)
	}
	if d.Row(2).Bloom.IsZero() {
		t.Error("one bloom over, and the other with it")
	}
	d.write(&model.Bloom{}, 1)
	if r := d.Row(1); !r.Bloom.Equal(d.at) {
		t.Errorf("the next bloom since %v, want %v", r.Bloom, d.at)
	}
}

func TestMistsAndNotes(t *testing.T) {
	d := shelved(t)
	d.write(&model.Mist{}, 1, 2)
	if !d.Row(1).Misted.Equal(d.at) || !d.Row(2).Misted.Equal(d.at) || !d.Row(3).Misted.IsZero() {
		t.Errorf("misted %v, %v, %v", d.Row(1).Misted, d.Row(2).Misted, d.Row(3).Misted)
	}
	d.write(&model.Note{Text: "window open all day"})
	d.write(&model.Note{Text: "leaning to the left"}, 1)
	d.write(&model.Note{Text: strings.Repeat("水", model.MaxText)}) // characters, not bytes
	d.refuses(
		refusal{&model.Note{}, model.IDs{1}, "a note with nothing in it", ""},
		refusal{&model.Note{Text: strings.Repeat("x", model.MaxText+1)}, nil, "more than 2000 characters", "make two of it"},
		refusal{&model.Note{Text: "on nobody"}, model.IDs{9}, "no plant 9", ""},
	)
}

// Old notes may be written up late, even from before a plant came into the book.
// They say nothing of what was seen since.
func TestAnOldNoteDoesNotReplaceANewerOne(t *testing.T) {
	d := shelved(t)
	const week = 7 * 24 * time.Hour
	now := d.at
	tell := func(ago time.Duration, fact model.Fact) {
		d.at = now.Add(-ago - time.Minute) // write goes on by a minute
		d.write(fact, 1)
	}
	for _, ago := range []time.Duration{0, 99 * week} {
		grade := model.Grade(ago / week % 3)
		tell(ago, &model.Look{Signs: model.Signs{Curl: grade, Tips: grade, Shift: grade}})
		tell(ago, &model.Mist{})
		tell(ago, &model.Feed{How: model.ByDip, Mix: model.Mix{PPM: 50 + float64(grade)}})
		tell(ago, &model.Offsets{Count: 1 + int(grade)})
		tell(ago, &model.Weigh{Grams: 40 + float64(grade)})
		tell(ago, &model.LookedOver{})
	}
	r := d.Row(1)
	for what, at := range map[string]time.Time{
		"signs": r.SignsAt, "mist": r.Misted, "feed": r.Fed, "offsets": r.OffsetsAt, "weight": r.Weight.At, "looked over": r.Looked,
	} {
		if !at.Equal(now) {
			t.Errorf("%s: %s, want %s", what, at, now)
		}
	}
	if r.Signs.Curl != 0 || r.FedMix.PPM != 50 || r.Offsets != 1 || r.Weight.Grams != 40 {
		t.Errorf("an old value stands: %+v", r)
	}
}
