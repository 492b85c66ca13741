package day

import (
	"context"
	"math"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Replan plans the rest of a plan's day again, from now on and with the book as
// it stands: what is in the water stays, the rest of a load that is half in goes
// in with it, what is done is done. It keeps to the old plan as long as no plant
// loses its place by that: somebody has laid the plants out. The error is a
// [model.Problem] when the plan's hours are over, or the context's.
func Replan(ctx context.Context, k *estimate.Keeper, now time.Time, old *Plan) (*Plan, error) {
	ask := old.Ask
	ask.From = model.Later(ask.From, now)
	return plan(ctx, k, now, ask, old)
}

// Change is one way in which a plan differs from an earlier one of the same day.
type Change struct {
	What    WhatChanged
	Was, Is time.Time // for a time
	Vessel  string
	From    string    // the vessel before, for plants that go into another
	Plants  model.IDs // that it is about
}

// WhatChanged is what is different.
type WhatChanged int

// What may be different in a plan.
const (
	HandsFreeAt WhatChanged = iota
	AllDryBy
	PlaceLost   // for plants
	PlaceFound  // for plants
	OtherVessel // for plants
	LoadIn      // when the load of a vessel goes in
	LoadOut     // when it comes out
)

// Changes is how a plan differs from an earlier one of the same day. It is empty
// when nothing changes that a grower would notice.
func Changes(old, now *Plan) []Change {
	c := changes{old: old, now: now}
	c.time(HandsFreeAt, "", old.HandsFree, now.HandsFree)
	c.time(AllDryBy, "", old.AllDry, now.AllDry)
	c.places()
	c.vessels()
	c.times()
	return c.found
}

type changes struct {
	old, now *Plan
	found    []Change
}

// worthAWord is from how many minutes on a changed time is worth a word. A choice.
const worthAWord = 2

func differ(a, b time.Time) bool { return math.Abs(a.Sub(b).Minutes()) >= worthAWord }

// time notes a changed time, and reports whether it is changed.
func (c *changes) time(what WhatChanged, vessel string, was, is time.Time) bool {
	if !differ(was, is) {
		return false
	}
	c.found = append(c.found, Change{What: what, Vessel: vessel, Was: was, Is: is})
	return true
}

// places finds the plants that have lost their place, and those that have one
// now.
func (c *changes) places() {
	moved := func(what WhatChanged, left []LeftOut, other *Plan) {
		var ids model.IDs
		for _, l := range left {
			if _, _, placed := other.Placed(l.ID); placed {
				ids = append(ids, l.ID)
			}
		}
		if len(ids) > 0 {
			c.found = append(c.found, Change{What: what, Plants: ids})
		}
	}
	moved(PlaceLost, c.now.Left, c.old)
	moved(PlaceFound, c.old.Left, c.now)
}

// vessels finds the plants that go into another vessel.
func (c *changes) vessels() {
	type way struct{ from, to string }
	place := map[way]int{}
	for _, l := range c.now.Loads {
		for _, t := range l.Plants {
			was, _, had := c.old.Placed(t.ID)
			if !had || c.old.Loads[was].Vessel == l.Vessel {
				continue
			}
			w := way{c.old.Loads[was].Vessel, l.Vessel}
			if _, known := place[w]; !known {
				place[w] = len(c.found)
				c.found = append(c.found, Change{What: OtherVessel, Vessel: w.to, From: w.from})
			}
			c.found[place[w]].Plants = append(c.found[place[w]].Plants, t.ID)
		}
	}
}

// times finds the loads that start or come out at another time.
func (c *changes) times() {
	for i := range c.now.Loads {
		l := &c.now.Loads[i]
		was := c.old.like(l)
		if was == nil || l.Load == 0 && c.time(LoadIn, l.Vessel, was.Start, l.Start) {
			continue
		}
		c.time(LoadOut, l.Vessel, was.Out, l.Out)
	}
}

// like is the load of a plan that shares most plants with another, in the same
// vessel; nil when none has half of them.
func (p *Plan) like(l *Load) *Load {
	shared := make([]int, len(p.Loads))
	best := -1
	for _, t := range l.Plants {
		at, _, ok := p.Placed(t.ID)
		if !ok || p.Loads[at].Vessel != l.Vessel {
			continue
		}
		shared[at]++
		if best < 0 || shared[at] > shared[best] {
			best = at
		}
	}
	if best < 0 || 2*shared[best] < len(l.Plants) {
		return nil
	}
	return &p.Loads[best]
}

// Progress is how far a plan has come.
type Progress struct {
	Plants  int           // planned, those in the water before among them
	In, Out int           // of them in the water now, and out of it since the plan was made
	Step    int           // place in [Plan.Steps] of the next thing for the hands to do; -1 when all is done
	Behind  time.Duration // how late that is; negative when it is still to come
}

// Progress holds a plan against the book at a time.
func (p *Plan) Progress(b *model.Book, now time.Time) Progress {
	g := Progress{Step: -1}
	for _, l := range p.Loads {
		g.Plants += len(l.Plants)
		for _, t := range l.Plants {
			if row := b.Row(t.ID); row != nil && row.State == model.Soaking {
				g.In++
			} else if p.wentOut(row) {
				g.Out++
			}
		}
	}
	for i := range p.Steps {
		if !p.done(&p.Steps[i], b) {
			g.Step, g.Behind = i, now.Sub(p.Steps[i].At)
			break
		}
	}
	return g
}

// wentOut reports whether a plant came out of the water since the plan was
// made, or is gone.
func (p *Plan) wentOut(row *model.Row) bool {
	return row == nil || row.State == model.Gone || row.State != model.Soaking && row.Out.After(p.Made)
}

// done reports whether a step of the hands is done. Filling and emptying are
// never waited for: the book need not know of them.
func (p *Plan) done(s *Step, b *model.Book) bool {
	for _, id := range s.Plants {
		row := b.Row(id)
		in := row != nil && row.State == model.Soaking
		if !p.wentOut(row) && !(s.Do == soak.PutIn && in) {
			return false
		}
	}
	return true
}
