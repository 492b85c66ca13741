package day

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Changed is how a plan differs from the one shown before it.
type Changed struct {
	Load     int       // the number of the first load that goes into another vessel now; 0: none
	From, To string    // the vessels of that load
	Moved    int       // loads that go into another vessel
	Remade   bool      // plants go with others than before
	Left     model.IDs // plants to soak that have no place any more
	Back     model.IDs // plants that have one now
	Was, Is  time.Time // the hands are free; zero where that is the same within some minutes
}

// freeWorthAWord is from how many minutes on another end of the day is worth a word. A
// guess.
const freeWorthAWord = 5 * time.Minute

// Since tells how a plan has changed from an earlier one of the same day. What is done
// since is no change.
func (p *Plan) Since(was *Plan) Changed {
	var c Changed
	placed := map[model.ID]int{}
	for l := range was.Loads {
		for _, t := range was.Loads[l].Plants {
			placed[t.ID] = l
		}
	}
	for n := range p.Loads {
		l := &p.Loads[n]
		from, seen := -1, map[int]bool{}
		for _, t := range l.Plants {
			at, ok := placed[t.ID]
			if delete(placed, t.ID); !ok {
				if l.Load == 0 && !l.Done {
					c.Back = append(c.Back, t.ID)
				}
				continue
			}
			if from < 0 {
				from = at
			}
			seen[at] = true
		}
		if l.Load != 0 || l.Done || from < 0 {
			continue
		}
		c.Remade = c.Remade || len(seen) > 1
		if before := was.Loads[from].Vessel; before != l.Vessel {
			if c.Moved++; c.Moved == 1 {
				c.Load, c.From, c.To = n+1, before, l.Vessel
			}
		}
	}
	for _, l := range was.Loads {
		for _, t := range l.Plants {
			if _, gone := placed[t.ID]; gone && l.Load == 0 && !l.Done && slices.ContainsFunc(p.Left, func(left LeftOut) bool { return left.ID == t.ID }) {
				c.Left = append(c.Left, t.ID)
			}
		}
	}
	if d := p.DayFree.Sub(was.DayFree); d.Abs() >= freeWorthAWord && p.hasHands() {
		c.Was, c.Is = was.DayFree, p.DayFree
	}
	return c
}

// hasHands reports whether there is work of the hands to come.
func (p *Plan) hasHands() bool {
	return slices.ContainsFunc(p.Steps, func(s Step) bool { return !s.Done && s.Do != soak.Fill })
}
