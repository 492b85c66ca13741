package attack_test

import (
	"errors"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

// faults are the ways a disk fails: an error, a full disk, and one that takes half
// of a write and is full then.
var faults = map[string]answer{
	"an input/output error":       {fault: syscall.EIO, takes: -1},
	"a full disk":                 {fault: syscall.ENOSPC, takes: -1},
	"half of it, then it is full": {takes: 0},
}

// The disk fails at each step of writing an entry in turn. What is said of the
// entry is true, all that was acknowledged before is there, and the book goes on.
func TestEveryStepOfAWriteFails(t *testing.T) {
	tries, lost, said := 0, 0, map[string]int{}
	for name, fault := range faults {
		for step := 0; ; step++ {
			kind, out, ok := failAt(t, step, fault)
			if !ok {
				break // an entry has no more steps
			}
			tries++
			said[out]++
			if out == "untrue" {
				lost++
				t.Errorf("%s at step %d (%s)", name, step, kind)
			}
		}
	}
	if tries < 3*4 || said["not written"] == 0 || said["not confirmed"] == 0 {
		t.Errorf("%d steps were tried, and said: %v", tries, said)
	}
	figures(t, "failing disk: steps", tries, tries-lost, lost)
}

// failAt writes one entry into a book on a disk that fails at a step, and tells
// whether there was such a step and what was said.
func failAt(t *testing.T, step int, fault answer) (kind, out string, reached bool) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book")
	s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	for i := range 3 {
		if _, err := s.Append(model.NewEntry(sunday, note(i))); err != nil {
			t.Fatal(err)
		}
	}
	var answered, after error
	counting, n := false, 0
	onDisk(t, func(op operation) answer {
		if op.file != path || !counting {
			return sound
		}
		n++
		switch {
		case n-1 < step || n-1 > step && fault.takes < 0:
			return sound
		case n-1 == step:
			reached, kind = true, op.kind
			if fault.takes == 0 && op.kind == "write" {
				return answer{takes: len(op.data) / 2}
			}
			return answer{fault: max(fault.fault, 5), takes: -1}
		case op.kind == "write" && n-1 == step+1: // the rest of that write
			return answer{fault: syscall.ENOSPC, takes: -1}
		}
		return sound
	}, func() {
		counting = true
		_, answered = s.Append(model.NewEntry(sunday, note(3)))
		counting = false
		_, after = s.Append(model.NewEntry(sunday, &model.Note{Text: "after"}))
	})
	closed := s.Close()
	if !reached {
		return "", "", false
	}
	again, err := store.Open(path, store.Options{Zone: time.UTC})
	if err != nil {
		t.Errorf("opened again: %v", err)
		return kind, "untrue", true
	}
	defer again.Close()
	there := kept(again.Book())
	last := again.Book().Entries()[len(again.Book().Entries())-1].Fact.(*model.Note).Text
	switch {
	case there < 3 || after == nil && last != "after" || after != nil && last == "after":
		return kind, "untrue", true
	case answered == nil:
		if there == 4 {
			return kind, "written", true
		}
	case errors.Is(answered, store.ErrUnconfirmed):
		if !strings.Contains(answered.Error(), "did not confirm") || closed != nil {
			break
		}
		return kind, "not confirmed", true
	case errors.Is(answered, store.ErrNotWritten):
		if there == 3 {
			return kind, "not written", true
		}
	}
	return kind, "untrue", true
}
