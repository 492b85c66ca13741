package store

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"
	"unicode/utf8"

	"tubside/model"
)

// cleaned is an entry's line without the characters that could steer a terminal,
// whoever typed or sent them: control characters but for tabs and line ends, and
// those that turn or hide what stands beside them. The joiners of emoji and of
// some scripts stay.
func cleaned(line []byte) []byte {
	if clean(line) {
		return line
	}
	var b strings.Builder
	for at := 0; at < len(line); {
		n, c := character(line[at:])
		if !model.Steers(c) {
			b.Write(line[at : at+n])
		}
		at += n
	}
	if !json.Valid([]byte(b.String())) {
		return line // cannot be: what was taken out stood inside a text
	}
	return []byte(b.String())
}

// clean reports whether there is nothing to take out, at a glance: JSON without
// escapes and without anything beyond ASCII.
func clean(line []byte) bool {
	return bytes.IndexByte(line, '\\') < 0 && bytes.IndexFunc(line, func(c rune) bool { return c > '~' }) < 0
}

// character is the next character of JSON as it stands, and which one it means.
func character(text []byte) (length int, means rune) {
	if text[0] != '\\' || len(text) < 2 {
		c, n := utf8.DecodeRune(text)
		return n, c
	}
	if text[1] == 'u' && len(text) >= 6 {
		if c, err := strconv.ParseUint(string(text[2:6]), 16, 16); err == nil {
			return 6, rune(c) // half of a pair is not one that steers
		}
	}
	switch text[1] {
	case 'b':
		return 2, '\b'
	case 'f':
		return 2, '\f'
	}
	return 2, rune(text[1]) // \n, \", \\ and the like
}
