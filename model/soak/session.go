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

// Session is what a soak day has to work with: one pair of hands, the vessels,
// the drying places, and what wants soaking.
type Session struct {
	Items   []Item
	Vessels []Vessel
	Benches []Bench   // none: drying room without limit
	Hours   []Hours   // in order, not overlapping; a pause is what lies between two
	Given   []Given   // loads that are in the water already
	Drying  []Drying  // plants that lie on the benches already
	Room    RoomLimit // nil: how many dry at once makes no difference
	Before  *Before   // nil: there was no plan
}

// Before is an earlier plan of the same day, which the plan keeps to as long as
// it serves no less than it did.
type Before struct {
	AtOnce int
	Loads  []LoadBefore // in the order of [Load.Turn]
}

// LoadBefore is a load of an earlier plan. Plants that the session no longer has
// are passed over.
type LoadBefore struct {
	Vessel int
	IDs    []int
}

// RoomLimit is the factor by which every drying time grows when so many plants
// (rows of the session) dry in the room at once: 1 for few. It must not fall as
// the count grows; where it is no number, or beyond all measure, nothing dries.
type RoomLimit func(drying int) float64

// Item is one row to soak: a plant, a clump or a tray that goes in and comes
// out in one grip.
type Item struct {
	ID        int
	From, To  int     // s in water, least and most: from the moment the hands start to put it in to the moment they start to take it out
	Bulk      float64 // vessel room, litres
	HandsIn   int     // s of hands to put it in, at least 1; see [HandsIn]
	HandsOut  int     // s of hands to take it out, shake and lay it down, at least 1; see [HandsOut]
	Company   Company
	Fed       bool    // soaks in fed water, which is kept to vessels for fed water
	Thirst    float64 // what serving it today is worth, above 0
	Shelf     int     // shelf-mates carry the same number
	DryFor    int     // s from out of the hands to dry, upper end of the range, on a bench of factor 1 in a room of factor 1
	BenchRoom float64 // in the unit of [Bench]
}

// Seconds of hands for a plant that nothing else is known of, for the caller to
// use. Our own; bulbous and tank plants and clumps take longer.
const (
	HandsIn  = 15
	HandsOut = 20
)

// Vessel is a tub or bucket. It holds one load at a time: all of the load is in
// before its first plant comes out.
type Vessel struct {
	Room   float64 // litres of bulk it takes at once
	Refill int     // s to empty, rinse and fill it; the hands are free meanwhile
	Loads  int     // loads that one fill serves; 0: no limit
	Age    int     // s that one fill serves, from its first plant in to its last out; 0: no limit
	LastIn int     // s from a fill's first plant in to the latest start of a load into it; 0: no limit
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

// Hours are a stretch of time in which the hands can work. Whatever comes out
// in it must be dry by DryBy. In the morning after an overnight soak OutOnly
// hours take out what went in the evening before, and start nothing new.
type Hours struct {
	From, To int
	DryBy    int
	OutOnly  bool
}

// Given is a load in the water when the session begins. Its plants come out in
// the order they went in.
type Given struct {
	Vessel int    // index in [Session.Vessels]
	Items  []Item // in the order they went in
	In     []int  // when each went in
	More   []int  // items of the session, by index, that are still to go in with them, in order; those that no longer can are planned like any other
}

// Drying is room on a bench that is taken until then.
type Drying struct {
	Bench int // index in [Session.Benches]; 0 when the session names none
	Room  float64
	Until int
}
