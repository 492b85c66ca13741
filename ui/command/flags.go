package command

import (
	"errors"
	"time"

	"tubside/ui/show"
)

// instant is a time given as RFC 3339.
type instant struct{ time.Time }

// Set implements pflag.Value.
func (i *instant) Set(text string) error {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return errors.New("write it as 2026-01-31T14:20:00+01:00")
	}
	i.Time = t
	return nil
}

// String implements pflag.Value.
func (i *instant) String() string {
	if i.IsZero() {
		return ""
	}
	return i.Format(time.RFC3339)
}

// Type implements pflag.Value.
func (*instant) Type() string { return "time" }

// quantity is a number given with or without its unit. Its value is in the
// first of the units.
type quantity struct {
	value float64
	units []string
	text  string // as given; the default otherwise
	given bool
}

// of is a quantity with a default, in the first unit; the others are other ways
// to write that unit.
func of(value float64, text string, units ...string) quantity {
	return quantity{value: value, units: units, text: text}
}

// Set implements pflag.Value.
func (q *quantity) Set(text string) (err error) {
	if q.units[0] == celsius {
		q.value, err = show.ParseTemp(text, false)
	} else {
		q.value, err = show.ParseQuantity(text, q.units...)
	}
	q.text, q.given = text, true
	return err
}

// String implements pflag.Value.
func (q *quantity) String() string { return q.text }

// Type implements pflag.Value.
func (q *quantity) Type() string {
	if len(q.units) == 0 {
		return "number"
	}
	return q.units[0]
}

// celsius is the unit of temperatures, which alone have a second one to be
// turned into it.
const celsius = "°C"

// The quantities that several commands ask for.
func aTemperature() quantity { return of(0, "", celsius) }
func aHumidity() quantity    { return of(0, "", "%") }
