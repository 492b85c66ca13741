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
	DefaultTemp
	DefaultRH
	ReadingDays
	RoomVolume
	AirChanges
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
	HandsIn
	HandsOut
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

const (
	habit  = "growers' habit"
	ourOwn = "our own"
)

// LimitTable describes every house rule, indexed by [Limit].
var LimitTable = [limitCount]LimitInfo{
	TempUnit:      {"temperature", "unit for temperatures", "", 0, 0, 1, []string{"c", "f"}, ourOwn},
	DryByHour:     {"dry-by", "hour of the evening by which all should be dry", "h", 21, 12, 24, nil, "growers' habit; wet leaves cannot take in air at night (Benzing, Seemann & Renfrow 1978)"},
	Notify:        {"notify", "how a due load calls", "", 1, 0, 3, []string{"off", "bell", "osc9", "osc777"}, ourOwn},
	DefaultTemp:   {"air-temp", "room temperature where there is no reading", "°C", 21, 0, 45, nil, ourOwn},
	DefaultRH:     {"air-rh", "room humidity where there is no reading", "%", 40, 5, 95, nil, ourOwn},
	ReadingDays:   {"reading-days", "how long a reading stands for the room", "d", 30, 1, 365, nil, ourOwn},
	RoomVolume:    {"room-volume", "air volume the drying plants share", "m³", 40, 5, 2000, nil, "our own: a 16 m² room"},
	AirChanges:    {"air-changes", "air changes of that room, windows shut", "/h", 0.44, 0.05, 20, nil, "Kent, Handegord & Robson, ASHRAE Transactions 72: Canadian houses in winter"},
	SoakTarget:    {"soak-target", "share of its water a soak should bring a plant back to", "%", 96, 80, 99, nil, ourOwn},
	SoakFrom:      {"soak-from", "thirst from which a plant is soaked", "%", 12, 2, 40, nil, ourOwn},
	RestDays:      {"rest-days", "days between soaks when no thirst shows", "d", 3, 0, 30, nil, habit},
	MistDays:      {"mist-days", "days after a soak from which a resting plant is misted", "d", 4, 0, 60, nil, habit},
	DipFrom:       {"dip-from", "Dip, at least", "min", 2, 1, 720, nil, habit},
	DipTo:         {"dip-to", "Dip, at most", "min", 20, 1, 720, nil, habit},
	ShortFrom:     {"short-from", "Short, at least", "min", 20, 1, 720, nil, habit},
	ShortTo:       {"short-to", "Short, at most", "min", 60, 1, 720, nil, habit},
	LongFrom:      {"long-from", "Long, at least", "min", 60, 1, 720, nil, habit},
	LongTo:        {"long-to", "Long, at most", "min", 180, 1, 720, nil, habit},
	DeepFrom:      {"deep-from", "Deep, at least", "min", 180, 1, 720, nil, habit},
	DeepTo:        {"deep-to", "Deep, at most", "min", 240, 1, 720, nil, habit},
	OvernightFrom: {"overnight-from", "Overnight, at least", "min", 480, 1, 1440, nil, habit},
	OvernightTo:   {"overnight-to", "Overnight, at most", "min", 720, 1, 1440, nil, habit},
	CapBulbous:    {"cap-bulbous", "longest soak for a bulbous plant", "min", 90, 1, 1440, nil, habit},
	CapFuzzy:      {"cap-fuzzy", "longest soak for a fuzzy plant", "min", 10, 1, 1440, nil, habit},
	CapTank:       {"cap-tank", "longest soak for a tank plant", "min", 20, 1, 1440, nil, habit},
	CapPendent:    {"cap-pendent", "longest soak for a pendent mass", "min", 60, 1, 1440, nil, habit},
	CapXeric:      {"cap-xeric", "longest soak for any xeric leaf", "min", 60, 1, 1440, nil, habit},
	WetLimit:      {"wet-limit", "longest a plant should stay wet", "h", 4, 0.5, 48, nil, habit},
	WetLimitFuzzy: {"wet-limit-fuzzy", "the same for a fuzzy plant", "h", 2, 0.5, 48, nil, habit},
	WetLimitClump: {"wet-limit-clump", "the same for a clump or tray", "h", 6, 0.5, 48, nil, habit},
	HandsIn:       {"hands-in", "putting one plant into the water", "s", 15, 1, 300, nil, ourOwn},
	HandsOut:      {"hands-out", "taking one plant out and shaking it", "s", 20, 1, 300, nil, ourOwn},
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
	return 0, &Problem{What: fmt.Sprintf("there is no house rule %q", name), Do: "list them with: tubside rules"}
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
		return 0, &Problem{What: fmt.Sprintf("%s: %q is not a choice", info.Name, text), Do: "use " + strings.Join(info.Choices, ", ")}
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || math.IsNaN(v) || v < info.Min || v > info.Max {
		return 0, &Problem{What: fmt.Sprintf("%s: %q", info.Name, text), Do: fmt.Sprintf("give a number from %g to %g %s", info.Min, info.Max, info.Unit)}
	}
	return v, nil
}

// orderedLimits are pairs of which the first must not pass the second.
var orderedLimits = [][2]Limit{
	{DipFrom, DipTo}, {DipTo, ShortFrom}, {ShortFrom, ShortTo}, {ShortTo, LongFrom}, {LongFrom, LongTo},
	{LongTo, DeepFrom}, {DeepFrom, DeepTo}, {DeepTo, OvernightFrom}, {OvernightFrom, OvernightTo},
}

// check reports bands that overlap or run backwards.
func (r Rules) check() error {
	for _, p := range orderedLimits {
		if r[p[0]] > r[p[1]] {
			a, b := LimitTable[p[0]], LimitTable[p[1]]
			return &Problem{
				What: fmt.Sprintf("%s %s would be longer than %s %s", a.Name, r.Word(p[0]), b.Name, r.Word(p[1])),
				Do:   "change the other one first",
			}
		}
	}
	return nil
}
