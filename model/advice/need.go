// Package advice is what each plant should get, and why: its band and minutes
// under the house rules, what to do about drying, whom to look at first, who is
// due on a round, what stands in the vessels, what growers do about troubles. It
// reads what package estimate believes.
package advice

import (
	"cmp"
	"math"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/model/soak"
)

// wetLookHours is how long after a look a leaf that was already dark counts as
// wet still. A choice.
const wetLookHours = 24

// mistedHours is how soon after a mist a plant is not misted again. A choice:
// one round a day.
const mistedHours = 20

// badlyDry is the thirst from which even a plant in bloom must be got water
// into. A choice, halfway to where injury begins.
const badlyDry = 0.40

// casualty is the thirst past which a plant is looked at before anything else:
// injury begins a little further on (see [leaf.LethalFrom]). A choice.
const casualty = 0.70

// Context is what all plants looked at in one go have in common.
type Context struct {
	keeper *estimate.Keeper
	now    time.Time
	room   estimate.RoomAir
	rules  model.Rules
	eager  bool // soaked before its time, for a trip

	many    int      // plants to make room for at once
	scratch []Reason // of the plant being looked at
	kept    []Reason // of the plants before, in one piece of memory
}

// At is the context of plants looked at in a room at a time.
func At(k *estimate.Keeper, now time.Time, room estimate.RoomAir) *Context {
	return &Context{keeper: k, now: now, room: room, rules: k.Book().Rules(), many: 1}
}

// HoweverFresh is the same context where neither a plant's thirst nor the days
// since its soak keep it out of the water.
func (c *Context) HoweverFresh() *Context {
	eager := *c
	eager.eager, eager.scratch, eager.kept = true, nil, nil
	return &eager
}

// Need is what a plant needs.
func (c *Context) Need(row *model.Row) Need {
	v := c.verdict(row, c.keeper.Plant(row.ID, c.now))
	v.decide()
	if code := companyCodes[CompanyOf(c.keeper.Book(), row, c.now)]; code != NoCode && row.Rot.IsZero() { // rot is not soaked
		v.because(code)
	}
	return c.keep(v.need)
}

// NeedIf is what a plant would need if this were true of it, whatever company it
// may keep.
func (c *Context) NeedIf(row *model.Row, p *estimate.Plant) Need {
	v := c.verdict(row, *p)
	v.decide()
	return c.keep(v.need)
}

// keep gives a need's reasons a place of their own, those of many plants side by
// side.
func (c *Context) keep(n Need) Need {
	c.scratch = n.Reasons[:0]
	if len(c.kept)+len(n.Reasons) > cap(c.kept) {
		c.kept = make([]Reason, 0, max(c.many*usualReasons, len(n.Reasons)))
	}
	from := len(c.kept)
	c.kept = append(c.kept, n.Reasons...)
	n.Reasons = c.kept[from:len(c.kept):len(c.kept)]
	return n
}

func (c *Context) verdict(row *model.Row, p estimate.Plant) verdict {
	n := Need{
		ID:        row.ID,
		Stand:     p.Stand,
		DaysSince: -1,
		LookFirst: p.Suspect,
		Signs:     model.NoSigns,
		Reasons:   c.scratch,
	}
	if p.SoakKnown {
		zone := c.keeper.Book().Zone()
		n.DaysSince = max(0, int(date.NewAt(c.now.In(zone))-date.NewAt(row.LastSoak().In(zone))))
	}
	if !row.SignsAt.IsZero() && !row.SignsAt.Before(row.LastSoak()) {
		n.Signs, n.SignsAt = row.Signs, row.SignsAt
	}
	return verdict{need: n, context: c, row: row, plant: p, traits: p.Traits, place: tableRowFor(row.Plant)}
}

// usualReasons is room for the reasons that most plants have.
const usualReasons = 10

// verdict is one plant on its way from numbers to a band.
type verdict struct {
	need    Need
	context *Context
	row     *model.Row
	plant   estimate.Plant
	traits  *estimate.Traits
	seen    column
	place   tableRow
	due     due
	full    float64 // minutes the numbers alone ask for

	saidGone bool
}

// due is why a plant is to be soaked now.
type due int

const (
	notDue due = iota
	byRhythm
	byThirst
	byWeight
	bySigns
)

