package feed

import (
	"errors"
	"fmt"
)

// ErrTooStrong says that a bath is refused for its strength.
var ErrTooStrong = errors.New("too strong for leaves")

// Limits are the strengths between which the grower's words change, ppm of nitrogen for one feed, rising.
type Limits struct {
	From   float64 // from here to To is the usual strength
	To     float64
	Warn   float64 // above this comes a warning
	Refuse float64 // above this it is refused, unless overridden
}

// UsualLimits are the limits where the grower gave none: growers' habit, drawn into numbers by ourselves. No burning
// strength of any atmospheric Tillandsia was found published. What was: a trial in Jaboticabal, 2003-04, fed T.
// kautskyi 0.5 g/L of 14-7-28 a month, 70 ppm, and grew larger plants (Rev. Bras. Hort. Orn.); a trade article of 2011
// gives potted Guzmania 100-200 ppm.
var UsualLimits = Limits{From: 25, To: 70, Warn: 100, Refuse: 200}

// Strength is a word for how strong a bath is.
type Strength int

// The strengths, weakest first.
const (
	Weak   Strength = iota // under From
	Usual                  // From to To
	Full                   // over To, up to Warn
	Strong                 // over Warn, up to Refuse: warn
	Harsh                  // over Refuse: refuse
)

var strengthWords = [...]string{"weak", "usual", "full", "strong", "harsh"}

// String is the strength's word.
func (s Strength) String() string { return strengthWords[s] }

// Warns reports whether the strength deserves a warning.
func (s Strength) Warns() bool { return s >= Strong }

// Valid returns nil for limits that rise, and otherwise an error.
func (l Limits) Valid() error {
	if !(l.From >= 0 && l.From <= l.To && l.To <= l.Warn && l.Warn <= l.Refuse) {
		return fmt.Errorf("strength limits %v, %v, %v, %v ppm: give each at least as high as the one before", l.From,
			l.To, l.Warn, l.Refuse)
	}
	return nil
}

// Judge puts a strength in ppm of nitrogen into words. A strength that is not a number is harsh.
func (l Limits) Judge(ppm float64) Strength {
	switch {
	case ppm < l.From:
		return Weak
	case ppm <= l.To:
		return Usual
	case ppm <= l.Warn:
		return Full
	case ppm <= l.Refuse:
		return Strong
	}
	return Harsh
}

// Check judges a strength and refuses a harsh one with an error that is ErrTooStrong. With override there is no
// refusal; the caller asks the grower for it, and keeps it with the feed.
func (l Limits) Check(ppm float64, override bool) (Strength, error) {
	s := l.Judge(ppm)
	if s == Harsh && !override {
		return s, fmt.Errorf("%.0f ppm of nitrogen: %w; use less powder, or more water, down to %.0f", ppm,
			ErrTooStrong, l.Refuse)
	}
	return s, nil
}
