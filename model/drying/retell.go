package drying

import "math"

// Batch is plants of one kind that came out of the water together, some time after a morning at the tub began.
type Batch struct {
	Plant    Plant
	Handling Handling
	Count    int
	Speed    float64 // of the air over them, m/s
	OutHours float64 // when they came out, hours after the first
}

// The steps in which the past is gone through, hours: short while the room changes fast, up to briskHours after the
// last plants came out, and longer from there. Dry times come out within 3 % of those of Dry, which is far less than
// one drying differs from the next.
const (
	briskStep  = 0.125
	briskHours = 2.0
	slowStep   = 0.5
	slowHours  = 8.0 // after the brisk ones, from when nothing changes much
	longStep   = 1.5
)

// Replay returns the hours from out to dry of each batch, in the room they shared, from the first coming out. It is
// for learning from hundreds of mornings gone by: coarser than Dry and much quicker. The room and the batches must be
// valid. What is not dry by Horizon takes Horizon.
func (r Room) Replay(batches []Batch) []float64 {
	t := retelling{room: r, vapour: r.Air.VapourDensity() * r.VolumeM3, wet: make([]wetBatch, len(batches))}
	brisk := briskHours
	for i, b := range batches {
		t.wet[i] = wetBatch{Batch: b, pocketM: b.Plant.depthM(b.Handling), film: 1, pocket: 1}
		t.wet[i].speedUp = b.Plant.speedUp(b.Handling)
		t.wet[i].done, t.wet[i].stream = math.Inf(1), t.streamOf(b)
		brisk = math.Max(brisk, b.OutHours+briskHours)
	}
	hours, h := 0.0, briskStep
	for hours < Horizon && t.step(hours, h) {
		hours += h
		switch {
		case hours >= brisk+slowHours:
			h = longStep
		case hours >= brisk:
			h = slowStep
		}
	}
	took := make([]float64, len(batches))
	for i, w := range t.wet {
		took[i] = math.Min(w.done-w.OutHours, Horizon)
	}
	return took
}

// retelling is the room on its way through the past.
type retelling struct {
	room   Room
	vapour float64 // kg
	rise   float64 // of the vapour in the last step, kg/h
	middle float64 // vapour looked for at the middle of this step, kg
	wet    []wetBatch

	streams []pastStream // over the batches
}

// pastStream is the air over all batches of one fan speed and leaf width.
type pastStream struct {
	speed, widthM float64
	power         Power
	vapour        float64 // in the room for which the power was worked out, kg
}

// sameVapour is how little the vapour in the room may change for its power to be used again, as a share.
const sameVapour = 0.003

// wetBatch is a batch on its way to dry: the shares left of the film's time and of the pocket's depth.
type wetBatch struct {
	Batch
	stream           int // in retelling.streams
	speedUp, pocketM float64
	film, pocket     float64
	done             float64 // hours from the start
}

// step goes one step of h hours on, and reports whether anything is left to dry.
func (t *retelling) step(hours, h float64) bool {
	t.middle = math.Max(0, t.vapour+t.rise*h/2)
	given, left := 0.0, false
	for i := range t.wet {
		w := &t.wet[i]
		if w.film <= 0 && w.pocket <= 0 {
			continue
		}
		left = true
		if span := math.Min(hours+h-w.OutHours, h); span > 0 {
			given += w.dry(t.powerOver(w), hours+h-span, span)
		}
	}
	t.air(given, h)
	return left
}

// air takes what the plants gave in a step, evenly, into a room that is aired: V drho/dt = given - changes V (rho -
// rho_supply), solved exactly over the step.
func (t *retelling) air(given, h float64) {
	supply := t.room.SupplyDensity * t.room.VolumeM3
	before := t.vapour
	if t.room.AirChanges == 0 {
		t.vapour += given
	} else {
		rest := supply + given/h/t.room.AirChanges
		t.vapour = rest + (t.vapour-rest)*math.Exp(-t.room.AirChanges*h)
	}
	t.rise = (t.vapour - before) / h
}

// streamOf returns the place of the batch's stream, added if it is new.
func (t *retelling) streamOf(b Batch) int {
	for i, s := range t.streams {
		if s.speed == b.Speed && s.widthM == b.Plant.LeafWidthM {
			return i
		}
	}
	t.streams = append(t.streams, pastStream{speed: b.Speed, widthM: b.Plant.LeafWidthM, vapour: -1})
	return len(t.streams) - 1
}

func (t *retelling) powerOver(w *wetBatch) Power {
	s := &t.streams[w.stream]
	if math.Abs(t.middle-s.vapour) > sameVapour*t.middle {
		a := t.room.Air
		a.RH = t.room.humidity(t.middle)
		s.power, s.vapour = PowerOf(Stream{Air: a, Speed: s.speed}, s.widthM), t.middle
	}
	return s.power
}

// dry dries a batch for some hours from a time on, and returns the water it gave, kg.
func (w *wetBatch) dry(power Power, from, hours float64) float64 {
	film, pocket := w.film, w.pocket
	filmRate, pocketRate := 0.0, 0.0
	if film > 0 && w.Plant.FilmMM > 0 {
		filmRate = power.filmRate(w.Plant) * w.speedUp
	} else {
		film = 0
	}
	if pocket > 0 && w.pocketM > 0 {
		pocketRate = w.meniscus(power, hours)
	} else {
		pocket = 0
	}
	w.film, w.pocket = math.Max(0, film-filmRate*hours), math.Max(0, pocket-pocketRate*hours)
	if w.film <= 0 && w.pocket <= 0 {
		w.done = from + math.Max(ends(film, filmRate), ends(pocket, pocketRate))
	}
	return w.filmKG(film) - w.filmKG(w.film) + (pocket-w.pocket)*w.pocketKG()
}

// meniscus is the rate of the pocket at the middle of a step.
func (w *wetBatch) meniscus(power Power, hours float64) float64 {
	down := (1 - w.pocket) * w.pocketM
	half := power.pocketRate(w.Plant, w.pocketM, down) * w.speedUp * hours / 2
	return power.pocketRate(w.Plant, w.pocketM, down+math.Min(half, w.pocket)*w.pocketM) * w.speedUp
}

// ends is how many hours a share lasts at a rate.
func ends(share, rate float64) float64 {
	if share <= 0 {
		return 0
	}
	return share / rate
}

func (w *wetBatch) filmKG(share float64) float64 {
	left := share
	switch w.Plant.FilmPower {
	case WickPower:
	case DropsPower:
		left = share * share * share
	default:
		left = math.Pow(share, 1/(1-w.Plant.FilmPower))
	}
	return w.Plant.FilmWaterG() / 1000 * float64(w.Count) * left
}

func (w *wetBatch) pocketKG() float64 {
	return w.Plant.PocketG * w.Plant.pocketFactor(w.Handling) / 1000 * float64(w.Count)
}
