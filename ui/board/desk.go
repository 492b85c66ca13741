package board

import (
	"errors"
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/trip"
	"tubside/store"
	"tubside/store/beliefs"
	"tubside/ui/show"
)

// desk is what every screen works on: the open book, today's outlook, the size
// of the terminal, and the line that says what just happened. Screens read it;
// the book changes only through enter.
type desk struct {
	store   *store.Store
	beliefs beliefs.Cache // what was believed when the book was open last
	book    *model.Book
	keeper  *estimate.Keeper
	outlook *advice.Outlook
	clock   func() time.Time
	now     time.Time // one time for the whole of an update and its frame
	theme   theme
	colours colours
	ascii   bool
	lines   bool // the screens are written as plain lines, and nothing stands beside them
	width   int
	height  int
	over    []overlay // what lies over the screen, the front one last
	said    string    // the status line
	trouble bool      // it tells of something wrong
	version int       // counts entries, so that a screen knows when to count anew
	whole   int       // the version at which more than a few plants may have changed
	asksOut askedOut  // the take-out that was asked about
	layOn   int       // drying places further on than the one proposed
	touched model.IDs // the plants that entries since then were about, until triage has counted them
	layout  int       // counts entries that change which plants there are or where
	tally   model.Tally
	loads   []*model.Load // in the water, first due first
	likely  int           // plants that are likely dry, and that nobody has felt
	overdue int           // plants that should surely be dry, or are wet for too long

	mists    int                      // plants to be misted
	hungAt   time.Time                // when the last plant of the session was hung back
	mistedAt int                      // the version at which both were looked up
	minutes  map[model.ID]saidMinutes // of the plants that wait
	toWeigh  string                   // how many plants are due on the scale, in words; "" none
	standing []string                 // vessels that hold used water with no plants in it
	filled   []string                 // vessels that hold water no plant has been in
	taps     []day.Tap                // taps that run, or should be off by now
	home     *trip.Homecoming         // just back from a trip; nil when not

	made map[model.Seq]bool // the entries that were made here since the board was opened
	ask  model.Seq          // the entry from elsewhere of which it was asked whether to undo it

	leaving func() map[model.LoadID]day.Leaving // of the agreed plan, as it stands; nil for none
	steps   int                                 // counts entries by which it is followed or changed

	settled func(model.Fact) *model.Agreed // the entry that goes before one of the soak day; nil for none

	later   []tea.Cmd // work that was begun away from the keys
	reading bool      // the past is being read again
	outrun  bool      // something was written since that asks for it once more
}

// newDesk opens the board's view of a store. Until it is told what the plants
// need, by workOut or know, only the book itself can be shown.
func newDesk(s *store.Store, clock func() time.Time) *desk {
	return &desk{store: s, book: s.Book(), clock: clock, now: clock(), outlook: &advice.Outlook{},
		made: map[model.Seq]bool{}}
}

// push puts an overlay in front.
func (d *desk) push(o overlay) { d.over = append(d.over, o) }

// drop takes an overlay away, wherever in the pile it lies.
func (d *desk) drop(o overlay) {
	d.over = slices.DeleteFunc(d.over, func(other overlay) bool { return other == o })
}

// workedOut is what the model makes of a book.
type workedOut struct {
	keeper  *estimate.Keeper
	outlook *advice.Outlook
	home    *trip.Homecoming
}

// workOut reads the whole book, or goes on from what was believed before, and looks at
// every plant. It only reads, so that the book can be drawn meanwhile.
func workOut(before beliefs.Cache, b *model.Book, now time.Time) workedOut {
	k := before.Keeper(b)
	r := workedOut{keeper: k, outlook: advice.Look(k, now)}
	r.home, _ = trip.NewHomecoming(k, now)
	return r
}

// know takes in what was worked out.
func (d *desk) know(r workedOut) {
	d.keeper, d.outlook, d.home = r.keeper, r.outlook, r.home
	d.layout++
	d.count()
}

