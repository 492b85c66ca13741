package model

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Limit names one house rule: a limit the grower may change.
type Limit int

// The house rules. Their meaning, unit, default and where the default comes
// from stand in [LimitTable].
const (
	TempUnit Limit = iota
	DryByHour
	Notify
	Paper
	PullItself
	NumberPad
	DefaultTemp
	DefaultRH
	ReadingDays
	RoomVolume
	AirChanges
	AirChangesDoor
	AirChangesOpen
	AirChangesExtractor
	SoakTarget
	SoakFrom
	RestDays
	MistDays
	DipFrom
	DipTo
	ShortFrom
	ShortTo
	LongFrom
	LongTo
	DeepFrom
	DeepTo
	OvernightFrom
	OvernightTo
	CapBulbous
	CapFuzzy
	CapTank
	CapPendent
	CapXeric
	WetLimit
	WetLimitFuzzy
	WetLimitClump
	HandsPull
	HandsIn
	HandsOut
	HandsLay
	HandsHang
	MistMesic
	MistIntermediate
	MistXeric
	MistFuzzyRH
	FeedDays
	FeedDaysSlow
	FeedFromMonth
	FeedToMonth
	FeedWinter
	FeedAfterDays
	FeedWarn
	FeedRefuse
	LookDays
	LookNewDays
	LookSickDays
	LookRotDays
	QuarantineDays
	LooksApart
	SeparatedDays
	OffsetFrom
	OffsetTo
	TapTreated
	WaterRest
	FillLoads
	FillHours
	WaterCold
	WaterWarm
	DayFrom
	DayUntil
	NightIn
	NightOut
	DayLoads
	LoadPlants
	LoadShare
	Rinse
	TapFlow
	Taps
	FillStands
	SoakMon
	SoakTue
	SoakWed
	SoakThu
	SoakFri
	SoakSat
	SoakSun
	RhythmDays
	RhythmSlow
	RescueTarget
	Shortest
	MostRoutine
	MostWispy
	MostLate
	MostRescue
	MostUnseen
	RoutineBulbous
	LiftingMesic
	LiftingIntermediate
	LiftingWispy
	LiftingXeric
	LiftingBulbous
	DeepMesic
	DeepIntermediate
	DeepWispy
	DeepXeric
	DeepBulbous
	VolumeUnit
	ScaleStep
	WetPast
	limitCount
)

// LimitInfo describes one house rule.
type LimitInfo struct {
	Name    string   // the name typed in the shell
	What    string   // what it limits, in a few words
	Unit    string   // "" for a plain number or a choice
	Default float64  // for a choice, its index
	Min     float64  // lowest value taken
	Max     float64  // highest value taken
	Choices []string // words for 0, 1, 2 …; nil for a number
	Source  string   // where the default comes from
}

// Retired reports whether a rule is no longer read. It stays on the list for the
// books that have it set.
func (l Limit) Retired() bool {
	switch l {
	case DipFrom, ShortFrom, LongFrom, DeepFrom, DeepTo:
		return true
	}
	return false
}

// Limits lists the house rules that are read, in the order of the table.
func Limits() []Limit {
	var all []Limit
	for l := range limitCount {
		if !l.Retired() {
			all = append(all, l)
		}
	}
	return all
}

// Rules holds the value of every house rule.
type Rules [limitCount]float64

// DefaultRules is every house rule as it stands in a fresh book.
func DefaultRules() Rules {
	var r Rules
	for i, info := range LimitTable {
		r[i] = info.Default
	}
	return r
}

// Fahrenheit reports whether temperatures are shown in degrees Fahrenheit.
func (r Rules) Fahrenheit() bool { return r[TempUnit] == 1 }

// Gallons reports whether water is shown in US gallons.
func (r Rules) Gallons() bool { return r[VolumeUnit] == 1 }

// Word is the value of a rule as a person reads it, without its unit.
func (r Rules) Word(l Limit) string {
	if words := LimitTable[l].Choices; words != nil {
		return words[int(r[l])]
	}
	return strconv.FormatFloat(r[l], 'g', -1, 64)
}

// FindLimit finds a house rule by name.
func FindLimit(name string) (Limit, error) {
	for i, info := range LimitTable {
		if strings.EqualFold(info.Name, name) {
			return Limit(i), nil
		}
	}
	var names []string
	for _, info := range LimitTable {
		names = append(names, info.Name)
	}
	return 0, &Problem{
		What:  fmt.Sprintf("there is no house rule %q", name),
		Do:    Meant(name, names, ""),
		Shell: "list them with: tubside rules",
	}
}

// ParseLimit reads a value for a rule: a choice word or a number in range.
func ParseLimit(l Limit, text string) (float64, error) {
	info := LimitTable[l]
	for i, word := range info.Choices {
		if strings.EqualFold(word, strings.TrimSpace(text)) {
			return float64(i), nil
		}
	}
	if info.Choices != nil {
		return 0, &Problem{What: fmt.Sprintf("%s: %q is not a choice", info.Name, text), Do: info.advice()}
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !info.takes(v) {
		return 0, &Problem{What: fmt.Sprintf("%s: %q", info.Name, text), Do: info.advice()}
	}
	return v, nil
}

// takes reports whether the rule may have a value: one in its range, and for a
// choice a whole one.
func (i LimitInfo) takes(v float64) bool {
	return v >= i.Min && v <= i.Max && (i.Choices == nil || v == math.Trunc(v))
}

// advice says which values the rule takes.
func (i LimitInfo) advice() string {
	if i.Choices != nil {
		return "use " + strings.Join(i.Choices, ", ")
	}
	return strings.TrimSpace(fmt.Sprintf("give a number from %g to %g %s", i.Min, i.Max, i.Unit))
}

// orderedLimits are pairs of which the first must not pass the second.
var orderedLimits = [][2]Limit{
	{DipTo, ShortTo}, {ShortTo, LongTo}, {LongTo, OvernightFrom}, {OvernightFrom, OvernightTo},
	{RhythmDays, RhythmSlow},
	{FeedWarn, FeedRefuse}, {OffsetFrom, OffsetTo}, {WaterCold, WaterWarm}, {DayFrom, DayUntil},
}

// check reports bands that overlap or run backwards, and other limits out of
// order.
func (r Rules) check() error {
	for _, p := range orderedLimits {
		if r[p[0]] > r[p[1]] {
			a, b := LimitTable[p[0]], LimitTable[p[1]]
			return &Problem{
				What: fmt.Sprintf("%s %s would be above %s %s", a.Name, r.Word(p[0]), b.Name, r.Word(p[1])),
				Do:   "change the other one first",
			}
		}
	}
	return nil
}

// Treatment is what the waterworks keeps in the tap water.
type Treatment int

// The treatments, in the order of the rule's words.
const (
	TreatmentUnknown Treatment = iota
	Chlorine
	Chloramine
)

// Treatment is the house rule for what is in the tap water.
func (r Rules) Treatment() Treatment { return Treatment(r[TapTreated]) }

// WinterFeed is how plants are fed outside the season.
type WinterFeed int

// The ways to feed outside the season, in the order of the rule's words.
const (
	WinterOff  WinterFeed = iota
	WinterHalf            // at half the pace
	WinterOn              // as under lamps
)

// WinterFeed is the house rule for feeding outside the season.
func (r Rules) WinterFeed() WinterFeed { return WinterFeed(r[FeedWinter]) }
