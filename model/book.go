package model

import (
	"fmt"
	"slices"
	"time"
)

// Book is the state the entries add up to. It is not safe for use from several
// goroutines at once.
type Book struct {
	agreed *AgreedAt // the soak day's plan, as last agreed; nil for none
	ten    *Ten      // the plants that are weighed; nil for none

	rows     []*Row // by plant number; nil where there is none
	order    []ID   // every plant ever, by number
	nextID   ID
	titles   map[string]int // how many plants are called so; replaced, never changed; nil for not counted
	loads    map[LoadID]*Load
	inWater  []*Load // the loads of which something is still in
	nextLoad LoadID
	vessels  []Vessel
	benches  []Bench
	week     map[string]Weekday // day of each shelf, by ShelfKey; replaced, never changed
	readings []ReadingAt
	fans     []FanAt
	windows  []WindowAt
	outside  []ReadingAt        // the air outdoors
	shelves  map[string]float64 // by ShelfKey
	trips    []Absence
	waters   map[string]*Water // by vessel
	samples  []SampleAt
	bottle   BottleAt
	rules    Rules
	pulling  *pulling // of the day it was said on; nil when nothing was
	copiesTo string   // second folder for copies
	waiting  IDs      // pulled and not yet in the water
	away     int      // plants soaking, drying or dry
	session  IDs      // pulled or soaked in the session at hand
	named    []uint32 // by plant number: the naming in which present last met it
	naming   uint32   // counts the calls of present
	entries  []Entry
	struck   map[Seq]bool
	once     map[string]Seq // entries with a key of their own
	marks    []mark         // the oldest first
	unmarked bool           // it is tried out, and leaves none
	tried    *tried         // the strike that was asked about last
	zone     *time.Location
}

// NewBook is an empty book, read in the grower's zone: the days of dates told
// without an hour begin there.
func NewBook(zone *time.Location) *Book {
	return &Book{
		nextID:   1,
		loads:    map[LoadID]*Load{},
		waters:   map[string]*Water{},
		nextLoad: 1,
		vessels:  slices.Clone(firstVessels),
		benches:  slices.Clone(firstBenches),
		rules:    DefaultRules(),
		struck:   map[Seq]bool{},
		once:     map[string]Seq{},
		shelves:  map[string]float64{},
		zone:     zone,
	}
}

// Replay builds the book from its entries, in order. Struck entries are kept
// and do not count. An entry that the earlier ones do not allow is a [Refused].
func Replay(entries []Entry, zone *time.Location) (*Book, error) {
	b := NewBook(zone)
	b.entries = entries
	b.struck = strikesIn(entries)
	for _, e := range entries {
		if e.Once != "" {
			b.once[e.Once] = e.Seq
		}
	}
	if err := b.replay(0); err != nil {
		return nil, err
	}
	return b, nil
}

// Refused is an entry of a journal that the ones before it do not allow.
type Refused struct {
	Seq  Seq
	Kind Kind
	At   time.Time
	Why  error
}

// Error names the entry and says why.
func (r *Refused) Error() string {
	return fmt.Sprintf("entry %d (%s, %s): %v", r.Seq, r.Kind, r.At.Format(time.RFC3339), r.Why)
}

// Unwrap gives why.
func (r *Refused) Unwrap() error { return r.Why }

// Check says whether the book can take e as it stands and the house allows it,
// without changing anything. A refusal is a [Problem].
func (b *Book) Check(e Entry) error {
	if err := b.check(e); err != nil {
		return err
	}
	if err := b.checkOnce(e); err != nil {
		return err
	}
	if f, ok := e.Fact.(ruled); ok {
		return f.allow(b, e)
	}
	return nil
}

// check says whether the book can take e as it stands, whatever the house rules.
func (b *Book) check(e Entry) error {
	if e.Fact == nil {
		return &Problem{What: "an entry that says nothing"}
	}
	if e.At.IsZero() {
		return &Problem{What: "an entry without a time"}
	}
	return e.Fact.check(b, e)
}

// Apply takes an entry that is already in the journal. It must have passed
// [Book.Check] on the book as it stands now.
func (b *Book) Apply(e Entry) error {
	b.entries = append(b.entries, e)
	if e.Once != "" {
		b.once[e.Once] = e.Seq
	}
	if _, ok := e.Fact.(*Strike); ok {
		return b.rebuild()
	}
	if err := b.take(e); err != nil {
		return err
	}
	b.noteMark()
	return nil
}

// take checks and applies one entry without recording it.
func (b *Book) take(e Entry) error {
	if err := b.check(e); err != nil {
		return err
	}
	e.Fact.apply(b, e)
	return nil
}

