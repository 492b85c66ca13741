//go:build unix

package terminal_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/store"
)

// clockFile names a file with the time by which the program goes: the test moves it.
const clockFile = "TUBSIDE_TEST_CLOCK"

// testClock is the clock of the program under test: the time in a file where one is named
// and there is one, and else always the same.
func testClock() time.Time {
	text := []byte(someDay)
	if name := os.Getenv(clockFile); name != "" {
		if moved, err := os.ReadFile(name); err == nil {
			text = moved
		}
		if string(text) == broken {
			_ = os.Remove(name)
			panic(broken)
		}
	}
	t, err := time.Parse(time.RFC3339, string(text))
	if err != nil {
		panic(err)
	}
	return t
}

// soakDay drives one whole soak day.
type soakDay struct {
	*terminal
	t    *testing.T
	book string
	file string
	now  time.Time
}

func (d *soakDay) to(now time.Time) {
	d.t.Helper()
	d.now = now
	next := d.file + ".next"
	if err := os.WriteFile(next, []byte(now.Format(time.RFC3339)), 0o600); err != nil {
		d.t.Fatal(err)
	}
	if err := os.Rename(next, d.file); err != nil {
		d.t.Fatal(err)
	}
}

// start runs the board in a window where the hour of the next step stands in its line.
func (d *soakDay) start() {
	d.terminal = run(d.t, 100, 28, []string{clockFile + "=" + d.file}, "--book", d.book)
}

// plan waits for the plan to be in front, and puts the big clock away.
func (d *soakDay) plan() *soakDay {
	d.t.Helper()
	d.until("the plan", func(s string) bool {
		if !strings.Contains(s, "▸Plan") || strings.Contains(s, "Planning") {
			return false
		}
		if !strings.Contains(s, "Next ") && !strings.Contains(s, "All is done") &&
			!strings.Contains(s, "No plant needs") {
			d.keys(esc)
			return false
		}
		return true
	})
	return d
}

var nextAt = regexp.MustCompile(`Next (\d\d:\d\d)  ([^\n]*)`)

// next is the next thing on the screen and its hour; false when all is done.
func (d *soakDay) next() (time.Time, string, bool) {
	d.t.Helper()
	found := nextAt.FindStringSubmatch(d.plan().text())
	if found == nil {
		return time.Time{}, "", false
	}
	at, err := time.Parse("15:04", found[1])
	if err != nil {
		d.t.Fatal(err)
	}
	y, m, day := d.now.Date()
	return time.Date(y, m, day, at.Hour(), at.Minute(), 0, 0, time.UTC), found[2], true
}

// A whole soak day in a real terminal, with a clock that runs, hands that are late
// at every step, a load skipped, a step done in the shell and a restart in the middle: every plant is out
// within its window, every count is right.
func TestAWholeSoakDayByThePlan(t *testing.T) {
	d := &soakDay{t: t, book: filepath.Join(t.TempDir(), "book.db"), file: filepath.Join(t.TempDir(), "clock")}
	morning := time.Date(2026, time.January, 17, 8, 0, 0, 0, time.UTC)
	at := func(after time.Duration) string { return morning.Add(after).Format(time.RFC3339) }
	shell(t, "--book", d.book, "--now", at(-time.Hour), "import", spreadsheet(t))
	shell(t, "--book", d.book, "--now", at(-time.Hour), "enter", "reading", "--temp", "21", "--rh", "38", "--fan", "on")
	shell(t, "--book", d.book, "--now", at(-time.Hour), "enter", "signs", "all", "2", "1", "0")
	d.to(morning)
	d.start()
	d.sees("▸Triage").keys("T").sees("Go to").keys("p")
	d.plan().sees("Proposed").keys("y").sees("Agreed")
	d.keys("G" + "x").sees("another day")

	const late = 7 * time.Minute
	steps, restarted, pulled := 0, false, false
	for {
		when, what, more := d.next()
		if !more {
			break
		}
		if steps++; steps > 80 {
			t.Fatalf("the day does not end; the screen:\n%s", d.text())
		}
		if d.now.Before(when) {
			d.to(when)
		}
		d.to(d.now.Add(late))
		if strings.HasPrefix(what, "Take out") && !restarted { // the laptop is shut and opened
			restarted = true
			d.keys("qqq") // back from the clock, asked, and gone
			if code := d.ends(); code != 0 {
				t.Fatalf("left with code %d", code)
			}
			d.start()
			d.until("the board", func(s string) bool { return strings.Contains(s, "▸") })
			d.keys("T").sees("Go to").keys("p")
			if s := d.plan().text(); strings.Contains(s, "Proposed") {
				t.Fatalf("after a restart the plan is no longer agreed:\n%s", s)
			}
		}
		before := len(d.entries())
		if strings.HasPrefix(what, "Pull") && !pulled { // the shell does this one, while the board has the book
			pulled = true
			d.pullInTheShell()
		} else {
			d.keys("d")
		}
		d.until("the step to be written", func(string) bool { return len(d.entries()) > before })
		step, _, _ := strings.Cut(what, "   ")
		d.until("the step after it", func(s string) bool { return !strings.Contains(s, "  "+step+"   ") })
	}
	if !pulled {
		t.Error("nothing was done in the shell")
	}
	d.sees("All is done")
	if drying := regexp.MustCompile(`drying (\d+) \+`).FindStringSubmatch(d.text()); drying == nil || drying[1] == "0" {
		t.Fatalf("nothing is left to hang:\n%s", d.text())
	} else {
		d.sees(drying[1] + " to hang in the morning")
	}
	d.keys("q")
	d.ends()
	d.holds(morning, restarted)
}

