package belief

import "slices"

// Family learns one multiplier of many members that have much in common. The logarithm of a member's multiplier is the sum of
// three parts: one that all members share, one that its group shares, and its own; each is normal around 0 with the spread of its
// level. What is seen of one member therefore speaks for its group, less for the others, and a new member borrows what its group
// has shown; as evidence of its own comes in, that takes over.
//
// The answers are exact on the grid. The three levels are a tree, and given its group's part each member is independent of the
// others, so that sums along the tree (J. Pearl 1988, Probabilistic Reasoning in Intelligent Systems, ch. 4; from memory) give what
// summing over all members at once would.
type Family struct {
	*Kinship
	members []*member
	groups  []group
	version int  // of what is known of the groups; 0 nothing worked out
	stale   bool // some evidence is newer than that
}

// Kinship is how alike the members of a family are. Make one for a kind of family and keep it.
type Kinship struct {
	all           Shares // before any evidence
	toGroup, toMe *Step
}

// member is one member.
type member struct {
	group   int
	told    bool
	said    Shares // likelihood of its evidence at each point of the group's part
	prior   Shares // what the others say of it
	version int    // of the family that prior belongs to
}

// group is one group.
type group struct {
	said Shares // likelihood of all its members' evidence
	now  Shares // with what the other groups say of it
}

// Spreads are the standard deviations, in the logarithm, of the three parts of a multiplier. A share Odd of the members (0 to 1) is
// not what its group is taken to be: their own part has the spread OddOwn.
type Spreads struct{ All, Group, Own, Odd, OddOwn float64 }

// NewKinship is how alike members are that lie so far apart.
func NewKinship(s Spreads) *Kinship {
	return &Kinship{all: Prior(s.All).Shares(), toGroup: NewStep(s.Group), toMe: NewOddStep(s.Own, s.Odd, s.OddOwn)}
}

// Family is a new family of a number of groups that has no members yet.
func (k *Kinship) Family(groups int) *Family {
	return &Family{Kinship: k, groups: make([]group, groups), stale: true}
}

// Join adds a member to a group (0 to the number of groups less 1) and returns its number, which counts up from 0.
func (f *Family) Join(group int) int {
	f.members = append(f.members, &member{group: group})
	return len(f.members) - 1
}

// Tell sets all the evidence there is of one member: the likelihood of everything seen of it. It replaces what was told before.
func (f *Family) Tell(m int, likelihood *Shares) {
	f.members[m].said = f.toMe.Up(likelihood)
	f.members[m].told = true
	f.stale = true
}

// Prior is what the other members say of one member: what to believe of it before its own evidence. It holds until the next Tell.
func (f *Family) Prior(m int) *Shares {
	f.settle()
	me := f.members[m]
	if me.version != f.version {
		me.prior = f.priorOf(me)
		me.version = f.version
	}
	return &me.prior
}

// priorOf takes the member's own word out of its group's and steps down.
func (f *Family) priorOf(me *member) Shares {
	g := &f.groups[me.group]
	others := g.now
	if me.told {
		least, sum := negligible*others.highest(), 0.0
		for v := range others {
			if others[v] <= least {
				others[v] = 0
				continue
			}
			others[v] /= me.said[v]
			sum += others[v]
		}
		others.scale(1 / sum)
	}
	return f.toMe.Down(&others)
}

// Group is what is believed of a group's multiplier: that of all and its own part together.
func (f *Family) Group(g int) Shares {
	f.settle()
	return f.groups[g].now
}

// Version changes whenever Prior may have changed.
func (f *Family) Version() int {
	f.settle()
	return f.version
}

// settle works out the groups anew, in the order of the members, so that the answer does not depend on the order of the telling.
func (f *Family) settle() {
	if !f.stale {
		return
	}
	f.stale = false
	f.version++
	for g := range f.groups {
		f.groups[g].said = Level()
	}
	for i := range f.members {
		if me := f.members[i]; me.told {
			f.groups[me.group].said.times(&me.said)
		}
	}
	f.meetAbove()
}

// meetAbove lets the groups speak for one another by way of what all have in common.
func (f *Family) meetAbove() {
	ups := make([]Shares, len(f.groups))
	for g := range f.groups {
		ups[g] = f.toGroup.Up(&f.groups[g].said)
	}
	for g := range f.groups {
		others := f.all
		for o := range ups {
			if o != g {
				others.times(&ups[o])
			}
		}
		f.groups[g].now = f.toGroup.Down(&others)
		f.groups[g].now.times(&f.groups[g].said)
		f.groups[g].now.whole()
	}
}

// Level is the likelihood of evidence that says nothing: 1 everywhere.
func Level() Shares { return level }

var level = Shares(slices.Repeat([]float64{1}, Points))

// times multiplies by a likelihood and lifts the highest to 1, so that thousands of them can be multiplied.
func (s *Shares) times(by *Shares) {
	top := 0.0
	for i := range s {
		s[i] *= by[i]
		top = max(top, s[i])
	}
	s.scale(1 / top)
}

func (s *Shares) whole() {
	sum := 0.0
	for _, v := range s {
		sum += v
	}
	s.scale(1 / sum)
}
