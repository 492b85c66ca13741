package estimate

import (
	"math"
	"sort"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// AirSpell is the room's air over a day or a month, as far as it was read.
type AirSpell struct {
	First, Last date.Date // of the days with readings
	Days        int       // with readings
	Readings    int
	TempC       Span // °C
	RH          Span // %
	Deficit     Span // vapour pressure deficit, kPa
}

// Span is the mean of a quantity and how far it went. The mean of a month is
// the mean of its days, so that a day read hourly counts no more than a day
// read once.
type Span struct{ Mean, Min, Max float64 }

// AirDays is the room's air day by day in the grower's zone, from one moment to
// another, oldest first. Days without a reading are left out.
func AirDays(b *model.Book, from, until time.Time) []AirSpell {
	readings := b.Readings()
	first := sort.Search(len(readings), func(i int) bool { return !readings[i].At.Before(from) })
	var days []AirSpell
	for _, r := range readings[first:] {
		if !r.At.Before(until) {
			break
		}
		day := date.NewAt(r.At.In(b.Zone()))
		one := AirSpell{
			First:    day,
			Last:     day,
			Days:     1,
			Readings: 1,
			TempC:    just(r.TempC),
			RH:       just(r.RH),
			Deficit:  just(DeficitKPa(r.TempC, r.RH)),
		}
		if n := len(days) - 1; n >= 0 && days[n].First == day {
			days[n].join(one, float64(days[n].Readings), 1)
		} else {
			days = append(days, one)
		}
	}
	return days
}

// AirMonths joins days into months.
func AirMonths(days []AirSpell) []AirSpell {
	var months []AirSpell
	for _, day := range days {
		n := len(months) - 1
		if n >= 0 && sameMonth(months[n].First, day.First) {
			months[n].join(day, float64(months[n].Days), 1)
			months[n].Days++
		} else {
			months = append(months, day)
		}
	}
	return months
}

// AirOver joins days into one spell. It returns false when there are none.
func AirOver(days []AirSpell) (AirSpell, bool) {
	if len(days) == 0 {
		return AirSpell{}, false
	}
	all := days[0]
	for _, day := range days[1:] {
		all.join(day, float64(all.Days), 1)
		all.Days++
	}
	return all, true
}

func sameMonth(a, b date.Date) bool { return a.Year() == b.Year() && a.Month() == b.Month() }

func just(v float64) Span { return Span{v, v, v} }

// join takes in another spell, each with its weight in the mean. It leaves the
// count of days alone.
func (s *AirSpell) join(o AirSpell, own, other float64) {
	s.Last = o.Last
	s.Readings += o.Readings
	for _, pair := range [][2]*Span{{&s.TempC, &o.TempC}, {&s.RH, &o.RH}, {&s.Deficit, &o.Deficit}} {
		to, from := pair[0], pair[1]
		to.Mean = (to.Mean*own + from.Mean*other) / (own + other)
		to.Min, to.Max = math.Min(to.Min, from.Min), math.Max(to.Max, from.Max)
	}
}

// How the air now is held against the months before. Choices.
const (
	nowDays     = 7    // what "now" is
	beforeDays  = 365  // how far back a month is looked for
	leastDays   = 3    // of readings, for a month to be spoken of
	worthSaying = 1.25 // how different a month must be to be chosen over the last
)

// AirCompared holds the air of the last days against an earlier month.
type AirCompared struct {
	Now, Then AirSpell
	Ratio     float64 // of the mean deficits, now to then
}

// CompareAir holds the air of the last seven days against the latest earlier
// month that was clearly moister or drier, or else the last one before this. It
// returns false where the readings do not allow it.
//
// That a plant loses water in proportion to the deficit is a simplification:
// stomata and scales do not follow it to the letter.
func CompareAir(b *model.Book, now time.Time) (AirCompared, bool) {
	here, ok := AirOver(AirDays(b, now.AddDate(0, 0, -nowDays), now.Add(time.Second)))
	months := AirMonths(AirDays(b, now.AddDate(0, 0, -beforeDays), now))
	var found AirCompared
	for i := len(months) - 1; i >= 0 && ok; i-- {
		then := months[i]
		if sameMonth(then.First, here.Last) || then.Days < leastDays || then.Deficit.Mean <= 0 {
			continue
		}
		c := AirCompared{here, then, here.Deficit.Mean / then.Deficit.Mean}
		if math.Abs(math.Log(c.Ratio)) >= math.Log(worthSaying) {
			return c, true
		}
		if found.Then.Days == 0 {
			found = c
		}
	}
	return found, found.Then.Days > 0
}

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

// What an expected air rests on. Choices.
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
	return ExpectedAir{TempC: tempC, RH: rh, Deficit: DeficitKPa(tempC, rh), Source: FromGrower}
}

// expectedFrom keeps the mean deficit, which is what plants feel, and finds the
// humidity that goes with it at the mean temperature.
func expectedFrom(s AirSpell, source AirSource) ExpectedAir {
	return ExpectedAir{
		TempC: s.TempC.Mean, RH: humidityFor(s.Deficit.Mean, s.TempC.Mean), Deficit: s.Deficit.Mean, Source: source,
		Days: s.Days,
	}
}