// rebuild lives the book again in place after a strike, so that everyone who
// holds it sees the new state.
func (b *Book) rebuild() error {
	again, err := b.asTried()
	if err != nil {
		return err
	}
	again.entries, again.once = b.entries, b.once
	*b = *again
	return nil
}

// asTried is what the strike just written makes of the book. It was mostly asked
// about a moment before.
func (b *Book) asTried() (*Book, error) {
	t, written := b.tried, b.entries[len(b.entries)-1].Fact.(*Strike)
	b.tried = nil
	if t != nil && t.book != nil && t.after == len(b.entries)-1 && t.seq == written.Seq {
		return t.book, nil
	}
	return b.withStrikes()
}

// Zone is the grower's zone.
func (b *Book) Zone() *time.Location { return b.zone }

// Rules are the house rules as they stand.
func (b *Book) Rules() Rules { return b.rules }

// Entries lists every entry, struck or not, in the order written. The caller
// must not change it.
func (b *Book) Entries() []Entry { return b.entries }

// NextSeq is the number of the entry that is written next.
func (b *Book) NextSeq() Seq {
	if len(b.entries) == 0 {
		return 1
	}
	return b.entries[len(b.entries)-1].Seq + 1
}

// Len is the number of plants (rows) ever in the book.
func (b *Book) Len() int { return len(b.order) }

// IDs lists every plant ever in the book, by number. The caller must not
// change it.
func (b *Book) IDs() IDs { return b.order }

// Row is the standing of one plant, or nil when there is none of that number.
// The caller must not change it.
func (b *Book) Row(id ID) *Row {
	if int(id) >= len(b.rows) {
		return nil
	}
	return b.rows[id]
}

// SharesTitle reports whether another plant of the book, gone ones among them, is
// called as this one is.
func (b *Book) SharesTitle(id ID) bool {
	if b.titles == nil {
		b.titles = make(map[string]int, len(b.order))
		for _, other := range b.order {
			b.titles[b.rows[other].Title()]++
		}
	}
	row := b.Row(id)
	return row != nil && b.titles[row.Title()] > 1
}

// NextID is the number the next new plant gets.
func (b *Book) NextID() ID { return b.nextID }

// insert adds a new row.
func (b *Book) insert(p Plant, at time.Time) {
	row := &Row{Plant: p, State: AtHome, Since: at, Signs: NoSigns}
	row.tellSoak(p, b.zone)
	row.tellFed(p, b.zone)
	row.tellQuarantine(p, b.zone)
	if missing := int(p.ID) + 1 - len(b.rows); missing > 0 {
		b.rows = append(b.rows, make([]*Row, missing)...)
	}
	b.rows[p.ID], b.titles = row, nil
	i, _ := slices.BinarySearch(b.order, p.ID)
	b.order = slices.Insert(b.order, i, p.ID)
	b.nextID = max(b.nextID, p.ID+1, p.Mother+1) // a mother not in the book keeps her number
	if missing := int(b.nextID) - len(b.named); missing > 0 {
		b.named = append(b.named, make([]uint32, missing)...)
	}
}

// present finds the rows of an entry's plants, or says which are missing or
// gone, or named twice.
func (b *Book) present(ids IDs) error {
	if len(ids) == 0 {
		return &Problem{What: "no plants named", Do: "name plants by number, range, shelf:A or load:3"}
	}
	b.naming++
	for _, id := range ids {
		row := b.Row(id)
		switch {
		case row == nil:
			return &Problem{What: fmt.Sprintf("there is no plant %d", id)}
		case row.State == Gone:
			return &Problem{What: fmt.Sprintf("plant %d (%s) has been gone since %s", id, row.Title(),
				row.Since.In(b.zone).Format(DayLayout))}
		case b.named[id] == b.naming:
			return &Problem{What: fmt.Sprintf("plant %d is named twice", id)}
		}
		b.named[id] = b.naming
	}
	return nil
}

// presentIn is present, and every plant must be in one of the states.
func (b *Book) presentIn(ids IDs, do string, states ...State) error {
	if err := b.present(ids); err != nil {
		return err
	}
	for _, id := range ids {
		row := b.rows[id]
		if !slices.Contains(states, row.State) {
			return &Problem{What: fmt.Sprintf("plant %d (%s) is %s", id, row.Title(), row.State), Do: do}
		}
	}
	return nil
}

// setState moves a row to a state and keeps the count of plants away.
func (b *Book) setState(r *Row, s State, since time.Time) {
	if r.State.Away() {
		b.away--
	}
	if s.Away() {
		b.away++
	}
	r.State, r.Since = s, since
}

// each calls f on the row of every named plant.
func (b *Book) each(ids IDs, f func(*Row)) {
	for _, id := range ids {
		f(b.rows[id])
	}
}
