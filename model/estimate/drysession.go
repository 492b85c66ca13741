package estimate

import (
	"math"
	"slices"
	"sync"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/belief"
	"tubside/model/drying"
)

// How marks are read. One drying of a plant differs from the next by
// eventSpread, the standard deviation of the logarithm, what is not known of
// the room's air included; misclassified is the share of
// marks that say nothing, made without looking into the heart or on the wrong
// plant; noticedDry is how many of the dry plants on the bench a grower who marks
// any marks on the same walk. Guesses; a bench looked at every half hour for a
// month would replace them.
const (
	eventSpread   = 0.24
	misclassified = 0.03
	noticedDry    = 0.5
)

var marks = belief.Marks{Spread: eventSpread, Misclassified: misclassified, Noticed: noticedDry}

// restHours is how long nothing comes out of the water before the next to come
// out begins a new drying session. A choice.
const restHours = 8

// bench is what the entries so far say of the drying place.
type bench struct {
	fan     model.Fan
	window  model.Window
	outside model.ReadingAt  // the air outdoors as read last
	session *dryingSession   // nil before the first plant comes out
	ended   []*dryingSession // over, and not yet learned from
	room    []sessionPlant   // made in one go for those who come out together
}

func newBench() bench { return bench{fan: model.FanLow, window: model.DoorOpen} }

// session is plants that came out to dry one after another and shared a room.
// It is over when all are dry, or when the next begins.
type dryingSession struct {
	start, last time.Time // when the first and the newest came out
	room        drying.Room
	plants      []*sessionPlant
	walks       []time.Time // when something on the bench was marked, rising
	wet         int         // not marked dry
}

// sessionPlant is one plant on the bench.
type sessionPlant struct {
	plant    *plantState
	session  *dryingSession
	out      time.Time
	damp     time.Time // last found damp; zero never
	dry      time.Time // found dry; zero not yet
	handling drying.Handling
	speed    float64
}

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
	p.onBench = k.bench.newPlant()
	*p.onBench = sessionPlant{plant: p, session: m, out: at, handling: p.traits.handling(f),
		speed: fanSpeed(k.bench.fan)}
	m.plants = append(m.plants, p.onBench)
}

// makeRoom is for as many as come out together.
func (b *bench) makeRoom(n int) { b.room = make([]sessionPlant, n) }

func (b *bench) newPlant() *sessionPlant {
	if len(b.room) == 0 {
		b.makeRoom(1)
	}
	o := &b.room[0]
	b.room = b.room[1:]
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
	o := p.onBench
	if o == nil {
		return
	}
	o.damp = at
	o.session.walked(at)
	if !o.dry.IsZero() {
		o.dry = time.Time{}
		o.session.wet++
	}
}

func (k *Keeper) markDry(p *plantState, at time.Time) {
	if p.onBench == nil {
		return
	}
	p.onBench.dry = at
	p.onBench.session.walked(at)
	k.oneLess(p.onBench.session)
}

// walked notes that somebody looked along the bench.
func (m *dryingSession) walked(at time.Time) {
	if i, known := slices.BinarySearchFunc(m.walks, at, time.Time.Compare); !known {
		m.walks = slices.Insert(m.walks, i, at)
	}
}

// takeAway takes a plant that left off the bench.
func (k *Keeper) takeAway(p *plantState) {
	if o := p.onBench; o != nil && o.dry.IsZero() {
		p.onBench = nil
		k.oneLess(o.session)
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
	for _, o := range b.session.plants {
		if o.plant.onBench == o {
			o.plant.onBench = nil
		}
	}
	b.ended = append(b.ended, b.session)
	b.session = nil
}

// atOnce is how many drying sessions are read at a time: enough to keep every core at
// work, and few enough that what they say takes little memory. A choice.
const atOnce = 16

// learnSessions learns from the drying sessions that are over. That can wait until
// somebody asks: nothing that comes later changes them. Each can be read by
// itself; they are learned from in their order.
func (k *Keeper) learnSessions() {
	for past := range slices.Chunk(k.bench.ended, atOnce) {
		logs := make([][]*grid, len(past))
		var reading sync.WaitGroup
		for i, m := range past {
			reading.Go(func() { logs[i] = m.read() })
		}
		reading.Wait()
		for i, m := range past {
			k.learnSession(m, logs[i])
		}
	}
	k.bench.ended = nil
}

// learnSession learns what the marks of each plant say.
func (k *Keeper) learnSession(m *dryingSession, logs []*grid) {
	for i, o := range m.plants {
		if logs[i] != nil {
			k.learnDryTime(o.plant, logs[i], o.out)
		}
	}
}

// batchKey is what plants of one batch have in common.
type batchKey struct {
	dryKey
	speed float64
}

// together is how far apart plants may come out and still count as one
// batch: a room changes little in the time. A choice.
const together = 20 * time.Minute

// read holds each plant's marks against what it should have taken: the log
// likelihood of each plant's, nil when nobody looked. It changes nothing.
func (m *dryingSession) read() []*grid {
	places := map[batchKey]int{}
	var batches []drying.Batch
	of := make([]int, len(m.plants))
	for i, o := range m.plants {
		out := o.out.Sub(m.start).Round(together)
		key := batchKey{dryKey{int64(out), bareOf(o.plant.traits.Drying), o.handling}, o.speed}
		at, ok := places[key]
		if !ok {
			at = len(batches)
			places[key] = at
			batches = append(
				batches,
				drying.Batch{Plant: key.plant, Handling: o.handling, Speed: o.speed, OutHours: out.Hours()},
			)
		}
		addTo(&batches[at].Plant, batches[at].Count, o.plant.traits.Drying)
		batches[at].Count++
		of[i] = at
	}
	hours := m.room.Replay(batches)
	logs, read := make([]*grid, len(m.plants)), map[markKey]*grid{}
	for i, o := range m.plants {
		logs[i] = o.evidence(hours[of[i]], read)
	}
	return logs
}

// markKey is what plants have in common whose marks say the same.
type markKey struct {
	hours          float64
	out, damp, dry int64
}

// evidence is the log likelihood of a plant's marks where it should have taken
// any hours, or nil when nobody looked. Marks read before are not read again.
func (o *sessionPlant) evidence(hours float64, read map[markKey]*grid) *grid {
	if o.damp.IsZero() && o.dry.IsZero() {
		return nil
	}
	key := markKey{hours, o.out.Unix(), o.damp.Unix(), o.dry.Unix()}
	log := read[key]
	if log == nil {
		log = &grid{}
		marks.Log(o.looks(hours), log)
		read[key] = log
	}
	return log
}

// looks are the looks at a plant since it came out, as multiples of the hours
// it should have taken: when it was last damp, the walks past it since, and when
// it was found dry.
func (o *sessionPlant) looks(hours float64) []float64 {
	after := func(t time.Time) float64 { return math.Max(0, t.Sub(o.out).Hours()) / hours }
	from := o.out
	if !o.damp.IsZero() {
		from = o.damp
	}
	looks := []float64{after(from)}
	if o.dry.IsZero() {
		return append(looks, math.Inf(1))
	}
	for _, walk := range o.session.walks {
		if walk.After(from) && walk.Before(o.dry) {
			looks = append(looks, after(walk))
		}
	}
	return append(looks, after(o.dry))
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
