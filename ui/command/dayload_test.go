package command

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/store"
)

// The lines that the sheet gives with a load enter it, as it was pulled, went in and came out.
func TestTheSheetsLinesEnterALoad(t *testing.T) {
	s, p := agreedDay(t, "homecoming")
	l := p.Loads[slices.IndexFunc(p.Loads, day.Load.ToCome)]
	m := regexp.MustCompile(fmt.Sprintf(`To enter it: (pull load:%d); (soak --vessel .+? load:%[1]d); (out load:%[1]d)\.`, l.Number)).
		FindStringSubmatch(saidOnPaper(s.Book(), p, noon))
	if m == nil {
		t.Fatalf("no lines for load %d", l.Number)
	}
	lines := ""
	for n, at := range []time.Time{l.Start.Add(-time.Minute), l.Start, l.Out} {
		lines += at.Format("15:04 ") + m[n+1] + "\n"
	}
	book := bookOf(t, s)
	must(t, book, lines, "enter", "--from", "-", "--now", l.Out.Add(time.Hour).Format(time.RFC3339))
	s, err := store.Open(book, store.Options{Zone: time.UTC, ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for _, id := range l.IDs() {
		if row := s.Book().Row(id); row.State != model.Drying {
			t.Errorf("plant %d is %v after %s", id, row.State, lines)
		}
	}
}

// A number stands for one load on sheet, board and in the shell for the whole day: a load
// that is left for another day is nobody, and none of the others takes its number.
func TestALoadIsTheSameOnPaperAndInTheShell(t *testing.T) {
	s, p := agreedDay(t, "homecoming")
	toCome := slices.IndexFunc(p.Loads, day.Load.ToCome)
	gone, next := p.Loads[toCome], p.Loads[toCome+1]
	write(t, s, noon, p.Skip(s.Book(), noon, gone.IDs()...))
	q := current(t, s.Book(), noon)
	text := saidOnPaper(s.Book(), q, noon)
	has(t, text, fmt.Sprintf("Load %d: left for another day.", gone.Number), fmt.Sprintf("Load %d: %d plant", next.Number, len(next.Plants)))
	hasNot(t, text, fmt.Sprintf("Load %d: %d plant", gone.Number, len(next.Plants)))
	write(t, s, noon, &model.Pull{}, next.Plants[0].ID)
	stood, book := s.Book().Waiting(), bookOf(t, s)
	if _, says, code := shell(t, book, "", "enter", "pull", fmt.Sprintf("load:%d", gone.Number)); code == 0 ||
		!strings.Contains(says, "left for another day") {
		t.Errorf("a load that is for another day is pulled: %s", says)
	}
	out := must(t, book, "", "enter", "pull", fmt.Sprintf("load:%d", next.Number))
	if says := fmt.Sprintf("; load %d of the day, of which %d stood by the water already", next.Number, stands(&next)+1); !strings.Contains(out, says) {
		t.Errorf("pulled but for one that stands there: %s", out)
	}
	s, err := store.Open(book, store.Options{Zone: time.UTC, ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	now := current(t, s.Book(), noon)
	for _, id := range next.IDs() {
		if !slices.Contains(s.Book().Waiting(), id) {
			t.Errorf("plant %d is in load %d and was not pulled", id, next.Number)
		}
	}
	for _, id := range s.Book().Waiting() {
		if n, _, ok := now.Placed(id); ok && now.Loads[n].Number != next.Number && !slices.Contains(stood, id) {
			t.Errorf("plant %d is pulled, of load %d", id, now.Loads[n].Number)
		}
	}
}
