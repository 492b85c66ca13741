package store

import (
	"encoding/json"
	"fmt"
	"os"
	"time"

	"tubside/model"
)

// holder is who has a book open for writing. It is noted in a file beside the
// book, for whoever finds the book in use; the lock itself is the file's own, and
// a note that a killed program left behind means nothing.
type holder struct {
	PID   int       `json:"pid"`
	As    string    `json:"as,omitempty"`
	Since time.Time `json:"since,omitzero"`
}

func holderFile(path string) string { return path + ".open" }

// sign notes that this process has the book. It is a courtesy: where the folder
// cannot be written there is none.
func (s *Store) sign() {
	note, err := json.Marshal(holder{os.Getpid(), s.opt.As, s.opt.Now.UTC().Truncate(time.Second)})
	if err == nil {
		_ = os.WriteFile(holderFile(s.path), note, 0o600)
	}
}

func (s *Store) unsign() { _ = os.Remove(holderFile(s.path)) }

// heldBy says in words who has a book open.
func heldBy(path string) string {
	var h holder
	note, err := os.ReadFile(holderFile(path))
	if err != nil || json.Unmarshal(note, &h) != nil || h.PID == 0 || !alive(h.PID) {
		return "another tubside"
	}
	text := fmt.Sprintf("another tubside (process %d", h.PID)
	if h.As != "" {
		text = fmt.Sprintf("%s (process %d", h.As, h.PID)
	}
	if !h.Since.IsZero() {
		text += ", since " + h.Since.Local().Format(model.MomentLayout)
	}
	return text + ")"
}

// HeldByBoard reports whether it is a board that has the book open, which takes
// in what is left in the inbox while it is.
func HeldByBoard(path string) bool {
	var h holder
	note, err := os.ReadFile(holderFile(path))
	return err == nil && json.Unmarshal(note, &h) == nil && h.As == AsBoard && alive(h.PID)
}

// AsBoard is what a board calls itself in [Options].
const AsBoard = "the board"
