package care

import (
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Outlook is what every plant needs at one moment, and why.
type Outlook struct {
	At     time.Time
	Needs  []Need   // every plant not gone, by number
	Drying []DryOut // every plant out of the water and not hung, by number
	Air    RoomAir  // the room now
}

// Need is what one plant needs now.
type Need struct {
	ID        model.ID
	DaysSince float64 // days since it came out of its last soak; negative when never heard of
	RWC       float64 // relative water content, 0..1: mean of what is believed
	Low, High float64 // the 80 % range of RWC
	Band      soak.Band
	From, To  float64  // minutes in water; both 0 for Rest and Mist
	Reasons   []Reason // the first is the one to show in a list
	LookFirst bool     // what was seen is not thirst, or not only: look before soaking
}

// Thirst is the share of the plant's water that is gone.
func (n Need) Thirst() float64 { return 1 - n.RWC }

// Reason is one step on the way to a number.
type Reason struct {
	Text string // a short clause for a person: "12 days since the soak"
	Kind ReasonKind
}

// ReasonKind says what sort of step a reason is.
type ReasonKind int

// The kinds of reason.
const (
	Saw      ReasonKind = iota // what the grower saw or did
	Computed                   // what the numbers say
	Capped                     // what a house rule changed
	Advice                     // what to do with it
	Warning                    // what to look at before anything else
)

// DryOut is how far one plant has come from dripping to dry.
type DryOut struct {
	ID       model.ID
	Load     model.LoadID
	OutAt    time.Time
	Low      time.Time // 10 % of what is believed lies before
	Expected time.Time // the median
	High     time.Time // 90 % lies before
	Limit    time.Time // the house rule: no plant wet beyond this
	Overdue  bool      // past High or Limit and not marked dry
	Progress float64   // 0..1 of the expected time; 1 when dry
	HoldUp   HoldUp
	Reasons  []Reason
}

// HoldUp is what keeps a plant from being dry.
type HoldUp string

// The hold-ups.
const (
	HeldByFilm   HoldUp = "film"   // water on the leaves
	HeldByPocket HoldUp = "pocket" // water at the heart, between the leaf bases
	HeldByRoom   HoldUp = "room"   // damp air
	HeldByNone   HoldUp = ""       // dry
)

// RoomAir is the room as care takes it to be.
type RoomAir struct {
	TempC, RH, DeficitKPa float64   // RH in %
	ReadAt                time.Time // zero when there is no reading and the house rule's default stands
	Fan                   model.Fan
	Window                model.Window
}
