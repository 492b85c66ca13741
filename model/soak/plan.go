package soak

// Plan is what goes in where and when, and what comes out when, for one
// session. The same session gives the same plan on every machine.
type Plan struct {
	Loads     []Load    // in the order they start
	Actions   []Action  // in clock order
	Left      []LeftOut // in the order of [Session.Items]
	Late      []Late    // plants of given loads that no plan can keep to the rules
	HandsFree int       // end of the last work outside OutOnly hours; the first hours' start if there is none
	AllDry    int       // when the last plant is dry; the first hours' start if there is none
	Thirst    float64   // of the items served, given loads not counted
	Visits    int       // times that the hands come to a vessel to lay in or take out
	Fills     int       // fills of water the plan draws
	AtOnce    int       // plants that the drying times allow to dry at once in the room
	Morning   []int     // IDs of the plants that are dry too late to be hung that day
	Lost      bool      // by [Slide]: not all could be kept as it was
	Order     []Visit   // the order of the hands' work, for [Slide]
	Bound     int       // no plan that serves the same plants has the hands free earlier
}

// Load is the plants that go into one vessel in one go, with one clock. Two
// that share a vessel at the same time are two heaps.
type Load struct {
	Vessel  int // index in [Session.Vessels]
	Fill    int // fills of that vessel, counted from 1; 0 is the water that stood in it
	Heap    int // 0 alone; 1 for the heap by the tap, 2 for the one at the far end
	Start   int // the hands start to put the first plant in
	Out     int // the hands start to take the first one out
	End     int // the hands are done with the last one
	Company Company
	Fed     bool
	Given   int      // 1 + index in [Session.Given] for a load that was in the water when the session began; else 0
	Plants  []Placed // in the order they go in, which is the order they come out
}

// Placed is one plant of a load.
type Placed struct {
	Item
	Index int // in [Session.Items]; -1 for a plant that was in the water when the session began
	In    int // the hands start to put it in
	Out   int // the hands start to take it out
	Dry   int // dry at the latest
	Bench int // index in [Session.Benches]; -1 when the session names none
}

// Late is a plant of a given load that cannot come out in its time, or cannot
// be dry in time, or finds no room to dry.
type Late struct {
	ID      int
	Over    int  // s in water beyond its longest soak
	NotDry  int  // s that it is wet beyond the dry-by hour
	NoBench bool // no bench has room for it
	NoHands bool // no hours in which the hands could take it out
}

// LeftOut is an item that the plan does not serve, and why.
type LeftOut struct {
	ID    int
	Index int // in [Session.Items]
	Why   Why
	By    int // s that it would be dry too late, for [DriesTooSlow] and [DryTooLate]
}

// Why is what keeps an item out of a plan.
type Why int8

// The reasons. The first group holds for the plant alone, with everything to
// itself; the second because others came first.
const (
	NoVessel     Why = iota // no vessel of its kind of water is large enough
	NoHours                 // no hours for the hands to put it in and take it out within its window
	NoBenchSize             // no bench is large enough
	DriesTooSlow            // not dry by the dry-by hour even if it comes out first

	HandsTaken   // the hands have no time left for it
	VesselsTaken // no vessel has room for it in time
	WaterTaken   // the vessels are not filled again, and would have to be
	BenchesTaken // no bench has room for it in time
	RoomTaken    // as many dry at once as the room's air takes
	DryTooLate   // it would come out too late to be dry by the dry-by hour
	LoadsTaken   // it fits into no load, and there may be no more of them
	TooFew       // it fits into no load, and what is left does not make one
	NoSpare      // it has a place only if nothing is later than planned
)

var whyWords = [...]string{
	NoVessel: "no vessel for it", NoHours: "no hours for its soak", NoBenchSize: "no bench for it", DriesTooSlow: "dries too slowly",
	HandsTaken: "hands taken", VesselsTaken: "vessels taken", WaterTaken: "no water that has stood", BenchesTaken: "benches taken", RoomTaken: "the room's air is taken",
	DryTooLate: "would dry too late", LoadsTaken: "no more loads", TooFew: "too few for a load of their own",
	NoSpare: "no time to spare",
}

// String is the reason in a few words.
func (w Why) String() string { return whyWords[w] }