// pullInTheShell does the plan's next pulling by a command beside the board, as the plan
// in JSON names it.
func (d *soakDay) pullInTheShell() {
	d.t.Helper()
	now := d.now.Format(time.RFC3339)
	var plan struct {
		Actions []struct {
			Do  string
			IDs []int
		}
	}
	if err := json.Unmarshal([]byte(shell(d.t, "--book", d.book, "--now", now, "plan", "--json")), &plan); err != nil {
		d.t.Fatal(err)
	}
	for _, a := range plan.Actions {
		if a.Do != "pull" {
			continue
		}
		args := []string{"--book", d.book, "--now", now, "enter", "pull"}
		for _, id := range a.IDs {
			args = append(args, fmt.Sprint(id))
		}
		shell(d.t, args...)
		return
	}
	d.t.Fatal("the plan in JSON has no pulling to come")
}

// entries is what stands in the book, read beside the board.
func (d *soakDay) entries() []model.Entry {
	s, err := store.Open(d.book, store.Options{Zone: time.UTC, ReadOnly: true})
	if err != nil {
		return nil
	}
	defer s.Close()
	return s.Book().Entries()
}

// holds checks the day against the plan as it was agreed.
func (d *soakDay) holds(morning time.Time, restarted bool) {
	t := d.t
	t.Helper()
	s, err := store.Open(d.book, store.Options{Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	b := s.Book()
	if !restarted {
		t.Error("there was no restart")
	}
	a := b.AgreedPlan(d.now)
	if a == nil {
		t.Fatal("no plan is agreed")
	}
	soaked := 0
	for _, l := range a.Loads {
		for i, id := range l.Plants {
			row := b.Row(id)
			if row.Out.Before(morning) {
				t.Errorf("plant %d of the plan was not soaked", id)
				continue
			}
			soaked++
			if in := int(row.Out.Sub(row.In).Seconds()); in < l.Least[i] || in > l.Most[i] {
				t.Errorf("plant %d was in for %d s, its window is %d to %d", id, in, l.Least[i], l.Most[i])
			}
		}
	}
	skipped := 0
	for _, l := range a.Left {
		if l.Why == "skipped" {
			skipped++
			if !b.Row(l.Plant).Out.Before(morning) {
				t.Errorf("plant %d was skipped, and soaked", l.Plant)
			}
		}
	}
	tally := b.Tally()
	if !tally.Adds() || tally.Soaking != 0 || soaked != tally.Pulled || soaked == 0 || skipped == 0 ||
		len(b.OpenLoads()) != 0 {
		t.Errorf("tally %+v, %d soaked, %d skipped", tally, soaked, skipped)
	}
	if p, err := day.Current(context.Background(), estimate.New(b), d.now); err != nil || p.Next() >= 0 {
		t.Errorf("the plan afterwards: %v, %v", p, err)
	}
}
