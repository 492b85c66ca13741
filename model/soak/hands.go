package soak

import "slices"

// gap is time in which the hands have nothing to do, within one stretch of
// hours.
type gap struct{ from, to, hour int }

// hands is the grower's time: what is free of it, in order.
type hands struct {
	hours []Hours
	gaps  []gap
	least int // shortest piece of work; a gap below it is of no use
}

// seek is the first gap that is not over by t.
func (h *hands) seek(t int) int {
	low, high := 0, len(h.gaps)
	for low < high {
		mid := int(uint(low+high) >> 1)
		if h.gaps[mid].to > t {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low
}

// slot is the earliest time from t on, looking from gap i on, at which the
// hands have need seconds in one piece, and the gap it lies in: -1 when there
// is none. Nothing is put in during hours that only take out.
func (h *hands) slot(i, t, need int, in bool) (int, int) {
	for ; i < len(h.gaps); i++ {
		g := &h.gaps[i]
		at := max(g.from, t)
		if at+need <= g.to && !(in && h.hours[g.hour].OutOnly) {
			return at, i
		}
	}
	return 0, -1
}

// pastDryBy is the first gap after i whose plants are due dry at a later hour.
func (h *hands) pastDryBy(i int) int {
	due := h.hours[h.gaps[i].hour].DryBy
	for i < len(h.gaps) && h.hours[h.gaps[i].hour].DryBy == due {
		i++
	}
	return i
}

// take uses up the hands from a time on; it is all free.
func (h *hands) take(from, need int) {
	for i := h.seek(from); need > 0; i = h.seek(from) {
		part := min(need, h.gaps[i].to-from)
		h.cut(i, from, part)
		from, need = from+part, need-part
	}
}

// cut takes a piece out of one gap, and what is left of it if that is of no use.
func (h *hands) cut(i, from, need int) {
	g := h.gaps[i]
	left, right := gap{g.from, from, g.hour}, gap{from + need, g.to, g.hour}
	keepLeft, keepRight := left.to-left.from >= h.least, right.to-right.from >= h.least
	switch {
	case keepLeft && keepRight:
		h.gaps[i] = left
		h.gaps = slices.Insert(h.gaps, i+1, right)
	case keepLeft:
		h.gaps[i] = left
	case keepRight:
		h.gaps[i] = right
	default:
		h.gaps = slices.Delete(h.gaps, i, i+1)
	}
}
