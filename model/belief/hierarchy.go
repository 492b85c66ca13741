package belief

import (
	"iter"
	"math"
	"runtime"
	"sync"
)

// HierarchicalPrior is how alike the members of a population are whose multipliers
// have much in common. The logarithm of a member's multiplier is the sum of three
// parts: one that all members share, one that its group shares, and its own; each
// is normal around 0 with the spread of its level. A second unknown may go with
// it, made of three parts as well. Make one for a kind of population and keep it.
type HierarchicalPrior struct {
	all           JointMass // before any evidence
	toGroup, toMe jointStep
	most          float64 // members whose evidence counts for what all share; 0: all
}

// Spreads are the standard deviations, in the logarithm, of the three parts of a
// multiplier. A share Odd of the members (0 to 1) is not what its group is taken
// to be: their own part has the spread OddOwn.
type Spreads struct{ All, Group, Own, Odd, OddOwn float64 }

// NewHierarchicalPrior is how alike members are that lie so far apart in one
// unknown.
func NewHierarchicalPrior(s Spreads) *HierarchicalPrior { return NewJointPrior(s, oneRow) }

// NewJointPrior is how alike members are that lie so far apart in two.
func NewJointPrior(s Spreads, r Rows) *HierarchicalPrior {
	p := &HierarchicalPrior{
		all:     make(JointMass, r.Number),
		toGroup: jointStep{NewStep(s.Group), r.step(r.Group)},
		toMe:    jointStep{NewOddStep(s.Own, s.Odd, s.OddOwn), r.step(r.Own)},
	}
	for i, share := range r.prior() {
		p.all[i] = Prior(s.All)
		scale((*[Points]float64)(&p.all[i]), share)
	}
	return p
}

// Coarsened is the same prior for evidence that is read by a law which may be
// wrong: it is wrong for all members alike, so that no more than so many of them
// count for what they share. Of n members the evidence of each is raised to the
// power most/(most+n) there: the coarsened posterior of Miller & Dunson 2019 (J. Am.
// Stat. Assoc. 114:1113; from memory).
func (p *HierarchicalPrior) Coarsened(most float64) *HierarchicalPrior {
	coarse := *p
	coarse.most = most
	return &coarse
}

// Population learns about many members under a hierarchical prior.
// What is seen of one member speaks for its group, less for the others, and a new
// member borrows what its group has shown; as evidence of its own comes in, that
// takes over.
//
// The answers are exact on the grid. The three levels are a tree, and given its
// group's part each member is independent of the others, so that messages along
// the tree (J. Pearl 1988, Probabilistic Reasoning in Intelligent Systems, ch. 4;
// from memory) give what summing over all members at once would.
type Population struct {
	prior   *HierarchicalPrior
	members []*member
	groups  []group
	power   float64 // to which the evidence of each member is raised that was not measured
	version int     // of what is known of the groups; 0 nothing worked out
	stale   bool    // some evidence is newer than that

	asked Room // for the member asked for last
}

// Room is what working out what to believe of one member takes.
type Room struct{ others, own JointMass }

// Room is room for the members of this population.
func (p *Population) Room() Room {
	return Room{make(JointMass, len(p.prior.all)), make(JointMass, len(p.prior.all))}
}

// member is one member.
type member struct {
	group    int
	message  [][Points]float64 // log likelihood of its evidence, at each point of the group's part; nil: none
	measured bool              // it rests on more than a law that may be wrong
}

// group is one group.
type group struct {
	messages  [][Points]float64 // the sum of its members'
	above     JointMass         // what the other groups say of it
	posterior JointMass         // both together
}

// Population is a new population of a number of groups that has no members yet.
func (p *HierarchicalPrior) Population(groups int) *Population {
	rows := len(p.all)
	of := &Population{prior: p, groups: make([]group, groups), stale: true}
	of.asked = of.Room()
	for g := range of.groups {
		of.groups[g] = group{make([][Points]float64, rows), make(JointMass, rows), make(JointMass, rows)}
	}
	return of
}

// Join adds a member to a group (0 to the number of groups less 1) and returns its
// number, which counts up from 0.
func (p *Population) Join(group int) int {
	p.members = append(p.members, &member{group: group})
	return len(p.members) - 1
}

// Observe sets all the evidence there is of one member: the likelihood of
// everything seen of it. It replaces what was observed of it before.
func (p *Population) Observe(m int, l JointLikelihood) {
	p.hear(m, l)
	p.stale = true
}

// ObserveEach is Observe for many members, on every core: said fills in what was seen of
// the one that stands at a place among them, and is called from several goroutines.
func (p *Population) ObserveEach(members []int, said func(place int, l JointLikelihood)) {
	InParts(len(members), func(places iter.Seq[int]) {
		l := make(JointLikelihood, len(p.prior.all))
		for place := range places {
			said(place, l)
			p.hear(members[place], l)
		}
	})
	p.stale = p.stale || len(members) > 0
}

