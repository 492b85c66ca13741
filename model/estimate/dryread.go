package estimate

import (
	"math"
	"slices"
	"sync"
	"time"

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

// ended is a drying session that is over. Nothing that comes later changes it, so that
// it can be read whenever that suits.
type ended struct {
	session *dryingSession
	reading sync.WaitGroup
	read    *sessionReader // nil: not begun
	broken  any            // what broke it off
}

// begin begins to read the session, on another core where there is one.
func (b *bench) begin(s *ended) {
	if s.read != nil {
		return
	}
	if n := len(b.readers); n > 0 {
		s.read, b.readers = b.readers[n-1], b.readers[:n-1]
	} else {
		s.read = &sessionReader{places: map[batchKey]int{}, known: map[markKey]int{}}
	}
	s.reading.Go(func() {
		defer func() { s.broken = recover() }()
		s.read.read(s.session)
	})
}

// atOnce is how many drying sessions are read at a time: enough to keep every core at
// work, and few enough that what they say takes little memory. A choice.
const atOnce = 8

// readSessions reads the drying sessions that are over while a long past is read on, and
// learns from the oldest where many are waiting.
func (k *Keeper) readSessions() {
	for _, s := range k.bench.ended {
		k.bench.begin(s)
	}
	for len(k.bench.ended) > atOnce {
		k.learnOldest()
	}
}

// learnSessions learns from the drying sessions that are over, in their order. After a
// single entry that waits until somebody asks.
func (k *Keeper) learnSessions() {
	for len(k.bench.ended) > 0 {
		for _, s := range k.bench.ended[:min(atOnce, len(k.bench.ended))] {
			k.bench.begin(s)
		}
		k.learnOldest()
	}
}

// learnOldest learns from the first drying session that is over.
func (k *Keeper) learnOldest() {
	s := k.bench.ended[0]
	k.bench.ended = slices.Delete(k.bench.ended, 0, 1)
	s.reading.Wait()
	if s.broken != nil { // for whoever asked to recover from
		panic(s.broken)
	}
	i := 0
	for o := range s.session.all() {
		if said := s.read.said[i]; said >= 0 {
			k.learnDryTime(o.plant, &s.read.logs[said], o.outing.at)
		}
		i++
	}
	k.bench.readers = append(k.bench.readers, s.read)
}

// sessionReader reads what the marks of a drying session say. A year has a hundred of
// them, so that its room is used again.
type sessionReader struct {
	said []int  // of each plant, where in logs it stands what its marks say; -1: nobody looked
	logs []grid // log likelihoods

	places  map[batchKey]int
	batches []drying.Batch
	in      []int           // of each plant, its batch
	known   map[markKey]int // place in logs
	looks   []float64
}

// batchKey is what plants of one batch have in common.
type batchKey struct {
	out      time.Duration
	kind     *drying.Plant // see [Keeper.kindOf]
	handling drying.Handling
	speed    float64
}

// together is how far apart plants may come out and still count as one
// batch: a room changes little in the time. A choice.
const together = 20 * time.Minute

// read holds each plant's marks against what it should have taken. It changes nothing
// but the reader.
func (r *sessionReader) read(m *dryingSession) {
	r.said, r.logs, r.batches, r.in = r.said[:0], r.logs[:0], r.batches[:0], r.in[:0]
	clear(r.places)
	clear(r.known)
	for o := range m.all() {
		out, traits := o.outing.at.Sub(m.start).Round(together), o.plant.traits
		key := batchKey{out, o.plant.kind, traits.handling(o.outing.how, o.outing.over), o.outing.over.speed}
		at, ok := r.places[key]
		if !ok {
			at = len(r.batches)
			r.places[key] = at
			r.batches = append(
				r.batches,
				drying.Batch{Plant: *key.kind, Handling: key.handling, Speed: key.speed, OutHours: out.Hours()},
			)
		}
		addTo(&r.batches[at].Plant, r.batches[at].Count, traits.Drying)
		r.batches[at].Count++
		r.in = append(r.in, at)
	}
	hours := m.room.Replay(r.batches)
	for o := range m.all() {
		r.said = append(r.said, r.evidence(o, hours[r.in[len(r.said)]]))
	}
}

// markKey is what plants have in common whose marks say the same.
type markKey struct {
	hours     float64
	out       int64
	damp, dry moment
}

// evidence is where the log likelihood of a plant's marks stands, that should have
// taken some hours, or -1 when nobody looked. Marks read before are not read again.
func (r *sessionReader) evidence(o *sessionPlant, hours float64) int {
	if o.damp == 0 && o.dry == 0 {
		return -1
	}
	key := markKey{hours, o.outing.at.Unix(), o.damp, o.dry}
	place, known := r.known[key]
	if !known {
		place = len(r.logs)
		r.known[key] = place
		r.logs = append(r.logs, grid{})
		r.looks = o.looks(r.looks[:0], hours)
		marks.Log(r.looks, &r.logs[place])
	}
	return place
}

// looks adds the looks at a plant since it came out, as multiples of the hours it
// should have taken: when it was last damp, the walks past it since, and when it was
// found dry.
func (o *sessionPlant) looks(looks []float64, hours float64) []float64 {
	after := func(t time.Time) float64 { return math.Max(0, t.Sub(o.outing.at).Hours()) / hours }
	from, dry := o.outing.at, o.dry.time()
	if o.damp != 0 {
		from = o.damp.time()
	}
	looks = append(looks, after(from))
	if o.dry == 0 {
		return append(looks, math.Inf(1))
	}
	for _, walk := range o.outing.session.walks {
		if walk.After(from) && walk.Before(dry) {
			looks = append(looks, after(walk))
		}
	}
	return append(looks, after(dry))
}
