package model

import (
	"fmt"
	"strings"
)

// CodeSign begins the code on a label. A scanner types the code as if by hand, so
// it must be a sign that no screen takes as a key, and one that keyboards of many
// lands have on the same key: shift and 5 on British, German, Spanish and
// American ones, from memory.
const CodeSign = "%"

// Code is what stands in the code on a plant's label: the sign and its number.
func (id ID) Code() string { return CodeSign + id.String() }

// ParseCode reads what a scanner typed for a label.
func ParseCode(text string) (ID, error) {
	number, ok := strings.CutPrefix(strings.TrimSpace(text), CodeSign)
	if ids, err := ParseIDs(number); ok && err == nil && len(ids) == 1 && ids[0].String() == number {
		return ids[0], nil
	}
	return 0, &Problem{
		What: fmt.Sprintf("%q is not the code of a label", text),
		Do:   "scan the square on the plant's label",
	}
}
