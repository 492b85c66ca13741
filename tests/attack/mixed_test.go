package attack_test

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
	"tubside/ui/command"
)

// asProgram makes this test binary behave as tubside.
const asProgram = "TUBSIDE_TEST_AS_PROGRAM"

// program is the real program with a book and a clock that stands still.
func program(book string, words ...string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], append([]string{"--book", book}, words...)...)
	cmd.Env = append(os.Environ(), asProgram+"=1", "TZ=UTC", "TUBSIDE_BOOK=", "TUBSIDE_NOW=2026-03-01T09:00:00Z")
	return cmd
}

func asTubside() int {
	return command.Main(command.Env{
		Args: os.Args[1:], In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Clock: time.Now, Getenv: os.Getenv,
	})
}

// Four hands at one book, half of the time beside a board that has it: whatever
// is asked for is answered, and whatever is entered is there, once.
func TestNobodyIsRefused(t *testing.T) {
	calls := *mixedCalls
	if testing.Short() {
		calls = 60
	}
	s := newShell(t)
	var mu sync.Mutex
	refused, entered := 0, map[string]bool{}
	one := func(n int) {
		key := fmt.Sprintf("call-%d", n)
		words := [][]string{
			{"enter", "reading", "--temp", "21", "--rh", "40", "--once", key}, {"triage", "--json"},
			{"enter", "mist", "1", "--once", key}, {"book", "--entries"},
			{"enter", "add", "--label", key, "--once", key}, {"drying"},
		}[n%6]
		out, err := program(s.book, words...).CombinedOutput()
		mu.Lock()
		defer mu.Unlock()
		if err != nil {
			refused++
			t.Errorf("%s: %v: %s", strings.Join(words, " "), err, out)
		} else if words[0] == "enter" {
			entered[key] = true
		}
	}
	hands := func(from, to int, between func()) {
		next := make(chan int)
		var all sync.WaitGroup
		for range 4 {
			all.Go(func() {
				for n := range next {
					one(n)
				}
			})
		}
		for n := from; n < to; n++ {
			next <- n
			between()
		}
		close(next)
		all.Wait()
	}
	board, err := store.Open(s.book, store.Options{As: store.AsBoard})
	if err != nil {
		t.Fatal(err)
	}
	takeIn := func() {
		if out, err := board.TakeIn(func(model.Entry) {}); err != nil || len(out) > 0 {
			t.Errorf("the board could not take in %v: %v", out, err)
		}
	}
	hands(0, calls/2, takeIn)
	takeIn()
	if err := board.Close(); err != nil {
		t.Fatal(err)
	}
	hands(calls/2, calls, func() {})
	s.must("enter", "note", "--text", "takes in the rest")

	end, err := store.Open(s.book, store.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]int{}
	for _, e := range end.Book().Entries() {
		found[e.Once]++
	}
	lost := 0
	for key := range entered {
		if found[key] != 1 {
			lost++
			t.Errorf("%s is in the book %d times", key, found[key])
		}
	}
	figures(t, "mixed calls, four hands", calls, calls-refused, lost+refused)
}
