package model

import (
	"fmt"
	"strconv"
)

// Grade is one sign as the grower scores it: 0 to 3, or NotSeen.
type Grade int8

// NotSeen is the grade of a sign the grower did not look at.
const NotSeen Grade = -1

// MaxGrade is the strongest grade of any sign.
const MaxGrade Grade = 3

// Signs is what the grower sees on a plant.
type Signs struct {
	Curl  Grade `json:"curl"`  // 0 flat, 1 edges lifting, 2 deep channel, 3 rolled shut
	Tips  Grade `json:"tips"`  // brown new tips: 0 none, 1 a few, 2 many, 3 most
	Shift Grade `json:"shift"` // colour when a drop wets the leaf: 0 already dark, 1 slow or patchy, 2 quick and full, 3 stays pale
}

// LooksFine is a plant that was looked at, without the drop of water: flat
// leaves, clean tips.
var LooksFine = Signs{Curl: 0, Tips: 0, Shift: NotSeen}

// NoSigns is a plant that was not looked at.
var NoSigns = Signs{Curl: NotSeen, Tips: NotSeen, Shift: NotSeen}

// Shift grades that say something other than thirst.
const (
	AlreadyDark Grade = 0 // the leaf is wet now
	StaysPale   Grade = 3 // dead tissue, oil or lime: look closer
)

// String is the three digits as they are keyed in, "-" for not seen: "21-".
func (s Signs) String() string { return s.Curl.String() + s.Tips.String() + s.Shift.String() }

// Seen reports whether anything was looked at.
func (s Signs) Seen() bool { return s != NoSigns }

// String is the digit, or "-" when not seen.
func (g Grade) String() string {
	if g == NotSeen {
		return "-"
	}
	return strconv.Itoa(int(g))
}

// MarshalJSON writes the digit, or null when not seen.
func (g Grade) MarshalJSON() ([]byte, error) {
	if g == NotSeen {
		return []byte("null"), nil
	}
	return []byte(strconv.Itoa(int(g))), nil
}

// UnmarshalJSON reads a digit or null.
func (g *Grade) UnmarshalJSON(b []byte) error {
	if string(b) == "null" {
		*g = NotSeen
		return nil
	}
	parsed, err := ParseGrade(string(b))
	*g = parsed
	return err
}

// ParseGrade reads "0" to "3", or "-" for not seen.
func ParseGrade(s string) (Grade, error) {
	if s == "-" {
		return NotSeen, nil
	}
	if len(s) == 1 && s[0] >= '0' && s[0] <= '3' {
		return Grade(s[0] - '0'), nil
	}
	return NotSeen, &Problem{What: fmt.Sprintf("%q is not a grade", s), Do: "grades are 0 to 3, or - for not looked at"}
}

func (s Signs) check() error {
	for _, g := range []Grade{s.Curl, s.Tips, s.Shift} {
		if g < NotSeen || g > MaxGrade {
			return &Problem{What: fmt.Sprintf("grade %d", g), Do: "grades are 0 to 3"}
		}
	}
	if !s.Seen() {
		return &Problem{What: "signs with nothing seen", Do: "give curl, tips or shift"}
	}
	return nil
}
