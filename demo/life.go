package demo

import (
	"math"
	"math/rand/v2"
	"time"

	"tubside/model"
	"tubside/model/drying"
	"tubside/model/leaf"
	"tubside/model/species"
)

// Spreads of the truth, as standard deviations of a logarithm. Invented.
const (
	paceSpread   = 0.4
	dryingSpread = 0.3
)

// life is one plant and what becomes of it.
type life struct {
	model.Plant // as the book has it now
	form        model.Form
	leaf        model.Leaf
	own         float64 // pace of the plant itself
	rate        float64 // of water loss, a day of the reference air, at a pace of 1
	tau         float64 // of uptake, hours
	scale       leaf.SignsScale
	clings      drying.Plant
	worn        float64 // water on its leaves after a shake, as a share of that in them when full

	rwc   float64   // when it last was dry, was moved, or went into the water
	dry   time.Time // since when it truly loses water
	spent float64   // of the dose since then, by the last move
	in    time.Time // when it went into the water; zero when it is not there
	out   time.Time // when it came out last
	here  bool      // it has come and is not gone

	newcomer bool       // it comes in the course of the year
	goal     model.Home // where a newcomer will hang once it is released
	sentinel bool       // it is weighed
	grams    float64    // when full

	bloom
	mother
	health
	fed time.Time // last; zero never
}

// beginLife gives an invented row its nature.
func beginLife(rng *rand.Rand, p newPlant) *life {
	l := &life{Plant: p.Plant, form: p.truth.Form, leaf: p.truth.Leaf, rwc: 1}
	l.own = math.Exp(paceSpread * rng.NormFloat64())
	listed, _ := species.Find(p.Name)
	l.rate = lossRate(l.form, l.leaf, p.sizeCM, listed)
	l.tau = uptake(l.form, l.leaf)
	l.clings = wetness(l.form, l.leaf, p.sizeCM)
	l.worn = 2 * l.clings.FilmMM / leaf.WaterMM(l.rate)
	if l.form == model.Bulbous {
		l.scale.Multiple = leaf.CurlsReadily
	}
	return l
}

// The truth's numbers behind the growers' words stand here a second time, apart
// from care's: were they shared, a slip in one would hide in both, and no
// estimate could be held against the truth.

// lossRate is the share of its water that a plant loses in a day of the reference
// air.
func lossRate(form model.Form, blade model.Leaf, size float64, listed species.Entry) float64 {
	if known := listed.Form == form && listed.Leaf == blade; known && listed.Loss > 0 {
		return listed.Loss * leaf.SizeFactor(size) / leaf.SizeFactor(listed.SizeCM)
	} else if known && listed.Thin && form != model.Pendent {
		return leaf.KThin * leaf.SizeFactor(size)
	}
	rates := map[model.Leaf]float64{model.Mesic: leaf.KMesic, model.Intermediate: leaf.KIntermediate,
		model.Xeric: leaf.KXeric}
	switch {
	case form == model.Pendent:
		return leaf.KThin
	case form == model.Bulbous && blade == model.Xeric:
		blade = model.Intermediate
	case form == model.Wispy && blade != model.Xeric:
		return rates[blade] * leaf.WispyFactor * leaf.SizeFactor(size)
	}
	return rates[blade] * leaf.SizeFactor(size)
}

func uptake(form model.Form, blade model.Leaf) float64 {
	switch {
	case form == model.Fuzzy, form == model.Pendent:
		return leaf.TauFuzzy
	case form == model.Wispy && blade != model.Xeric:
		return leaf.TauWispy
	}
	return leaf.TauDefault
}

func wetness(form model.Form, blade model.Leaf, cm float64) drying.Plant {
	starts := map[model.Form]func() drying.Plant{
		model.Bulbous: drying.Bulbous, model.Tank: drying.Tank, model.Fuzzy: drying.Fuzzy, model.Wispy: drying.Wispy,
		model.Stemmed: drying.OpenRosette, model.Pendent: drying.Strand, model.Rosette: drying.Typical,
	}
	p := starts[form]().Sized(cm)
	if blade != model.Mesic && form != model.Tank {
		p.FilmPower = drying.WickPower
	}
	return p
}

// pace is the plant's own pace where it hangs now.
func (l *life) pace() float64 { return l.own * paceOn(l.Home.Shelf) }

