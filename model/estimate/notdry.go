package estimate

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/drying"
)

// NotDry is who may still be wet at an hour.
type NotDry struct {
	Plants model.IDs // 1 in 10 like each of them is still wet at the hour, or more
	By     time.Time // the hour
	Last   time.Time // when the last of them is expected to be dry
}

// NotDry says which of some plants may still be wet at an hour, were they taken out of the
// water at a time, shaken and laid as their form asks on a bench, "" for somewhere in the
// room: with all that lies there, and with what is in the water now and comes out when it
// is due.
func (k *Keeper) NotDry(ids model.IDs, bench string, out, by, now time.Time) NotDry {
	b := k.survey(now)
	places := map[dryKey]int{}
	wet := func(id model.ID, bench string, at time.Time) dryKey {
		row, traits := k.book.Row(id), *k.plants[id].traits
		key := keyFor(row, traits, over(b.places, bench, b.fan))
		key.out = at.Unix()
		n, ok := places[key]
		if !ok {
			n = len(b.groups)
			places[key] = n
			b.order = append(b.order, key)
			b.groups = append(b.groups, drying.Group{Plant: traits.Drying, Handling: key.handling, Speed: key.speed,
				MinutesOut: b.at.Sub(at).Minutes()})
		}
		add(&b.groups[n], traits.Drying)
		return key
	}
	for _, id := range k.book.IDs() {
		if row := k.book.Row(id); row.State == model.Soaking && !slices.Contains(ids, id) {
			wet(id, "", model.Later(k.book.Load(row.Load).Due, now))
		}
	}
	keys := make([]dryKey, len(ids))
	for i, id := range ids {
		keys[i] = wet(id, bench, out)
	}
	room, n := b.solve(), NotDry{By: by}
	for i, id := range ids {
		takes := k.nextTime(k.plants[id])
		if g := room.groups[keys[i]]; g.after(out, takes.high).After(by) {
			n.Plants, n.Last = append(n.Plants, id), model.Later(n.Last, g.after(out, takes.middle))
		}
	}
	return n
}
