package care

import (
	"fmt"
	"time"

	"tubside/model"
)

// ExpectedAir is what the room's air is taken to be while the grower is away.
type ExpectedAir struct {
	TempC, RH float64 // °C, %; RH goes with TempC to make the deficit
	Deficit   float64 // vapour pressure deficit, kPa
	Source    AirSource
	Days      int // with readings, that it rests on; 0 without any
}

// AirSource says where an expected air comes from.
type AirSource string

// The sources of an expected air.
const (
	FromLastYear AirSource = "last year" // the book's readings at this season a year ago
	FromLately   AirSource = "recent"    // the book's readings of the last days
	FromRules    AirSource = "default"   // the house rules
	FromGrower   AirSource = "given"     // what the grower said
)

// What an expected air rests on. Our own choices.
const (
	seasonMargin = 7  // days before and after the same dates last year
	seasonLeast  = 3  // days with readings there, to be used
	latelyDays   = 14 // how far back the last days go
)

// ExpectAir is what the room is taken to be like between two times that are to
// come, as known now: as it was at the same season last year where the book
// knows, else as it was in the last two weeks, else as the house rules say.
func (k *Keeper) ExpectAir(now, from, until time.Time) ExpectedAir {
	last := AirDays(k.book, from.AddDate(-1, 0, -seasonMargin), until.AddDate(-1, 0, seasonMargin))
	if spell, ok := AirOver(last); ok && spell.Days >= seasonLeast {
		return expectedFrom(spell, FromLastYear)
	}
	lately := AirDays(k.book, now.AddDate(0, 0, -latelyDays), now.Add(time.Second))
	if spell, ok := AirOver(lately); ok {
		return expectedFrom(spell, FromLately)
	}
	rules := k.book.Rules()
	a := AirGiven(rules[model.DefaultTemp], rules[model.DefaultRH])
	a.Source = FromRules
	return a
}

// AirGiven is an air that the grower expects, in °C and %.
func AirGiven(tempC, rh float64) ExpectedAir {
	return ExpectedAir{TempC: tempC, RH: rh, Deficit: deficitKPa(tempC, rh), Source: FromGrower}
}

// expectedFrom keeps the mean deficit, which is what plants feel, and finds the
// humidity that goes with it at the mean temperature.
func expectedFrom(s AirSpell, source AirSource) ExpectedAir {
	return ExpectedAir{
		TempC: s.TempC.Mean, RH: humidityFor(s.Deficit.Mean, s.TempC.Mean), Deficit: s.Deficit.Mean, Source: source, Days: s.Days,
	}
}

// Words says where the expected air comes from.
func (a ExpectedAir) Words() string {
	switch a.Source {
	case FromLastYear:
		return fmt.Sprintf("as at this season last year, from %s with readings", daysWords(float64(a.Days)))
	case FromLately:
		return fmt.Sprintf("as lately, from %s with readings", daysWords(float64(a.Days)))
	case FromGrower:
		return "as you expect it"
	}
	return "assumed: the book has no readings to go by"
}