// decide goes through the house rules, the strictest first. The order is the
// order in which a mistake kills: rot, then a wet heart, then a flower, then
// thirst. What was seen goes before what was worked out.
func (v *verdict) decide() {
	v.seen = columnOf(v.need.Signs)
	if v.seen == nothingSeen && v.weighed() && !v.need.Signs.Seen() {
		v.seen = columnOfWeight(v.need.Thirst())
	}
	v.full = leaf.MinutesTo(v.need.RWC, v.context.rules[model.SoakTarget]/100, v.plant.Tau)
	v.due = v.dueBy()
	if v.need.LookFirst {
		v.because(ThirstyTwice)
		v.because(PressTheBase)
		v.because(WhatElseItIs)
	}
	switch {
	case v.row.State.Away():
		v.away()
	case !v.row.Rot.IsZero():
		v.rot()
	case v.stillWet():
		v.wetHeart()
	case !v.row.Bloom.IsZero():
		v.need.Band = soak.Mist
		v.bloom()
	case v.healing():
		v.need.Band = soak.Mist
		v.because(JustSeparated)
		v.history()
	case v.row.MistOnly:
		v.mistOnly()
	case v.resting():
		v.because(SoakedLately)
		v.history()
		v.because(RestDays, v.context.rules[model.RestDays])
	case v.due == notDue:
		v.between()
	default:
		v.inWater()
	}
	v.doubts()
	v.terms()
	v.always()
	if v.need.Band.InWater() {
		v.again()
	}
}

// dueBy is what makes the plant due, the strongest first.
func (v *verdict) dueBy() due {
	switch {
	case v.seen > nothingSeen && v.need.Signs.Seen():
		return bySigns
	case v.seen > nothingSeen:
		return byWeight
	case v.context.eager && v.full > 0, v.need.DaysSince < 0, v.need.DaysSince >= v.rhythm():
		return byRhythm
	case v.need.Thirst() >= v.context.rules[model.SoakFrom]/100:
		return byThirst
	}
	return notDue
}

// rhythm is the house rule's days from soak to soak, in the air since it was dry.
func (v *verdict) rhythm() int { return v.place.rhythmIn(v.plant.Draw, &v.context.rules) }

// weighed reports whether a scale told of the plant since its last soak.
func (v *verdict) weighed() bool {
	w := v.row.Weight
	return v.plant.WetGrams > 0 && w.Grams > 0 && !w.At.Before(v.row.LastSoak())
}

// darkLately reports whether the leaf was seen dark already not long ago.
func (v *verdict) darkLately() bool {
	return v.need.Signs.Shift == model.AlreadyDark && v.context.now.Sub(v.need.SignsAt).Hours() < wetLookHours
}

// stillWet reports whether the plant is wet from its soak. A leaf is dark
// wherever its surface is wet: long after a soak, or with leaves rolled up, that
// is no soak's water.
func (v *verdict) stillWet() bool {
	return v.darkLately() && v.seen < deepChannel && float64(v.need.DaysSince) < v.context.rules[model.RestDays]
}

// resting reports whether the plant was soaked so lately that it should breathe
// first, and nobody has seen it thirsty since.
func (v *verdict) resting() bool {
	return v.need.DaysSince >= 0 && float64(v.need.DaysSince) < v.context.rules[model.RestDays] &&
		v.seen == nothingSeen && !v.context.eager
}

// between is a plant that needs no soak: misted from a house rule's day on.
func (v *verdict) between() {
	lately := v.mistedLately()
	if v.need.DaysSince >= 0 && float64(v.need.DaysSince) < v.context.rules[model.MistDays] || lately {
		v.need.Band = soak.Rest
	} else {
		v.need.Band = soak.Mist
	}
	if lately {
		v.because(MistedAgo, v.context.now.Sub(v.row.Misted).Minutes())
	} else if !v.thirstSeen() {
		v.because(ThirstTooLow, v.need.Thirst(), float64(v.rhythm()))
	}
	v.history()
}

// rescue is the minutes in water that bring the plant all the way back.
func (v *verdict) rescue() float64 {
	return leaf.MinutesTo(v.need.RWC, v.context.rules[model.RescueTarget]/100, v.plant.Tau)
}

// inWater gives the plant its minutes and its band.
func (v *verdict) inWater() {
	gone := v.need.Thirst() > casualty
	unsure := v.unsure()
	days, rhythm := float64(v.need.DaysSince), float64(v.rhythm())
	w := wish{
		row: v.place, seen: v.seen, unsure: unsure, late: days >= lateFrom*rhythm, overdue: days >= overdueFrom*rhythm,
		ahead: v.context.eager, routine: v.full, rescue: v.rescue(),
	}
	l := w.length(&v.context.rules)
	v.need.From, v.need.To, v.need.Again = l.From, l.To, l.again
	v.need.Band = BandOf(l.From, v.context.rules)
	v.need.LookFirst = v.need.LookFirst || gone || unsure && !v.need.Signs.Seen()
	v.whyDue(unsure, gone)
	if l.cut && !unsure { // else it is said why
		v.becauseOf(v.place.capFor(v.seen), CappedTo, v.need.To, w.wanted())
	}
}

// unsure reports whether a soak goes by numbers that may be far off: nobody knows the last soak, or they have a plant
// past mending that was not seen thirsty. A look that finds nothing does not make them surer.
func (v *verdict) unsure() bool {
	if v.seen != nothingSeen {
		return false
	}
	eye := v.plant.Eye
	return v.need.DaysSince < 0 || v.need.Thirst() > casualty || eye.Says == estimate.LooksFuller && eye.Thirst > casualty
}

