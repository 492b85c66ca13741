package estimate

import (
	"slices"
	"strings"
	"time"

	"tubside/model"
)

// benchAir is the air over a drying place. The places of a house are taken to stand in
// one room: they share its humidity, and each has a fan of its own or the room's.
type benchAir struct {
	speed float64 // m/s
	times float64 // as long as in the room at large, where the grower has said so; else 0
}

// over is the air over a drying place, which is that of the room at large where the
// grower has not said what the place is like, or where a plant lies.
func over(places []model.Bench, name string, room model.Fan) benchAir {
	i := slices.IndexFunc(places, func(b model.Bench) bool { return strings.EqualFold(b.Name, name) })
	switch {
	case i < 0:
	case places[i].Factor > 0:
		return benchAir{fanSpeed(room), places[i].Factor}
	case places[i].Fan != "":
		return benchAir{speed: fanSpeed(places[i].Fan)}
	}
	return benchAir{speed: fanSpeed(room)}
}

func keyOf(row *model.Row, kd Traits, over benchAir) dryKey {
	how := kd.handling(model.Out{Shaken: row.Shaken, Inverted: row.Inverted}, over)
	return dryKey{row.Out.Unix(), bareOf(kd.Drying), how, over.speed}
}

// keyOf is the group of a plant that lies in the room the bench was solved for. A
// plant laid elsewhere is taken to have lain there from when it came out.
func (b *onBench) keyOf(row *model.Row, kd Traits) dryKey {
	key := keyOf(row, kd, over(b.places, row.Bench, b.fan))
	if row.InTurn {
		key.out = row.Out.Round(sameGroup).Unix()
	}
	return key
}

// sameGroup is how far apart plants of a kind may come out in turn and be solved as one
// group. A choice: of two hundred each would be a group.
const sameGroup = 5 * time.Minute

// layElsewhere is a plant that was moved to another drying place. Where the air there
// is another, its marks tell of neither place and teach nothing.
func (k *Keeper) layElsewhere(p *plantState, to string) {
	if o := p.onBench.plant(); o != nil && o.outing.over != over(k.bench.places, to, k.bench.fan) {
		k.takeAway(p)
	}
}

// furnish takes in what a drying place is like.
func (b *bench) furnish(f *model.BenchSet) {
	b.places = slices.DeleteFunc(slices.Clone(b.places), func(o model.Bench) bool {
		return strings.EqualFold(o.Name, strings.TrimSpace(f.Name))
	})
	if !f.Away {
		f := f.Bench
		f.Name = strings.TrimSpace(f.Name)
		b.places = append(b.places, f)
	}
}
