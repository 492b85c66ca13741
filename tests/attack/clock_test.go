package attack_test

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"tubside/store"
	"tubside/ui/command"
)

// shell is a person at a command line without a terminal, with a book and a clock
// of their own.
type shell struct {
	t     testing.TB
	book  string
	clock time.Time
	in    string
}

// run carries out one command line and gives its answer, what it said on
// standard error, and its exit code.
func (s *shell) run(words ...string) (out, errs string, code int) {
	s.t.Helper()
	var stdout, stderr bytes.Buffer
	code = command.Main(command.Env{
		Args: append([]string{"--book", s.book}, words...), In: strings.NewReader(s.in), Out: &stdout, Err: &stderr,
		Clock: func() time.Time { return s.clock }, Getenv: func(string) string { return "" },
	})
	return stdout.String(), stderr.String(), code
}

// must is run where nothing but success will do.
func (s *shell) must(words ...string) string {
	s.t.Helper()
	out, errs, code := s.run(words...)
	if code != 0 {
		s.t.Fatalf("%s: exit code %d: %s", strings.Join(words, " "), code, errs)
	}
	return out
}

func newShell(t testing.TB) *shell {
	s := &shell{t: t, book: filepath.Join(t.TempDir(), "book.db"), clock: sunday}
	s.must("book", "new")
	s.in = "label,species,shelf,spot\nFuego,ionantha,A,1\nRubra,ionantha,A,2\nGrey,xerographica,B,1\n"
	s.must("import", "-")
	return s
}

// below finds a span of time that is less than nothing.
var below = regexp.MustCompile(`(^|[\s(])[-−]\d+(\.\d+)? ?(s|min|h|d|days?)\b`)

// A day at the tub under clocks that jump: ahead to 9999, back to 1970, by hours
// and by years. Every entry is taken and kept in the order it was made, a warning
// says so, and nothing lasts less than no time.
func TestWrongClocks(t *testing.T) {
	days := *clockDays
	if testing.Short() {
		days = 12
	}
	r := rand.New(rand.NewPCG(7, 8))
	jump := func() time.Time {
		span := []time.Duration{time.Hour, 24 * time.Hour, 400 * 24 * time.Hour, 60 * 365 * 24 * time.Hour}[r.IntN(4)]
		return sunday.Add(time.Duration((2*r.Float64() - 1) * float64(span)))
	}
	edges := []time.Time{
		time.Unix(0, 0), time.Date(9999, 12, 31, 23, 0, 0, 0, time.UTC), time.Date(2038, 1, 19, 3, 14, 8, 0, time.UTC),
		time.Date(1, 1, 1, 0, 0, 1, 0, time.UTC), sunday.Add(-time.Second), sunday,
	}
	clocks, warned := 0, 0
	for day := range days {
		s := newShell(t)
		for i, words := range []string{"soak 1-2 --vessel tub --minutes 60 --anyway", "out 1-2", "damp 1", "dry 1-2",
			"hung 1-2", "mist 3"} {
			s.clock = jump()
			if day < len(edges) && i%2 == day%2 {
				s.clock = edges[(day+i)%len(edges)]
			}
			clocks++
			if _, errs, code := s.run(append([]string{"enter"}, strings.Fields(words)...)...); code != 0 {
				t.Errorf("day %d, %s at %s: %s", day, words, s.clock, errs)
			} else if strings.Contains(errs, "clock") {
				warned++
			}
			for _, look := range [][]string{{"triage"}, {"drying"}, {"ledger"}, {"book", "--entries"}, {"rounds"}} {
				out, errs, code := s.run(look...)
				if m := below.FindString(out); code != 0 || m != "" {
					t.Errorf("day %d, %v at %s after %s: code %d, %q\n%s%s", day, look, s.clock, words, code, m, errs,
						out)
				}
			}
		}
		b, err := store.Open(s.book, store.Options{ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		if n := len(b.Book().Entries()); n != 7 {
			t.Errorf("day %d: %d entries", day, n)
		}
		_, err = b.Check()
		if err := errors.Join(err, b.Close()); err != nil {
			t.Error(err)
		}
	}
	if warned < clocks/4 {
		t.Errorf("%d of %d clocks were warned of", warned, clocks)
	}
	figures(t, fmt.Sprintf("clocks (%d warned of)", warned), clocks, clocks, 0)
}