// A mist round goes by the leaf and by the room: the house rule's days stand
// for the house rule's air, and shrink or grow with the drying power of the
// air there is, but not beyond these. A choice: stomata are not a wet cloth.
const (
	mistShortest = 0.5
	mistLongest  = 2.0
)

// walkSlack is how much sooner than the last one a walk may begin and still
// find the same plants due. A choice.
const walkSlack = 6 * time.Hour

// mistEvery is how long after one mist the next is due.
func mistEvery(p model.Plant, rules model.Rules, deficit float64) time.Duration {
	days := rules[model.MistIntermediate]
	switch {
	case p.Form == model.Wispy || p.Leaf == model.Mesic:
		days = rules[model.MistMesic]
	case p.Leaf == model.Xeric:
		days = rules[model.MistXeric]
	}
	usual := estimate.DeficitKPa(rules[model.DefaultTemp], rules[model.DefaultRH])
	factor := math.Min(math.Max(usual/math.Max(deficit, 0.01), mistShortest), mistLongest)
	return time.Duration(days * factor * 24 * float64(time.Hour))
}

// mistedLately reports whether the plant's next mist is still to come.
func (v *verdict) mistedLately() bool {
	if v.row.Misted.IsZero() {
		return false
	}
	every := max(mistEvery(v.row.Plant, v.context.rules, v.context.room.DeficitKPa)-walkSlack, mistedHours*time.Hour)
	return v.context.now.Sub(v.row.Misted) < every
}

// healing reports whether the plant was taken off its mother so lately that its
// wound is not dry.
func (v *verdict) healing() bool { return healing(v.row, v.context.rules, v.context.now) }

func healing(row *model.Row, rules model.Rules, now time.Time) bool {
	return !row.Separated.IsZero() && now.Sub(row.Separated).Hours() < 24*rules[model.SeparatedDays]
}

// companyCodes is the reason for a company that is not everybody's.
var companyCodes = map[soak.Company]Code{
	soak.Newcomer: NewcomersWater,
	soak.Suspect:  SuspectsWater,
	soak.Sick:     SicksWater,
}

// weeks is a range of weeks.
type weeks struct{ from, to float64 }

// bloomWeeks is how long a bloom keeps its colour, from the first open flower,
// by form and leaf. Growers' habit, from memory: no published lengths were found
// for species kept at home. Single flowers last days; it is the bracts that hold.
var bloomWeeks = map[model.Form]map[model.Leaf]weeks{
	model.Rosette: {model.Mesic: {2, 6}, model.Intermediate: {2, 8}, model.Xeric: {3, 20}},
	model.Bulbous: {model.Mesic: {2, 5}, model.Intermediate: {3, 8}, model.Xeric: {3, 10}},
	model.Wispy:   {model.Mesic: {1, 4}, model.Intermediate: {1, 6}, model.Xeric: {2, 6}},
	model.Stemmed: {model.Mesic: {1, 4}, model.Intermediate: {2, 4}, model.Xeric: {2, 8}},
	model.Fuzzy:   {model.Mesic: {1, 4}, model.Intermediate: {1, 4}, model.Xeric: {1, 6}},
	model.Tank:    {model.Mesic: {8, 16}, model.Intermediate: {8, 16}, model.Xeric: {8, 16}},
	model.Pendent: {model.Mesic: {1, 3}, model.Intermediate: {1, 3}, model.Xeric: {1, 3}},
}

// BloomAgain is how long after a bloom that lasts beyond its time was last seen it is
// asked about again. A choice: two weekly walks.
const BloomAgain = 14 * 24 * time.Hour

// AskBloom reports whether a plant said to be in bloom should be asked about: such
// blooms are over by now, and nobody has lately said that it is still there.
func AskBloom(row *model.Row, now time.Time) bool {
	_, high, ok := BloomEnd(row)
	return ok && now.After(high) && now.After(row.InBloom.Add(BloomAgain))
}

// BloomEnd is between when and when an open bloom is expected to be spent; false
// for a plant whose bloom is not open, or of which only yes or no was said long
// ago. It is growers' habit by form and leaf, not a forecast.
func BloomEnd(row *model.Row) (low, high time.Time, ok bool) {
	if row.Bloom.IsZero() || row.Stage == model.Bud {
		return low, high, false
	}
	since := row.Bloom
	if row.Stage == model.Open {
		since = row.StageAt
	}
	w := bloomWeeks[cmp.Or(row.Form, estimate.AssumedForm)][cmp.Or(row.Leaf, estimate.AssumedLeaf)]
	after := func(n float64) time.Time { return since.Add(time.Duration(n * 7 * 24 * float64(time.Hour))) }
	return after(w.from), after(w.to), true
}
