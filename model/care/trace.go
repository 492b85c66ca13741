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
// leaving out those before the plant was in the book. A plant split off a tray
// has the tray's past until then. What its own signs told is counted from when
// they were seen; what its kin told, as it is known now.
func (k *Keeper) Trace(id model.ID, from, to time.Time, n int) []Point {
	p := k.plants[id]
	if p == nil {
		return nil
	}
	t := tracer{keeper: k, kin: k.kinOf(p)}
	past := k.lineage(id)
	points := make([]Point, 0, n)
	for i := range n {
		at := from
		if n > 1 {
			at = from.Add(time.Duration(float64(to.Sub(from)) * float64(i) / float64(n-1)))
		}
		for len(past) > 0 && !past[0].At.After(at) {
			t.take(past[0])
			past = past[1:]
		}
		if t.alone != nil {
			points = append(points, t.point(at))
		}
	}
	return points
}

// event is an entry of a plant's past and the number it had then.
type event struct {
	model.Entry
	id, now model.ID
}

// lineage is a plant's past, and before it was split off, that of the tray.
func (k *Keeper) lineage(id model.ID) []event {
	var past []event
	for _, e := range k.book.History(id) {
		f, ok := e.Fact.(*model.Split)
		if !ok || f.New.ID != id {
			past = append(past, event{e, id, id})
			continue
		}
		for _, before := range k.lineage(e.Plants[0]) {
			if before.Seq < e.Seq {
				before.now = id
				past = append(past, before)
			}
		}
	}
	return past
}

// tracer lives one plant's past again, alone.
type tracer struct {
	keeper *Keeper
	kin    belief.Shares
	alone  *Keeper // nil before the plant came
}

// take takes in an entry as far as it is about the plant.
func (t *tracer) take(e event) {
	switch f := e.Fact.(type) {
	case *model.Add:
		t.meet(e, f.Plants)
	case *model.Import:
		t.meet(e, f.Added)
		t.meet(e, f.Changed)
	case *model.Edit:
		t.meet(e, f.Plants)
	case *model.Split: // the rest of the tray lives on as it did
	default:
		if t.alone != nil {
			t.alone.bench.fan = t.keeper.book.Fan(e.At)
			t.alone.takeOne(t.alone.plants[e.now], e.Entry)
		}
	}
}

// meet takes in what is told of the plant, which goes by its present number and
// kind.
func (t *tracer) meet(e event, rows []model.Plant) {
	for _, row := range rows {
		if row.ID != e.id {
			continue
		}
		if t.alone == nil {
			k := t.keeper
			t.alone = &Keeper{
				book: k.book, climate: k.climate, bench: newBench(), plants: map[model.ID]*kept{}, water: map[model.ID]*water{}, kinds: map[model.ID]kind{},
				loss: lossKinship.Family(len(model.Forms)), linger: lingerKinship.Family(len(model.Forms)),
			}
		}
		row.ID = e.now
		t.alone.meet(e.At, []model.Plant{row})
	}
}

func (t *tracer) point(at time.Time) Point {
	for _, p := range t.alone.plants {
		var rwc grid
		p.at(at, p.kind, t.alone.climate, &rwc)
		shares := p.given(&t.kin)
		low, high := shares.QuantileOf(&rwc, 0.1), shares.QuantileOf(&rwc, 0.9)
		return Point{At: at, RWC: shares.MeanOf(&rwc), Low: min(low, high), High: max(low, high), InWater: p.wet}
	}
	return Point{}
}