// mistWets is the share of a shaken plant's film that this grower's mist leaves.
// Invented.
const mistWets = 0.4

// water is the plant's true relative water content at a time.
func (l *life) water(t time.Time, w *weather) float64 {
	if !l.in.IsZero() {
		return leaf.Refilled(l.rwc, t.Sub(l.in).Minutes(), l.tau)
	}
	return leaf.Remaining(l.rwc, l.rate*l.pace(), w.dose(l.dry, t)-l.spent)
}

// move hangs the plant elsewhere; what it lost until then it lost at the pace
// of the old place.
func (l *life) move(to model.Home, t time.Time, w *weather) {
	l.rwc, l.spent = l.water(t, w), w.dose(l.dry, t)
	l.Home = to
}

// goIn puts the plant into the water.
func (l *life) goIn(t time.Time, w *weather) { l.rwc, l.in = l.water(t, w), t }

// film is what the plant wears in a stream of air.
func (l *life) film(s drying.Stream) leaf.Film {
	hours := l.clings.Dry(s, drying.Handling{}).FilmHours
	return leaf.Film{Share: l.worn, Hours: hours * (1 - l.clings.FilmPower)}
}

// mist wets the leaves of a plant at home, which drinks what does not evaporate.
func (l *life) mist(t time.Time, s drying.Stream, w *weather) {
	if !t.After(l.dry) || !l.in.IsZero() {
		return
	}
	l.rwc, l.spent = l.film(s).Part(mistWets).Drunk(l.water(t, w), l.tau), w.dose(l.dry, t)
}

// comeOut takes it out again and shakes it; wet is how many hours it takes to dry.
func (l *life) comeOut(t time.Time, wet float64, s drying.Stream, w *weather) {
	rwc := []float64{l.rwc}
	leaf.NewSoak(t.Sub(l.in).Minutes(), l.tau).Wearing(l.film(s)).Refill(rwc)
	l.rwc, l.in, l.out = rwc[0], time.Time{}, t
	l.dry, l.spent = t.Add(time.Duration(wet*float64(time.Hour))), 0
}

// staysWet is how many hours the plant truly takes to dry to the heart.
func (l *life) staysWet(rng *rand.Rand, s drying.Stream, how model.Out) float64 {
	h := drying.Handling{Shaken: how.Shaken, Inverted: how.Inverted}
	if l.Count > 1 || l.form == model.Pendent {
		h.Clump = drying.ClumpTime
	}
	hours := l.clings.Dry(s, h).Hours() * math.Exp(dryingSpread*rng.NormFloat64())
	return min(hours, drying.Horizon)
}

// signs is what a grower sees on the plant: grades drawn with the chances that
// model/leaf gives them at its true thirst. Tips and the drop of water are left
// out unless there is time to look closely; a drop is only tried where the edges
// lift.
func (l *life) signs(rng *rand.Rand, t time.Time, w *weather, closely bool) model.Signs {
	thirst := 1 - l.water(t, w)
	s := model.NoSigns
	s.Curl = l.grade(rng, thirst, 3, func(u *leaf.Signs, g int8) { u.Curl = g })
	if closely {
		s.Tips = l.grade(rng, thirst, 3, func(u *leaf.Signs, g int8) { u.Tips = g })
		if s.Curl > 0 {
			s.Shift = drop(rng, thirst)
		}
	}
	return s
}

// drop is what a drop of water does to a leaf: the thirstier, the quicker it turns green. A guess.
func drop(rng *rand.Rand, thirst float64) model.Grade {
	u := rng.Float64()
	blurred := thirst + 0.08*math.Log(u/(1-u))
	switch {
	case blurred < 0.02:
		return model.AlreadyDark
	case blurred < 0.20:
		return 1
	}
	return 2
}

// grade draws one sign, from 0 to top.
func (l *life) grade(rng *rand.Rand, thirst float64, top int8, set func(u *leaf.Signs, g int8)) model.Grade {
	x := rng.Float64()
	for g := range top {
		u := leaf.Unseen()
		set(&u, g)
		if x -= math.Exp(u.LogLikelihood(thirst, l.scale)); x < 0 {
			return model.Grade(g)
		}
	}
	return model.Grade(top)
}
