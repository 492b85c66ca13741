// Package estimate is what is believed, from the entries of a book, of each
// plant, of this grower's eye and of the room: how much water is gone, how fast
// it goes, how long a plant takes to dry, what the air was and will be. It brings
// the numbers of air, leaf, drying and belief together; what to do is not its
// business.
package estimate

import (
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/drying"
	"tubside/model/leaf"
)

// Keeper follows a book and keeps what is believed of every plant in it. What
// it believes depends on the entries alone, not on when it was started. It is
// not safe for use from several goroutines at once.
type Keeper struct {
	book           *model.Book
	plants         map[model.ID]*plantState
	kinds          map[drying.Plant]*drying.Plant // those that dry alike, by themselves
	climate        *climate
	lossPopulation *belief.Population         // how fast plants lose water
	dryPopulation  *belief.Population         // how long they take to dry
	spells         []*spell                   `snapshot:"-"` // to be used again
	planes         []belief.JointLikelihood   `snapshot:"-"` // the same: what looks said, of spells that are over
	shifted        [leaf.SignRows]belief.Mass `snapshot:"-"` // the same: see [Keeper.groupPrior]
	pending        []*plantState              `snapshot:"-"` // of which the populations do not know the newest
	shelves        map[string]*shelfSums      // by model.ShelfKey
	uptakes        uptakes                    // how plants drink
	unwritten      unwritten
	walk           walk    // the last
	hinted         []hint  // on the one before
	candour        candour // of the grower
	slips          slips   // the same
	misfit         misfit  // of what is seen and the law
	bench          bench
	drying         *dryingRoom `snapshot:"-"` // nil until somebody asks
	slowings       []slowing   `snapshot:"-"` // rooms solved last: see [DryTimes.Slowed]
	wetted         wetIn       // when leaves were wetted last
	leaving        time.Time   // when the trip told last begins; zero none
	behind         bool        // it believes what it did before some entries
	blind          bool        // it does as if nothing had been weighed
	newest         model.Seq   // the entry it has read up to
	readTo         time.Time   // when the newest of what it has read happened
	rereadFor      model.Seq   `snapshot:"-"` // the entry for which it read the past again last
}

// plantState is what the keeper has of one plant.
type plantState struct {
	id     model.ID
	traits *Traits
	kind   *drying.Plant // see [Keeper.kindOf]
	water
	loss         learned                // rate of water loss
	evidence     belief.JointLikelihood // what the loss was learned from
	ownEstimates ownEstimates           // what that comes to
	ownEstimate  ownEstimate            // the same, by when signs come in this home
	form         int                    // its place among the forms
	// learnedOn is the shelf it hung on when it last was learned from, and steps
	// what was made of that shelf when the population was told.
	learnedOn string
	steps     int
	dryTime   learned   // time to dry
	marks     grid      // log likelihood of what that was learned from
	uptake    learned   // time to drink
	drank     *grid     // log likelihood of what that was learned from; nil: nothing yet
	scale     *scale    // nil when it was never weighed
	weighings int       // that its loss was learned from
	weighed   *weighing // since its last soak; nil: not
	inWater   *weighing // the first weight in the soak it is in; nil: none
	// weighedSoak is its last soak, until it is weighed after it; nil: it was not weighed before.
	weighedSoak *weighedSoak
	onBench     seat // none when it is not out to dry
}

// New reads the whole book, entry by entry, just as it was lived.
func New(b *model.Book) *Keeper {
	k := &Keeper{book: b}
	k.reread()
	return k
}

// blank is a keeper that believes nothing of any plant yet.
func blank(b *model.Book, c *climate) Keeper {
	return Keeper{
		book: b, climate: c, bench: newBench(), plants: map[model.ID]*plantState{}, kinds: map[drying.Plant]*drying.Plant{},
		lossPopulation: lossPrior.Population(len(model.Forms)),
		dryPopulation:  dryPrior.Population(len(model.Forms)),
		uptakes:        newUptakes(),
		misfit:         newMisfit(),
	}
}

// reread starts over. Plants and shelves are taken as the book now describes
// them, so that a form put right also puts the past right.
func (k *Keeper) reread() {
	blind := k.blind
	*k = blank(k.book, newClimate(k.book.Rules()))
	k.blind = blind
	k.readLogs()
	k.readOn(k.book.Entries())
}

// readOn takes in the entries of the book that follow those it has read.
func (k *Keeper) readOn(entries []model.Entry) {
	order, readTo := k.inOrder(entries)
	for e := range order {
		if !k.book.Struck(e.Seq) {
			k.take(e)
			k.readSessions()
		}
	}
	k.learnSessions()
	k.bench.readers = nil
	if k.readTo = readTo; len(entries) > 0 {
		k.newest = entries[len(entries)-1].Seq
	}
}

