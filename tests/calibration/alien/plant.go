package alien

import (
	"math"
	"time"

	"tubside/model"
)

// A plant's water lies in two stores, each 0 to 1 full: an outer one next the scales, which alone loses water to the
// air, and an inner one, which hands it on the more slowly the emptier it is. So a fresh plant loses fastest and a dry
// one slowest, without any rate that is told to fall.
const (
	outerShare = 0.20 // of a full plant's water; a guess
	handing    = 3.0  // flow from store to store, as a multiple of the leak; with outerShare it settles in 4 to 5 days
)

// store is a plant's water.
type store struct{ outer, inner float64 }

var full = store{1, 1}

func (s *store) left() float64 { return outerShare*s.outer + (1-outerShare)*s.inner }

// lose takes the water of some days of a leak (a day, of a full plant) that is the same throughout: one implicit step.
func (s *store) lose(leak, days float64) {
	flow := handing * leak * s.inner
	was := s.outer
	s.outer = (outerShare*was + days*flow*s.inner) / (outerShare + days*(leak+flow))
	s.inner -= days * flow * (s.inner - s.outer) / (1 - outerShare)
}

// brimful is as full as a soak makes a plant: a little air stays in the tissue. A guess.
const brimful = 0.985

// drink is a soak: the outer store fills at once (Ohrui et al. 2007: within a minute), the inner one as the square root
// of time, as a porous body does, and is full after the plant's hours to fill.
func (s *store) drink(hours, toFill float64) {
	s.outer = max(s.outer, brimful)
	share := math.Sqrt(min(hours/toFill, 1))
	s.inner += share * max(brimful-s.inner, 0)
}

// mistFills is the share of what the outer store lacks that a mist brings. A guess.
const mistFills = 0.6

func (s *store) mist() { s.outer += mistFills * max(brimful-s.outer, 0) }

// usual is what is usual for plants of a sort: leak a day at 1.49 kPa and 15 cm, hours to fill, hours to dry (21 °C, 50
// %, fan low, alone), times as late as others it curls.
type usual struct{ leak, toFill, dries, curls float64 }

// freshly is how many times as much a full plant leaks as it loses, on average, over its first three weeks.
const freshly = 1.2

// usualOf has the losses that give the trade's minutes (mesic 0.0082 to 0.0164, intermediate 0.0075 to 0.0126, wispy
// 0.0098 to 0.028, xeric 0.0037 to 0.0052 a day), three hours to fill, and growers' drying times; the rest is guessed
// between them.
func usualOf(form model.Form, blade model.Leaf) usual {
	u := usual{leak: 0.0097, toFill: 3.3, dries: 3.5, curls: 1}
	switch blade {
	case model.Mesic:
		u.leak = 0.0116
	case model.Xeric:
		u.leak, u.toFill = 0.0044, 3
	}
	switch form {
	case model.Wispy:
		u.dries = 2.2
		if blade != model.Xeric {
			u.leak, u.toFill = 0.0166, 4.2
		}
	case model.Stemmed:
		u.dries = 2.5
	case model.Bulbous:
		u.leak, u.dries, u.curls = 0.0080, 5, 0.8
	case model.Fuzzy:
		u.leak, u.toFill, u.dries = 0.0065, 2.3, 1.75
	case model.Pendent:
		u.leak, u.dries = 0.0125, 2.5
	case model.Tank:
		u.leak, u.dries = 0.0105, 5
	}
	u.leak *= freshly
	return u
}

// sizeFactor: small plants have more leaf for their water.
func sizeFactor(cm float64) float64 { return math.Pow(15/cm, 0.2) }

// Plant is one plant as it really is.
type Plant struct {
	Row model.Plant // as the book has it

	is            model.Form // what it truly is
	sort          usual      // of what it truly is, its size counted in
	leak          float64    // its own, a day at 1.49 kPa
	toFill        float64    // its own, hours
	curls         float64    // the thirst to which its curl is measured
	slow          float64    // times as long as usual to dry
	shelf         int        // where it truly hangs
	every         int        // weeks between soaks
	minutes       float64    // this grower's for it
	water         store
	at            time.Time  // of water
	dry, out      time.Time  // when it is, or was, dry; when it came out
	soaked        time.Time  // last, as the book has it
	worst         [3]float64 // thirst, of this week and the two before
	past          []moment
	seen          model.Signs // last
	seenAt        time.Time
	dried         []float64 // logarithms of its own factor on past drying times, as the truth has them
	expectedHours float64   // of the last drying, without factors of its own
}

// Left is the share of its water that a plant has, now.
func (p *Plant) Left() float64 { return p.water.left() }

// moment is something that happened to a plant's water or was seen of it, for working it out again.
type moment struct {
	days, leak float64 // lost for so many days at so many times its own leak
	told       float64 // how many times that would be by the last reading, on any shelf
	shelf      float64 // how many times as much plants lose on its shelf
	booked     float64 // the same of the shelf where the book has it
	soak       float64 // hours in water
	minutes    float64 // the same, as the book has it
	misted     bool
	week       bool // begins
	looked     bool
	signs      model.Signs // written down, or kept to himself
	unwritten  bool
	secret     bool // it happened without a word
}

// lives takes a moment in, and keeps it.
func (p *Plant) lives(m moment) {
	p.past = append(p.past, m)
	m.change(&p.water, &p.worst, p.leak, p.toFill)
}

// change is what a moment does to a plant's water.
func (m *moment) change(s *store, worst *[3]float64, leak, toFill float64) {
	switch {
	case m.days > 0:
		s.lose(leak*m.leak, m.days)
		worst[0] = max(worst[0], 1-s.left())
	case m.soak > 0:
		s.drink(m.soak, toFill)
	case m.misted:
		s.mist()
	case m.week:
		worst[2], worst[1], worst[0] = worst[1], worst[0], 1-s.left()
	}
}

// worstSeen is the worst thirst of three weeks.
func (p *Plant) worstSeen() float64 { return max(p.worst[0], p.worst[1], p.worst[2]) }
