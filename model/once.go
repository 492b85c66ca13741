package model

import (
	"fmt"
	"strings"
)

// maxOnce bounds an entry's own key, in bytes. A choice.
const maxOnce = 120

// isOnce reports whether a text can be an entry's own key: letters, digits and
// the signs of names and times.
func isOnce(s string) bool {
	return s != "" && len(s) <= maxOnce && strings.IndexFunc(s, func(c rune) bool {
		return !('a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || '0' <= c && c <= '9' ||
			strings.ContainsRune("-_.:+/@", c))
	}) < 0
}

// checkOnce refuses a key that was used before.
func (b *Book) checkOnce(e Entry) error {
	if e.Once == "" {
		return nil
	}
	if !isOnce(e.Once) {
		return &Problem{
			What: fmt.Sprintf("%q is no key for an entry", e.Once),
			Do:   fmt.Sprintf("use up to %d letters, digits and signs like - : .", maxOnce),
		}
	}
	if before, ok := b.Once(e.Once); ok {
		return &Problem{What: fmt.Sprintf("entry %d was written with the key %s", before.Seq, e.Once)}
	}
	return nil
}

// Once finds the entry that was written with a key of its own, struck or not.
func (b *Book) Once(key string) (Entry, bool) {
	seq, known := b.once[key]
	if i := b.find(seq); known && i >= 0 {
		return b.entries[i], true
	}
	return Entry{}, false
}
