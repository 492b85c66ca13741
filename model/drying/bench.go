package drying

import "math"

// bench is the state of all groups and their room in one vector, for the solver: the vapour in the room and the
// vapour carried out, kg, then for each group the share left of the film's time and of the pocket's depth. What has
// ended stays 0.
type bench struct {
	room    Room
	groups  []wetGroup
	streams []stream
	ended   []bool    // by place in the state vector
	outAt   []float64 // by group, hours from now at which it comes out; 0 for what is out
	waiting []bool    // by group, not out yet
}

// The first places of the state vector; group i follows at filmAt(i) and pocketAt(i).
const (
	vapourAt = 0
	ventedAt = 1
)

func filmAt(i int) int   { return 2 + 2*i }
func pocketAt(i int) int { return 3 + 2*i }

// stream is the air over all groups of one fan speed and leaf width: in a room of many groups there are few of them.
type stream struct {
	speed, widthM float64
	wet           int   // films and pockets in it that are not dry yet
	power         Power // in the air of the moment
}

// wetGroup is a group with what does not change while it dries worked out.
type wetGroup struct {
	plant            Plant
	stream           int // in bench.streams
	speedUp          float64
	depthM           float64
	filmKG, pocketKG float64 // of the whole group, at first
	filmMassPower    float64 // film mass is filmKG times the share of time left to this power
}

func newBench(r Room, groups []Group) *bench {
	b := &bench{room: r, ended: make([]bool, 2+2*len(groups)), outAt: make([]float64, len(groups)),
		waiting: make([]bool, len(groups))}
	for i, g := range groups {
		b.outAt[i] = math.Max(0, -g.MinutesOut/60)
		b.waiting[i] = g.MinutesOut < 0
		b.groups = append(b.groups, wetGroup{
			plant: g.Plant, stream: b.streamOf(g), speedUp: g.Plant.speedUp(g.Handling),
			depthM:        g.Plant.depthM(g.Handling),
			filmKG:        g.Plant.FilmWaterG() / 1000 * float64(g.Count),
			pocketKG:      g.Plant.PocketG * g.Plant.pocketFactor(g.Handling) / 1000 * float64(g.Count),
			filmMassPower: 1 / (1 - g.Plant.FilmPower),
		})
	}
	return b
}

// streamOf returns the place of the group's stream, added if it is new.
func (b *bench) streamOf(g Group) int {
	for i, s := range b.streams {
		if s.speed == g.Speed && s.widthM == g.Plant.LeafWidthM {
			return i
		}
	}
	b.streams = append(b.streams, stream{speed: g.Speed, widthM: g.Plant.LeafWidthM})
	return len(b.streams) - 1
}

// start returns the state now, after what each group has dried already.
func (b *bench) start(groups []Group) []float64 {
	y := make([]float64, 2+2*len(groups))
	y[vapourAt] = b.room.Air.VapourDensity() * b.room.VolumeM3
	for i := range b.streams {
		b.streams[i].power = b.powerOver(b.streams[i], y[vapourAt])
	}
	for i, g := range groups {
		w, hours := b.groups[i], math.Max(0, g.MinutesOut/60)
		power := b.streams[w.stream].power
		y[filmAt(i)] = power.filmLeft(w, hours)
		y[pocketAt(i)] = power.pocketLeft(w, hours)
		for _, at := range []int{filmAt(i), pocketAt(i)} {
			b.ended[at] = y[at] <= 0
			if !b.ended[at] {
				b.streams[w.stream].wet++
			}
		}
	}
	return y
}

// powerOver is the drying power of a stream with the given vapour in the room, kg.
func (b *bench) powerOver(s stream, vapourKG float64) Power {
	a := b.room.Air
	a.RH = b.room.humidity(vapourKG)
	return PowerOf(Stream{Air: a, Speed: s.speed}, s.widthM)
}

// rates is the system of the room: V d(rho)/dt = evaporation - air changes V (rho - rho_supply), per hour.
func (b *bench) rates(y, rates []float64) {
	for i := range b.streams {
		if b.streams[i].wet > 0 {
			b.streams[i].power = b.powerOver(b.streams[i], y[vapourAt])
		}
	}
	evaporation := 0.0
	for i := range b.groups {
		evaporation += b.filmRate(i, y, rates) + b.pocketRate(i, y, rates)
	}
	vented := b.room.AirChanges * (y[vapourAt] - b.room.SupplyDensity*b.room.VolumeM3)
	rates[vapourAt], rates[ventedAt] = evaporation-vented, vented
}

// filmRate sets the rate of group i's film and returns what it evaporates, kg/h.
func (b *bench) filmRate(i int, y, rates []float64) float64 {
	at, g := filmAt(i), &b.groups[i]
	rates[at] = 0
	if b.ended[at] || b.waiting[i] {
		return 0
	}
	rates[at] = -b.streams[g.stream].power.filmRate(g.plant) * g.speedUp
	return -rates[at] * g.filmKG * g.filmMassPower * math.Pow(math.Max(0, y[at]), g.filmMassPower-1)
}

// pocketRate sets the rate of group i's pocket and returns what it evaporates, kg/h.
func (b *bench) pocketRate(i int, y, rates []float64) float64 {
	at, g := pocketAt(i), &b.groups[i]
	rates[at] = 0
	if b.ended[at] || b.waiting[i] {
		return 0
	}
	downM := (1 - y[at]) * g.depthM
	rates[at] = -b.streams[g.stream].power.pocketRate(g.plant, g.depthM, downM) * g.speedUp
	return -rates[at] * g.pocketKG
}

// waterKG is the water on the plants in a state, kg.
func (b *bench) waterKG(y []float64) float64 {
	sum := 0.0
	for i, g := range b.groups {
		sum += g.filmKG*math.Pow(y[filmAt(i)], g.filmMassPower) + g.pocketKG*y[pocketAt(i)]
	}
	return sum
}

// filmLeft is the share of the film's time left after hours out.
func (w Power) filmLeft(g wetGroup, hours float64) float64 {
	if g.plant.FilmMM == 0 {
		return 0
	}
	return math.Max(0, 1-w.filmRate(g.plant)*g.speedUp*hours)
}

// pocketLeft is the share of the pocket's depth left after hours out: pocketHours solved for depth.
func (w Power) pocketLeft(g wetGroup, hours float64) float64 {
	if g.depthM == 0 {
		return 0
	}
	skin := w.skin / g.plant.Shelter
	passed := w.pocket * secondsPerHour * g.speedUp * hours
	downM := 2 * passed / (skin + math.Sqrt(skin*skin+2*w.gap*passed))
	return math.Max(0, 1-downM/g.depthM)
}
