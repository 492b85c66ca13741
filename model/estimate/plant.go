package estimate

import (
	"cmp"
	"math"
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/drying"
	"tubside/model/leaf"
	"tubside/model/soak"
	"tubside/model/species"
)

// Plant is what is believed of one plant at a time.
type Plant struct {
	Stand
	SoakKnown bool      // its last soak is on record
	Suspect   bool      // it looked thirsty right after two soaks in a row: that is not thirst
	Wet       bool      // in the water or drying: it loses none
	DrySince  time.Time // since when it loses water
	Shelf     string
	OnShelf   float64 // how many times as fast plants dry out there, as set by hand
	Tau       float64 // time constant of its uptake, hours, as far as it was learned
	WetGrams  float64 // what it weighs when full; 0 when it was never weighed so
	Draw      float64 // what the air took in a day since DrySince, beside the reference air (see [leaf.Draw])
	Eye       Eye     // how the last look stands to what was believed before it
	Scales    Scales  // the same of the last weight since its soak
	Traits    *Traits
}

// Plant is what is believed at a time of a plant that is in the book.
func (k *Keeper) Plant(id model.ID, at time.Time) Plant {
	p := k.plants[id]
	b := Plant{
		SoakKnown: p.soakKnown,
		Suspect:   p.suspect(),
		Wet:       p.wet,
		DrySince:  p.dry,
		Shelf:     p.shelf,
		OnShelf:   p.factor,
		Tau:       k.Tau(id),
		Traits:    p.traits,
	}
	if p.scale != nil && p.scale.wet {
		b.WetGrams = p.scale.grams
	}
	if p.seen != nil {
		b.Scales = p.seen.scale
	}
	b.Eye, b.Draw = k.eyeOn(p), k.draw(p, at)
	if p.doubted != nil {
		weighed := *p
		weighed.water, p = *p.shown(), &weighed
	}
	left := p.waters(at, p.traits, k.climate)
	b.Stand = k.believed(p, &left).stand(b.Eye.before, &left)
	return b
}

// draw is what the air took in a day since a plant was dry, and of a plant that
// was dry just now, what it takes in one from the last reading on.
func (k *Keeper) draw(p *plantState, at time.Time) float64 {
	days := at.Sub(p.dry).Hours() / 24
	if p.wet || days < 1 {
		return leaf.Draw(RoomNow(k.book, at).DeficitKPa)
	}
	return k.climate.cumulativeVPD(p.dry, p.dry, at) / days
}

// Book is the book that is followed.
func (k *Keeper) Book() *model.Book { return k.book }

// Traits is the numbers behind the growers' words for a plant that is in the book.
func (k *Keeper) Traits(id model.ID) *Traits { return k.plants[id].traits }

// OnShelf is how many times as fast plants dry out where a plant hangs, as set by hand.
func (k *Keeper) OnShelf(id model.ID) float64 { return k.plants[id].factor }

// RWC fills rwc with a plant's relative water content (0 to 1) at a time, for
// each multiplier of its loss of water.
func (k *Keeper) RWC(id model.ID, at time.Time, rwc *[belief.Points]float64) {
	p := k.plants[id]
	p.at(at, p.traits, k.climate, rwc)
}

// LossMass is what is believed of the multiplier of a plant's loss of water. It
// is not to be changed.
func (k *Keeper) LossMass(id model.ID) *belief.Mass { return k.lossMass(k.plants[id]) }

// SoaksLearned is how many soaks of its own were learned from.
func (k *Keeper) SoaksLearned(id model.ID) int { return k.plants[id].loss.count }

// DryingMass is what is believed of the multiplier of a plant's time to dry. It
// is not to be changed.
func (k *Keeper) DryingMass(id model.ID) *belief.Mass { return k.dryMass(k.plants[id]) }

// Stand is how full of water a plant is: relative water content, 0 to 1, as the
// mean and the 80 % range of what is believed of its loss. The room's air is
// taken as it was read, or as it is expected.
type Stand struct{ RWC, Low, High float64 }

// Thirst is the share of the plant's water that is gone.
func (s Stand) Thirst() float64 { return 1 - s.RWC }

// believed is what is believed of a plant beside how full it would be for each multiplier.
type believed struct {
	losses    *belief.Mass
	unwritten float64 // how likely it had water since its soak that is not in the book
	untold    float64 // see [stretch.untold]
	full      float64 // its water when it began to lose it
}

// believed is what is believed of a plant that is so full.
func (k *Keeper) believed(p *plantState, left *waters) believed {
	return believed{k.lossMass(p), k.wateredChance(p), p.untold(left), 1 - p.fullest}
}

