package belief

// HierarchicalPrior is how alike the members of a population are whose multipliers
// have much in common. The logarithm of a member's multiplier is the sum of three
// parts: one that all members share, one that its group shares, and its own; each
// is normal around 0 with the spread of its level. Make one for a kind of
// population and keep it.
type HierarchicalPrior struct {
	all           Mass // before any evidence
	toGroup, toMe *Step
}

// Spreads are the standard deviations, in the logarithm, of the three parts of a
// multiplier. A share Odd of the members (0 to 1) is not what its group is taken
// to be: their own part has the spread OddOwn.
type Spreads struct{ All, Group, Own, Odd, OddOwn float64 }

// NewHierarchicalPrior is how alike members are that lie so far apart.
func NewHierarchicalPrior(s Spreads) *HierarchicalPrior {
	return &HierarchicalPrior{all: Prior(s.All), toGroup: NewStep(s.Group), toMe: NewOddStep(s.Own, s.Odd, s.OddOwn)}
}

// Population learns one multiplier of many members under a hierarchical prior.
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
	version int  // of what is known of the groups; 0 nothing worked out
	stale   bool // some evidence is newer than that
}

// member is one member.
type member struct {
	group    int
	observed bool
	message  Likelihood // of its evidence, at each point of the group's part
	prior    Mass       // what the others say of it
	version  int        // of the population that prior belongs to
}

// group is one group.
type group struct {
	likelihood Likelihood // of all its members' evidence
	posterior  Mass       // with what the other groups say of it
}

// Population is a new population of a number of groups that has no members yet.
func (p *HierarchicalPrior) Population(groups int) *Population {
	return &Population{prior: p, groups: make([]group, groups), stale: true}
}

// Join adds a member to a group (0 to the number of groups less 1) and returns its
// number, which counts up from 0.
func (p *Population) Join(group int) int {
	p.members = append(p.members, &member{group: group})
	return len(p.members) - 1
}

// Observe sets all the evidence there is of one member: the likelihood of
// everything seen of it. It replaces what was observed of it before.
func (p *Population) Observe(m int, l *Likelihood) {
	p.members[m].message = p.prior.toMe.MessageUp(l)
	p.members[m].observed = true
	p.stale = true
}

// Prior is what the other members say of one member: what to believe of it before
// its own evidence. It holds until the next Observe.
func (p *Population) Prior(m int) *Mass {
	p.settle()
	me := p.members[m]
	if me.version != p.version {
		me.prior = p.priorOf(me)
		me.version = p.version
	}
	return &me.prior
}

// priorOf takes the member's own message out of its group's and steps down.
func (p *Population) priorOf(me *member) Mass {
	others := p.groups[me.group].posterior
	if me.observed {
		least, sum := negligible*highest((*[Points]float64)(&others)), 0.0
		for v := range others {
			if others[v] <= least {
				others[v] = 0
				continue
			}
			others[v] /= me.message[v]
			sum += others[v]
		}
		scale((*[Points]float64)(&others), 1/sum)
	}
	return p.prior.toMe.MessageDown(&others)
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
	for g := range p.groups {
		p.groups[g].likelihood = Level()
	}
	for _, me := range p.members {
		if me.observed {
			times((*[Points]float64)(&p.groups[me.group].likelihood), &me.message)
		}
	}
	p.meetAbove()
}

// meetAbove lets the groups speak for one another by way of what all have in
// common.
func (p *Population) meetAbove() {
	up := make([]Likelihood, len(p.groups))
	for g := range p.groups {
		up[g] = p.prior.toGroup.MessageUp(&p.groups[g].likelihood)
	}
	for g := range p.groups {
		others := p.prior.all
		for o := range up {
			if o != g {
				times((*[Points]float64)(&others), &up[o])
			}
		}
		posterior := p.prior.toGroup.MessageDown(&others)
		times((*[Points]float64)(&posterior), &p.groups[g].likelihood)
		posterior.normalize()
		p.groups[g].posterior = posterior
	}
}
