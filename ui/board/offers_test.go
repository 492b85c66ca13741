package board

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model/day"
	"tubside/store"
	"tubside/ui/show"
)

// atScene is a grower at the moment of a scene, with the day's plan in front of her.
func atScene(t *testing.T, scene string) *grower {
	t.Helper()
	g := &grower{t: t, path: t.TempDir() + "/book.db", now: soakDay, rung: &strings.Builder{}}
	s, err := store.Open(g.path, store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := demo.Build(s, demo.Options{Scene: scene, Seed: 1, Now: soakDay}); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	g.open()
	t.Cleanup(func() { _ = g.store.Close() })
	g.size(100, 40)
	return g.keys("T", "p", "esc", "s")
}

// Beside a plan that is followed the board offers what the shell and the sheet do, and a key
// takes it.
func TestTheBoardOffersWhatTheShellDoes(t *testing.T) {
	g := atScene(t, "homecoming").keys("y")
	p, offers := g.planned(), g.board.front().(*planScreen).offers
	are := func(offers []day.Offer) (words []string) {
		for _, o := range offers {
			words = append(words, show.Offer(p, o))
		}
		return words
	}
	if want := are(day.Offers(context.Background(), g.board.desk.keeper, g.now, p)); !slices.Equal(are(offers), want) {
		t.Fatalf("the board offers %q, the shell %q", are(offers), want)
	}
	n := slices.IndexFunc(offers, func(o day.Offer) bool { return o.What == day.WithBreak })
	if n < 0 {
		t.Fatal("no break is offered")
	}
	words := are(offers)[n]
	g.sees(words).keys(string(rune('1' + n))).sees(show.Line(words) + ": y agrees").sees("Proposed").keys("y")
	pauses := g.board.desk.book.AgreedPlan(g.now).Pauses
	if len(pauses) != 1 || !strings.Contains(words, pauses[0].From.Format("15:04")) || g.planned().Count() != offers[n].Plan.Count() {
		t.Errorf("%s: agreed with %v and %d plants", words, pauses, g.planned().Count())
	}
}

// The form of the plan's hours has the hours in which the hands are away, as the shell has
// them, and keeps them.
func TestTheHoursHaveABreak(t *testing.T) {
	g := onPlan(t)
	g.keys("H", "tab", "tab", "tab").sees("12:00-12:30").types("12:00").keys("ctrl+s").sees("is not a pause")
	g.keys("ctrl+u").types("12:00-12:30, 15.00-15.15").keys("ctrl+s")
	if pauses := g.planned().Ask.Pauses; len(pauses) != 2 || pauses[1].Until.Sub(pauses[1].From) != 15*time.Minute {
		t.Fatalf("away %v", pauses)
	}
	g.keys("y", "H", "tab", "tab", "tab").sees("12:00-12:30, 15:00-15:15").keys("ctrl+u", "ctrl+s")
	if pauses := g.planned().Ask.Pauses; len(pauses) > 0 {
		t.Fatalf("still away %v", pauses)
	}
}

// Hours that are asked for before a plan is there are of the day that it will be for: late in the
// evening that is the next one.
func TestHoursWithoutAPlanAreOfTheDayItIsFor(t *testing.T) {
	g := onPlan(t).after(14 * time.Hour).keys("esc")
	g.board.front().(*planScreen).plan = nil
	g.keys("H").sees("The hours of " + g.now.AddDate(0, 0, 1).Format("Mon 2 Jan"))
}
