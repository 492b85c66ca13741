package estimate

import (
	"iter"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/drying"
)

// restHours is how long nothing comes out of the water before the next to come
// out begins a new drying session. A choice.
const restHours = 8

// bench is what the entries so far say of the drying place.
type bench struct {
	fan     model.Fan
	window  model.Window
	places  []model.Bench    // drying places that the grower has told of
	outside model.ReadingAt  // the air outdoors as read last
	session *dryingSession   // nil before the first plant comes out
	ended   []*ended         `snapshot:"-"` // in their order, not yet learned from
	readers []*sessionReader `snapshot:"-"` // to be used again
	outing  int              // how many come out in the entry at hand
}

func newBench() bench { return bench{fan: model.FanLow, window: model.DoorOpen} }

// session is plants that came out to dry one after another and shared a room.
// It is over when all are dry, or when the next begins.
type dryingSession struct {
	start, last time.Time // when the first and the newest came out
	room        drying.Room
	outings     []*outing   // in the order they came out
	plants      int         // in all of them
	walks       []time.Time // when something on the bench was marked, rising
	wet         int         // not marked dry
}

// outing is plants that came out in one go. A year brings tens of thousands of
// plants to the bench: what they share is kept once.
type outing struct {
	session *dryingSession
	at      time.Time
	how     model.Out
	over    benchAir
	plants  []sessionPlant
}

// seat is the place of a plant on the bench; the zero value is none.
type seat struct {
	outing *outing
	at     int
}

// plant is who has the seat, nil when nobody has it.
func (s seat) plant() *sessionPlant {
	if s.outing == nil {
		return nil
	}
	return &s.outing.plants[s.at]
}

// sessionPlant is one plant on the bench.
type sessionPlant struct {
	plant  *plantState
	outing *outing
	damp   moment // last found damp
	dry    moment // found dry
}

// moment is a time in whole seconds since 1970; 0 never.
type moment int64

func (m moment) time() time.Time { return time.Unix(int64(m), 0) }

// layOut puts a plant on the bench.
func (k *Keeper) layOut(p *plantState, at time.Time, f model.Out) {
	m := k.bench.session
	if m == nil || at.Sub(m.last).Hours() > restHours {
		k.bench.close()
		m = &dryingSession{start: at, room: k.roomOf(at)}
		k.bench.session = m
	}
	m.start, m.last = model.Earlier(m.start, at), model.Later(m.last, at)
	m.wet++
	o := m.outing(at, f, over(k.bench.places, f.Bench, k.bench.fan), k.bench.outing)
	o.plants = append(o.plants, sessionPlant{plant: p, outing: o})
	m.plants++
	p.onBench = seat{o, len(o.plants) - 1}
}

// outing is the one that a plant joins which comes out now, with room for it: a
// new one is for n plants.
func (m *dryingSession) outing(at time.Time, how model.Out, over benchAir, n int) *outing {
	if last := len(m.outings) - 1; last >= 0 {
		o := m.outings[last]
		if o.at.Equal(at) && o.how == how && o.over == over && len(o.plants) < cap(o.plants) {
			return o
		}
	}
	o := &outing{session: m, at: at, how: how, over: over, plants: make([]sessionPlant, 0, max(n, 1))}
	m.outings = append(m.outings, o)
	return o
}

// roomOf is the room when a drying session begins, as far as it is known then. What
// comes in from outside is taken to keep it as it is.
func (k *Keeper) roomOf(at time.Time) drying.Room {
	rules := k.book.Rules()
	a := air.Air{TempC: rules[model.DefaultTemp], RH: rules[model.DefaultRH] / 100}
	if r, ok := k.climate.lastBefore(at); ok {
		a = air.Air{TempC: r.TempC, RH: r.RH / 100}
	}
	in := airing(rules, k.bench.window, a, k.bench.outside, k.bench.outside.StandsOutside(at))
	return drying.Room{VolumeM3: rules[model.RoomVolume], AirChanges: in.AirChanges, SupplyDensity: in.SupplyDensity,
		Air: a}
}

func (k *Keeper) markDamp(p *plantState, at time.Time) {
	o := p.onBench.plant()
	if o == nil {
		return
	}
	o.damp = moment(at.Unix())
	o.outing.session.walked(at)
	if o.dry != 0 {
		o.dry = 0
		o.outing.session.wet++
	}
}

func (k *Keeper) markDry(p *plantState, at time.Time) {
	o := p.onBench.plant()
	if o == nil {
		return
	}
	m := o.outing.session
	o.dry = moment(at.Unix())
	m.walked(at)
	k.oneLess(m)
}

// walked notes that somebody looked along the bench.
func (m *dryingSession) walked(at time.Time) {
	if i, known := slices.BinarySearchFunc(m.walks, at, time.Time.Compare); !known {
		m.walks = slices.Insert(m.walks, i, at)
	}
}

// takeAway takes a plant that left off the bench.
func (k *Keeper) takeAway(p *plantState) {
	if o := p.onBench.plant(); o != nil && o.dry == 0 {
		p.onBench = seat{}
		k.oneLess(o.outing.session)
	}
}

func (k *Keeper) oneLess(m *dryingSession) {
	if m.wet--; m.wet <= 0 && m == k.bench.session {
		k.bench.close()
	}
}

// close ends a drying session: marks that come later belong to nothing.
func (b *bench) close() {
	if b.session == nil {
		return
	}
	for o := range b.session.all() {
		if o.plant.onBench.plant() == o {
			o.plant.onBench = seat{}
		}
	}
	b.ended = append(b.ended, &ended{session: b.session})
	b.session = nil
}

// all is every plant of the session, in the order they came out.
func (m *dryingSession) all() iter.Seq[*sessionPlant] {
	return func(yield func(*sessionPlant) bool) {
		for _, o := range m.outings {
			for i := range o.plants {
				if !yield(&o.plants[i]) {
					return
				}
			}
		}
	}
}

// bareOf is a plant without what differs in a group.
func bareOf(p drying.Plant) drying.Plant {
	p.AreaCM2, p.PocketG = 0, 0
	return p
}

// addTo brings one more plant to n alike, keeping the mean of their water.
func addTo(mean *drying.Plant, n int, p drying.Plant) {
	share := 1 / float64(n+1)
	mean.AreaCM2 += (p.AreaCM2 - mean.AreaCM2) * share
	mean.PocketG += (p.PocketG - mean.PocketG) * share
}

func fanSpeed(f model.Fan) float64 {
	switch f {
	case model.FanOff:
		return drying.Off
	case model.FanOn:
		return drying.On
	case model.FanNear:
		return drying.Near
	}
	return drying.Low
}
