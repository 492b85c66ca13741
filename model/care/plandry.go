package care

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/drying"
	"tubside/model/soak"
)

// dryTimes is how long plants take to dry on a soak day, shaken, and laid as
// their form asks for.
type dryTimes struct {
	k     *Keeper
	room  RoomAir
	now   time.Time
	alone map[dryKey]float64       // hours that the numbers give, alone in the room
	many  map[dryKey]*drying.Group // what the session brings out
	order []dryKey                 // of many, as first met
}

func (k *Keeper) newDryTimes(room RoomAir, now time.Time) *dryTimes {
	return &dryTimes{k: k, room: room, now: now, alone: map[dryKey]float64{}, many: map[dryKey]*drying.Group{}}
}

// keyFor is the group a plant will dry with.
func keyFor(row *model.Row, kd kind) dryKey {
	handled := *row
	handled.Shaken, handled.Inverted, handled.Load, handled.Out = true, row.Form == model.Bulbous, 0, time.Time{}
	return keyOf(&handled, kd)
}

func (d *dryTimes) stream(speed float64) drying.Stream {
	return drying.Stream{Air: air.Air{TempC: d.room.TempC, RH: d.room.RH / 100}, Speed: speed}
}

// hours is the upper end of what a plant may take to dry, alone in the room
// with its fan as it is, by what is believed of its pace: 9 in 10 are dry by
// then.
func (d *dryTimes) hours(row *model.Row) float64 {
	p := d.k.plants[row.ID]
	takes := eventStep.Down(d.k.lingerOf(p))
	_, high := takes.Range(0.8)
	return math.Min(high*d.numbers(row, *p.kind), drying.Horizon)
}

// numbers is the hours without what was learned, and notes the plant for the
// room.
func (d *dryTimes) numbers(row *model.Row, kd kind) float64 {
	key := keyFor(row, kd)
	g := d.many[key]
	if g == nil {
		g = &drying.Group{Plant: kd.dry, Handling: key.handling, Speed: fanSpeed(d.room.Fan)}
		d.many[key] = g
		d.order = append(d.order, key)
		d.alone[key] = clamped(kd.dry.Dry(d.stream(g.Speed), key.handling)).Hours()
	}
	add(g, kd.dry)
	return d.alone[key]
}

// factor is how a bench changes drying times: as the grower says, else by its
// fan, for a plant of which nothing special is known.
func (d *dryTimes) factor(b model.Bench) float64 {
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

// The counts of plants drying at once for which the room is solved, and the
// parts in which they come out of the water. Our own: in between, a straight
// line is near enough.
var roomCounts = []int{0, 50, 150, 400, 1000, 2500}

const comingOut = 3

// limit is how much longer drying takes with many plants in the room, from the
// room solved with the session's own mix of plants coming out one by one.
func (d *dryTimes) limit(s *soak.Session) soak.RoomLimit {
	most, hands := len(s.Drying), 0
	for _, it := range s.Items {
		hands += it.HandsIn + it.HandsOut
	}
	for _, g := range s.Given {
		most += len(g.Items)
	}
	most += len(s.Items)
	each := 0.0 // minutes of hands a plant
	if n := len(s.Items); n > 0 {
		each = float64(hands) / float64(n) / 60
	}
	factors := []float64{1}
	for _, n := range roomCounts[1:] {
		factors = append(factors, math.Max(factors[len(factors)-1], d.slowed(n, each)))
		if n >= most {
			break
		}
	}
	return func(count int) float64 { return along(roomCounts[:len(factors)], factors, count) }
}

// along draws straight lines through points, and the last one on.
func along(at []int, value []float64, x int) float64 {
	i := 1
	for i+1 < len(at) && x > at[i] {
		i++
	}
	if i >= len(at) {
		return value[0]
	}
	share := float64(x-at[i-1]) / float64(at[i]-at[i-1])
	return value[i-1] + share*(value[i]-value[i-1])
}

// slowed is how many times as long n plants of the session's mix take to dry in
// the room together as alone, coming out some minutes apart.
func (d *dryTimes) slowed(n int, minutesApart float64) float64 {
	groups, alone := d.mix(n, minutesApart)
	before := air.Air{TempC: d.room.TempC, RH: d.room.RH / 100}
	rules := d.k.book.Rules()
	room := drying.Room{
		VolumeM3: rules[model.RoomVolume], AirChanges: rules.AirChangesWith(d.k.book.Window(d.now).Window),
		Air: before, SupplyDensity: before.VapourDensity(),
	}
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
// parts, and the hours each would take alone.
func (d *dryTimes) mix(n int, minutesApart float64) (groups []drying.Group, alone []float64) {
	total := 0
	for _, g := range d.many {
		total += g.Count
	}
	for _, key := range d.order {
		g := *d.many[key]
		part := int(math.Round(float64(g.Count) / float64(total) * float64(n) / comingOut))
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
