//go:build unix

package terminal_test

import (
	"strings"
	"testing"
	"time"
)

// A board that nobody touches writes next to nothing, also over a slow line: at
// most 200 bytes a second on the screens of the day, three loads in the water.
// The big clock, which is there to move, is apart.
func TestAnIdleBoardWritesLittle(t *testing.T) {
	if testing.Short() {
		t.Skip("watches the real clock")
	}
	const watched, most = 10 * time.Second, 200
	for _, screen := range []struct{ keys, shows string }{{"Tt", "▸Triage"}, {"Ts", "▸Soak"}, {"Td", "▸Drying"},
		{"Tp", "▸Plan"}} {
		w := run(t, 160, 50, []string{"COLORTERM=truecolor"}, "demo", "--scene", "soakday")
		w.sees("take out shaken").keys(screen.keys).sees(screen.shows)
		w.settles(t)
		before := w.raw.len()
		w.quiet(watched)
		rate := float64(w.raw.len()-before) / watched.Seconds()
		t.Logf("%s: %.0f bytes a second", screen.shows, rate)
		if rate > most {
			t.Errorf("%s: %.0f bytes a second, at most %d", screen.shows, rate, most)
		}
		w.keys("q").ends()
	}
}

// settles waits until a screen is drawn: a plan and its offers, which are made away
// from the keys, are there. A screen that writes all the time fails here.
func (w *terminal) settles(t *testing.T) {
	t.Helper()
	const still, longest = 2 * time.Second, time.Minute
	for began := time.Now(); time.Since(began) < longest; {
		before := w.raw.len()
		if w.quiet(still); w.raw.len() == before && !strings.Contains(w.text(), "Planning") {
			return
		}
	}
	t.Fatalf("the screen is never at rest:\n%s", w.text())
}

// quiet lets so much time pass.
func (w *terminal) quiet(d time.Duration) { <-time.After(d) }

func (r *record) len() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.b.Len()
}
