package estimate

import (
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// Projection carries the plants' water on from now, in the air that is expected.
type Projection struct {
	keeper  *Keeper
	now     time.Time
	deficit float64 // kPa, from now on
	dry     *DryTimes
	wet     powers // of the room now, on wet leaves
}

// Project begins at what is believed now. The times to dry are for plants that
// go into the water from now on, and for those in it; they may be nil where
// there are none.
func (k *Keeper) Project(now time.Time, expected ExpectedAir, dry *DryTimes) *Projection {
	p := &Projection{keeper: k, now: now, deficit: expected.Deficit, dry: dry}
	if dry != nil {
		p.wet = powers{stream: dry.stream(fanSpeed(dry.room.Fan))}
	}
	return p
}

// Course is one plant's water from now on.
type Course struct {
	WetUntil time.Time // when it is dry at the latest, by what is expected; zero when it is dry now

	traits        *Traits
	mass          belief.Mass
	doubt         *belief.Mass // believed before a look that contradicts it; nil: none
	unwritten     float64      // how likely it had water which nobody wrote down
	taus          [2]float64   // of its uptake, hours
	before        waters       // RWC until it is dry
	stretch                    // from when it is dry on
	dry           time.Time    // when it is dry
	cumulativeVPD func(from, to time.Time) float64
}

// Course is the water of a plant to which nothing is done: it begins at what is
// believed of it now. A plant in the water comes out when it is due, and may
// take dryHours to be dry; one out of it is dry when expected.
func (p *Projection) Course(row *model.Row, dryHours func(*model.Row) float64) *Course {
	k := p.keeper
	w := k.plants[row.ID].shown()
	c := p.course(row, &w.stretch)
	switch {
	case w.wet && row.State == model.Soaking:
		out := model.Later(k.book.Load(row.Load).Due, p.now)
		p.refill(c, max(0, out.Sub(row.In).Minutes())) // a clock may have been set back
		c.dry, c.WetUntil = out, out.Add(model.Hours(dryHours(row)))
	case w.wet && row.State == model.Drying:
		d := k.DryOut(row, p.now)
		c.dry, c.WetUntil = model.Later(d.Expected, p.now), model.Later(d.High, p.now)
	case w.wet:
		c.dry = p.now
	}
	return c
}

// CourseAsLeft is the water of a plant as it was expected when a trip began,
// from what was known then. It is false for a plant that was in water since, or
// of which that is not known any more.
func (p *Projection) CourseAsLeft(row *model.Row, left time.Time) (*Course, bool) {
	k := p.keeper
	w := &k.plants[row.ID].water
	if w.wet || w.dry.After(left) || row.LastSoak().After(left) {
		return nil, false
	}
	s := &w.stretch
	if w.misted.After(left) {
		if w.left == nil || !w.left.from.Equal(left) {
			return nil, false
		}
		s = &w.left.stretch
	}
	c := p.course(row, s)
	if w.seen != nil && w.seen.look.After(left) {
		c.mass, c.doubt, c.unwritten = k.lossBeforeLook(k.plants[row.ID]).Marginal(), nil, k.unwritten.usual()
	}
	return c, true
}

// course begins at what is believed of a stretch.
func (p *Projection) course(row *model.Row, s *stretch) *Course {
	k := p.keeper
	w := &k.plants[row.ID].water
	c := &Course{
		traits:    k.plants[row.ID].traits,
		mass:      *k.lossMass(k.plants[row.ID]),
		unwritten: k.wateredChance(k.plants[row.ID]),
		taus:      k.taus(k.plants[row.ID]),
		before:    s.full,
		stretch:   *s,
		dry:       w.dry,
	}
	c.doubt = k.eyeOn(k.plants[row.ID]).before
	c.cumulativeVPD = func(dry, to time.Time) float64 {
		if dry.Equal(w.dry) { // on another shelf for part of it, perhaps
			return s.spent + w.factor*(p.cumulativeVPD(dry, s.since, to)-s.bare)
		}
		return w.factor * p.cumulativeVPD(dry, dry, to)
	}
	return c
}

// Soaked is a plant's course with a soak of some minutes. It is taken to lose
// water from when it comes out: a few hours too early, and so a little too dry.
func (p *Projection) Soaked(c *Course, in, out time.Time, minutes float64) *Course {
	soaked := *c
	soaked.full = c.at(in)
	soaked.soaks()
	p.refill(&soaked, minutes)
	soaked.dry = out
	return &soaked
}

// refill soaks a plant in its course, shaken out into the room as it is now.
func (p *Projection) refill(c *Course, minutes float64) {
	c.full.fill(minutes, c.taus, c.traits.filmIn(p.wet.on(c.traits.Drying.LeafWidthM)).Film)
	c.fullest = c.full.thirst()
}

// cumulativeVPD is the drying power of the room on a plant dry since dry, between two
// times: of the past as it was read, of what is to come as it is expected.
func (p *Projection) cumulativeVPD(dry, from, to time.Time) float64 {
	days := func(t time.Time) float64 { return t.Sub(dry).Hours() / 24 }
	total := 0.0
	if from.Before(p.now) {
		total = p.keeper.climate.cumulativeVPD(dry, from, model.Earlier(to, p.now))
	}
	if to.After(p.now) {
		total += leaf.Dose(days(model.Later(from, p.now)), days(to), p.deficit)
	}
	return total
}

// at is how full the plant is at a time.
func (c *Course) at(t time.Time) waters {
	if t.Before(c.dry) {
		return c.before
	}
	return c.full.after(c.traits.LossRate * c.cumulativeVPD(c.dry, t))
}

// Stand is how the plant stands at a time.
func (c *Course) Stand(t time.Time) Stand {
	left := c.at(t)
	return believed{&c.mass, c.unwritten, c.untold(&left), 1 - c.fullest}.stand(c.doubt, &left)
}

func (c *Course) mean(t time.Time) float64 {
	left := c.at(t)
	return left.meanOf(&c.mass)
}

// Crossing finds, to the hour, when the mean falls to a line of RWC that it has fallen to by until.
func (c *Course) Crossing(line float64, from, until time.Time) time.Time {
	if c.mean(from) <= line {
		return from
	}
	for until.Sub(from) > time.Hour {
		if m := middle(from, until); c.mean(m) <= line {
			until = m
		} else {
			from = m
		}
	}
	return until
}

// Point is a plant's water at one moment of its past, as it was believed then.
type Point struct {
	At      time.Time
	RWC     float64
	Low     float64 // 10 % of what was believed lies below
	High    float64
	InWater bool
}

// Trace follows one plant's water from one time to another at n even moments,
// leaving out those before the plant was in the book. A plant split off a tray
// has the tray's past until then. What its own signs told is counted from when
// they were seen; what its group told, as it is known now.
func (k *Keeper) Trace(id model.ID, from, to time.Time, n int) []Point {
	p := k.plants[id]
	if p == nil {
		return nil
	}
	kin := k.uptakes.population.Prior(p.uptake.member)[0]
	t := tracer{keeper: k, prior: k.groupPrior(p).Clone(), kin: &kin}
	past := k.lineage(id)
	points := make([]Point, 0, n)
	for i := range n {
		at := from
		if n > 1 {
			at = from.Add(time.Duration(float64(to.Sub(from)) * float64(i) / float64(n-1)))
		}
		for len(past) > 0 && !past[0].At.After(at) {
			t.take(past[0])
			past = past[1:]
		}
		if t.alone != nil {
			points = append(points, t.point(at))
		}
	}
	return points
}

// event is an entry of a plant's past and the number it had then.
type event struct {
	model.Entry
	id, now model.ID
}

// lineage is a plant's past, and before it was split off, that of the tray.
func (k *Keeper) lineage(id model.ID) []event {
	var past []event
	history, _ := (&Keeper{book: k.book}).inOrder(k.book.History(id))
	for e := range history {
		f, ok := e.Fact.(*model.Split)
		if !ok || f.New.ID != id {
			past = append(past, event{e, id, id})
			continue
		}
		for _, before := range k.lineage(e.Plants[0]) {
			if before.Seq < e.Seq {
				before.now = id
				past = append(past, before)
			}
		}
	}
	return past
}

// tracer lives one plant's past again, alone.
type tracer struct {
	keeper *Keeper
	prior  belief.JointMass
	kin    *belief.Mass // of its uptake
	alone  *Keeper      // nil before the plant came
}

// take takes in an entry as far as it is about the plant.
func (t *tracer) take(e event) {
	switch f := e.Fact.(type) {
	case *model.Add:
		t.meet(e, f.Plants)
	case *model.Import:
		t.meet(e, f.Added)
		t.meet(e, f.Changed)
	case *model.Edit:
		t.meet(e, f.Plants)
	case *model.Split: // the rest of the tray lives on as it did
	default:
		if t.alone != nil {
			t.alone.bench.fan = t.keeper.book.Fan(e.At)
			t.alone.takeOne(t.alone.plants[e.now], e.Entry)
		}
	}
}

// meet takes in what is told of the plant, which goes by its present number and
// kind.
func (t *tracer) meet(e event, rows []model.Plant) {
	for _, row := range rows {
		if row.ID != e.id {
			continue
		}
		if t.alone == nil {
			alone := blank(t.keeper.book, t.keeper.climate)
			alone.uptakes.kin = t.kin
			t.alone = &alone
		}
		row.ID = e.now
		t.alone.meet(e.At, []model.Plant{row})
	}
}

func (t *tracer) point(at time.Time) Point {
	for _, p := range t.alone.plants {
		left := p.waters(at, p.traits, t.alone.climate)
		losses := p.posterior(t.prior, t.keeper.misfit.spread())
		t.alone.unwritten = t.keeper.unwritten
		s := believed{&losses, t.alone.wateredChance(p), p.untold(&left), 1 - p.fullest}.stand(nil, &left)
		return Point{At: at, RWC: s.RWC, Low: s.Low, High: s.High, InWater: p.wet}
	}
	return Point{}
}
