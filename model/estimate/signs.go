package estimate

import (
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

const (
	// againHours is how soon a second look is one at the same thirst: it confirms the first or takes it back. A choice.
	againHours = 12
	// sameLook is how long a look may be put right or added to before that is a second one. A choice.
	sameLook = 5 * time.Minute
)

// A plant that looks thirsty within soonDays of drying, when the numbers give
// that less than oddChance, contradicts them: it did not drink, or what looks
// like thirst is none. A choice.
const (
	soonDays  = 3
	oddChance = 0.05
)

// Agreement says how a look stands to what was believed before it.
type Agreement int

// How a look may stand.
const (
	Agrees Agreement = iota
	LooksDrier
	LooksFuller
)

// Eye is the last look at a plant beside what was believed before it.
type Eye struct {
	Says   Agreement
	Thirst float64 // the mean of what was believed of its thirst then, where it does not agree
	Sure   bool    // a second look said the same

	before *belief.Mass // what was believed of its multiplier, where that may yet be right
}

// lookAgain is the chance under which a look contradicts what was believed
// before it: two grades off, since one is a misclassification. A choice.
const lookAgain = 0.02

// eyeOn compares the last look at a plant with what was believed before it.
func (k *Keeper) eyeOn(p *plantState) Eye {
	if p.seen == nil || p.seen.look.IsZero() || p.wet {
		return Eye{}
	}
	k.updatePopulations()
	s, curl := p.seen, int8(k.book.Row(p.id).Signs.Curl)
	if version := k.lossVersion(); !s.eyed || s.eyeVersion != version {
		s.eye, s.eyed, s.eyeVersion = k.compare(p, curl), true, version
	}
	return s.eye
}

func (k *Keeper) compare(p *plantState, curl int8) Eye {
	if curl == leaf.NotSeen {
		return Eye{}
	}
	joint := k.lossBeforeLook(p)
	before := joint.Marginal()
	eye := Eye{Thirst: 1 - before.MeanOf(&p.seen.left), Sure: p.seen.sure}
	if !eye.Sure {
		eye.before = &before
	}
	switch {
	case p.curlChance(curl, joint, &p.seen.left) < lookAgain:
		eye.Says = LooksDrier
	case 1-p.curlChance(curl+1, joint, &p.seen.left) < lookAgain:
		eye.Says = LooksFuller
	default:
		return Eye{}
	}
	return eye
}

// spell is what was seen of a plant between two soaks: evidence on its multiplier, for
// each way in which it may show its thirst.
type spell struct {
	settled belief.JointLikelihood // all but the last look
	last    belief.JointLikelihood // the last look
	ratio   float64                // how many times as likely that look is if the plant had
	watered belief.JointLikelihood // how likely the last look is if the plant had water that is not in the book; nil: it does not tell
	look    time.Time
	curl    int8      // seen at it
	sure    bool      // and at a look shortly before it
	at      time.Time // the newest of it, looks and weights
	soon    bool      // looked at soon after the soak
	fine    bool      // nothing was wrong with it at the last look
	weighed int       // times, since the soak
	scale   Scales    // the last of those beside what was believed before it
	odd     bool      // and it contradicted, the last look left out
	oddLast bool      // the last look contradicts

	left       grid // relative water content at the last look, for each multiplier
	eye        Eye  `snapshot:"-"` // how the last look stands to what was believed before, when eyed
	eyed       bool `snapshot:"-"`
	eyeVersion int  `snapshot:"-"` // of the population, that eye belongs to
}

// contradicts reports whether a look said that the soak did not help.
func (s *spell) contradicts() bool { return s != nil && (s.odd || s.oddLast) }

// suspect reports whether the plant looked thirsty right after two soaks in a
// row. Then it is not thirst: what is seen no longer counts as such.
func (p *plantState) suspect() bool { return p.odd > 0 && p.seen.contradicts() }

// spell is what was seen since the last soak, begun if need be.
func (k *Keeper) spell(p *plantState) *spell {
	if p.seen != nil {
		return p.seen
	}
	if n := len(k.spells); n > 0 {
		p.seen, k.spells = k.spells[n-1], k.spells[:n-1]
		*p.seen = spell{}
	} else {
		p.seen = &spell{}
	}
	return p.seen
}

// look takes signs as evidence on the multiplier. A look soon after another stands for both.
func (k *Keeper) look(p *plantState, t time.Time, signs model.Signs) {
	if p.wet {
		return // wet leaves say nothing about thirst
	}
	s, seen := k.spell(p), signsOf(byLeaves(signs))
	seen.Slip = k.slips.share()
	if since := t.Sub(s.look); s.look.IsZero() || since.Hours() >= againHours {
		k.past(p, s)
		s.settled, s.last = k.combine(s.settled, s.last), nil
		s.odd, s.sure = s.odd || s.oddLast, false
	} else {
		k.slips.again(s, seen.Curl, since)
	}
	if s.curl = seen.Curl; s.sure {
		seen.Slip = leaf.Twice(seen.Slip)
	}
	var rwc grid
	p.at(t, p.traits, k.climate, &rwc)
	if s.last == nil {
		s.last = k.plane()
	}
	signLikelihood(seen, &rwc, p.traits.Signs, s.last)
	if k.forget(s); t.Sub(p.dry).Hours() >= unwrittenFrom*24 && !p.vague() {
		k.read(p, t, seen, s)
		if s.look.Before(k.walk.began) {
			k.hint(p, t)
		}
	}
	s.look, s.at, s.left, s.eyed = t, t, rwc, false
	s.fine = looksFine(signs)
	s.oddLast = false
	if t.Sub(p.dry).Hours() <= soonDays*24 {
		s.soon = true
		s.oddLast = signs.Curl > 0 && p.curlChance(int8(signs.Curl), unlearned.Observe(p.evidence), &rwc) < oddChance
	}
	p.loss.fresh = false
}

// byLeaves is what signs say of the water in a plant. A leaf is dark wherever its surface is wet, from a mist, a drip or dew
// (Schimper 1888): where the leaves have a deep channel, that is no word on how full it is.
func byLeaves(s model.Signs) model.Signs {
	if s.Shift == model.AlreadyDark && s.Curl >= 2 {
		s.Shift = model.NotSeen
	}
	return s
}

// curlChance is how likely a belief makes at least so much curl, by the water the
// plant has at each multiplier and by when its signs come.
func (p *plantState) curlChance(curl int8, joint belief.JointMass, rwc *grid) float64 {
	chance := 0.0
	for r := range joint {
		scale := p.traits.Signs.Times(leaf.RowMultiple(r))
		for i, share := range &joint[r] {
			if share > 1e-6 {
				chance += share * scale.CurlChance(curl, 1-rwc[i])
			}
		}
	}
	return chance
}

// settle ends a spell: what was seen in it goes over into what is learned,
// unless it contradicts the soak or nobody knows when that was.
func (k *Keeper) settle(p *plantState, t time.Time) {
	s := p.seen
	if s == nil {
		return
	}
	p.seen = nil
	defer k.release(s)
	if s.contradicts() {
		p.odd++
		p.loss.fresh = false
		return
	}
	if s.soon {
		p.odd = 0
	}
	if p.vague() {
		p.loss.fresh = false
		return
	}
	k.past(p, s)
	k.learnLoss(p, s, t)
}

// release is for a spell that is over: its room is used again.
func (k *Keeper) release(s *spell) {
	for _, plane := range []belief.JointLikelihood{s.settled, s.last, s.watered} {
		if plane != nil {
			k.planes = append(k.planes, plane)
		}
	}
	k.spells = append(k.spells, s)
}

// plane is room for what a look says. What stands in it is of before.
func (k *Keeper) plane() belief.JointLikelihood {
	n := len(k.planes) - 1
	if n < 0 {
		return make(belief.JointLikelihood, leaf.SignRows)
	}
	plane := k.planes[n]
	k.planes = k.planes[:n]
	return plane
}

// combine is evidence and more of the same plant, which is not to be used any more.
func (k *Keeper) combine(all, more belief.JointLikelihood) belief.JointLikelihood {
	if all == nil {
		return more
	}
	if more != nil {
		k.planes = append(k.planes, more)
	}
	return all.Combine(more)
}

// scale is a weight of a plant that later ones are held against, and how full it was
// then, for each multiplier.
type scale struct {
	grams float64
	at    time.Time
	full  grid
	wet   bool // it was taken after a soak
}

// weigh takes a weight as evidence: far stronger than any sign. Until a plant was
// weighed after a soak, its first weight is what later ones are held against.
func (k *Keeper) weigh(p *plantState, t time.Time, f *model.Weigh) {
	switch {
	case k.blind:
		return
	case p.soaking():
		k.learnSeries(p, t, f.Grams)
		return
	}
	k.learnUptake(p, t, f.Grams)
	left := p.waters(t, p.traits, k.climate)
	switch {
	case f.Wet || p.scale == nil:
		p.scale = &scale{grams: f.Grams, at: t, wet: f.Wet}
		left.mean(&p.scale.full)
	case !p.wet:
		k.holdAgainst(p, &left, t, f.Grams)
	}
	switch s := p.seen; {
	case s != nil && s.scale.Says != Agrees: // a weight in doubt tells nothing of how fast it drinks
		p.weighed = nil
	case !p.wet:
		p.weighed = &weighing{grams: f.Grams, at: t}
		left.mean(&p.weighed.rwc)
	}
}

// At what thirst plants show what signs is not known, and is learned with the rate
// of loss: signRows is how far it lies apart in what all plants share, the eye of
// this grower counted in, in what a form shares and between plants, as standard
// deviations of the logarithm. A guess: nobody has measured it for any Tillandsia;
// growers say that curl is read against the plant's own picture. Plants graded and
// weighed through a few weeks would replace it.
var signRows = belief.Rows{Number: leaf.SignRows, Apart: leaf.SignStep, All: 0.45, Group: 0.14, Own: 0.14}

// signLikelihood fills seen with the likelihood of signs on a plant that has so much water left
// at each multiplier, for each thirst at which signs may come.
func signLikelihood(s leaf.Signs, rwc *grid, scale leaf.SignsScale, seen belief.JointLikelihood) {
	var rows [leaf.SignRows][]float64
	for r := range rows {
		rows[r] = seen[r][:]
	}
	s.Rows(rows[:], rwc[:], scale)
}

func signsOf(s model.Signs) leaf.Signs {
	return leaf.Signs{Curl: int8(s.Curl), Tips: int8(s.Tips), Shift: int8(s.Shift)}
}