func (p *Population) hear(m int, l JointLikelihood) {
	me := p.members[m]
	if me.message == nil {
		me.message = make([][Points]float64, len(l))
	}
	p.prior.toMe.logMessageUp(l, me.message)
}

// InParts has the numbers up to n gone through on every core, a share of them each. What
// breaks one off breaks off whoever asked.
func InParts(n int, do func(numbers iter.Seq[int])) {
	const few = 32 // are not worth another goroutine
	parts := min(runtime.GOMAXPROCS(0), (n+few-1)/few)
	var all sync.WaitGroup
	broken := make([]any, parts)
	for part := range parts {
		all.Go(func() {
			defer func() { broken[part] = recover() }()
			do(func(yield func(int) bool) {
				for i := part; i < n && yield(i); i += parts {
				}
			})
		})
	}
	all.Wait()
	for _, why := range broken {
		if why != nil {
			panic(why)
		}
	}
}

// Measured says that what is observed of a member rests on a measurement, and counts in
// full for the others where the rest is coarsened.
func (p *Population) Measured(m int) { p.members[m].measured, p.stale = true, true }

// Prior is what the other members say of one member: what to believe of it before
// its own evidence. It holds until somebody asks again.
func (p *Population) Prior(m int) JointMass { return p.PriorIn(&p.asked, m) }

// PriorIn is the same in a room, where it holds until that is used again. Once the
// population has a Version, several may ask at once, each with a room of its own.
func (p *Population) PriorIn(room *Room, m int) JointMass {
	p.settle()
	me := p.members[m]
	g := &p.groups[me.group]
	others := g.posterior
	if me.message != nil {
		others = room.others
		p.observe(others, g, me)
	}
	p.prior.toMe.messageDown(others, room.own)
	return room.own
}

// Group is what is believed of the part that a group shares. It is not to be
// changed.
func (p *Population) Group(g int) JointMass {
	p.settle()
	return p.groups[g].posterior
}

// observe fills into with what the other groups say of a group and what its own
// members say, but for one of them.
func (p *Population) observe(into JointMass, g *group, without *member) {
	top := math.Inf(-1)
	for r := range into {
		for i, log := range &g.messages[r] {
			if without != nil {
				log -= p.powerOf(without) * without.message[r][i]
			}
			into[r][i] = log
			top = max(top, log)
		}
	}
	for r := range into {
		for i, log := range &into[r] {
			into[r][i] = g.above[r][i] * falling(top-log)
		}
	}
	into.normalize()
}

// Version changes whenever Prior may have changed.
func (p *Population) Version() int {
	p.settle()
	return p.version
}

// settle works out the groups anew, in the order of the members, so that the
// answer does not depend on the order of the evidence.
func (p *Population) settle() {
	if !p.stale {
		return
	}
	p.stale = false
	p.version++
	p.power = 1
	if most := p.prior.most; most > 0 {
		observed := 0.0
		for _, me := range p.members {
			if me.message != nil && !me.measured {
				observed++
			}
		}
		p.power = most / (most + observed)
	}
	for g := range p.groups {
		clear(p.groups[g].messages)
	}
	for _, me := range p.members {
		if me.message == nil {
			continue
		}
		sum, power := p.groups[me.group].messages, p.powerOf(me)
		for r := range sum {
			for i, log := range &me.message[r] {
				sum[r][i] += power * log
			}
		}
	}
	p.meetAbove()
}

// powerOf is the power to which a member's evidence is raised before it counts for
// the others.
func (p *Population) powerOf(m *member) float64 {
	if m.measured {
		return 1
	}
	return p.power
}

// meetAbove lets the groups speak for one another by way of what all have in
// common.
func (p *Population) meetAbove() {
	rows := len(p.prior.all)
	up, said := make([][][Points]float64, len(p.groups)), make(JointLikelihood, rows)
	for g := range p.groups {
		messages := p.groups[g].messages
		top := math.Inf(-1)
		for r := range messages {
			top = max(top, highest(&messages[r]))
		}
		for r := range messages {
			for i, log := range &messages[r] {
				said[r][i] = falling(top - log)
			}
		}
		up[g] = make([][Points]float64, rows)
		p.prior.toGroup.logMessageUp(said, up[g])
	}
	for g := range p.groups {
		others, top := make([][Points]float64, rows), math.Inf(-1)
		for r := range others {
			for o := range up {
				if o == g {
					continue
				}
				for i, log := range &up[o][r] {
					others[r][i] += log
				}
			}
			top = max(top, highest(&others[r]))
		}
		all := p.prior.all.Clone()
		for r := range all {
			for i, log := range &others[r] {
				all[r][i] *= falling(top - log)
			}
		}
		all.normalize()
		p.prior.toGroup.messageDown(all, p.groups[g].above)
		p.observe(p.groups[g].posterior, &p.groups[g], nil)
	}
}
