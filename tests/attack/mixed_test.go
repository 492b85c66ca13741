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
		batch := fmt.Sprintf("mist 1 --once %s\nadd --label %s-b --once %s-b\nnote --text %s --once %s-c\n", key, key, key, key, key)
		list := fmt.Sprintf("label,species,shelf\n%s,ionantha,S\n", key)
		calls := []struct {
			words []string
			in    string
			keys  []string // of what it enters
		}{
			{words: []string{"enter", "reading", "--temp", "21", "--rh", "40", "--once", key}, keys: []string{key}},
			{words: []string{"triage", "--json"}},
			{words: []string{"enter", "mist", "1", "--once", key}, keys: []string{key}},
			{words: []string{"enter", "--from", "-"}, in: batch, keys: []string{key, key + "-b", key + "-c"}},
			{words: []string{"book", "--entries"}},
			{words: []string{"enter", "add", "--label", key, "--once", key}, keys: []string{key}},
			{words: []string{"import", "-"}, in: list, keys: []string{"list " + key}},
			{words: []string{"drying"}},
		}
		call := calls[n%len(calls)]
		cmd := program(s.book, call.words...)
		cmd.Stdin = strings.NewReader(call.in)
		out, err := cmd.CombinedOutput()
		mu.Lock()
		defer mu.Unlock()
		if err != nil {
			refused++
			t.Errorf("%s: %v: %s", strings.Join(call.words, " "), err, out)
			return
		}
		for _, k := range call.keys {
			entered[k] = true
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
		if out, err := board.TakeIn(func(store.Waiting) {}); err != nil || len(out) > 0 {
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
		if f, ok := e.Fact.(*model.Import); ok {
			for _, p := range f.Added {
				found["list "+p.Label]++
			}
		}
	}
	if left, err := store.Inbox(s.book); err != nil || len(left) > 0 {
		t.Errorf("%d were left and not taken in; %v", len(left), err)
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
