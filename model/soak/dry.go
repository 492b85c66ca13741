package soak

import (
	"math"
	"slices"
)

// slack is what room may be exceeded by, so that sums of decimals fit.
const slack = 1e-9

// rack is the room on one bench over time: level[i] is taken from at[i] until
// at[i+1]. Borders lie on a grid, and room is taken from the border before to
// the border after, so that a large session has few.
type rack struct {
	room  float64
	grid  int // s
	at    []int
	level []float64
	peak  float64 // no level is above it
}

func newRack(room float64, grid int) rack {
	return rack{room: room, grid: grid, at: []int{math.MinInt}, level: []float64{0}}
}

// reset makes the rack a copy of another, keeping its memory.
func (r *rack) reset(from *rack) {
	r.room, r.grid, r.peak = from.room, from.grid, from.peak
	r.at = append(r.at[:0], from.at...)
	r.level = append(r.level[:0], from.level...)
}

// span is the piece of time that t lies in.
func (r *rack) span(t int) int {
	i, found := slices.BinarySearch(r.at, t)
	if !found {
		i--
	}
	return i
}

// fits reports whether need finds room from one time to another; if not, when
// it is worth asking again: the end of what is in its way, or 0 if waiting is no
// use.
func (r *rack) fits(from, to int, need float64) (ok bool, again int) {
	if r.peak+need <= r.room+slack {
		return true, 0
	}
	for i := r.span(from); i < len(r.at) && r.at[i] < to; i++ {
		if r.level[i]+need > r.room+slack {
			if i+1 == len(r.at) {
				return false, math.MaxInt
			}
			return false, r.at[i+1]
		}
	}
	return true, 0
}

// add takes room from one time to another; a negative one gives it back.
func (r *rack) add(from, to int, need float64) {
	if math.IsInf(r.room, 1) || need == 0 || to <= from {
		return
	}
	down := from - mod(from, r.grid)
	up := to + mod(-to, r.grid)
	a := r.cut(down)
	b := r.cut(up)
	for i := a; i < b; i++ {
		r.level[i] += need
		r.peak = max(r.peak, r.level[i])
	}
}

// cut makes t a border between two pieces of time.
func (r *rack) cut(t int) int {
	i := r.span(t)
	if r.at[i] == t {
		return i
	}
	r.at = slices.Insert(r.at, i+1, t)
	r.level = slices.Insert(r.level, i+1, r.level[i])
	return i + 1
}

// mod is the remainder that is never negative.
func mod(t, grid int) int { return ((t % grid) + grid) % grid }
