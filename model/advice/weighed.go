package advice

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/model/soak"
)

// WeighedPage is what the scale has taught: what was taken for such plants before anything was known of this home, by
// print or by guess, and what these plants showed.
type WeighedPage struct {
	At      time.Time
	Ten     *model.Ten // nil when no plants are being weighed
	Plants  []WeighedPlant
	Forms   []WeighedForm    // those of the plants
	Changed []ChangedBand    // plants that were not weighed, and are to soak otherwise than without the scale
	Others  int              // how many were not weighed
	Room    estimate.RoomAir // the air that the losses are of
}

// WeighedPlant is one plant that was weighed.
type WeighedPlant struct {
	ID                      model.ID
	Weighings               int
	LossBefore, LossNow     estimate.Range // share of its water that goes in a day, as the air is now
	UptakeBefore, UptakeNow estimate.Range // minutes in water until two thirds of what it lacked are back
}

// twoThirds is how many time constants it takes until two thirds of what a plant lacks are back.
var twoThirds = math.Log(3)

// WeighedForm is a form with plants that were weighed: when their leaves lift, channel and roll, as thirst.
type WeighedForm struct {
	Form                  model.Form
	Plants                int
	EdgesBefore, EdgesNow estimate.Edges
}

// ChangedBand is a plant that would get another soak had nothing been weighed.
type ChangedBand struct {
	ID          model.ID
	Before, Now soak.Band
}

// WhatWeighingShowed is what was learned by weighing.
func WhatWeighingShowed(k *estimate.Keeper, now time.Time) WeighedPage {
	b := k.Book()
	p := WeighedPage{At: now, Ten: b.Ten(now), Room: estimate.RoomNow(b, now)}
	weighed := k.Weighed()
	for _, id := range weighed {
		rate := k.Traits(id).LossRate * k.OnShelf(id) * leaf.Draw(p.Room.DeficitKPa)
		loss, _ := k.LossMultiplier(id)
		uptake, _ := k.UptakeMultiplier(id)
		minutes := k.Traits(id).Tau * 60 * twoThirds
		p.Plants = append(p.Plants, WeighedPlant{
			ID: id, Weighings: k.Weighings(id),
			LossBefore: estimate.AssumedLoss.Times(rate), LossNow: loss.Range().Times(rate),
			UptakeBefore: estimate.AssumedUptake.Times(minutes), UptakeNow: uptake.Range().Times(minutes),
		})
		form := cmp.Or(b.Row(id).Form, estimate.AssumedForm)
		i := slices.IndexFunc(p.Forms, func(f WeighedForm) bool { return f.Form == form })
		if i < 0 {
			f := WeighedForm{Form: form}
			f.EdgesNow, f.EdgesBefore = k.CurlEdges(form)
			i, p.Forms = len(p.Forms), append(p.Forms, f)
		}
		p.Forms[i].Plants++
	}
	p.compare(k, weighed)
	return p
}

// compare asks what plants that were not weighed would get without the scale.
func (p *WeighedPage) compare(k *estimate.Keeper, weighed model.IDs) {
	with, without := Look(k, p.At), (*Outlook)(nil)
	if len(weighed) > 0 {
		without = Look(estimate.Unweighed(k.Book()), p.At)
	}
	for i := range with.Needs {
		n := &with.Needs[i]
		if weighed.Has(n.ID) {
			continue
		}
		p.Others++
		if without != nil && without.Needs[i].Band != n.Band {
			p.Changed = append(p.Changed, ChangedBand{n.ID, without.Needs[i].Band, n.Band})
		}
	}
}