// stand sums up what is believed. Where a look contradicts what was believed
// before it, the range takes in both, that being of a plant that was left alone: either may be wrong.
func (b believed) stand(before *belief.Mass, left *waters) Stand {
	mean, low, high := b.of(left)
	if before != nil {
		b.losses, b.unwritten = before, 0
		_, l, h := b.of(left)
		low, high = min(low, l), max(high, h)
	}
	return Stand{mean, low, high}
}

// of is the mean, of a plant that was left alone, and the 80 % range, where a share of plants like this one had water
// that nobody wrote down. Those lost since then some part of what the others lost since their soak, any part as likely
// as any, and lie above the low end. Of the others fewer may lie above the high end, with four
// in five of those above it, so that it is a tenth in all; and where those alone are more than a tenth, the high end
// lies among them. What is not known of the loss and of the uptake adds up as squares do.
func (b believed) of(left *waters) (mean, low, high float64) {
	mean = left.meanOf(b.losses)
	end := func(q float64) float64 {
		quick, slow := b.losses.QuantileOf(&left[0], q), b.losses.QuantileOf(&left[1], q)
		off := (quick+slow)/2 - mean
		return mean + math.Copysign(math.Hypot(off, tenthZ*b.untold*(quick-slow)/2), off)
	}
	others := 1 - b.unwritten
	low, high = end(min(0.1/others, 0.5)), end(1-max(0.1-0.8*b.unwritten, 0.02)/others)
	if b.unwritten > 0.1 {
		high = max(high, b.full-max(b.full-mean, 0)*0.1/b.unwritten)
	}
	return mean, min(low, high), max(low, high)
}

// Multiplier is what is believed of one plant's multiplier: how many times as fast
// as its traits say it loses water, or how many times as long it takes to dry.
type Multiplier struct {
	Median, Low, High float64 // Low to High is the 80 % range
	Own               int     // soaks or dryings of its own that it rests on; 0: known from its group only
	Seen              bool    // and on what was seen since the last soak
}

// summedUp sums up what is believed, made once for each change of that.
func (l *learned) summedUp() *Multiplier {
	if s := l.mass; l.multiplier.High == 0 {
		low, high := s.Range(0.8)
		l.multiplier = Multiplier{Median: s.QuantileOf(&multipliers, 0.5), Low: low, High: high, Own: l.count}
	}
	return &l.multiplier
}

// LossMultiplier is how many times as fast as the numbers say for its form, leaf and size,
// in the air of its shelf, a plant loses water. It returns false for a plant
// that is not in the book.
func (k *Keeper) LossMultiplier(id model.ID) (Multiplier, bool) {
	p := k.plants[id]
	if p == nil {
		return Multiplier{}, false
	}
	k.lossMass(p)
	pace := *p.loss.summedUp()
	pace.Seen = p.seen != nil && !p.suspect()
	return pace, true
}

// DryingMultiplier is how many times as long as the numbers say for its form, handling and
// air a plant takes to dry. It returns false for a plant that is not in the
// book.
func (k *Keeper) DryingMultiplier(id model.ID) (Multiplier, bool) {
	p := k.plants[id]
	if p == nil {
		return Multiplier{}, false
	}
	k.dryMass(p)
	return *p.dryTime.summedUp(), true
}

// Traits is the numbers that stand behind the growers' words for a plant.
type Traits struct {
	LossRate float64         // share of its water lost in a day of the reference air
	Tau      float64         // time constant of uptake in water, hours
	Signs    leaf.SignsScale // how to read its signs
	Drying   drying.Plant    // what clings to it and where
	Film     float64         // the water on its leaves then, as a share of that in them when full
	WetLimit float64         // hours wet from which the trade worries; no limit is earlier
	Clump    bool            // a clump, a tray or a hanging mass: it dries as one
}

// FullGrams is about what the plant weighs when full, in grams: its leaf area, taken from
// its span, and the water that goes with its rate of loss. A guess, within a factor of
// two or so; the first time it is weighed replaces it.
func (t *Traits) FullGrams() float64 {
	const faces, cm2 = 2, 1e-4 // of a leaf; m² in one
	return t.Drying.AreaCM2 / faces * cm2 * 1000 * leaf.WaterMM(t.LossRate) / (1 - leaf.DryMatter)
}

// A plant whose form, leaf or size nobody gave is taken as the middle of the
// collection. A choice.
const (
	AssumedForm = model.Rosette
	AssumedLeaf = model.Intermediate
	AssumedSize = leaf.ReferenceSize
)

