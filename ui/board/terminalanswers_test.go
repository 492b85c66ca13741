package board

import (
	"testing"

	"pgregory.net/rapid"

	"tubside/ui/ink"
)

const lightAnswer = "\x1b]11;rgb:ffff/ffff/dddd\x1b\\"

// A terminal's answer is never read as keys, wherever it falls among them and
// however it is cut; and no key is lost to it.
func TestAnAnswerIsNeverReadAsKeys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		key := rapid.SampledFrom([]string{"f", "b", "1", "\r", " ", "\t", "\x1b[A", "\x1bOP", "é", "\x7f", "g",
			"\x1b[200~a\x1b[201~"})
		answer := rapid.SampledFrom([]string{lightAnswer, "\x1b]11;rgb:1414/1616/1a1a\a",
			"\x1b]10;rgb:bbbb/bbbb/bbbb\a", "\x1b]4;1;rgb:bb/bb/bb\x1b\\"})
		var typed, sent string
		for range rapid.IntRange(0, 50).Draw(t, "pieces") {
			if rapid.Bool().Draw(t, "an answer") {
				sent += answer.Draw(t, "answer")
				continue
			}
			k := key.Draw(t, "key")
			typed, sent = typed+k, sent+k
		}
		var s sieve
		s.began = true
		var got string
		for len(sent) > 0 {
			n := rapid.IntRange(1, len(sent)).Draw(t, "read")
			got, sent = got+string(s.pass([]byte(sent[:n]))), sent[n:]
		}
		if got += string(s.settle()); got != typed {
			t.Fatalf("typed %q, read %q", typed, got)
		}
	})
}

func TestTheAnswerTellsThePaper(t *testing.T) {
	var said []ink.Paper
	s := sieve{paper: func(p ink.Paper) { said = append(said, p) }}
	s.pass([]byte("f" + lightAnswer + "\x1b]11;rgb:0/0/0\a" + "\x1b]11;?\a"))
	if len(said) != 2 || said[0] != ink.Light || said[1] != ink.Dark {
		t.Errorf("told %v", said)
	}
}

func TestALoneEscIsAKey(t *testing.T) {
	var s sieve
	for _, keys := range []string{"\x1b", "\x1b\x1b", "f\x1b"} {
		if got := string(s.pass([]byte(keys))) + string(s.settle()); got != keys {
			t.Errorf("typed %q, read %q", keys, got)
		}
	}
}

// What was typed before the terminal was made ready has a line's end for Enter.
func TestEnterTypedTooEarlyIsEnter(t *testing.T) {
	var s sieve
	if got := string(s.pass([]byte("f\n"))); got != "f\r" {
		t.Errorf("read %q", got)
	}
	if got := string(s.pass([]byte("\n"))); got != "\n" {
		t.Errorf("later a line's end is read as %q", got)
	}
}
