package command

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

// beside runs a command while the board has the book. turn is called each time the
// command waits, and says whether the board takes in then.
func beside(t *testing.T, board *store.Store, turn func(looks int) bool, args ...string) (out, complaint string, code int) {
	t.Helper()
	var said, warned bytes.Buffer
	looks := 0
	ticks := make(chan time.Time, 1)
	code = Main(Env{
		Args: append([]string{"--book", board.Path()}, args...), Out: &said, Err: &warned,
		Clock: func() time.Time { return noon }, Getenv: func(string) string { return "" },
		Tick: func(time.Duration) <-chan time.Time {
			if looks++; turn(looks) {
				if refused, err := board.TakeIn(func(store.Waiting) {}); err != nil || len(refused) > 0 {
					t.Errorf("%v, %v", refused, err)
				}
			}
			ticks <- noon
			return ticks
		},
	})
	return said.String(), warned.String(), code
}

// A whole soak is told to a book that the board has open, each step building on the
// one before. A step waits until that was taken in, and no longer; a board that
// takes nothing in is told of, and nothing is left that might come out wrong.
func TestStepsThatBuildOnEachOther(t *testing.T) {
	book := newBook(t)
	must(t, book, "", "enter", "add", "--label", "one")
	board, err := store.Open(book, store.Options{As: store.AsBoard})
	if err != nil {
		t.Fatal(err)
	}
	defer board.Close()
	waits := 0
	atOnce := func(int) bool { waits++; return true }
	for _, line := range []string{
		"enter add --label two", "enter add --label three", "enter reading --temp 21 --rh 40",
		"enter soak --vessel tub --minutes 20 1", // none of these needs another
		"enter out load:1", "enter dry load:1", "enter hung load:1", "enter note 3 --text here",
		"enter mist 1", "enter strike",
	} {
		_, complaint, code := beside(t, board, atOnce, strings.Fields(line)...)
		if code != 0 {
			t.Fatalf("%s: exit %d: %s", line, code, complaint)
		}
		if line == "enter soak --vessel tub --minutes 20 1" && waits != 0 {
			t.Errorf("%d waits before what needs no other", waits)
		}
	}
	if _, err := board.TakeIn(func(store.Waiting) {}); err != nil {
		t.Fatal(err)
	}
	r, all := board.Book().Row(1), board.Book().Entries()
	if s, ok := all[len(all)-1].Fact.(*model.Strike); r.State != model.AtHome || !ok || s.Seq != all[len(all)-2].Seq || len(all) != 11 {
		t.Errorf("plant 1 is %v after %d entries, the last %+v", r.State, len(all), all[len(all)-1].Fact)
	}

	never := func(int) bool { return false }
	if _, _, code := beside(t, board, never, "enter", "gone", "2", "--sold"); code != 0 {
		t.Errorf("exit %d", code)
	}
	if _, complaint, code := beside(t, board, never, "enter", "strike"); code != bookInUse ||
		!strings.Contains(complaint, "this builds on it") {
		t.Errorf("exit %d: %s", code, complaint)
	}
	if _, complaint, code := beside(t, board, never, "enter", "mist", "2"); code != failed ||
		!strings.Contains(complaint, "has been gone") {
		t.Errorf("exit %d: %s", code, complaint)
	}
	if left, err := store.Inbox(book); err != nil || len(left) != 1 {
		t.Errorf("%d left, %v", len(left), err)
	}
}

// An edit that was left changes only what it was to change: what the board edited of
// the same plant meanwhile stays.
func TestAnEditThatWasLeftLeavesTheRestAsItIs(t *testing.T) {
	book := newBook(t)
	must(t, book, "", "enter", "add", "--label", "one", "--shelf", "A", "--spot", "1")
	board, err := store.Open(book, store.Options{As: store.AsBoard})
	if err != nil {
		t.Fatal(err)
	}
	defer board.Close()
	never := func(int) bool { return false }
	_, complaint, code := beside(t, board, never, "enter", "edit", "1", "--label", "two", "--spot", "2")
	if code != 0 {
		t.Fatalf("exit %d: %s", code, complaint)
	}
	p := board.Book().Row(1).Plant
	p.Note, p.Home.Shelf, p.Size = "from the board", "B", 12
	if _, err := board.Append(model.NewEntry(noon, &model.Edit{Plants: []model.Plant{p}}, 1)); err != nil {
		t.Fatal(err)
	}
	if refused, err := board.TakeIn(func(store.Waiting) {}); err != nil || len(refused) > 0 {
		t.Fatal(err, refused)
	}
	p.Label, p.Home.Spot = "two", "2"
	if got := board.Book().Row(1).Plant; got != p {
		t.Errorf("got  %+v\nwant %+v", got, p)
	}
}
