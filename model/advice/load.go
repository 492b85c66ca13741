package advice

import (
	"cmp"
	"math"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// LoadTime is the time in the water, in minutes from-to, that suits every plant of
// a load.
type LoadTime soak.Window

// AnyLength is the time of a load without plants.
var AnyLength = LoadTime{From: 0, To: math.Inf(1)}

// Meet is the time when a plant with such a window joins.
func (t LoadTime) Meet(w soak.Window) LoadTime {
	return LoadTime{From: math.Max(t.From, w.From), To: math.Min(t.To, w.To)}
}

// Agrees reports whether there is a time that suits them all.
func (t LoadTime) Agrees() bool { return t.From <= t.To }

// Length is how long the load stays in, in whole minutes: as long as the plant that
// needs most, and when their times do not meet, no longer than the shortest cap:
// caps beat needs.
func (t LoadTime) Length() time.Duration {
	return time.Duration(math.Ceil(math.Min(t.From, t.To))) * time.Minute
}

// MayLie is the time in the water of a plant that the grower puts in. One that
// needs no soak gets the shortest there is, a dip; false for one that must not be
// soaked, in bloom or with suspected rot.
func MayLie(b *model.Book, n Need) (soak.Window, bool) {
	row := b.Row(n.ID)
	switch {
	case n.To > 0:
		return soak.Window{From: n.From, To: n.To}, true
	case row == nil || !row.Bloom.IsZero() || !row.Rot.IsZero():
		return soak.Window{}, false
	}
	return DipWindow(b.Rules()), true
}

// Thirstier orders plants by what is left of their water, the thirstiest first and
// of two alike the one the grower passes first. Plants off their shelf need
// nothing for now and come last.
func Thirstier(b *model.Book, x, y Need) int {
	away := func(r *model.Row) int {
		if r.State.Away() {
			return 1
		}
		return 0
	}
	a, c := b.Row(x.ID), b.Row(y.ID)
	return cmp.Or(away(a)-away(c), cmp.Compare(x.RWC, y.RWC), a.WalkCompare(c), cmp.Compare(x.ID, y.ID))
}
