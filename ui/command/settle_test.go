package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

// Who is left out of the agreed plan by the time that a step is entered in the shell stays
// left out: the entry goes before that of the step, one by one and in a batch. What is
// entered of earlier hours settles nothing.
func TestAStepInTheShellSettlesWhoIsLeftOut(t *testing.T) {
	late := noon.Add(50 * time.Minute)
	agreed := demoBook(t, "homecoming")
	must(t, agreed, "", "enter", "plan")
	before := leftOut(t, agreed, late)
	if len(before) == 0 {
		t.Fatal("nobody is left out: the day shows nothing of it")
	}
	bytes, err := os.ReadFile(agreed)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		lines   []string
		batch   string
		settles bool
	}{
		"a step":             {[]string{"enter", "fill", "crate"}, "", true},
		"a batch":            {[]string{"enter", "--from", "-"}, "fill crate\n", true},
		"of an earlier hour": {[]string{"enter", "--from", "-"}, "at " + noon.Add(time.Minute).Format(time.RFC3339) + " fill crate\n", false},
		"nothing of the day": {[]string{"enter", "note", "17", "--text", "late"}, "", false},
	} {
		t.Run(name, func(t *testing.T) {
			book := filepath.Join(t.TempDir(), "book.db")
			if err := os.WriteFile(book, bytes, 0o600); err != nil {
				t.Fatal(err)
			}
			plans := planEntries(t, book)
			must(t, book, c.batch, append([]string{"--now", late.Format(time.RFC3339)}, c.lines...)...)
			if settled := planEntries(t, book) > plans; settled != c.settles {
				t.Fatalf("settled: %v", settled)
			}
			if !c.settles {
				return
			}
			after := leftOut(t, book, late.Add(time.Second))
			for id := range before {
				if !after[id] {
					t.Errorf("plant %d was left out, and is back", id)
				}
			}
		})
	}
}

// leftOut is whom the plan leaves out at a time.
func leftOut(t *testing.T, book string, now time.Time) map[model.ID]bool {
	t.Helper()
	var a planAnswer
	if err := json.Unmarshal([]byte(must(t, book, "", "--now", now.Format(time.RFC3339), "plan", "--json")), &a); err != nil {
		t.Fatal(err)
	}
	left := map[model.ID]bool{}
	for _, l := range a.Left {
		left[l.ID] = true
	}
	return left
}

// planEntries is how many plans stand in the book.
func planEntries(t *testing.T, book string) (n int) {
	t.Helper()
	s, err := store.Open(book, store.Options{Zone: time.UTC, ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for _, e := range s.Book().Entries() {
		if _, ok := e.Fact.(*model.Agreed); ok {
			n++
		}
	}
	return n
}
