package advice

import (
	"cmp"
	"math"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// column is one of the growers' table: how far the leaves have gone.
type column int

const (
	nothingSeen column = iota // not looked at, or flat with clean new tips
	edgesLift
	deepChannel // or many brown new tips
	rolledShut
)

// columnOf reads signs. A few brown new tips may come from handling: they say
// nothing alone.
func columnOf(s model.Signs) column {
	switch {
	case s.Curl >= 3:
		return rolledShut
	case s.Curl == 2 || s.Tips >= 2:
		return deepChannel
	case s.Curl == 1:
		return edgesLift
	}
	return nothingSeen
}

// The thirst from which a weighing stands for a column. Guesses, in the middle of
// what the curves of signs have.
var weighedFrom = [...]float64{edgesLift: 0.30, deepChannel: 0.45, rolledShut: 0.60}

// columnOfWeight is what the leaves of a plant should show that was weighed.
func columnOfWeight(thirst float64) column {
	for c := rolledShut; c > nothingSeen; c-- {
		if thirst >= weighedFrom[c] {
			return c
		}
	}
	return nothingSeen
}

// tableRow is where a plant stands in the table of soak lengths: form goes before
// leaf, but xeric leaves go together whatever bears them.
type tableRow int

const (
	rowMesic tableRow = iota
	rowIntermediate
	rowWispy
	rowXeric
	rowBulbous
	rowFuzzy
	rowPendent
	rowTank
)

func tableRowOf(form model.Form, leaf model.Leaf) tableRow {
	switch {
	case form == model.Bulbous:
		return rowBulbous
	case form == model.Fuzzy:
		return rowFuzzy
	case form == model.Pendent:
		return rowPendent
	case form == model.Tank:
		return rowTank
	case leaf == model.Xeric:
		return rowXeric
	case form == model.Wispy:
		return rowWispy
	case leaf == model.Mesic:
		return rowMesic
	}
	return rowIntermediate
}

func tableRowFor(p model.Plant) tableRow {
	return tableRowOf(cmp.Or(p.Form, estimate.AssumedForm), cmp.Or(p.Leaf, estimate.AssumedLeaf))
}

// capped reports whether the form or leaf sets how long it may soak.
func (r tableRow) capped() bool { return r >= rowXeric }

// word is what a cap is for.
func (r tableRow) word() string {
	if !r.capped() {
		return "house rule"
	}
	return [...]string{
		rowXeric: "xeric", rowBulbous: "bulbous", rowFuzzy: "fuzzy", rowPendent: "pendent", rowTank: "tank",
	}[r]
}

// capFor is what a cap is for, of plants whose cap goes by what was seen with that.
func (r tableRow) capFor(seen column) string {
	switch {
	case r != rowBulbous:
		return r.word()
	case seen == nothingSeen:
		return r.word() + ", no thirst seen"
	}
	return r.word() + ", thirst seen"
}

// slow reports whether such plants are soaked more rarely.
func (r tableRow) slow() bool { return r == rowXeric || r == rowFuzzy }

// rhythmIn is the house rules' days between soaks, in air that draws so many
// times what the reference air does: fewer where it draws more.
func (r tableRow) rhythmIn(draw float64, rules *model.Rules) int {
	days := rules[model.RhythmDays]
	if r.slow() {
		days = rules[model.RhythmSlow]
	}
	return int(math.Round(days / math.Max(draw, 1)))
}

// length is how long a plant should soak.
type length struct {
	soak.Window      // the shortest soak that does it, and what it may have, minutes
	again       bool // and once more a day later
	cut         bool // it needs more than it may have
}

// wish is what the length of a soak follows from.
type wish struct {
	row     tableRow
	seen    column
	unsure  bool    // no thirst seen, and either the last soak or the estimate is not to be trusted
	late    bool    // half as long again as its rhythm
	overdue bool    // twice its rhythm
	ahead   bool    // before a trip: all the way back
	routine float64 // minutes back to the house rule's share of water, as worked out
	rescue  float64 // minutes all the way back
}

// lateFrom is the part of its rhythm from which a plant is late, and overdueFrom
// overdue. A choice.
const (
	lateFrom    = 1.5
	overdueFrom = 2.0
)

// leastShare is the least soak as a part of the longest, at most: so that a plant
// can go in with others, since a hundred are not taken out on the minute. A choice.
const leastShare = 0.75

// length is the house rules' answer to a wish. What was seen sets the shortest
// soak and the longest; with nothing seen the shortest follows from the
// computation, and is Long at most. Only what is rolled shut must stay in overnight.
func (w wish) length(rules *model.Rules) length {
	most := w.most(rules)
	least := math.Max(w.least(rules), w.unseen(rules))
	l := length{cut: w.wanted() > most}
	most = math.Floor(most)
	least = math.Max(least, math.Min(rules[model.Shortest], most/2))
	top := leastShare * most
	switch {
	case w.seen == nothingSeen:
		top = math.Min(top, rules[model.LongTo])
	case w.seen < rolledShut: // by day
		top = math.Min(top, rules[model.OvernightFrom]-handyStep)
	}
	l.From, l.To = math.Max(math.Min(handy(least), handyUnder(top)), 1), most
	l.again = w.again(most)
	return l
}

// wanted is the minutes that what was seen asks for: most of the way back, or with thirst seen all of it.
func (w wish) wanted() float64 {
	if w.seen > nothingSeen {
		return w.rescue
	}
	return w.routine
}

// unseen is the shortest soak with nothing seen: what is seen never shortens it.
func (w wish) unseen(rules *model.Rules) float64 {
	if w.seen == nothingSeen {
		return 0
	}
	w.seen = nothingSeen
	return w.length(rules).From
}

// most is what the plant may have.
func (w wish) most(rules *model.Rules) float64 {
	switch w.row {
	case rowXeric:
		return rules[model.CapXeric]
	case rowFuzzy:
		return rules[model.CapFuzzy]
	case rowPendent:
		return rules[model.CapPendent]
	case rowTank:
		return rules[model.CapTank]
	case rowBulbous:
		if w.seen == nothingSeen {
			return math.Min(rules[model.RoutineBulbous], rules[model.CapBulbous])
		}
		return rules[model.CapBulbous]
	}
	switch {
	case w.seen == rolledShut || w.seen == deepChannel && w.row != rowIntermediate:
		return rules[model.OvernightTo]
	case w.seen > nothingSeen:
		return rules[model.MostRescue]
	case w.unsure:
		return rules[model.MostUnseen]
	case w.row == rowWispy:
		return rules[model.MostWispy]
	case w.row == rowMesic && w.late:
		return rules[model.MostLate]
	}
	return rules[model.MostRoutine]
}

// least is the shortest soak that does it, before any cap.
func (w wish) least(rules *model.Rules) float64 {
	switch {
	case w.seen == nothingSeen && w.ahead:
		return w.rescue
	case w.seen == nothingSeen:
		return w.routine
	case w.row == rowXeric && w.seen == edgesLift:
		return rules[model.LiftingXeric]
	case w.row == rowXeric:
		return rules[model.DeepXeric]
	case w.row == rowBulbous && w.seen == edgesLift:
		return rules[model.LiftingBulbous]
	case w.row == rowBulbous:
		return rules[model.DeepBulbous]
	case w.row.capped():
		return leastShare * w.most(rules)
	case w.seen == rolledShut:
		return math.Max(rules[model.OvernightFrom], w.rescue)
	}
	seen := map[tableRow][2]model.Limit{
		rowMesic:        {model.LiftingMesic, model.DeepMesic},
		rowIntermediate: {model.LiftingIntermediate, model.DeepIntermediate},
		rowWispy:        {model.LiftingWispy, model.DeepWispy},
	}[w.row][w.seen-edgesLift]
	return math.Max(rules[seen], w.rescue)
}

// again reports whether one soak is not enough of what the plant may have.
func (w wish) again(most float64) bool {
	switch w.row {
	case rowXeric, rowBulbous:
		return w.seen == rolledShut || w.seen == nothingSeen && w.overdue && w.rescue > most
	case rowFuzzy, rowPendent:
		return w.seen >= deepChannel || w.seen == nothingSeen && w.overdue && w.rescue > most
	}
	return false
}

// handyStep is what a person sets a clock to, minutes.
const handyStep = 5.0

// handy rounds minutes up to what a person sets a clock to: five minutes, or
// one under a quarter of an hour.
func handy(minutes float64) float64 {
	if minutes < 15 {
		return math.Ceil(minutes)
	}
	return math.Ceil(minutes/handyStep) * handyStep
}

// handyUnder rounds down the same way.
func handyUnder(minutes float64) float64 {
	if minutes < 15 {
		return math.Floor(minutes)
	}
	return math.Floor(minutes/handyStep) * handyStep
}

// BandOf is the band of the shortest soak that does it, in minutes.
func BandOf(least float64, rules model.Rules) soak.Band {
	switch {
	case least <= 0:
		return soak.Rest
	case least <= rules[model.DipTo]:
		return soak.Dip
	case least <= rules[model.ShortTo]:
		return soak.Short
	case least <= rules[model.LongTo]:
		return soak.Long
	case least < rules[model.OvernightFrom]:
		return soak.Deep
	}
	return soak.Overnight
}

// Rhythm is the house rules' days between soaks of a plant, in air that draws so
// many times what the reference air does (see [leaf.Draw]).
func Rhythm(p model.Plant, draw float64, rules model.Rules) int {
	return tableRowFor(p).rhythmIn(draw, &rules)
}

// RoutineLeast is the shortest soak with nothing seen of a plant that needs some
// minutes as worked out.
func RoutineLeast(p model.Plant, minutes float64, rules model.Rules) float64 {
	return wish{row: tableRowFor(p), routine: minutes}.length(&rules).From
}

// RoutineMost is the longest soak with nothing seen.
func RoutineMost(p model.Plant, rules model.Rules) float64 {
	return wish{row: tableRowFor(p)}.most(&rules)
}

// DipWindow is the soak of a plant that needs none but was pulled by hand.
func DipWindow(rules model.Rules) soak.Window {
	return soak.Window{From: math.Min(rules[model.Shortest], rules[model.DipTo]), To: rules[model.DipTo]}
}
