package board

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/ui/show"
)

// Every screen can be heard: its content as plain lines, every plant of a list
// among them, nothing that steers a terminal, and the book left as it was.
func TestEveryScreenAsPlainLines(t *testing.T) {
	g := newGrower(t).shelves()
	before := len(g.store.Book().Entries())
	var b strings.Builder
	if err := Plain(&b, g.store, func() time.Time { return g.now }, Options{}); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for _, s := range g.board.screens {
		_, after, ok := strings.Cut("\n"+text, "\n"+s.name()+"\n"+strings.Repeat("=", len(s.name()))+"\n")
		if first, _, _ := strings.Cut(after, "\n\n"); !ok || strings.TrimSpace(first) == "" {
			t.Errorf("%s is not written, or says nothing", s.name())
		}
	}
	triage, _, _ := strings.Cut(text, "Soak\n====")
	for _, id := range g.board.desk.book.IDs() {
		if !strings.Contains(triage, show.Fit(g.board.desk.book.Row(id).Title(), 8)[:6]) {
			t.Errorf("%s is not on Triage", g.board.desk.book.Row(id).Title())
		}
	}
	for line := range strings.Lines(text) {
		if strings.Contains(line, "…") {
			t.Errorf("cut: %s", line)
		}
	}
	if !strings.Contains(text, " will want a soak\n") || strings.ContainsAny(text, "▀┃") {
		t.Error("a number of Trip is a picture")
	}
	rounds, _, _ := strings.Cut(text[strings.Index(text, "\nRounds\n"):], "\nRoom\n")
	for _, job := range []string{"▸Mist", "▸Feed", "▸Look", "▸Weigh"} {
		if strings.Count(rounds, job) != 1 {
			t.Errorf("the round %s is not written once:\n%s", job, rounds)
		}
	}
	if show.Safe(strings.ReplaceAll(text, "\n", "")) != strings.ReplaceAll(text, "\n", "") {
		t.Error("something could steer a terminal")
	}
	if n := len(g.store.Book().Entries()); n != before {
		t.Errorf("%d entries were written", n-before)
	}
	b.Reset()
	if err := Plain(&b, g.store, func() time.Time { return g.now }, Options{}, "drying"); err != nil || !strings.HasPrefix(b.String(), "Drying\n") {
		t.Errorf("one screen: %v\n%s", err, b.String())
	}
	if err := Plain(&b, g.store, func() time.Time { return g.now }, Options{}, "cellar"); err == nil {
		t.Error("there is no such screen, and nothing was said")
	}
}

// A code that a scanner types begins with a sign that no screen takes for itself.
func TestNoScreenTakesTheSignOfACode(t *testing.T) {
	m := newGrower(t).shelves().board
	groups := []group{{keys: newList().keys()}}
	for _, s := range m.screens {
		groups = append(groups, s.groups()...)
	}
	for _, g := range groups {
		for _, b := range g.keys {
			for _, k := range keysOf(b.keys) {
				if k == model.CodeSign {
					t.Errorf("%s takes %q", g.title, k)
				}
			}
		}
	}
}
