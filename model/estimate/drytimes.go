package estimate

import (
	"maps"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/drying"
)

// DryTimes is how long plants take to dry on a soak day, shaken, and laid as
// their form asks for.
type DryTimes struct {
	window model.Window // how the room is aired
	k      *Keeper
	room   RoomAir
	now    time.Time
	alone  map[dryKey]float64  // hours that the numbers give, alone in the room
	many   map[model.ID]dryKey // what the session brings out
}

// slowing is what came of solving a room with many plants coming out.
type slowing struct {
	room   drying.Room
	groups []drying.Group
	factor float64
}

// NewDryTimes is the times to dry in a room.
func NewDryTimes(k *Keeper, room RoomAir, now time.Time) *DryTimes {
	return &DryTimes{window: k.book.Window(now).Window, k: k, room: room, now: now, alone: map[dryKey]float64{},
		many: map[model.ID]dryKey{}}
}

// Air says how the room is aired meanwhile.
func (d *DryTimes) Air(w model.Window) { d.window = w }

// keyFor is the group a plant will dry with in the room at large: see [DryTimes.Factor].
func keyFor(row *model.Row, kd Traits, room benchAir) dryKey {
	handled := *row
	out := model.TakenOut(true)
	handled.Shaken, handled.Inverted, handled.Load, handled.Out = out.Shaken, out.Inverted, 0, time.Time{}
	return keyOf(&handled, kd, room)
}

func (d *DryTimes) stream(speed float64) drying.Stream {
	return drying.Stream{Air: air.Air{TempC: d.room.TempC, RH: d.room.RH / 100}, Speed: speed}
}

// Hours is the upper end of what a plant may take to dry, alone in the room
// with its fan as it is, by what is believed of its multiplier: 9 in 10 are dry by
// then.
func (d *DryTimes) Hours(row *model.Row) float64 {
	return math.Min(d.k.nextTime(d.k.plants[row.ID]).high*d.Take(row), drying.Horizon)
}

// Take is the hours without what was learned, and notes the plant for the
// room.
func (d *DryTimes) Take(row *model.Row) float64 {
	kd := *d.k.plants[row.ID].traits
	key := keyFor(row, kd, benchAir{speed: fanSpeed(d.room.Fan)})
	if _, known := d.alone[key]; !known {
		d.alone[key] = clamped(kd.Drying.Dry(d.stream(key.speed), key.handling)).Hours()
	}
	d.many[row.ID] = key
	return d.alone[key]
}

// Factor is how a bench changes drying times: as the grower says, else by its
// fan, for a plant of which nothing special is known.
func (d *DryTimes) Factor(b model.Bench) float64 {
	if b.Factor > 0 {
		return b.Factor
	}
	if b.Fan == "" {
		return 1
	}
	shaken := drying.Handling{Shaken: true}
	here := clamped(drying.Typical().Dry(d.stream(fanSpeed(b.Fan)), shaken)).Hours()
	room := clamped(drying.Typical().Dry(d.stream(fanSpeed(d.room.Fan)), shaken)).Hours()
	return here / room
}

// comingOut is in how many parts plants come out of the water, where the room
// is solved for many. A choice.
const comingOut = 3

// powers is the drying power of a stream on leaves of each width, worked out once.
type powers struct {
	stream drying.Stream
	known  map[float64]drying.Power
}

func (p *powers) on(widthM float64) drying.Power {
	power, ok := p.known[widthM]
	if !ok {
		if p.known == nil {
			p.known = map[float64]drying.Power{}
		}
		power = drying.PowerOf(p.stream, widthM)
		p.known[widthM] = power
	}
	return power
}

// Slowed is how many times as long n plants of the session's mix take to dry in
// the room together as alone, coming out some minutes apart.
func (d *DryTimes) Slowed(n int, minutesApart float64) float64 {
	groups, alone := d.mix(n, minutesApart)
	before := air.Air{TempC: d.room.TempC, RH: d.room.RH / 100}
	rules := d.k.book.Rules()
	outdoors, known := d.k.book.Outside(d.now)
	in := airing(rules, d.window, before, outdoors, known)
	room := drying.Room{VolumeM3: rules[model.RoomVolume], AirChanges: in.AirChanges, SupplyDensity: in.SupplyDensity,
		Air: before}
	for _, s := range d.k.slowings {
		if slices.Equal(s.groups, groups) && s.room.VolumeM3 == room.VolumeM3 && s.room.Air == room.Air &&
			s.room.AirChanges == room.AirChanges && s.room.SupplyDensity == room.SupplyDensity {
			return s.factor
		}
	}
	factor := slowed(room, groups, alone)
	if d.k.slowings = append(d.k.slowings, slowing{room, groups, factor}); len(d.k.slowings) > slowingsKept {
		d.k.slowings = d.k.slowings[1:]
	}
	return factor
}

// slowingsKept is how many solved rooms a keeper remembers: as many as a plan and the looks
// at it ask for again and again. A choice.
const slowingsKept = 12

// slowed is how many times as long groups of plants take in a room together as each alone.
func slowed(room drying.Room, groups []drying.Group, alone []float64) float64 {
	forecast, err := room.Dry(groups)
	if err != nil || len(groups) == 0 {
		return 1 // a room that makes no sense slows nobody
	}
	sum, count := 0.0, 0
	for i, g := range groups {
		hours := clamped(forecast.Groups[i]).Hours() + g.MinutesOut/60
		sum += hours / alone[i] * float64(g.Count)
		count += g.Count
	}
	return sum / float64(max(count, 1))
}

// mix is n plants with the session's shares of each kind, coming out in a few
// parts, and the hours each would take alone. It is the same however they were met.
func (d *DryTimes) mix(n int, minutesApart float64) (groups []drying.Group, alone []float64) {
	kinds := map[dryKey]*drying.Group{}
	var order []dryKey
	for _, id := range slices.Sorted(maps.Keys(d.many)) {
		key, plant := d.many[id], d.k.plants[id].traits.Drying
		if kinds[key] == nil {
			kinds[key] = &drying.Group{Plant: plant, Handling: key.handling, Speed: key.speed}
			order = append(order, key)
		}
		add(kinds[key], plant)
	}
	for _, key := range order {
		g := *kinds[key]
		part := int(math.Round(float64(g.Count) / float64(len(d.many)) * float64(n) / comingOut))
		if part == 0 {
			continue
		}
		g.Count = part
		for c := range comingOut {
			g.MinutesOut = -float64(c) * float64(n) / comingOut * minutesApart
			groups = append(groups, g)
			alone = append(alone, d.alone[key])
		}
	}
	return groups, alone
}
