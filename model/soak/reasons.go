package soak

import (
	"math"
	"slices"
)

// could reports whether one plant alone finds a place in a day as it stands,
// in any of the vessels, and when it would be dry at the earliest.
func (d *day) could(i int) (dry int, ok bool) {
	dry = math.MaxInt
	one := []int{i}
	for v := range d.tubs {
		if !d.p.takes(v, i) {
			continue
		}
		if _, _, fits := d.times(v, one); fits {
			dry, ok = min(dry, d.p.dry(d.load.bench[0], i, d.load.out[0])), true
		}
	}
	return dry, ok
}

// able lists the items that could be served if they had the day to themselves,
// most worth first.
func (p *problem) able() []int {
	var d day
	d.begin(&p.morning)
	var able []int
	for i := range p.n {
		if p.joined[i] {
			continue
		}
		if _, ok := d.could(i); ok {
			able = append(able, i)
		}
	}
	slices.SortStableFunc(able, func(x, y int) int { return byWorth(p, x, y) })
	return able
}

// reasoner tells why items are left out, by asking what would have let them in:
// the planned day with one rule dropped at a time.
type reasoner struct {
	p           *problem
	alone, busy [4]day // the day empty and as planned, by the rule dropped
	dryBy       int
	full        bool // the hands have next to no time left
}

// nextToNo is the share of the hours, one in so many, that is no longer counted
// as free time: waits that no plan gets rid of. Our own.
const nextToNo = 12

// The rules dropped.
const (
	dropDry = iota
	dropBench
	dropVessel
	dropNight // hours go on until a day after their end, to take out only
)

func (p *problem) reasoner(evening *day) *reasoner {
	r := &reasoner{p: p, dryBy: p.s.Hours[0].DryBy}
	for _, h := range p.s.Hours {
		if !h.OutOnly {
			r.dryBy = h.DryBy
		}
	}
	for rule := range r.busy {
		r.alone[rule].begin(&p.morning)
		r.alone[rule].drop(rule)
		r.busy[rule].begin(evening)
		r.busy[rule].drop(rule)
	}
	idle, hours := 0, 0
	for _, g := range evening.gaps {
		if !evening.hours[g.hour].OutOnly {
			idle += g.to - g.from
		}
	}
	for _, h := range p.s.Hours {
		if !h.OutOnly {
			hours += h.To - h.From
		}
	}
	r.full = idle < hours/nextToNo
	return r
}

// drop takes one rule out of a day.
func (d *day) drop(rule int) {
	switch rule {
	case dropDry:
		d.hours = slices.Clone(d.hours)
		for i := range d.hours {
			d.hours[i].DryBy = math.MaxInt / 2
		}
	case dropBench:
		for b := range d.racks {
			d.racks[b] = newRack(math.Inf(1), 0, 0, 1)
		}
	case dropVessel:
		for v := range d.tubs {
			d.tubs[v] = tub{ready: d.p.start, water: true}
		}
	case dropNight:
		const night = 24 * 3600
		end := d.hours[len(d.hours)-1]
		d.hours = append(slices.Clone(d.hours), Hours{From: end.To, To: end.To + night, DryBy: end.DryBy + 2*night, OutOnly: true})
		d.gaps = append(d.gaps, gap{end.To, end.To + night, len(d.hours) - 1})
	}
}

// why is the reason for one item left out.
func (r *reasoner) why(i int, able bool) LeftOut {
	l := LeftOut{ID: r.p.items[i].ID, Index: i}
	if !able {
		l.Why, l.By = r.whyAlone(i)
	} else {
		l.Why, l.By = r.whyBusy(i)
	}
	l.Help = helps[l.Why]
	if _, ok := r.alone[dropNight].could(i); l.Why == NoHours && ok {
		l.Help = []Help{MorningHours, Tomorrow}
	}
	return l
}

// whyAlone is the reason for an item that even an empty day cannot serve.
func (r *reasoner) whyAlone(i int) (Why, int) {
	holds, lies := false, false
	for v := range r.p.s.Vessels {
		holds = holds || r.p.takes(v, i)
	}
	for b := range r.p.benches {
		lies = lies || r.p.items[i].BenchRoom <= r.p.benches[b].Room+slack
	}
	dry, inTime := r.alone[dropDry].could(i)
	switch {
	case !holds:
		return NoVessel, 0
	case !lies:
		return NoBenchSize, 0
	case inTime:
		return DriesTooSlow, max(0, dry-r.dryBy)
	}
	return NoHours, 0
}

// whyBusy is the reason for an item that lost its place to others.
func (r *reasoner) whyBusy(i int) (Why, int) {
	if dry, ok := r.busy[dropDry].could(i); ok {
		return DryTooLate, max(0, dry-r.dryBy)
	}
	if _, ok := r.busy[dropBench].could(i); ok {
		return BenchesTaken, 0
	}
	if _, ok := r.busy[dropVessel].could(i); ok && !r.full {
		return VesselsTaken, 0
	}
	return HandsTaken, 0
}

var helps = [...][]Help{
	NoVessel:     {LargerVessel},
	NoHours:      {Tomorrow},
	NoBenchSize:  {MoreBench},
	DriesTooSlow: {StartEarlier, OpenWindow, Tomorrow},
	HandsTaken:   {FewerPlants, Tomorrow},
	VesselsTaken: {LargerVessel, FewerPlants, Tomorrow},
	BenchesTaken: {MoreBench, FewerPlants, Tomorrow},
	DryTooLate:   {StartEarlier, OpenWindow, FewerPlants, Tomorrow},
}

// leftOut gives the reason for every item that is not served.
func (p *problem) leftOut(evening *day, served []bool, able []int) []LeftOut {
	can := make([]bool, p.n)
	for _, i := range able {
		can[i] = true
	}
	var left []LeftOut
	r := p.reasoner(evening)
	for i, yes := range served {
		if !yes {
			left = append(left, r.why(i, can[i]))
		}
	}
	return left
}
