package estimate

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/leaf"
)

// walk is a round of looks, and where it led.
type walk struct {
	began, last time.Time
	shelves     map[string]bool // by model.ShelfKey
	watered     map[string]hint // the same: what their looks say of water that nobody wrote down
	usual       float64         // see [usualHint]
	silence     silence         // what it says of plants on them that nothing was written of them
}

const (
	// walkPause is the longest pause between two looks of one walk. A choice.
	walkPause = 2 * time.Hour
	// soakedAfter is how long after a walk a plant may go into the water and still have been walked past: it
	// was in the grower's hand. A choice.
	soakedAfter = 12 * time.Hour
)

// walked takes in looks.
func (k *Keeper) walked(at time.Time, ids []model.ID) {
	w := &k.walk
	if at.Sub(w.last) > walkPause || at.Before(w.began) {
		k.hinted = append(k.hinted, w.hints()...)
		*w = walk{began: at, shelves: map[string]bool{}, watered: map[string]hint{}, silence: k.candour.silence()}
	}
	w.last = model.Later(w.last, at)
	for _, id := range ids {
		w.shelves[k.plants[id].shelfKey] = true
	}
}

// walkedPast takes in that a plant goes into the water of which something or nothing was written on a walk along
// its shelf before.
func (k *Keeper) walkedPast(p *plantState, at time.Time) {
	w := &k.walk
	if p.wet || at.Before(w.last) || at.Sub(w.last) > soakedAfter || !w.shelves[p.shelfKey] {
		return
	}
	if p.seen != nil && !p.seen.look.Before(w.began) {
		k.candour.wrote(p.seen.fine)
		return
	}
	k.candour.passed++
	if w.silence.fine*stranger.bad <= stranger.fine*w.silence.bad {
		return
	}
	var rwc grid
	p.at(at, p.traits, k.climate, &rwc)
	s, passed := k.spell(p), k.plane()
	signLikelihood(leaf.Signs{Tips: leaf.NotSeen, Shift: leaf.NotSeen}, &rwc, p.traits.Signs, passed)
	for r := range passed {
		for i, flat := range &passed[r] {
			passed[r][i] = w.silence.bad + w.silence.fine*flat
		}
	}
	s.settled, s.at = k.combine(s.settled, passed), at
	p.loss.fresh = false
}

// candour is how much of what she sees this grower writes down: of plants on shelves that were walked along just
// before their soak, how many were written down as fine, how many as not, and how many not at all.
type candour struct{ fine, bad, passed float64 }

func (c *candour) wrote(fine bool) {
	if fine {
		c.fine++
	} else {
		c.bad++
	}
}

// looksFine reports whether there is nothing wrong with what was seen. That few brown tips are nothing is a choice.
func looksFine(s model.Signs) bool { return s.Curl <= 0 && s.Tips <= 1 }

// What is held possible: the share of fine plants that are written down when they were looked at, the share of plants
// that are looked at on a shelf where some were, and the share of plants that look fine; and how likely each is. All
// guesses: most growers who grade a shelf write down most of it, some only what is wrong, and some only a few plants
// that stand for the rest. Somebody who counts beside a book would replace them.
var (
	fineWritten = [...]likely{{0, 0.15}, {0.25, 0.10}, {0.5, 0.15}, {0.75, 0.20}, {1, 0.40}}
	lookedAt    = [...]likely{{0.05, 0.10}, {0.2, 0.10}, {0.4, 0.10}, {0.6, 0.15}, {0.75, 0.20}, {0.9, 0.25}, {0.98, 0.10}}
	lookingFine = [...]likely{{0.1, 0.1}, {0.2, 0.1}, {0.3, 0.1}, {0.4, 0.1}, {0.5, 0.1}, {0.6, 0.1}, {0.7, 0.1},
		{0.8, 0.1}, {0.9, 0.1}, {0.95, 0.1}}
)

type likely struct{ share, chance float64 }

const (
	// candidLooks is how many plants count at most: those of one home are not drawn by lot. A choice.
	candidLooks = 100
	// allTheSame is the share of plants looked at that are written down as fine by who writes down none. A guess.
	allTheSame = 0.01
)

// grower is one who is held possible: how likely she is, the logarithms of how likely each thing is that a plant may
// meet with, and what her silence says.
type grower struct {
	chance            float64
	fine, bad, passed float64
	silence           silence
}

// silence is how likely it is that nothing is written of a plant that looks bad, and how much likelier of one that
// looks fine.
type silence struct{ bad, fine float64 }

var growers = func() (all []grower) {
	for _, writes := range fineWritten {
		for _, looks := range lookedAt {
			for _, fine := range lookingFine {
				asFine, asBad := looks.share*max(writes.share*fine.share, allTheSame), looks.share*(1-fine.share)
				all = append(all, grower{
					chance: writes.chance * looks.chance * fine.chance,
					fine:   math.Log(asFine), bad: math.Log(asBad), passed: math.Log(1 - asFine - asBad),
					silence: silence{1 - looks.share, looks.share * (1 - writes.share)},
				})
			}
		}
	}
	return all
}()

// stranger's silence is that of a grower who is not known: nothing is read into it, nor into one that says less.
var stranger = (&candour{}).silence()

// silence is what this grower's says.
func (c *candour) silence() (s silence) {
	power, top := candidLooks/(candidLooks+c.fine+c.bad+c.passed), math.Inf(-1)
	log := func(g *grower) float64 { return power * (c.fine*g.fine + c.bad*g.bad + c.passed*g.passed) }
	for i := range growers {
		top = max(top, log(&growers[i]))
	}
	sum := 0.0
	for i := range growers {
		g := &growers[i]
		chance := g.chance * math.Exp(log(g)-top)
		sum += chance
		s.bad += chance * g.silence.bad
		s.fine += chance * g.silence.fine
	}
	return silence{s.bad / sum, s.fine / sum}
}
