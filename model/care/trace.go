package care

import (
	"time"

	"tubside/model"
	"tubside/model/belief"
)

// Point is a plant's water at one moment of its past, as it was believed then.
type Point struct {
	At      time.Time
	RWC     float64
	Low     float64 // 10 % of what was believed lies below
	High    float64
	InWater bool
}

// Trace follows one plant's water from one time to another at n even moments,
// leaving out those before the plant was in the book.
func (k *Keeper) Trace(id model.ID, from, to time.Time, n int) []Point {
	lone := &Keeper{book: k.book, water: map[model.ID]*water{}, kinds: k.kinds, climate: k.climate}
	past := k.book.History(id)
	points := make([]Point, 0, n)
	for i := range n {
		at := from
		if n > 1 {
			at = from.Add(time.Duration(float64(to.Sub(from)) * float64(i) / float64(n-1)))
		}
		for len(past) > 0 && !past[0].At.After(at) {
			lone.takeOnly(id, past[0])
			past = past[1:]
		}
		if w := lone.water[id]; w != nil {
			points = append(points, k.point(w, id, at))
		}
	}
	return points
}

// takeOnly takes in an entry as far as it is about one plant.
func (k *Keeper) takeOnly(id model.ID, e model.Entry) {
	switch f := e.Fact.(type) {
	case *model.Add:
		k.meet(e.At, only(id, f.Plants))
	case *model.Import:
		k.meet(e.At, only(id, f.Added))
		k.meet(e.At, only(id, f.Changed))
	case *model.Edit:
		k.meet(e.At, only(id, f.Plants))
	case *model.Split:
		if f.New.ID == id { // the tray's own past is not followed: it begins here
			k.meet(e.At, []model.Plant{f.New})
		}
	default:
		if k.water[id] != nil {
			e.Plants = model.IDs{id}
			k.take(e)
		}
	}
}

func only(id model.ID, plants []model.Plant) []model.Plant {
	for _, p := range plants {
		if p.ID == id {
			return []model.Plant{p}
		}
	}
	return nil
}

func (k *Keeper) point(w *water, id model.ID, at time.Time) Point {
	var rwc [belief.Points]float64
	w.at(at, k.kinds[id].k, k.climate, &rwc)
	shares := w.seen.Shares()
	low, high := shares.QuantileOf(&rwc, 0.1), shares.QuantileOf(&rwc, 0.9)
	return Point{At: at, RWC: shares.MeanOf(&rwc), Low: min(low, high), High: max(low, high), InWater: w.wet}
}
