package store

import "tubside/model"

// WithMaxSize gives the book a disk of so many bytes.
func WithMaxSize(opt Options, bytes int) Options {
	opt.maxSize = bytes
	return opt
}

// Apply has the open book take an entry as Append does once it is written.
func (s *Store) Apply(e model.Entry) error { return s.apply(e) }

// Chained gives lines as they stand in the journal, each with its sum.
func Chained(lines ...string) (values [][]byte, last []byte) {
	var end tail
	for _, line := range lines {
		end = end.next([]byte(line))
		values = append(values, sealed([]byte(line), end.sum))
	}
	return values, aboutValue(lastKey, end.text())
}

// About is the value of a key in the meta bucket.
func About(key, text string) []byte { return aboutValue([]byte(key), text) }
