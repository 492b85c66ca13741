package soak

// Plan is what goes in where and when, and what comes out when, for one
// session. The same session gives the same plan on every machine.
type Plan struct {
	Loads     []Load    // in the order they start
	Left      []LeftOut // in the order of [Session.Items]
	Late      []Late    // plants of given loads that no plan can keep to the rules
	HandsFree int       // end of the last work outside OutOnly hours; the first hours' start if there is none
	AllDry    int       // when the last plant is dry; the first hours' start if there is none
	Thirst    float64   // of the items served, given loads not counted
	Fills     int       // fills of water the plan draws
	AtOnce    int       // plants that the drying times allow to dry at once in the room
	Bound     Bound     // what no plan can beat
	Work      int       // plants placed while looking for it: what it cost
}

// Load is the plants that go into one fill together.
type Load struct {
	Vessel  int // index in [Session.Vessels]
	Fill    int // fills of that vessel, counted from 1; 0 is the water that stood in it
	Start   int // the hands start on its first plant
	Out     int // the hands start to take the first one out
	End     int // the hands are done with the last one
	Ready   int // from when on the vessel stood filled for it
	Company Company
	Fed     bool
	Given   bool     // was in the water when the session began, all or a part of it
	Turn    int      // its place in the order in which the loads were planned; see [Before]
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

// Bound is the best that any plan could do.
type Bound struct {
	Thirst    float64 // no plan serves more
	HandsFree int     // no plan that serves the same plants has the hands free earlier
}

// LeftOut is an item that the plan does not serve, and why.
type LeftOut struct {
	ID    int
	Index int // in [Session.Items]
	Why   Why
	Help  []Help // what would get it served, best first
	By    int    // s that it would be dry too late: how much earlier [StartEarlier] means; else 0
}

// Why is what keeps an item out of a plan.
type Why int8

// The reasons. The first group holds for the plant alone, with everything to
// itself; the second because thirstier plants came first.
const (
	NoVessel     Why = iota // no vessel of its kind of water is large enough and keeps its water long enough
	NoHours                 // no hours for the hands to put it in and take it out within its window
	NoBenchSize             // no bench is large enough
	DriesTooSlow            // not dry by the dry-by hour even if it comes out first

	HandsTaken   // the hands have no time left for it
	VesselsTaken // no vessel has room for it in time
	BenchesTaken // no bench has room for it in time
	DryTooLate   // it would come out too late to be dry by the dry-by hour
)

var whyWords = [...]string{
	NoVessel: "no vessel for it", NoHours: "no hours for its soak", NoBenchSize: "no bench for it", DriesTooSlow: "dries too slowly",
	HandsTaken: "hands taken", VesselsTaken: "vessels taken", BenchesTaken: "benches taken", DryTooLate: "would dry too late",
}

// String is the reason in a few words.
func (w Why) String() string { return whyWords[w] }

// Help is what would get an item served.
type Help int8

// What helps.
const (
	Tomorrow     Help = iota // nothing today
	StartEarlier             // begin so much earlier
	FewerPlants              // leave others for another day
	OpenWindow               // dry faster: a window, a fan, a drier room
	LargerVessel
	MoreBench
	MorningHours // hours to take it out the morning after
)

var helpWords = [...]string{
	Tomorrow: "tomorrow", StartEarlier: "start earlier", FewerPlants: "fewer plants", OpenWindow: "open a window or add a fan",
	LargerVessel: "a larger vessel", MoreBench: "more bench room", MorningHours: "hours in the morning to take it out",
}

// String is the help in a few words.
func (h Help) String() string { return helpWords[h] }