// UpToDate reports whether what is believed takes in the newest entry.
func (k *Keeper) UpToDate() bool {
	all := k.book.Entries()
	return !k.behind && (len(all) == 0 || all[len(all)-1].Seq == k.newest)
}

// Follow takes in an entry that the book has just applied.
func (k *Keeper) Follow(e model.Entry) {
	if k.rereads(e) {
		k.reread()
		k.rereadFor = e.Seq
		return
	}
	if !leavesTheAir(k.struckBy(e).Fact) {
		k.drying = nil
	}
	k.newest = e.Seq
	k.take(e)
	k.passed(e)
}

// passed notes that an entry which is not late was read.
func (k *Keeper) passed(e model.Entry) {
	if k.counts(e) {
		k.readTo = model.Later(k.readTo, e.At)
	}
}

// ReadAgain reports whether the past was read again for an entry, so that of any plant
// something else may be believed.
func (k *Keeper) ReadAgain(e model.Entry) bool { return k.rereadFor != 0 && k.rereadFor == e.Seq }

// rereads reports whether an entry asks for the past to be read again.
func (k *Keeper) rereads(e model.Entry) bool { return k.changesPast(e) || k.late(e) }

// changesPast reports whether an entry changes how the past reads.
func (k *Keeper) changesPast(e model.Entry) bool {
	switch f := e.Fact.(type) {
	case *model.Strike:
		return heeds(k.struckBy(e).Fact)
	case *model.RuleSet:
		return !f.Today
	case *model.Edit, *model.Import, *model.Split, *model.ShelfSet, *model.Readings:
		return true
	}
	return false
}

// struckBy is what a strike takes back, or brings back when it strikes a strike; of
// any other entry it is the entry itself.
func (k *Keeper) struckBy(e model.Entry) model.Entry {
	for {
		s, ok := e.Fact.(*model.Strike)
		if !ok {
			return e
		}
		if e, ok = k.book.Entry(s.Seq); !ok {
			return model.Entry{}
		}
	}
}

// leavesTheAir reports whether a fact leaves the air and what is wet in it as
// they were.
func leavesTheAir(f model.Fact) bool {
	switch f.(type) {
	case *model.Look, *model.Weigh, *model.Mist, *model.Bloom, *model.Rot, *model.Note, *model.Move, *model.Swap,
		*model.Pull, *model.PutBack, *model.Soak, *model.Damp, *model.Weighing:
		return true
	}
	return false
}

// heeds reports whether anything is learned from a fact: whether [Keeper.take]
// takes it in, or the past reads otherwise after it. The others can be struck
// without reading the past again.
func heeds(f model.Fact) bool {
	switch f.(type) {
	case *model.Note, *model.Bloom, *model.Rot, *model.Trouble, *model.LookedOver, *model.Offsets, *model.Fading,
		*model.Pull, *model.PutBack, *model.Hung, *model.Fill, *model.Drain, *model.Sample, *model.Bottle,
		*model.Weighing:
		return false
	}
	return true
}

// take updates what is believed after one entry.
func (k *Keeper) take(e model.Entry) {
	switch f := e.Fact.(type) {
	case *model.Add:
		k.meet(e.At, f.Plants)
	case *model.Import:
		k.meet(e.At, f.Added)
		k.meet(e.At, f.Changed)
	case *model.Edit:
		k.meet(e.At, f.Plants)
	case *model.Split:
		k.split(e.Plants[0], f.New)
	case *model.Reading:
		k.climate.add(model.ReadingAt{At: e.At, TempC: f.TempC, RH: f.RH})
		if f.Fan != "" {
			k.bench.fan = f.Fan
		}
	case *model.FanSet:
		k.bench.fan = f.Fan
	case *model.BenchSet:
		k.bench.furnish(f)
	case *model.Outside:
		k.bench.outside = model.ReadingAt{At: e.At, TempC: f.TempC, RH: f.RH}
	case *model.WindowSet:
		k.bench.window = f.Window
	case *model.Trip:
		k.leaving = f.From
	case *model.Swap:
		for i, id := range e.Plants {
			k.takeOne(k.plants[id], model.NewEntry(e.At, &model.Move{To: f.To[i]}, id))
		}
	case *model.Out:
		k.bench.outing = len(e.Plants)
		k.takeEach(e)
	case *model.Look:
		k.walked(e.At, e.Plants)
		k.takeEach(e)
	case *model.Soak:
		k.uptakes.tell()
		k.weighHints()
		k.misfit.weigh()
		k.takeEach(e)
	case *model.Weigh, *model.Move, *model.FoundDry, *model.Damp, *model.Laid, *model.Leave, *model.Mist,
		*model.Feed:
		k.takeEach(e)
	}
}