// look works the outlook out again.
func (d *desk) look() {
	d.now = d.clock()
	d.outlook = advice.Look(d.keeper, d.now)
	d.home, _ = trip.NewHomecoming(d.keeper, d.now)
	d.count()
}

// assumedStands is how long water that nobody entered is asked about: a grower
// who does not log fillings is reminded on the day, not for ever. A choice.
const assumedStands = 18 * time.Hour

// count keeps what every frame shows, so that no frame counts plants.
func (d *desk) count() {
	d.version++
	d.whole, d.touched = d.version, d.touched[:0]
	d.sumUp()
}

// countOf is count after an entry that touched only a few plants.
func (d *desk) countOf(ids model.IDs) {
	d.version++
	d.touched = append(d.touched, ids...)
	d.sumUp()
}

// sumUp counts what lies at the tub and on the rack.
func (d *desk) sumUp() {
	d.tally, d.loads, d.standing, d.filled = d.book.Tally(), d.book.OpenLoads(), nil, nil
	d.likely, d.overdue = 0, 0
	d.taps = day.Taps(d.book, d.now)
	d.keepMinutes()
	if d.toWeigh = ""; d.keeper != nil {
		d.toWeigh = show.ToWeigh(advice.ToBeWeighed(d.keeper, d.now))
	}
	for i := range d.outlook.Drying {
		out := &d.outlook.Drying[i]
		if d.book.Row(out.ID).State != model.Drying {
			continue
		}
		if d.toCheck(out) {
			d.likely++
		}
		if out.Overdue {
			d.overdue++
		}
	}
	for _, v := range d.book.Vessels() {
		if w := d.book.Water(v.Name); w != nil && len(d.book.InVessel(v.Name)) == 0 &&
			(!w.Assumed || d.now.Sub(w.At) < assumedStands) {
			if w.Loads == 0 {
				d.filled = append(d.filled, v.Name)
			} else {
				d.standing = append(d.standing, v.Name)
			}
		}
	}
}

// toCheck reports whether a plant on the rack is likely dry: past the time by which
// one in two such plants is.
func (d *desk) toCheck(out *advice.Drying) bool { return !d.now.Before(out.Expected) }

// changesLayout reports whether a fact changes which plants there are or where
// they live.
func changesLayout(f model.Fact) bool {
	switch f.(type) {
	case *model.Add, *model.Import, *model.Edit, *model.Move, *model.Swap, *model.Split, *model.Leave, *model.Strike:
		return true
	}
	return false
}

// enter writes one entry and shows what it says. It reports whether the entry
// was taken; if not, the status line says why and nothing has changed.
//
// The write is waited for: what is on the screen must be on the disk, and the
// next key must find the book as this one left it.
func (d *desk) enter(fact model.Fact, ids ...model.ID) bool { return d.enterAt(d.now, fact, ids...) }

// enterAt is the same for what began a little earlier.
func (d *desk) enterAt(at time.Time, fact model.Fact, ids ...model.ID) bool {
	err := d.writeAt(at, fact, ids...)
	if err != nil {
		d.complain(err)
	}
	return err == nil
}

// write is enter for a form, which shows itself what is wrong.
func (d *desk) write(fact model.Fact, ids ...model.ID) error { return d.writeAt(d.now, fact, ids...) }

func (d *desk) writeAt(at time.Time, fact model.Fact, ids ...model.ID) error {
	if err := d.settle(at, fact); err != nil {
		return err
	}
	e, err := d.store.Append(model.NewEntry(at, fact, ids...))
	if errors.Is(err, store.ErrNotWritten) {
		return fmt.Errorf("%w; nothing was changed: check the disk and try again", err)
	}
	if err != nil {
		return err
	}
	d.follow(e)
	d.made[e.Seq] = true
	d.say("%s", show.Line(show.Sentence(e, d.book)))
	return nil
}

