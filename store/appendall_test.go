package store_test

import (
	"errors"
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

// afternoon is a soak from the shelf and back, with a mist that was a mistake.
// Its first entry is number first.
func afternoon(first model.Seq) []model.Entry {
	at := func(minutes int) time.Time { return sunday.Add(time.Duration(minutes) * time.Minute) }
	return []model.Entry{
		model.NewEntry(at(0), &model.Pull{}, 1, 2),
		model.NewEntry(at(5), &model.Mist{}, 1),
		model.NewEntry(at(6), &model.Strike{Seq: first + 1}),
		model.NewEntry(at(10), &model.Soak{Load: 1, Vessel: "tub", Due: at(70)}, 1, 2),
		model.NewEntry(at(72), &model.Out{Shaken: true}, 1, 2),
		model.NewEntry(at(200), &model.FoundDry{}, 1, 2),
		model.NewEntry(at(210), &model.Hung{}, 1, 2),
	}
}

func TestManyEntriesAreOneAppend(t *testing.T) {
	b := mustOpen(t)
	held := b.Book()
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1), ionantha(2)}})
	var heard []int
	written, err := b.AppendAll(afternoon(2), func(done, total int) {
		if total != 7 {
			t.Errorf("told of %d entries", total)
		}
		heard = append(heard, done)
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(written) != 7 || written[0].Seq != 2 || written[6].Seq != 8 || written[6].Fact.Kind() != "hung" {
		t.Errorf("came back as %v", written)
	}
	if !slices.Equal(heard, []int{7}) {
		t.Errorf("heard %v", heard)
	}
	check := func(when string) {
		t.Helper()
		row := b.Book().Row(1)
		if row.State != model.AtHome || row.Minutes != 62 || !row.Misted.IsZero() || !b.Book().Struck(3) {
			t.Errorf("%s: %+v", when, row)
		}
	}
	check("at once")
	if held != b.Book() {
		t.Error("the pointer to the book went stale")
	}
	if e := b.must(sunday.Add(5*time.Hour), model.Mist{}, 2); e.Seq != 9 {
		t.Errorf("the next entry is number %d, want 9", e.Seq)
	}
	b.mustReopen()
	check("after a restart")
}

func TestManyEntriesAreAllOrNothing(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1), ionantha(2)}})
	wrong := append(afternoon(2), model.NewEntry(sunday, &model.Hung{}, 1))
	_, err := b.AppendAll(wrong, nil)
	if p, ok := model.AsProblem(err); !ok || p.Do == "" {
		t.Fatalf("hung twice: %v", err)
	}
	if b.Book().Row(1).InSession || len(b.Book().Entries()) != 1 {
		t.Errorf("the book moved: %+v", b.Book().Row(1))
	}
	if r := b.mustCheck(); r.Entries != 1 {
		t.Errorf("%d entries on disk", r.Entries)
	}
	// What was refused leaves nothing behind for what comes after.
	if _, err := b.AppendAll(afternoon(2), nil); err != nil {
		t.Fatal(err)
	}
	b.mustReopen()
	if n := len(b.Book().Entries()); n != 8 {
		t.Errorf("%d entries after the restart, want 8", n)
	}
}

func TestNoEntriesAreNoAppend(t *testing.T) {
	b := mustOpen(t)
	if _, err := b.AppendAll(nil, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := b.AppendAll([]model.Entry{{At: sunday}}, nil); err == nil {
		t.Error("an entry that says nothing was taken")
	}
}

func TestManyEntriesIntoABookForReading(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1), ionantha(2)}})
	b.mustClose()
	b.opt.ReadOnly = true
	b.open()
	if _, err := b.AppendAll(afternoon(2), nil); !errors.Is(err, store.ErrReadOnly) {
		t.Errorf("read only: %v", err)
	}
}
