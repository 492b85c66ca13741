package model

import (
	"fmt"
	"strconv"
	"strings"
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

// The growers' words for each grade of a sign, 0 to 3.
var (
	curlWords  = [...]string{"flat", "edges lifting", "deep channel", "rolled shut"}
	tipsWords  = [...]string{"no brown new tips", "a few brown new tips", "many brown new tips", "most new tips brown"}
	shiftWords = [...]string{"already dark", "slow or patchy shift", "quick, full shift", "stays pale when wet"}
)

// Words says the signs in growers' words, leaving out those not looked at and
// those of a grade below from: "edges lifting, a few brown new tips".
func (s Signs) Words(from Grade) string {
	var words []string
	for _, sign := range []struct {
		grade Grade
		words [4]string
	}{{s.Curl, curlWords}, {s.Tips, tipsWords}, {s.Shift, shiftWords}} {
		if sign.grade >= max(from, 0) && sign.grade <= MaxGrade {
			words = append(words, sign.words[sign.grade])
		}
	}
	return strings.Join(words, ", ")
}

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
