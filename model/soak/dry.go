package soak

import "math"

// slack is what room may be exceeded by, so that sums of decimals fit.
const slack = 1e-9

// rack is the room of one drying place over time, or of all of them for plants
// by number: level[i] is taken in the i-th piece of time. Plants take it from
// the border of a piece before they are laid down to the border after they are
// dry; what would come after the last piece counts in it.
type rack struct {
	room  float64
	from  int // start of the first piece, s
	piece int // s
	level []float64
	peak  float64   // no level is above it
	steps []float64 // changes not yet in level; zero between two loads
	a, b  int       // pieces that the changes touch
}

// newRack is an empty drying place; one without limit keeps no account.
func newRack(room float64, from, to, piece int) rack {
	r := rack{room: room, from: from, piece: piece}
	if !math.IsInf(room, 1) {
		r.level = make([]float64, (to-from)/piece+2)
	}
	return r
}

// reset makes the rack a copy of another, keeping its memory.
func (r *rack) reset(o *rack) {
	r.room, r.from, r.piece, r.peak = o.room, o.from, o.piece, o.peak
	r.level = append(r.level[:0], o.level...)
}

// at is the piece that a time lies in.
func (r *rack) at(t int) int { return min(max(0, t-r.from)/r.piece, len(r.level)-1) }

// until is the piece after the last one before a time.
func (r *rack) until(t int) int { return min((max(0, t-r.from)+r.piece-1)/r.piece, len(r.level)) }

// fits reports whether need finds room from one time to another; if not, when
// it is worth asking again, math.MaxInt for never.
func (r *rack) fits(from, to int, need float64) (ok bool, again int) {
	if r.peak+need <= r.room+slack {
		return true, 0
	}
	if need > r.room+slack {
		return false, math.MaxInt
	}
	for i, first := r.until(to)-1, r.at(from); i >= first; i-- {
		if r.level[i]+need > r.room+slack {
			if i == len(r.level)-1 {
				return false, math.MaxInt
			}
			return false, r.from + (i+1)*r.piece
		}
	}
	return true, 0
}

// add notes room taken from one time to another, a negative one given back, for
// the next [rack.sum].
func (r *rack) add(from, to int, need float64) {
	if len(r.level) == 0 || need == 0 || to <= from {
		return
	}
	if len(r.steps) < len(r.level)+1 {
		r.steps = make([]float64, len(r.level)+1)
	}
	a, b := r.at(from), max(r.until(to), r.at(from)+1)
	if r.a == r.b {
		r.a, r.b = a, b
	}
	r.a, r.b = min(r.a, a), max(r.b, b)
	r.steps[a] += need
	r.steps[b] -= need
}

// sum brings what was noted into the account.
func (r *rack) sum() {
	change := 0.0
	for i := r.a; i < r.b; i++ {
		change += r.steps[i]
		r.steps[i] = 0
		level := r.level[i] + change
		r.level[i] = level
		if level > r.peak { // max would look for what is not a number
			r.peak = level
		}
	}
	if r.a < r.b {
		r.steps[r.b] = 0
	}
	r.a, r.b = 0, 0
}
