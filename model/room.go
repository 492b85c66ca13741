package model

import (
	"fmt"
	"slices"
	"time"
)

var (
	_ = register[Reading]("reading")
	_ = register[FanSet]("fan")
	_ = register[RuleSet]("rule")
)

// Fan is how the air moves over the drying plants.
type Fan string

// The fan settings.
const (
	FanOff  Fan = "off"
	FanLow  Fan = "low"  // across the room
	FanOn   Fan = "on"   // at 2 m
	FanNear Fan = "near" // at 1 m
)

// Fans lists the fan settings, from still to strong.
var Fans = []Fan{FanOff, FanLow, FanOn, FanNear}

// ParseFan reads a fan setting by its word.
func ParseFan(s string) (Fan, error) { return oneOf("fan", s, Fans) }

// Reading is what a thermometer and a hygrometer say.
type Reading struct {
	TempC float64 `json:"temp_c"`        // degrees Celsius
	RH    float64 `json:"rh"`            // relative humidity in %
	Fan   Fan     `json:"fan,omitempty"` // empty: as it was
}

// Kind implements [Fact].
func (Reading) Kind() Kind { return "reading" }

func (f Reading) check(b *Book, e Entry) error {
	switch {
	case !(f.TempC >= -5 && f.TempC <= 50):
		return &Problem{
			What: fmt.Sprintf("a room at %.1f °C", f.TempC),
			Do:   "check the reading and its unit (°C or °F)",
		}
	case !(f.RH >= 1 && f.RH <= 100):
		return &Problem{What: fmt.Sprintf("a humidity of %g %%", f.RH), Do: "give it in percent, 1 to 100"}
	case f.Fan != "" && !slices.Contains(Fans, f.Fan):
		return &Problem{What: fmt.Sprintf("fan %q", f.Fan), Do: "use off, low, on or near"}
	}
	return nil
}

func (f Reading) apply(b *Book, e Entry) {
	i, _ := slices.BinarySearchFunc(b.readings, e.At, func(r ReadingAt, t time.Time) int {
		if r.At.After(t) {
			return 1
		}
		return -1 // after every reading of the same second
	})
	b.readings = slices.Insert(b.readings, i, ReadingAt{e.At, f.TempC, f.RH})
	if f.Fan != "" {
		b.setFan(e.At, f.Fan)
	}
}

// ReadingAt is one reading of the room in its history.
type ReadingAt struct {
	At    time.Time
	TempC float64
	RH    float64 // %
}

// Readings is the history of the room, oldest first. The caller must not
// change it.
func (b *Book) Readings() []ReadingAt { return b.readings }

// FanSet says how the fan is set from now on.
type FanSet struct {
	Fan Fan `json:"fan"`
}

// Kind implements [Fact].
func (FanSet) Kind() Kind { return "fan" }

func (f FanSet) check(b *Book, e Entry) error {
	if !slices.Contains(Fans, f.Fan) {
		return &Problem{What: fmt.Sprintf("fan %q", f.Fan), Do: "use off, low, on or near"}
	}
	return nil
}

func (f FanSet) apply(b *Book, e Entry) { b.setFan(e.At, f.Fan) }

// FanAt is one setting of the fan in its history.
type FanAt struct {
	At  time.Time
	Fan Fan
}

func (b *Book) setFan(at time.Time, fan Fan) {
	i, _ := slices.BinarySearchFunc(b.fans, at, func(f FanAt, t time.Time) int {
		if f.At.After(t) {
			return 1
		}
		return -1
	})
	b.fans = slices.Insert(b.fans, i, FanAt{at, fan})
}

// Fan is the fan's setting at a time: low until somebody said otherwise.
func (b *Book) Fan(at time.Time) Fan {
	for i := len(b.fans) - 1; i >= 0; i-- {
		if !b.fans[i].At.After(at) {
			return b.fans[i].Fan
		}
	}
	return FanLow
}

// RuleSet changes one house rule.
type RuleSet struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Today bool    `json:"today,omitempty"` // only until the day is over: see [Book.PullsItself]
}

// Kind implements [Fact].
func (RuleSet) Kind() Kind { return "rule" }

func (f RuleSet) check(b *Book, e Entry) error {
	l, err := FindLimit(f.Name)
	if err != nil {
		return err
	}
	info := LimitTable[l]
	if !info.takes(f.Value) {
		return &Problem{What: fmt.Sprintf("%s: %g", info.Name, f.Value), Do: info.advice()}
	}
	if f.Today && l != PullItself {
		return &Problem{What: info.Name + " for today only", Do: "change the rule, and change it back tomorrow"}
	}
	return nil
}

// allow refuses a rule that would stand the wrong way round to another.
func (f RuleSet) allow(b *Book, e Entry) error {
	l, _ := FindLimit(f.Name)
	trial := b.rules
	trial[l] = f.Value
	return trial.check()
}

func (f RuleSet) apply(b *Book, e Entry) {
	l, _ := FindLimit(f.Name)
	if f.Today {
		b.pulling = &pulling{e.At, f.Value}
		return
	}
	if b.rules[l] = f.Value; l == PullItself {
		b.pulling = nil
	}
}

// pulling is from where on plants are pulled on one day.
type pulling struct {
	at    time.Time
	value float64
}

// PullsItself says from where on a plant is pulled by itself when it is looked at, in the
// words of the house rule, and whether that was said for the day of now alone.
func (b *Book) PullsItself(now time.Time) (rule string, today bool) {
	if p := b.pulling; p != nil && b.daysBetween(p.at, now) == 0 {
		return LimitTable[PullItself].Choices[int(p.value)], true
	}
	return b.rules.Word(PullItself), false
}
