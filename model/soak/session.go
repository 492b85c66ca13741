package soak

// Company is the company a plant may keep in the water, cleanest first. All
// plants of one load are of one company; within one fill a load is never
// followed by a cleaner one; water that a sick plant was in is thrown out.
type Company int8

// The companies.
const (
	Healthy Company = iota
	Newcomer
	Suspect
	Sick
	companyCount
)

var companyWords = [companyCount]string{"healthy", "newcomer", "suspect", "sick"}

// String is the company's word.
func (c Company) String() string { return companyWords[c] }

// Times in a session and its plan are whole seconds from an origin of the
// caller's choice, at most eight years away, and may be negative.

// Session is what a soak day has to work with: the hands, the tap, the vessels,
// the drying places, and what wants soaking.
type Session struct {
	Items   []Item
	Vessels []Vessel
	Taps    int       // that run at once; 0 is one
	Benches []Bench   // none: drying room without limit
	Hours   []Hours   // of the hands, in order, not overlapping; a pause is what lies between two
	Help    []Stretch // in each of which another pair of hands is there
	Given   []Given   // loads that are in the water already
	Drying  []Drying  // plants that lie on the benches already
	Room    RoomLimit // nil: how many dry at once makes no difference
	Limits  Limits
	Busy    int // s from the first hours' start on in which the first pair of hands is still at its last piece of work
	Began   int // s that the first hours began ago, with the hands at work since: no tap is opened before
}

// Limits keep a day simple enough to be done.
type Limits struct {
	Loads  int     // of healthy plants in plain water, at most; 0: as many as find time. Others are apart by their company
	Plants int     // in such a load at least, or, where fewer are due than two such loads have, their part of so many loads
	Share  float64 // of its vessel that any load takes at least, 0..1; the smallest of several is free of it, and one where less is due than two such loads have; and a load that its company keeps apart and no smaller vessel holds
}

// RoomLimit is the factor by which every drying time grows when so many plants
// (rows of the session) dry in the room at once: 1 for few. It must not fall as
// the count grows; where it is no number, or beyond all measure, nothing dries.
type RoomLimit func(drying int) float64

// Item is one row to soak: a plant, a clump or a tray that goes in and comes
// out in one grip.
type Item struct {
	ID          int
	Least, Most int     // s in water: from the moment the hands start to put it in to the moment they start to take it out
	Spare       int     // s before Most by which it is planned to be out: hands are not as even as a plan has them
	Bulk        float64 // vessel room, litres
	Hands       Hands
	Company     Company
	Fed         bool    // soaks in fed water, which is kept to vessels for fed water
	Urgent      bool    // may be beyond rescue if it waits: goes before any thirst
	Thirst      float64 // what serving it today is worth, above 0
	Walk        int     // its place on the walk along the shelves
	DryFor      int     // s from laid down to dry, upper end of the range, on a bench of factor 1 in a room of factor 1
	BenchRoom   float64 // in the unit of [Bench]
}

// latest is how many s it is planned to be in the water at the most.
func (it *Item) latest() int { return it.Most - it.Spare }

// Hands is the seconds of one pair of hands for a plant.
type Hands struct {
	Pull int // from its home to the vessel; 0 if it stands there already
	In   int // into the water
	Out  int // out of it and shaken
	Lay  int // on the bench
	Hang int // back to its home
}

// Vessel is a tub or bucket.
type Vessel struct {
	Room   float64 // litres of bulk it takes at once
	Fill   int     // s that the tap runs to fill it; the hands are free meanwhile
	Rinse  int     // s of hands to let the water out and rinse it
	Rest   int     // s that it stands then, disinfected, if a sick plant was in it
	Loads  int     // loads that one fill serves; 0: no limit
	LastIn int     // s from a fill's first plant in to the latest start of a load into it; 0: no limit
	Once   bool    // is filled once a day and not again: its water has to stand for longer than the day has
	Filled bool    // has been filled that day
	Fed    bool    // holds fed water, and nothing else
	Water  *Water  // the fill that stands in it at the start; nil: empty
}

// Water is a fill that stands in a vessel when the session begins.
type Water struct {
	Loads int     // loads it has served, one that is in it now included
	Since int     // when its first plant went in; of no meaning while Loads is 0
	Worst Company // of the loads it served
	Ready int     // when it is all in the vessel
}

// Bench is a drying place.
type Bench struct {
	Room   float64 // in any unit, the same as [Item.BenchRoom]
	Factor float64 // drying time here as a multiple of [Item.DryFor]: less with a fan
}

// Stretch is a piece of time.
type Stretch struct{ From, To int }

// Hours are a stretch of time in which the hands can work. Whatever comes out
// in it must be dry by DryBy. In the morning after an overnight soak OutOnly
// hours take out what went in the evening before, and start nothing new.
type Hours struct {
	From, To int
	DryBy    int
	OutOnly  bool
	Given    bool // only what is in the water when the session begins: the hands stay on for that
}

// Given is a load in the water when the session begins. Its plants come out in
// the order they went in, in one go.
type Given struct {
	Vessel int    // index in [Session.Vessels]
	Items  []Item // in the order they went in; none: only its water is still to be let out
	In     []int  // when each went in
	More   []int  // items of the session, by index, that are still to go in with them, in order
	Due    bool   // its time is up: it comes out before anything else is done
	Heap   int    // see [Load.Heap]: where it lies, and stays
}

// Drying is a plant that lies on a bench when the session begins, or will before
// its first load is out.
type Drying struct {
	ID    int
	Bench int // index in [Session.Benches]; 0 when the session names none
	Room  float64
	From  int // its room is taken: from then, if that is to come, or else from the beginning
	Until int // and until then
	Dry   int // it can be hung back; not after Until
	Hang  int // s of hands to do so; 0 if it has no home to go to
}
