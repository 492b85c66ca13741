package model

var _ = register[Unread]("unread")

// Unread stands in the place of an entry that could not be read when the book was
// rescued from a damaged file, so that every other entry keeps its number.
type Unread struct {
	Why string `json:"why"`           // what was wrong with it
	Was string `json:"was,omitempty"` // what could still be read of it
}

// Kind implements [Fact].
func (Unread) Kind() Kind { return "unread" }

func (Unread) check(*Book, Entry) error { return nil }

func (Unread) apply(*Book, Entry) {}
