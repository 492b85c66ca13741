// Package advice is what each plant should get, and why: its band and minutes
// under the house rules, what to do about drying, whom to look at first, who is
// due on a round, what stands in the vessels, what growers do about troubles. It
// reads what package estimate believes.
package advice

import (
	"cmp"
	"math"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/model/soak"
)

// wetLookHours is how long after a look a leaf that was already dark counts as
// wet still. Our own.
const wetLookHours = 24

// mistedHours is how soon after a mist a plant is not misted again. Our own:
// one round a day.
const mistedHours = 20

// badlyDry is the thirst from which even a plant in bloom must be got water
// into. Our own, halfway to where injury begins.
const badlyDry = 0.40

// What is left below the longest soak, so that a plant can go in with others:
// a hundred are not taken out on the minute. Our own; the last minutes of a soak
// add little.
const (
	bandShare   = 0.8  // the least soak of a band goes this far up the band
	cappedShare = 0.75 // the least of a capped soak, as a share of the cap
)

// Context is what all plants looked at in one go have in common.
type Context struct {
	keeper  *estimate.Keeper
	now     time.Time
	room    estimate.RoomAir
	rules   model.Rules
	windows soak.Windows
}

// At is the context of plants looked at in a room at a time.
func At(k *estimate.Keeper, now time.Time, room estimate.RoomAir) *Context {
	c := &Context{keeper: k, now: now, room: room, rules: k.Book().Rules()}
	c.windows = Windows(c.rules)
	return c
}

// HoweverFresh is the same context where neither a plant's thirst nor the days
// since its soak keep it out of the water.
func (c *Context) HoweverFresh() *Context {
	eager := *c
	eager.rules[model.SoakFrom], eager.rules[model.RestDays] = 0, 0
	return &eager
}

// Need is what a plant needs.
func (c *Context) Need(row *model.Row) Need {
	v := c.decide(row, c.keeper.Plant(row.ID, c.now))
	if code := companyCodes[CompanyOf(c.keeper.Book(), row, c.now)]; code != NoCode {
		v.because(code)
	}
	return v.Need
}

// NeedIf is what a plant would need if this were true of it, whatever company it
// may keep.
func (c *Context) NeedIf(row *model.Row, p *estimate.Plant) Need { return c.decide(row, *p).Need }

func (c *Context) decide(row *model.Row, p estimate.Plant) *verdict {
	n := Need{ID: row.ID, Stand: p.Stand, DaysSince: -1, LookFirst: p.Suspect, Reasons: make([]Reason, 0, usualReasons)}
	if p.SoakKnown {
		n.DaysSince = math.Max(0, c.now.Sub(row.LastSoak()).Hours()/24)
	}
	v := &verdict{Need: n, Context: c, row: row, plant: p, traits: p.Traits}
	v.decide()
	return v
}

// usualReasons is room for the reasons that most plants have.
const usualReasons = 8

// verdict is one plant on its way from numbers to a band.
type verdict struct {
	Need
	*Context
	row    *model.Row
	plant  estimate.Plant
	traits *estimate.Traits
	full   float64 // minutes the numbers alone ask for

	saidGone bool
}

// decide goes through the house rules, the strictest first. The order is the
// order in which a mistake kills: rot, then a wet heart, then a flower, then
// thirst.
func (v *verdict) decide() {
	v.full = v.minutes()
	if v.LookFirst {
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
		v.Band = soak.Mist
		v.bloom()
	case v.healing():
		v.Band = soak.Mist
		v.because(JustSeparated)
		v.history()
	case v.resting():
		v.because(SoakedLately)
		v.history()
		v.because(RestDays, v.rules[model.RestDays])
	case v.full == 0:
		v.between()
	default:
		v.inWater()
	}
	v.terms()
	v.always()
}

// minutes is how long the numbers alone would soak the plant; 0 when it is not
// thirsty enough.
func (v *verdict) minutes() float64 {
	if v.Thirst() < v.rules[model.SoakFrom]/100 {
		return 0
	}
	return leaf.MinutesTo(v.RWC, v.rules[model.SoakTarget]/100, v.traits.Tau)
}

// freshLook reports whether the signs were seen since the last soak.
func (v *verdict) freshLook() bool {
	return !v.row.SignsAt.IsZero() && v.row.SignsAt.After(v.row.LastSoak())
}

