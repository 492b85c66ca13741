package care

import (
	"math"

	"tubside/model"
	"tubside/model/drying"
	"tubside/model/leaf"
	"tubside/model/soak"
)

// kind is the numbers that stand behind the growers' words for a plant.
type kind struct {
	k     float64         // rate of water loss, per day and kPa
	tau   float64         // time constant of uptake in water, hours
	scale leaf.SignsScale // how to read its signs
	dry   drying.Plant    // what clings to it and where
	film  float64         // the water on its leaves then, as a share of that in them when full
	cap   float64         // longest soak in minutes; 0 none
	limit float64         // longest it should stay wet, hours
	why   string          // what the cap is for: "bulbous"
	clump bool            // a clump, a tray or a hanging mass: it dries as one
}

// A plant whose form, leaf or size nobody gave is taken as the middle of the
// collection. Our own.
const (
	assumedForm = model.Rosette
	assumedLeaf = model.Intermediate
	assumedSize = leaf.ReferenceSize
)

// kindOf finds the numbers for a plant under the house rules.
func kindOf(p model.Plant, rules model.Rules) kind {
	form, blade, size := orElse(p.Form, assumedForm), orElse(p.Leaf, assumedLeaf), p.Size
	if size == 0 {
		size = assumedSize
	}
	k := kind{
		k:     lossRate(form, blade) * leaf.SizeFactor(size),
		tau:   uptake(form, blade),
		dry:   wetness(form, size, p.Count),
		limit: rules[model.WetLimit],
		clump: p.Count > 1 || form == model.Pendent,
	}
	k.film = 2 * k.dry.FilmMM / leaf.WaterMM(k.k)
	if form == model.Bulbous {
		k.scale.CurlShift = leaf.CurlsReadily
	}
	k.cap, k.why = capOf(form, blade, rules)
	switch {
	case form == model.Fuzzy:
		k.limit = rules[model.WetLimitFuzzy]
	case k.clump:
		k.limit = rules[model.WetLimitClump]
	}
	return k
}

func orElse[T comparable](v, fallback T) T {
	var none T
	if v == none {
		return fallback
	}
	return v
}

func lossRate(form model.Form, blade model.Leaf) float64 {
	k := leaf.KIntermediate
	switch blade {
	case model.Mesic:
		k = leaf.KMesic
	case model.Xeric:
		k = leaf.KXeric
	}
	if form == model.Wispy {
		k *= leaf.WispyFactor
	}
	return k
}

func uptake(form model.Form, blade model.Leaf) float64 {
	switch {
	case form == model.Fuzzy:
		return leaf.TauFuzzy
	case blade == model.Mesic:
		return leaf.TauSmooth
	}
	return leaf.TauDefault
}

// capOf is the longest soak a house rule allows, and the word for why.
func capOf(form model.Form, blade model.Leaf, rules model.Rules) (minutes float64, why string) {
	switch form {
	case model.Bulbous:
		return rules[model.CapBulbous], "bulbous"
	case model.Fuzzy:
		return rules[model.CapFuzzy], "fuzzy"
	case model.Tank:
		return rules[model.CapTank], "tank"
	case model.Pendent:
		return rules[model.CapPendent], "pendent"
	}
	if blade == model.Xeric {
		return rules[model.CapXeric], "xeric"
	}
	return 0, ""
}

// wetness is what a plant of a form holds when it comes out: the leaf area and
// the pocket of a medium plant, scaled with the square of its span.
func wetness(form model.Form, size float64, count int) drying.Plant {
	var p drying.Plant
	switch form {
	case model.Bulbous, model.Tank:
		p = drying.Bulbous()
	case model.Fuzzy:
		p = drying.Fuzzy()
	case model.Wispy, model.Stemmed:
		p = drying.OpenRosette()
	default:
		p = drying.Typical()
	}
	scale := size / leaf.ReferenceSize
	scale *= scale * float64(max(count, 1))
	p.AreaCM2 *= scale
	p.PocketG *= scale
	return p
}

// handling is how a plant so taken out of the water dries.
func (k *kind) handling(f model.Out) drying.Handling {
	h := drying.Handling{Shaken: f.Shaken, Inverted: f.Inverted}
	if k.clump {
		h.Clump = drying.ClumpTime
	}
	return h
}

// bulkOf is how much of its own box a form fills in a vessel, packed by hand
// without pressing. A guess: a box-shaped count of a tub would replace it.
var bulkOf = map[model.Form]float64{
	model.Rosette: 0.25,
	model.Bulbous: 0.15,
	model.Wispy:   0.12,
	model.Stemmed: 0.12,
	model.Fuzzy:   0.20,
	model.Tank:    0.25,
	model.Pendent: 0.05,
}

// Bulk is the room a row takes in a vessel, in litres.
func Bulk(p model.Plant) float64 {
	size := p.Size
	if size == 0 {
		size = assumedSize
	}
	return soak.Bulk(size, bulkOf[orElse(p.Form, assumedForm)], p.Count)
}

// Clump and bulb take longer to put in and to shake out. Our own factors.
const (
	slowHands = 1.5
)

// HandSeconds is how long putting a row into the water and taking it out takes
// one pair of hands, in seconds.
func HandSeconds(p model.Plant, rules model.Rules) (in, out float64) {
	f := 1.0
	if p.Form == model.Bulbous || p.Form == model.Tank || p.Count > 1 {
		f = slowHands
	}
	return math.Round(rules[model.HandsIn] * f), math.Round(rules[model.HandsOut] * f)
}
