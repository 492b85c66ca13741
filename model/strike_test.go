package model_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
)

// A strike can be struck, and that strike too: each one turns the entry off or
// on again, however long the chain.
func TestStrikesOfStrikesTakeTurns(t *testing.T) {
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	b := model.NewBook(time.UTC)
	say := func(seq model.Seq, f model.Fact, ids ...model.ID) {
		t.Helper()
		e := model.NewEntry(at, f, ids...)
		e.Seq = seq
		if err := b.Check(e); err != nil {
			t.Fatalf("entry %d: %v", seq, err)
		}
		if err := b.Apply(e); err != nil {
			t.Fatalf("entry %d: %v", seq, err)
		}
	}
	say(1, &model.Add{Plants: []model.Plant{{ID: 1, Count: 1}}})
	say(2, &model.Mist{}, 1)
	for seq := model.Seq(3); seq < 9; seq++ {
		say(seq, &model.Strike{Seq: seq - 1})
		wantMisted := seq%2 == 0
		if misted := !b.Row(1).Misted.IsZero(); misted != wantMisted || b.Struck(2) == wantMisted {
			t.Fatalf("after entry %d: misted %t, struck %t", seq, misted, b.Struck(2))
		}
		if b.Struck(seq) || !b.Struck(seq-1) {
			t.Fatalf("after entry %d: struck %t, the one before %t", seq, b.Struck(seq), b.Struck(seq-1))
		}
	}
}

// Whatever was done last, striking it leaves the book as if it had never been
// made, and bringing it back leaves it as if it had never been struck.
func TestStruckIsNeverMade(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := shelved(rt)
		live(rt, d, rapid.IntRange(0, 40).Draw(rt, "before"), func() {})
		before, made := look(d.Book), len(d.Entries())
		live(rt, d, 1, func() {})
		if len(d.Entries()) == made {
			return // refused
		}
		after := look(d.Book)
		strike := d.write(&model.Strike{Seq: d.Entries()[made].Seq})
		if diff := before.other(d.Book); diff != "" {
			rt.Errorf("struck %s left something behind:\n%s", d.Entries()[made].Fact.Kind(), diff)
		}
		d.write(&model.Strike{Seq: strike})
		if diff := after.other(d.Book); diff != "" {
			rt.Errorf("brought back, %s is not what it was:\n%s", d.Entries()[made].Fact.Kind(), diff)
		}
	})
}

// Taking back one after another, as far as it goes, ends in an empty book.
func TestUndoneToTheFirstLine(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := blank(rt)
		d.write(&model.Add{Plants: []model.Plant{{ID: 1, Count: 3}, {ID: 2, Count: 1}}})
		live(rt, d, rapid.IntRange(0, 30).Draw(rt, "steps"), func() {})
		for {
			last, ok := d.LastToStrike()
			if !ok {
				break
			}
			d.write(&model.Strike{Seq: last.Seq})
		}
		if diff := look(model.NewBook(time.UTC)).other(d.Book); diff != "" {
			rt.Errorf("all is struck, and the book still says:\n%s", diff)
		}
	})
}

// A line that a later one builds on stays, until the later one is struck.
func TestStrikesRefused(t *testing.T) {
	d := shelved(t)
	pulled := d.write(&model.Pull{}, 1, 2)
	back := d.write(&model.PutBack{}, 2)
	d.write(&model.Mist{}, 3)
	d.refuses(
		refusal{&model.Strike{Seq: pulled}, nil, "entry 2 cannot be undone: a later entry builds on it (entry 3 (putback", "undo the later one first"},
		refusal{&model.Strike{Seq: 1}, nil, "entry 1 cannot be undone", "undo the later one first"},
		refusal{&model.Strike{Seq: 9}, nil, "there is no entry 9", "tubside book --entries"},
		refusal{&model.Strike{Seq: 5}, nil, "there is no entry 5", "tubside book --entries"}, // itself
		refusal{&model.Strike{}, nil, "there is no entry 0", "tubside book --entries"},
	)
	if d.Struck(pulled) {
		t.Error("refused, and yet struck")
	}
	d.write(&model.Strike{Seq: back})
	d.refuses(refusal{&model.Strike{Seq: back}, nil, "entry 3 is undone already", ""})
	d.write(&model.Strike{Seq: pulled})
	if len(d.Waiting()) != 0 || d.Row(3).Misted.IsZero() || !d.Struck(pulled) || !d.Struck(back) {
		t.Errorf("waiting %v, 3 misted %v", d.Waiting(), d.Row(3).Misted)
	}
}

// A line that was struck comes back only while it still can.
func TestBringingBackRefused(t *testing.T) {
	d := shelved(t)
	struck := d.write(&model.Strike{Seq: d.write(&model.Pull{}, 1)})
	d.write(&model.Leave{How: model.Sold}, 1)
	d.write(&model.Strike{Seq: struck}) // pulled, and sold then: that can be
	struck = d.write(&model.Strike{Seq: d.write(&model.Add{Plants: []model.Plant{{ID: 7, Count: 1}}})})
	d.write(&model.Add{Plants: []model.Plant{{ID: 7, Count: 2}}})
	d.refuses(refusal{&model.Strike{Seq: struck}, nil, "cannot be undone", "undo the later one first"}) // two plants 7
}

// What undo takes back, and what redo brings back.
func TestLastToStrike(t *testing.T) {
	d := shelved(t)
	mist := d.write(&model.Mist{}, 1)
	note := d.write(&model.Note{Text: "seen"})
	last := func(when string, undo, redo model.Seq) {
		t.Helper()
		u, _ := d.LastToStrike()
		r, _ := d.LastStrike()
		if u.Seq != undo || r.Seq != redo {
			t.Errorf("%s: undo takes %d and redo brings back what %d struck; want %d and %d", when, u.Seq, r.Seq, undo,
				redo)
		}
	}
	last("written", note, 0)
	first := d.write(&model.Strike{Seq: note})
	last("one struck", mist, first)
	second := d.write(&model.Strike{Seq: mist})
	last("two struck", 1, second)
	d.write(&model.Strike{Seq: second})
	last("one brought back", mist, first)
	d.write(&model.Strike{Seq: first})
	last("both brought back", note, 0)
	d.write(&model.Strike{Seq: note})
	d.write(&model.Mist{}, 2)
	last("written since", 9, 0)
	if _, ok := blank(t).LastToStrike(); ok {
		t.Error("a fresh book has something to strike")
	}
}

// A salvaged book has gaps in its numbers; a strike finds its line all the same.
func TestStrikesInASalvagedBook(t *testing.T) {
	entry := func(seq model.Seq, f model.Fact, plants ...model.ID) model.Entry {
		e := model.NewEntry(soakDay, f, plants...)
		e.Seq = seq
		return e
	}
	b, err := model.Replay([]model.Entry{
		entry(3, &model.Add{Plants: []model.Plant{{ID: 1, Count: 1}}}), entry(7, &model.Mist{}, 1),
		entry(9, &model.Rot{}, 1),
	}, time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Check(entry(10, &model.Strike{Seq: 2})); err == nil ||
		!strings.Contains(err.Error(), "there is no entry 2") {
		t.Errorf("a line that was lost is struck: %v", err)
	}
	strike := entry(10, &model.Strike{Seq: 7})
	if err := b.Check(strike); err != nil {
		t.Fatal(err)
	}
	if err := b.Apply(strike); err != nil || !b.Row(1).Misted.IsZero() || b.Row(1).Rot.IsZero() {
		t.Errorf("struck the mist: misted %v, rot %v, %v", b.Row(1).Misted, b.Row(1).Rot, err)
	}
}
