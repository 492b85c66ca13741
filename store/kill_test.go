package store_test

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

// writerOf names the book that a child process of the test writes to.
const writerOf = "TUBSIDE_TEST_WRITER"

func TestMain(m *testing.M) {
	if path := os.Getenv(writerOf); path != "" {
		writeForEver(path)
	}
	os.Exit(m.Run())
}

// writeForEver appends entries and says the number of each once it is written,
// until it is killed.
func writeForEver(path string) {
	s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
	for err == nil {
		var e model.Entry
		e, err = s.Append(model.NewEntry(sunday, model.Note{Text: fmt.Sprintf("note %d", len(s.Book().Entries())+1)}))
		if err == nil {
			fmt.Println(e.Seq)
		}
	}
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

// kills is how often the writer is killed. Each time it gets a little further
// into its work, so that the kill falls anywhere.
const kills = 30

func TestEveryAcknowledgedEntryOutlivesAKill(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book")
	acknowledged := model.Seq(0)
	for round := range kills {
		acknowledged = max(acknowledged, killedAfter(t, path, 1+round*3))
		s, err := store.Open(path, store.Options{Zone: time.UTC})
		if err != nil {
			t.Fatalf("after kill %d: %v", round, err)
		}
		if _, err := s.Check(); err != nil {
			t.Fatalf("after kill %d: %v", round, err)
		}
		entries := s.Book().Entries()
		if model.Seq(len(entries)) < acknowledged {
			t.Fatalf("after kill %d: %d entries of %d acknowledged", round, len(entries), acknowledged)
		}
		for i, e := range entries {
			if note := e.Fact.(*model.Note); e.Seq != model.Seq(i+1) || note.Text != fmt.Sprintf("note %d", i+1) {
				t.Fatalf("after kill %d: entry %d is %d, %q", round, i+1, e.Seq, note.Text)
			}
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if acknowledged < kills {
		t.Fatalf("only %d entries were ever written", acknowledged)
	}
}

// killedAfter runs a writer, kills it when it has acknowledged n entries, and
// returns the last one it acknowledged.
func killedAfter(t *testing.T, path string, n int) (last model.Seq) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), writerOf+"="+path)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	for count := 1; lines.Scan(); count++ {
		seq, err := strconv.ParseUint(lines.Text(), 10, 64)
		if err != nil {
			t.Fatalf("the writer said %q", lines.Text())
		}
		last = model.Seq(seq)
		if count == n {
			child.Process.Kill()
		}
	}
	exit, ok := errors.AsType[*exec.ExitError](child.Wait())
	if !ok || exit.Sys().(syscall.WaitStatus).Signal() != syscall.SIGKILL {
		t.Fatalf("the writer ended by itself: %v", exit)
	}
	return last
}