func (v *verdict) stillWet() bool {
	return v.freshLook() && v.row.Signs.Shift == model.AlreadyDark && v.now.Sub(v.row.SignsAt).Hours() < wetLookHours
}

// resting reports whether the plant was soaked so lately that it should breathe
// first, and nobody has seen it thirsty since.
func (v *verdict) resting() bool {
	return v.DaysSince >= 0 && v.DaysSince < v.rules[model.RestDays] && !v.thirstSeen()
}

// between is a plant that needs no soak: misted from a house rule's day on.
func (v *verdict) between() {
	lately := v.mistedLately()
	if v.DaysSince >= 0 && v.DaysSince < v.rules[model.MistDays] || lately {
		v.Band = soak.Rest
	} else {
		v.Band = soak.Mist
	}
	if lately {
		v.because(MistedAgo, v.now.Sub(v.row.Misted).Minutes())
	} else if !v.thirstSeen() {
		v.because(ThirstTooLow, v.Thirst(), v.rules[model.SoakFrom]/100)
	}
	v.history()
}

// inWater gives the plant its band and its minutes, and cuts them to the cap.
func (v *verdict) inWater() {
	v.Band = v.windows.Of(v.full)
	w := v.windows[v.Band]
	v.From, v.To = w.From+bandShare*(within(v.full, w)-w.From), w.To
	if limit := v.traits.Cap; limit > 0 && v.To > limit {
		v.Band = min(v.Band, v.windows.Of(limit))
		v.From, v.To = math.Min(v.From, cappedShare*limit), limit
		if v.full > limit {
			v.becauseOf(v.traits.CapFor, CappedTo, limit, v.full)
		}
	}
	v.To = math.Floor(v.To)
	v.From = math.Min(handy(v.From), v.To)
	if len(v.Reasons) == 0 && !v.thirstSeen() {
		v.gone() // nothing was seen: the first reason is what the numbers say
	}
	v.history()
}

// handy rounds minutes up to what a person sets a clock to: five minutes, or
// one under a quarter of an hour.
func handy(minutes float64) float64 {
	if minutes < 15 {
		return math.Ceil(minutes)
	}
	return math.Ceil(minutes/5) * 5
}

func within(x float64, w soak.Window) float64 { return math.Min(math.Max(x, w.From), w.To) }

// Windows are the bands' minutes under the house rules.
func Windows(r model.Rules) soak.Windows {
	return soak.Windows{
		soak.Dip:       {From: r[model.DipFrom], To: r[model.DipTo]},
		soak.Short:     {From: r[model.ShortFrom], To: r[model.ShortTo]},
		soak.Long:      {From: r[model.LongFrom], To: r[model.LongTo]},
		soak.Deep:      {From: r[model.DeepFrom], To: r[model.DeepTo]},
		soak.Overnight: {From: r[model.OvernightFrom], To: r[model.OvernightTo]},
	}
}

// A mist round goes by the leaf and by the room: the house rule's days stand
// for the house rule's air, and shrink or grow with the drying power of the
// air there is, but not beyond these. Our own: stomata are not a wet cloth.
const (
	mistShortest = 0.5
	mistLongest  = 2.0
)

// walkSlack is how much sooner than the last one a walk may begin and still
// find the same plants due. Our own.
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
	every := max(mistEvery(v.row.Plant, v.rules, v.room.DeficitKPa)-walkSlack, mistedHours*time.Hour)
	return v.now.Sub(v.row.Misted) < every
}

// healing reports whether the plant was taken off its mother so lately that its
// wound is not dry.
func (v *verdict) healing() bool { return healing(v.row, v.rules, v.now) }

func healing(row *model.Row, rules model.Rules, now time.Time) bool {
	return !row.Separated.IsZero() && now.Sub(row.Separated).Hours() < 24*rules[model.SeparatedDays]
}

// companyCodes is the reason for a company that is not everybody's.
var companyCodes = map[soak.Company]Code{soak.Newcomer: NewcomersWater, soak.Suspect: SuspectsWater, soak.Sick: SicksWater}

// CompanyOf is the company a plant may keep in the water at a time.
func CompanyOf(b *model.Book, row *model.Row, now time.Time) soak.Company {
	switch b.Health(row, now) {
	case model.Newcomer:
		return soak.Newcomer
	case model.Suspect:
		return soak.Suspect
	case model.Sick:
		return soak.Sick
	}
	return soak.Healthy
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
