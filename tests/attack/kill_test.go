package attack_test

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"tubside/store"
)

// The real program is killed at any moment of writing an entry, of making the
// day's copy, and of starting: what it said it wrote is there, once, in order.
func TestKills(t *testing.T) {
	kills := *killed
	if testing.Short() {
		kills = 15
	}
	s := newShell(t)
	r := rand.New(rand.NewPCG(5, 6))
	longest := 60 * time.Millisecond
	var acknowledged []string
	died := 0
	for tries := 0; died < kills; tries++ {
		if tries > 20*kills {
			t.Fatalf("only %d of %d programs could be killed: they are too quick", died, tries)
		}
		text := fmt.Sprintf("note %d", tries)
		cmd := program(s.book, "enter", "note", "--text", text)
		day := sunday.AddDate(0, 0, tries)
		cmd.Env = append(cmd.Env, "TUBSIDE_NOW="+day.Format(time.RFC3339)) // each a new day: a copy is made
		var out bytes.Buffer
		cmd.Stdout = &out
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		death := time.AfterFunc(time.Duration(r.Int64N(int64(longest))), func() { _ = cmd.Process.Kill() })
		err := cmd.Wait()
		death.Stop()
		if exit, ended := errors.AsType[*exec.ExitError](err); ended && exit.ExitCode() == -1 {
			died++
			longest += longest / 20 // so that a third live, and deaths fall into all of a life
		} else if ended {
			t.Fatalf("it was not killed and failed: %v", exit)
		} else {
			longest -= longest / 10
		}
		if bytes.Contains(out.Bytes(), []byte("wrote")) {
			acknowledged = append(acknowledged, text)
		}
	}
	s.clock = sunday.AddDate(0, 0, 20*kills)
	s.must("enter", "note", "--text", "the last")
	book, err := store.Open(s.book, store.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := book.Check(); err != nil {
		t.Error(err)
	}
	lost, at := 0, 0
	entries := book.Book().Entries()
	for _, text := range acknowledged {
		for at < len(entries) && noteText(entries[at]) != text {
			at++
		}
		if at == len(entries) {
			lost, at = lost+1, 0
		}
	}
	strays, err := filepath.Glob(filepath.Join(filepath.Dir(s.book), ".*.new-*"))
	if err != nil || len(strays) > 0 {
		t.Errorf("left behind: %v %v", strays, err)
	}
	if len(acknowledged) == 0 {
		t.Error("nothing was ever acknowledged: the kills prove nothing")
	}
	figures(t, fmt.Sprintf("kills (%d entries acknowledged)", len(acknowledged)), kills, kills, lost)
}
