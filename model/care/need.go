package care

import (
	"math"
	"time"

	"tubside/model"
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

// sight is what all plants looked at in one go have in common.
type sight struct {
	now     time.Time
	room    RoomAir
	rules   model.Rules
	windows soak.Windows
	air     string // the room, said
}

// sightAt is a sight of a room at a time. The last one is kept: all plants are
// seen in one.
func (k *Keeper) sightAt(now time.Time, room RoomAir) *sight {
	if s := k.sight; s != nil && s.now == now && s.room == room {
		return s
	}
	s := &sight{now: now, room: room, rules: k.book.Rules()}
	s.windows = Windows(s.rules)
	s.air = s.airWords()
	k.sight = s
	return s
}

// need works out one plant.
func (k *Keeper) need(row *model.Row, now time.Time, room RoomAir) Need {
	s, p := k.sightAt(now, room), k.plants[row.ID]
	n := Need{ID: row.ID, DaysSince: -1, LookFirst: p.suspect()}
	if p.told {
		n.DaysSince = math.Max(0, s.now.Sub(row.LastSoak()).Hours()/24)
	}
	var rwc grid
	p.at(s.now, p.kind, k.climate, &rwc)
	shares := k.lossOf(p)
	n.RWC = shares.MeanOf(&rwc)
	n.Low, n.High = shares.QuantileOf(&rwc, 0.1), shares.QuantileOf(&rwc, 0.9)
	if n.Low > n.High {
		n.Low, n.High = n.High, n.Low
	}
	n.Reasons = make([]Reason, 0, usualReasons)
	v := verdict{Need: n, sight: s, row: row, plant: p, kind: p.kind, keeper: k}
	v.decide()
	v.sayCompany(k.book)
	return v.Need
}

// usualReasons is room for the reasons that most plants have.
const usualReasons = 8

// verdict is one plant on its way from numbers to a band.
type verdict struct {
	Need
	*sight
	row    *model.Row
	plant  *kept
	kind   *kind
	keeper *Keeper
	full   float64 // minutes the numbers alone ask for

	saidGone bool
}

// decide goes through the house rules, the strictest first. The order is the
// order in which a mistake kills: rot, then a wet heart, then a flower, then
// thirst.
func (v *verdict) decide() {
	v.full = v.minutes()
	if v.LookFirst {
		v.sayLookFirst()
	}
	switch {
	case v.row.State.Away():
		v.sayAway()
	case !v.row.Rot.IsZero():
		v.sayRot()
	case v.stillWet():
		v.sayStillWet()
	case !v.row.Bloom.IsZero():
		v.Band = soak.Mist
		v.sayBloom()
	case v.healing():
		v.Band = soak.Mist
		v.sayHealing()
	case v.resting():
		v.sayResting()
	case v.full == 0:
		v.between()
	default:
		v.inWater()
	}
	v.sayThirst()
	v.sayAlways()
}

// minutes is how long the numbers alone would soak the plant; 0 when it is not
// thirsty enough.
func (v *verdict) minutes() float64 {
	if v.Thirst() < v.rules[model.SoakFrom]/100 {
		return 0
	}
	return leaf.MinutesTo(v.RWC, v.rules[model.SoakTarget]/100, v.kind.tau)
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
	thirstSeen := v.freshLook() && (v.row.Signs.Curl > 0 || v.row.Signs.Tips > 0)
	return v.DaysSince >= 0 && v.DaysSince < v.rules[model.RestDays] && !thirstSeen
}

// between is a plant that needs no soak: misted from a house rule's day on.
func (v *verdict) between() {
	lately := v.mistedLately()
	if v.DaysSince >= 0 && v.DaysSince < v.rules[model.MistDays] || lately {
		v.Band = soak.Rest
	} else {
		v.Band = soak.Mist
	}
	v.sayBetween(lately)
}

// inWater gives the plant its band and its minutes, and cuts them to the cap.
func (v *verdict) inWater() {
	v.Band = v.windows.Of(v.full)
	w := v.windows[v.Band]
	v.From, v.To = w.From+bandShare*(within(v.full, w)-w.From), w.To
	if limit := v.kind.cap; limit > 0 && v.To > limit {
		v.Band = min(v.Band, v.windows.Of(limit))
		v.From, v.To = math.Min(v.From, cappedShare*limit), limit
		if v.full > limit {
			v.sayCapped()
		}
	}
	v.To = math.Floor(v.To)
	v.From = math.Min(handy(v.From), v.To)
	if len(v.Reasons) == 0 && v.seen() == "" {
		v.sayGone() // nothing was seen: the first reason is what is reckoned
	}
	v.sayHistory()
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
