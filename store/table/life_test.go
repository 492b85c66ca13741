package table_test

import (
	"strings"
	"testing"

	"tubside/model"
	"tubside/store/table"
)

// A file may tell a bloom by its stage. Yes and no say less than a stage, and do
// not take it back.
func TestStagesOfABloomComeIn(t *testing.T) {
	b := newBook()
	bring(t, b, "id,label,bloom\n1,A,bud\n2,B,open\n3,C,spent\n4,D,yes\n5,E,no\n")
	for id, want := range map[model.ID]model.Stage{1: model.Bud, 2: model.Open, 3: model.Spent, 4: "", 5: ""} {
		if got := b.Row(id).Stage; got != want {
			t.Errorf("plant %d: stage %q, want %q", id, got, want)
		}
	}
	for id, want := range map[model.ID]bool{1: true, 2: true, 3: false, 4: true, 5: false} {
		if got := !b.Row(id).Bloom.IsZero(); got != want {
			t.Errorf("plant %d: in bloom %t", id, got)
		}
	}
	expect(t, "less is said", bring(t, b, "id,bloom\n1,yes\n2,yes\n3,no\n"), counts{unchanged: 3})
	expect(t, "a stage on", bring(t, b, "id,bloom\n1,open\n2,spent\n3,bud\n"), counts{changed: 3})
	if b.Row(1).Stage != model.Open || !b.Row(2).Bloom.IsZero() || b.Row(3).Bloom.IsZero() {
		t.Errorf("stages %q %q %q", b.Row(1).Stage, b.Row(2).Stage, b.Row(3).Stage)
	}
}

func TestFeedQuarantineAndMotherComeIn(t *testing.T) {
	b := newBook()
	bring(t, b, "id,label,last fed,quarantine,pup of\n1,A,2026-02-20,,\n2,B,,2026-02-25,1\n3,C,,no,900\n")
	day := func(tt model.ID) string { return b.Row(tt).Fed.Format("2006-01-02") }
	if day(1) != "2026-02-20" || !b.Row(2).Fed.IsZero() {
		t.Errorf("fed %s and %s", day(1), day(2))
	}
	if got := b.Row(2).Quarantine.Format("2006-01-02"); got != "2026-02-25" || !b.Row(3).Quarantine.IsZero() {
		t.Errorf("quarantine since %s", got)
	}
	if b.Row(2).Mother != 1 || b.Row(3).Mother != 900 {
		t.Errorf("mothers %d, %d", b.Row(2).Mother, b.Row(3).Mother)
	}
	if next := b.NextID(); next != 901 {
		t.Errorf("the next plant would be %d, and take the number of a mother that is not in the book", next)
	}
}

// An old file does not put a plant back into quarantine, nor make its feed
// older than it is.
func TestAnOldFileDoesNotTurnTheClockBack(t *testing.T) {
	b := newBook()
	bring(t, b, "id,label,last fed,quarantine\n1,A,2026-02-01,2026-02-01\n")
	old := export(t, b, table.WriteOptions{})
	tell(t, b, &model.Quarantine{Over: true, Early: true}, 1)
	tell(t, b, &model.Feed{How: model.ByDip, Mix: model.Mix{PPM: 50}}, 1)
	expect(t, "old file", bring(t, b, old), counts{unchanged: 1})
	if r := b.Row(1); !r.Quarantine.IsZero() || !r.Fed.Equal(sunday) {
		t.Errorf("quarantine %s, fed %s", r.Quarantine, r.Fed)
	}
}

func TestWhatALifeCannotBeIsAFault(t *testing.T) {
	_, err := table.Read(strings.NewReader("id,label,quarantine,mother,bloom\n1,A,yes,,\n2,B,,two,\n3,C,,3,\n4,D,,,wild\n"), table.ReadOptions{})
	for _, want := range []string{"line 2, quarantine: ", "line 3, mother: ",
		"line 4, mother: plant 3 would be its own mother", "line 5, bloom: "} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not said: %v", want, err)
		}
	}
}
