package model

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// ID is a plant's permanent number, from 1. A number is never given twice, also
// after a plant is gone.
type ID uint32

// MaxID bounds plant numbers. Our own: six digits fit a tag and a column.
const MaxID ID = 999999

// String is the number in decimal.
func (id ID) String() string { return strconv.FormatUint(uint64(id), 10) }

// IDs is a list of plants in an order that may matter, such as the order they
// went into the water. On disk and on the command line it is text: "12-40 51".
type IDs []ID

// String writes runs of rising numbers as ranges: "12-40 51".
func (ids IDs) String() string {
	var b strings.Builder
	for i := 0; i < len(ids); {
		j := i
		for j+1 < len(ids) && ids[j+1] == ids[j]+1 {
			j++
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(ids[i].String())
		if j > i {
			b.WriteByte('-')
			b.WriteString(ids[j].String())
		}
		i = j + 1
	}
	return b.String()
}

// ParseIDs reads what [IDs.String] writes; commas and plain spaces separate. A
// range must rise. Every number is 1 to [MaxID].
func ParseIDs(s string) (IDs, error) {
	var ids IDs
	for word, rest := nextWord(s); word != ""; word, rest = nextWord(rest) {
		lowText, highText, isRange := strings.Cut(word, "-")
		low, err := parseID(lowText)
		if err != nil {
			return nil, err
		}
		high := low
		if isRange {
			if high, err = parseID(highText); err != nil {
				return nil, err
			}
		}
		if high < low {
			return nil, &Problem{What: fmt.Sprintf("range %q runs backwards", word), Do: fmt.Sprintf("write %d-%d", high, low)}
		}
		if n := int(high-low) + 1; cap(ids)-len(ids) < n {
			ids = slices.Grow(ids, n+strings.Count(rest, " ")) // one for each word to come
		}
		for id := low; id <= high; id++ {
			ids = append(ids, id)
		}
	}
	return ids, nil
}

// nextWord cuts off the first word of a list; it is empty when there is none.
func nextWord(s string) (word, rest string) {
	from := 0
	for from < len(s) && parts(s[from]) {
		from++
	}
	to := from
	for to < len(s) && !parts(s[to]) {
		to++
	}
	return s[from:to], s[to:]
}

// parts reports whether a character stands between the numbers of a list.
func parts(c byte) bool { return c == ' ' || c == ',' || c == '\t' }

func parseID(s string) (ID, error) {
	n, err := strconv.ParseUint(s, 10, 32)
	if err != nil || n == 0 || ID(n) > MaxID {
		return 0, &Problem{What: fmt.Sprintf("%q is not a plant number", s), Do: fmt.Sprintf("plants are numbered 1 to %d; a range is 12-40", MaxID)}
	}
	return ID(n), nil
}

// Has reports whether id is in the list.
func (ids IDs) Has(id ID) bool {
	for _, x := range ids {
		if x == id {
			return true
		}
	}
	return false
}

// MarshalJSON writes the list as its text.
func (ids IDs) MarshalJSON() ([]byte, error) { return json.Marshal(ids.String()) }

// UnmarshalJSON reads the list from its text.
func (ids *IDs) UnmarshalJSON(b []byte) error {
	var s string
	if err := json.Unmarshal(b, &s); err != nil {
		return err
	}
	parsed, err := ParseIDs(s)
	*ids = parsed
	return err
}