// instead writes an entry in place of another, both or none.
func (d *desk) instead(of model.Seq, e model.Entry) bool {
	wrote, err := d.store.AppendAll([]model.Entry{model.NewEntry(d.now, &model.Strike{Seq: of}), e}, nil)
	if err != nil {
		d.complain(err)
		return false
	}
	for _, e := range wrote {
		d.follow(e)
		d.made[e.Seq] = true
	}
	return true
}

// settle writes what of the agreed plan is settled by now before it is followed on.
func (d *desk) settle(at time.Time, fact model.Fact) error {
	if d.settled == nil {
		return nil
	}
	a := d.settled(fact)
	if a == nil {
		return nil
	}
	e, err := d.store.Append(model.NewEntry(at, a))
	if err == nil {
		d.follow(e)
		d.made[e.Seq] = true
	}
	return err
}

// follow makes what is shown keep up with an entry that was written.
func (d *desk) follow(e model.Entry) {
	d.heed(e)
	switch e.Fact.(type) {
	case *model.Agreed, *model.Strike:
		d.steps++
	default:
		if day.OfTheDay(e.Fact) {
			d.steps++
		}
	}
	if about := d.touches(e); advice.Refresh(d.keeper, d.outlook, about, d.now) {
		d.countOf(about.Plants)
	} else {
		d.count()
	}
	if changesLayout(e.Fact) {
		d.layout++
		d.home, _ = trip.NewHomecoming(d.keeper, d.now)
	}
}

// followAll makes what is shown keep up with entries that came at once, which costs
// one look however many they are.
func (d *desk) followAll(entries []model.Entry) {
	if len(entries) == 1 {
		d.follow(entries[0])
		return
	}
	again := false
	d.steps++
	for _, e := range entries {
		again = d.keeper.Lag(e) || again
	}
	switch {
	case again && !d.reading && d.shortPast():
		d.know(workOut(d.beliefs, d.book, d.now))
		return
	case again:
		d.readBeside()
	}
	d.layout++
	d.look()
}

// say puts a line under the screen.
func (d *desk) say(format string, args ...any) {
	d.said, d.trouble = fmt.Sprintf(format, args...), false
}

// complain says what went wrong and what to do.
func (d *desk) complain(err error) {
	d.said, d.trouble = show.Line(show.Safe(err.Error())), true
}

// need is what a plant needs, or nil when it is gone.
func (d *desk) need(id model.ID) *advice.Need { return d.outlook.Need(id) }

// strike undoes the last entry. Of one that was not made here since the board was opened
// it first says what it is; the same key again undoes it.
func (d *desk) strike() {
	last, ok := d.book.LastToStrike()
	switch {
	case !ok:
		d.say("Nothing to undo")
	case d.made[last.Seq] || d.ask == last.Seq:
		d.undo(last)
	default:
		d.ask = last.Seq
		const after = "; u again undoes it"
		before := "From earlier or from elsewhere, " + d.entryTime(last) + ": "
		room := max(20, 2*d.lineWidth()-show.Width(before+after)-24) // in two lines, the first ending at a word
		d.say("%s%s%s", before, show.Clause(show.Sentence(last, d.book), room), after)
	}
}

// undo takes an entry back, and says which.
func (d *desk) undo(e model.Entry) {
	text := show.Sentence(e, d.book)
	if d.enter(&model.Strike{Seq: e.Seq}) {
		const before, after = "Undone: ", " · U redoes it"
		d.say("%s%s%s", before, show.Fit(text, max(20, d.lineWidth()-len(before)-show.Width(after)-2)), after)
	}
}

// bringBack undoes the last strike.
func (d *desk) bringBack() {
	last, ok := d.book.LastStrike()
	if !ok {
		d.say("Nothing to redo")
		return
	}
	undone := last.Fact.(*model.Strike).Seq
	if d.enter(&model.Strike{Seq: last.Seq}) {
		d.made[undone] = true // and may be undone again at once
		const before = "Redone: "
		if e, ok := d.book.Entry(undone); ok {
			d.say("%s%s", before, show.Fit(show.Sentence(e, d.book), max(20, d.lineWidth()-len(before)-2)))
		}
	}
}
