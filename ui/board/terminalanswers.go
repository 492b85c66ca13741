package board

import (
	"bytes"
	"strings"
	"sync/atomic"

	"tubside/ui/ink"
)

// paperQuestion asks a terminal for the colour of its background (OSC 11, xterm
// control sequences).
const paperQuestion = "\x1b]11;?\x1b\\"

// longestAnswer is more bytes than any answer to a colour query has.
const longestAnswer = 64

// sieve takes what a terminal answers out of what is typed. An answer may come at
// any time, late, in pieces, or never.
type sieve struct {
	held  []byte          // the beginning of what may be an answer
	began bool            // something has been read
	paper func(ink.Paper) // told of the background
	count atomic.Int32    // answers so far
}

// answers reports whether the terminal has answered anything.
func (s *sieve) answers() bool { return s.count.Load() > 0 }

// pass gives back what was typed. With nothing more to come soon, what is held
// and may be a key is one.
func (s *sieve) pass(in []byte) []byte {
	if !s.began && len(in) > 0 {
		// Typed before the terminal was set to send each key as it is, Enter comes as
		// a line's end.
		s.began = true
		in = bytes.ReplaceAll(in, []byte{'\n'}, []byte{'\r'})
	}
	var typed []byte
	for _, b := range in {
		typed = append(typed, s.take(b)...)
	}
	return typed
}

// take gives back what a byte shows to be typed.
func (s *sieve) take(b byte) []byte {
	s.held = append(s.held, b)
	switch n := len(s.held); {
	case s.held[0] != '\x1b', n == 2 && b != ']' && b != '\x1b':
		return s.release()
	case n == 1:
	case n == 2 && b == '\x1b': // one Esc, and another that may begin an answer
		s.held = s.held[:1]
		return []byte{'\x1b'}
	case n == 2:
	case b == '\a' || b == '\\' && s.held[n-2] == '\x1b':
		s.answered(string(s.held[2:]))
		s.held = s.held[:0]
	case b == '\x1b' && n < longestAnswer:
	case b < ' ' || b > '~' || n >= longestAnswer || n == 3 && (b < '0' || b > '9'):
		return s.release()
	}
	return nil
}

// release gives back all that is held: no answer after all.
func (s *sieve) release() []byte {
	typed := bytes.Clone(s.held)
	s.held = s.held[:0]
	return typed
}

// settle is called when nothing has come for a while: a lone Esc was a key, half
// an answer is dropped.
func (s *sieve) settle() []byte {
	if len(s.held) == 1 {
		return s.release()
	}
	s.held = s.held[:0]
	return nil
}

// answered reads an answer; only the one for the background says something.
func (s *sieve) answered(text string) {
	s.count.Add(1)
	text = strings.TrimRight(text, "\a\x1b\\")
	if said, ok := strings.CutPrefix(text, "11;"); ok {
		if paper, ok := ink.PaperOf(said); ok && s.paper != nil {
			s.paper(paper)
		}
	}
}
