package model

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// ID is a plant's permanent number, from 1. A number is never given twice, also
// after a plant is gone.
type ID uint32

// MaxID bounds plant numbers. A choice: six digits fit a tag and a column.
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
func ParseIDs(s string) (IDs, error) { return appendIDs(nil, s) }

func appendIDs(ids IDs, s string) (IDs, error) {
	for s = afterGap(s); s != ""; s = afterGap(s) {
		low, rest, err := cutID(s)
		if err != nil {
			return nil, err
		}
		high := low
		if rest != "" && rest[0] == '-' {
			if high, rest, err = cutID(rest[1:]); err != nil {
				return nil, err
			}
		}
		switch {
		case rest != "" && !isGap(rest[0]):
			return nil, notAnID(word(s))
		case high < low:
			return nil, &Problem{
				What: fmt.Sprintf("range %q runs backwards", word(s)),
				Do:   fmt.Sprintf("write %d-%d", high, low),
			}
		}
		for id := low; id <= high; id++ {
			ids = append(ids, id)
		}
		s = rest
	}
	return ids, nil
}

// isGap reports whether a character stands between the words of a list.
func isGap(c byte) bool { return c == ' ' || c == ',' || c == '\t' }

func afterGap(s string) string {
	for s != "" && isGap(s[0]) {
		s = s[1:]
	}
	return s
}

// word is the word a list begins with.
func word(s string) string {
	if i := strings.IndexAny(s, " ,\t"); i >= 0 {
		return s[:i]
	}
	return s
}

// cutID reads the number that a list goes on with.
func cutID(s string) (id ID, rest string, err error) {
	i := 0
	for ; i < len(s) && isDigit(s[i]); i++ {
		if id = 10*id + ID(s[i]-'0'); id > MaxID {
			return 0, s, notAnID(word(s))
		}
	}
	if id == 0 {
		return 0, s, notAnID(word(s))
	}
	return id, s[i:], nil
}

// parseID reads one number and nothing else.
func parseID(s string) (ID, error) {
	id, rest, err := cutID(s)
	if err != nil || rest != "" {
		return 0, notAnID(s)
	}
	return id, nil
}

func notAnID(s string) error {
	return &Problem{
		What: fmt.Sprintf("%q is not a plant number", s),
		Do:   fmt.Sprintf("plants are numbered 1 to %d; a range is 12-40", MaxID),
	}
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
