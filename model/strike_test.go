package model_test

import (
	"testing"
	"time"

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
