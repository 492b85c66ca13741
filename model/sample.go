package model

import (
	"fmt"
	"slices"
	"time"
)

var _ = register[Sample]("water")

// Sample is what a meter or a report says of water: that in a vessel, or that
// of a source. 0 is a number that was not measured.
type Sample struct {
	Vessel   string  `json:"vessel,omitempty"`
	Of       Source  `json:"of,omitempty"`
	EC       float64 `json:"ec,omitempty"`       // conductivity at 25 °C, dS/m (= mS/cm)
	TempC    float64 `json:"temp_c,omitempty"`   // °C
	TDS      float64 `json:"tds,omitempty"`      // dissolved solids, mg/L
	Hardness float64 `json:"hardness,omitempty"` // mg/L as CaCO3
	Sodium   float64 `json:"sodium,omitempty"`   // mg/L
	Chloride float64 `json:"chloride,omitempty"` // mg/L
	Boron    float64 `json:"boron,omitempty"`    // mg/L
}

// Kind implements [Fact].
func (Sample) Kind() Kind { return "water" }

func (f Sample) check(b *Book, e Entry) error {
	if f.Vessel == "" && f.Of == "" {
		return &Problem{What: "a water reading of no water", Do: "name the vessel or the source"}
	}
	if f.Vessel != "" {
		if err := b.checkVessel(f.Vessel); err != nil {
			return err
		}
	}
	if f.Of != "" && !slices.Contains(Sources, f.Of) {
		return f.Of.check()
	}
	return f.checkNumbers()
}

// mostDissolved bounds a number of a report, mg/L. A choice: sea water has
// 35,000.
const mostDissolved = 100_000

func (f Sample) checkNumbers() error {
	none := f.EC == 0 && f.TempC == 0
	for _, n := range []struct {
		what  string
		value float64
	}{{"dissolved solids", f.TDS}, {"hardness", f.Hardness}, {"sodium", f.Sodium}, {"chloride", f.Chloride},
		{"boron", f.Boron}} {
		if !(n.value >= 0 && n.value <= mostDissolved) {
			return &Problem{What: fmt.Sprintf("%s of %g mg/L", n.what, n.value), Do: "check the number and its unit"}
		}
		none = none && n.value == 0
	}
	if none {
		return &Problem{
			What: "a water reading with nothing measured",
			Do:   "give the conductivity, the temperature or a number of the report",
		}
	}
	return checkMeter(f.EC, f.TempC)
}

// The ends of what a meter may show of water: the conductivity of sea water is
// 50 dS/m; hotter water would scald. A choice.
const (
	mostEC    = 80
	mostTempC = 60
)

func checkMeter(ec, tempC float64) error {
	switch {
	case !(ec >= 0 && ec <= mostEC):
		return &Problem{
			What: fmt.Sprintf("a conductivity of %g dS/m", ec),
			Do:   "check the unit: 1 dS/m is 1 mS/cm or 1000 µS/cm",
		}
	case !(tempC >= 0 && tempC <= mostTempC):
		return &Problem{What: fmt.Sprintf("water at %g °C", tempC), Do: "check the reading and its unit (°C or °F)"}
	}
	return nil
}

func (f Sample) apply(b *Book, e Entry) {
	if v, ok := b.Vessel(f.Vessel); ok {
		f.Vessel = v.Name
	}
	i, _ := slices.BinarySearchFunc(b.samples, e.At, func(s SampleAt, t time.Time) int {
		if s.At.After(t) {
			return 1
		}
		return -1 // after every sample of the same second
	})
	b.samples = slices.Insert(b.samples, i, SampleAt{f, e.At})
}

// SampleAt is one water reading in the log.
type SampleAt struct {
	Sample
	At time.Time
}

// Samples is the log of water readings, oldest first. The caller must not
// change it.
func (b *Book) Samples() []SampleAt { return b.samples }
