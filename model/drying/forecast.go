package drying

import "math"

// firstStepHours is the first step tried; the solver finds its own from there.
const firstStepHours = 0.01

// run follows the bench until everything is dry, or to Horizon.
func (b *bench) run(groups []Group) Forecast {
	y := b.start(groups)
	f := b.opening(y)
	solver := newSolver(b.rates, y, b.scales())
	hours, step := 0.0, firstStepHours
	if b.change(0) {
		solver.refresh()
	}
	for hours < Horizon && b.anyWet() {
		h := math.Min(step, b.turn(hours)-hours)
		err := solver.try(h)
		step = resized(h, err)
		if err <= 1 {
			hours = b.advance(solver, hours, h, &f)
			if b.change(hours) {
				solver.refresh()
				step = firstStepHours
			}
		}
	}
	f.LeftKG = b.waterKG(solver.y)
	f.VentedKG = solver.y[ventedAt]
	f.GainedKG = solver.y[vapourAt] - b.room.Air.VapourDensity()*b.room.VolumeM3
	return f
}

// advance accepts a tried step of h hours, or so much of it as passes until the first film or pocket in it ends, and
// returns the hours then.
func (b *bench) advance(s *solver, hours, h float64, f *Forecast) float64 {
	first := b.firstEnding(s, h)
	if first.at != 0 {
		h *= first.share
		s.try(h)
	}
	s.accept()
	hours += h
	if first.at != 0 {
		b.end(s, first.at, hours, f)
	}
	f.note(hours, b.room.humidity(s.y[vapourAt]))
	return hours
}

// turn is when plants next come out or the airing changes: no step goes over it.
func (b *bench) turn(hours float64) float64 {
	next := Horizon
	for i, at := range b.outAt {
		if b.waiting[i] && at > hours {
			next = math.Min(next, at)
		}
	}
	if len(b.room.Airings) > 0 {
		next = math.Min(next, math.Max(hours, b.room.Airings[0].Hours))
	}
	return next
}

// change lets out the plants whose time has come and airs the room anew, and reports whether anything changed.
func (b *bench) change(hours float64) bool {
	changed := false
	for i, at := range b.outAt {
		if b.waiting[i] && at <= hours+togetherShare {
			b.waiting[i], changed = false, true
		}
	}
	for len(b.room.Airings) > 0 && b.room.Airings[0].Hours <= hours+togetherShare {
		next := b.room.Airings[0]
		b.room.AirChanges, changed = next.AirChanges, true
		if next.SupplyDensity > 0 {
			b.room.SupplyDensity = next.SupplyDensity
		}
		b.room.Airings = b.room.Airings[1:]
	}
	return changed
}

// scales is what counts as 1 of each value of the state: all of a share, or the room full of vapour.
func (b *bench) scales() []float64 {
	scale := make([]float64, len(b.ended))
	for i := range scale {
		scale[i] = 1
	}
	scale[vapourAt] = b.room.saturationKG()
	scale[ventedAt] = scale[vapourAt]
	return scale
}

// opening is the forecast before anything has happened: dry is dry, and wet may never dry.
func (b *bench) opening(y []float64) Forecast {
	f := Forecast{StartKG: b.waterKG(y), Groups: make([]Estimate, len(b.groups))}
	for i := range f.Groups {
		if !b.ended[filmAt(i)] {
			f.Groups[i].FilmHours = math.Inf(1)
		}
		if !b.ended[pocketAt(i)] {
			f.Groups[i].PocketHours = math.Inf(1)
		}
	}
	f.note(0, b.room.humidity(y[vapourAt]))
	return f
}

func (f *Forecast) note(hours, rh float64) {
	f.Moments = append(f.Moments, Moment{Hours: hours, RH: rh})
	f.PeakRH = math.Max(f.PeakRH, rh)
}

func (b *bench) anyWet() bool {
	for i := range b.streams {
		if b.streams[i].wet > 0 {
			return true
		}
	}
	return false
}

// ending is the first film or pocket to end within a step: its place in the state, 0 for none, and the share of the
// step.
type ending struct {
	at    int
	share float64
}

func (b *bench) firstEnding(s *solver, h float64) ending {
	first := ending{share: 1}
	for at := filmAt(0); at < len(b.ended); at++ {
		if b.ended[at] {
			continue
		}
		if share, ok := s.crossing(at, h); ok && (first.at == 0 || share < first.share) {
			first = ending{at, share}
		}
	}
	return first
}

// togetherShare is how close to its end a film or pocket is ended along with another: far below the solver's error.
const togetherShare = 1e-9

// end marks a film or pocket as dry, and with it any that ends in the same moment.
func (b *bench) end(s *solver, at int, hours float64, f *Forecast) {
	limit := math.Max(s.y[at], 0) + togetherShare
	for i := range b.groups {
		if b.close(s, filmAt(i), i, limit) {
			f.Groups[i].FilmHours = hours
		}
		if b.close(s, pocketAt(i), i, limit) {
			f.Groups[i].PocketHours = hours
		}
	}
	s.refresh()
}

// close ends a film or pocket with no more left than limit, and reports whether it did.
func (b *bench) close(s *solver, at, group int, limit float64) bool {
	if b.ended[at] || s.y[at] > limit {
		return false
	}
	s.y[at], b.ended[at] = 0, true
	b.streams[b.groups[group].stream].wet--
	return true
}
