package day

import (
	"context"
	"fmt"
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

// Changes says in words how a plan differs from an earlier one of the same day.
// It is empty when nothing changes that a grower would notice.
func Changes(old, now *Plan) []string {
	c := changes{old: old, now: now}
	c.time("hands free", old.HandsFree, now.HandsFree)
	c.time("all dry by", old.AllDry, now.AllDry)
	c.places()
	c.vessels()
	c.times()
	return c.words
}

type changes struct {
	old, now *Plan
	words    []string
}

func (c *changes) say(format string, args ...any) {
	c.words = append(c.words, fmt.Sprintf(format, args...))
}

// worthAWord is from how many minutes on a changed time is worth a word. Our own.
const worthAWord = 2

func differ(a, b time.Time) bool { return math.Abs(a.Sub(b).Minutes()) >= worthAWord }

func (c *changes) time(what string, was, is time.Time) {
	if differ(was, is) {
		c.say("%s %s instead of %s", what, is.Format("15:04"), was.Format("15:04"))
	}
}

// places says which plants have lost their place, and which have one now.
func (c *changes) places() {
	var lost, found model.IDs
	for _, l := range c.now.Left {
		if _, _, had := c.old.Placed(l.ID); had {
			lost = append(lost, l.ID)
		}
	}
	for _, l := range c.old.Left {
		if _, _, has := c.now.Placed(l.ID); has {
			found = append(found, l.ID)
		}
	}
	if len(lost) > 0 {
		c.say("no place any more for %s", countPlants(lost))
	}
	if len(found) > 0 {
		c.say("a place now for %s", countPlants(found))
	}
}

// vessels says which plants go into another vessel.
func (c *changes) vessels() {
	type way struct{ from, to string }
	moved := map[way]model.IDs{}
	var order []way
	for _, l := range c.now.Loads {
		for _, t := range l.Plants {
			was, _, had := c.old.Placed(t.ID)
			if !had || c.old.Loads[was].Vessel == l.Vessel {
				continue
			}
			w := way{c.old.Loads[was].Vessel, l.Vessel}
			if moved[w] == nil {
				order = append(order, w)
			}
			moved[w] = append(moved[w], t.ID)
		}
	}
	for _, w := range order {
		c.say("%s into %s instead of %s", countPlants(moved[w]), w.to, w.from)
	}
}

// times says which loads start or come out at another time.
func (c *changes) times() {
	for i := range c.now.Loads {
		l := &c.now.Loads[i]
		was := c.old.like(l)
		if was == nil {
			continue
		}
		if l.Load == 0 && differ(l.Start, was.Start) {
			c.say("%s: in at %s instead of %s", l.Vessel, l.Start.Format("15:04"), was.Start.Format("15:04"))
		} else if differ(l.Out, was.Out) {
			c.say("%s: out from %s instead of %s", l.Vessel, l.Out.Format("15:04"), was.Out.Format("15:04"))
		}
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

// fewPlants is how many plants a sentence names by number. Our own.
const fewPlants = 6

func countPlants(ids model.IDs) string {
	switch {
	case len(ids) == 1:
		return "plant " + ids.String()
	case len(ids) <= fewPlants:
		return fmt.Sprintf("%d plants (%s)", len(ids), ids)
	}
	return fmt.Sprintf("%d plants", len(ids))
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