// traitsOf finds the numbers for a plant under the house rules.
func traitsOf(p model.Plant, rules model.Rules) Traits {
	form, blade, size := cmp.Or(p.Form, AssumedForm), cmp.Or(p.Leaf, AssumedLeaf), p.Size
	if size == 0 {
		size = AssumedSize
	}
	listed, _ := species.Find(p.Name)
	t := Traits{
		LossRate: lossRate(form, blade, size, listed),
		Tau:      uptake(form, blade),
		Drying:   wetness(form, blade, size, p.Count),
		WetLimit: rules[model.WetLimit],
		Clump:    p.Count > 1 || form == model.Pendent,
	}
	t.Film = 2 * t.Drying.FilmMM / leaf.WaterMM(t.LossRate)
	if form == model.Bulbous {
		t.Signs.Multiple = leaf.CurlsReadily
	}
	switch {
	case form == model.Fuzzy:
		t.WetLimit = rules[model.WetLimitFuzzy]
	case t.Clump:
		t.WetLimit = rules[model.WetLimitClump]
	}
	return t
}

// lossRate is the share of its water a plant loses in a day of the reference air.
// A plant of the list goes by what is known of its kind, unless the grower calls
// it something else.
func lossRate(form model.Form, blade model.Leaf, size float64, listed species.Entry) float64 {
	scaled := leaf.SizeFactor(size)
	switch known := listed.Form == form && listed.Leaf == blade; {
	case known && listed.Loss > 0:
		return listed.Loss * scaled / leaf.SizeFactor(listed.SizeCM)
	case form == model.Pendent:
		return leaf.KThin // a strand is as thin at any length
	case known && listed.Thin:
		return leaf.KThin * scaled
	}
	k := leaf.KIntermediate
	switch {
	case blade == model.Mesic:
		k = leaf.KMesic
	case blade == model.Xeric && form != model.Bulbous: // a bulb's leaves are thin under any coat: growers soak them alike
		k = leaf.KXeric
	}
	if form == model.Wispy && blade != model.Xeric {
		k *= leaf.WispyFactor
	}
	return k * scaled
}

// uptake is the time constant of uptake in water, hours. Hanging strands are
// wicks (Herppich et al. 2019, Plant Cell Environ. 42:1645, T. usneoides), as
// fuzzy leaves are.
func uptake(form model.Form, blade model.Leaf) float64 {
	switch {
	case form == model.Fuzzy || form == model.Pendent:
		return leaf.TauFuzzy
	case form == model.Wispy && blade != model.Xeric:
		return leaf.TauWispy
	}
	return leaf.TauDefault
}

// wetness is what a plant of a form, leaf and size holds when it comes out.
func wetness(form model.Form, blade model.Leaf, size float64, count int) drying.Plant {
	p := drying.Typical()
	switch form {
	case model.Bulbous:
		p = drying.Bulbous()
	case model.Tank:
		p = drying.Tank()
	case model.Fuzzy:
		p = drying.Fuzzy()
	case model.Wispy:
		p = drying.Wispy()
	case model.Stemmed:
		p = drying.OpenRosette()
	case model.Pendent:
		p = drying.Strand()
	}
	if form != model.Tank && blade != model.Mesic {
		p = p.Wicking()
	}
	p = p.Sized(size)
	p.AreaCM2 *= float64(max(count, 1))
	p.PocketG *= float64(max(count, 1))
	return p
}

// handling is how a plant so taken out of the water dries.
func (t *Traits) handling(f model.Out, over benchAir) drying.Handling {
	h := drying.Handling{Shaken: f.Shaken, Inverted: f.Inverted, Place: over.times}
	if t.Clump {
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
		size = AssumedSize
	}
	return soak.Bulk(size, bulkOf[cmp.Or(p.Form, AssumedForm)], p.Count)
}

// Clump and bulb take longer to put in and to shake out. The factor is a choice.
const (
	slowHands = 1.5
)

// HandSeconds is how long a row takes one pair of hands, in seconds: until it is in
// the water, and from then on until it hangs again.
func HandSeconds(p model.Plant, rules model.Rules) (before, after float64) {
	h := HandsFor(p, rules)
	return float64(h.Pull + h.In), float64(h.Out + h.Lay + h.Hang)
}

// HandsFor is the same, piece by piece. What is held upside down or squeezed out
// takes longer at the water.
func HandsFor(p model.Plant, rules model.Rules) soak.Hands {
	f := 1.0
	if p.Form == model.Bulbous || p.Form == model.Tank || p.Count > 1 {
		f = slowHands
	}
	wet := func(l model.Limit) int { return max(1, int(math.Round(rules[l]*f))) }
	return soak.Hands{
		Pull: int(math.Round(rules[model.HandsPull])), In: wet(model.HandsIn), Out: wet(model.HandsOut),
		Lay: int(math.Round(rules[model.HandsLay])), Hang: int(math.Round(rules[model.HandsHang])),
	}
}

// benchShare is how much of the square around it a plant needs to dry in, laid
// beside others: the disc of its span. A choice.
const benchShare = math.Pi / 4

// BenchRoom is the room a row takes on a bench, none on top of another, in m².
func BenchRoom(p model.Plant) float64 {
	size := cmp.Or(p.Size, AssumedSize) / 100
	return size * size * benchShare * float64(max(p.Count, 1))
}