func (k *Keeper) takeEach(e model.Entry) {
	for i, id := range e.Plants {
		one := e
		one.At = e.AtOf(i)
		k.takeOne(k.plants[id], one)
	}
}

// takeOne updates what is believed of one plant after an entry about it.
func (k *Keeper) takeOne(p *plantState, e model.Entry) {
	switch f := e.Fact.(type) {
	case *model.Look:
		k.look(p, e.At, f.Signs)
	case *model.Weigh:
		k.weigh(p, e.At, f)
	case *model.Move:
		p.hang(e.At, f.To.Shelf, k.book.ShelfFactor(f.To.Shelf), k.climate)
		p.loss.fresh = false
	case *model.Soak:
		k.walkedPast(p, e.At)
		k.settle(p, e.At)
		p.goIn(e.At, p.traits, k.climate)
		p.keepWeight(e.At)
	case *model.Out:
		k.uptakes.tell()
		p.loss.fresh = p.loss.fresh && p.soakKnown // it is less of a guess now
		worn := p.comeOut(e.At, k.taus(p), k.filmFrom(p, e.At))
		if s := p.weighedSoak; s != nil {
			s.minutes, s.worn = e.At.Sub(p.in).Minutes(), worn
		}
		k.layOut(p, e.At, *f)
	case *model.Mist:
		k.mist(p, e.At)
	case *model.Feed:
		if f.How != model.ByBath { // a fed dip wets no less than a mist
			k.mist(p, e.At)
		}
	case *model.FoundDry:
		p.foundDry(e.At)
		k.markDry(p, e.At)
	case *model.Damp:
		if !p.wet { // it was taken for dry, and is on the bench again
			k.drying = nil
		}
		p.wet = true
		k.markDamp(p, e.At)
	case *model.Laid:
		k.layElsewhere(p, f.Bench)
	case *model.Leave:
		k.takeAway(p)
	}
}

// meet takes in new rows, and rows of which something new is told. A later soak
// told with a row starts it afresh; otherwise what was learned stays.
func (k *Keeper) meet(at time.Time, plants []model.Plant) {
	for _, row := range plants {
		var told time.Time
		if row.SoakedOn != 0 {
			told = model.NoonOf(row.SoakedOn, k.book.Zone())
		}
		p, known := k.plants[row.ID]
		if !known {
			p = k.newcomer(row.ID)
			p.water = newWater(told, at)
			p.put(row.Home.Shelf, k.book.ShelfFactor(row.Home.Shelf))
			continue
		}
		if told.After(p.dry) && !p.wet {
			k.settle(p, told)
			p.refill(told)
			p.loss.fresh = false
		}
		p.hang(at, row.Home.Shelf, k.book.ShelfFactor(row.Home.Shelf), k.climate)
	}
}

// newcomer makes room for a plant, which joins its form.
func (k *Keeper) newcomer(id model.ID) *plantState {
	row := k.book.Row(id)
	kd := traitsOf(row.Plant, k.book.Rules())
	p := &plantState{id: id, traits: &kd, kind: k.kindOf(kd.Drying), form: formPlace(row.Form)}
	p.loss.member, p.dryTime.member = k.lossPopulation.Join(p.form), k.dryPopulation.Join(p.form)
	p.uptake.member = k.uptakes.population.Join(p.form)
	k.plants[id] = p
	return p
}

// kindOf is the one plant that stands for all that dry alike, whatever water each
// holds: whether two do is asked of every plant on the bench.
func (k *Keeper) kindOf(p drying.Plant) *drying.Plant {
	bare := bareOf(p)
	if k.kinds[bare] == nil {
		k.kinds[bare] = &bare
	}
	return k.kinds[bare]
}

// split begins a plant that was part of another until now: it has lived as the
// whole did. What the whole weighed says nothing of either half.
func (k *Keeper) split(tray model.ID, part model.Plant) {
	k.learnSessions() // of the whole
	whole, p := k.plants[tray], k.newcomer(part.ID)
	p.water = whole.water.copy()
	k.tellLater(p)
	p.loss.inherit(&whole.loss)
	p.evidence, p.learnedOn = whole.evidence.Clone(), whole.learnedOn
	p.loss.untold = p.evidence != nil
	p.dryTime.inherit(&whole.dryTime)
	p.marks = whole.marks
	p.uptake.inherit(&whole.uptake)
	if whole.drank != nil {
		drank := *whole.drank
		p.drank = &drank
		k.uptakes.hear(p)
	}
	whole.scale, whole.weighed, whole.weighedSoak = nil, nil, nil
	p.hang(p.dry, part.Home.Shelf, k.book.ShelfFactor(part.Home.Shelf), k.climate)
}
