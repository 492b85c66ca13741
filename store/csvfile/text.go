package csvfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// maxBytes bounds a file: 10,000 rows are about 1 MB.
const maxBytes = 64 << 20

var utf8Mark = []byte("\ufeff")

// Text reads a file as text, whatever program wrote it: UTF-8 or UTF-16
// with or without a byte order mark, or Windows-1252. What cannot be read comes
// out as U+FFFD, and every line end is a line feed. A file that is no text comes back as
// [Faults].
func Text(r io.Reader) (string, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return "", fmt.Errorf("read the file: %w", err)
	}
	switch {
	case len(b) > maxBytes:
		return "", WholeFile("the file is larger than 64 MB", "split it")
	case bytes.HasPrefix(b, []byte("PK\x03\x04")), bytes.HasPrefix(b, []byte("\xd0\xcf\x11\xe0")):
		return "", WholeFile("this is a spreadsheet program's own file", "save the sheet as CSV and import that")
	}
	text, err := encodingOf(b).NewDecoder().Bytes(b)
	if err != nil {
		return "", errors.Join(WholeFile("the text cannot be read", "save it as UTF-8"), err)
	}
	text = bytes.TrimPrefix(text, utf8Mark)
	if bytes.IndexByte(text, 0) >= 0 {
		return "", WholeFile("this is not a text file", "export the sheet as CSV and import that")
	}
	return LineEnds.Replace(string(text)), nil
}

// LineEnds makes one line end of the three there are, so that lines count as
// an editor counts them.
var LineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// encodingOf tells the encoding by the byte order mark or, without one, by the
// first letter: a header starts with a plain letter, of which UTF-16 has one
// byte zero. Text that is not valid UTF-8 is taken for Windows-1252.
func encodingOf(b []byte) encoding.Encoding {
	little := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)
	switch {
	case bytes.HasPrefix(b, utf8Mark):
		return unicode.UTF8
	case bytes.HasPrefix(b, []byte{0xff, 0xfe}), bytes.HasPrefix(b, []byte{0xfe, 0xff}):
		return little
	case len(b) > 1 && b[0] != 0 && b[1] == 0:
		return little
	case len(b) > 1 && b[0] == 0 && b[1] != 0:
		return unicode.UTF16(unicode.BigEndian, unicode.UseBOM)
	case utf8.Valid(b):
		return unicode.UTF8
	}
	return charmap.Windows1252
}
