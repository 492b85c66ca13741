package model

import (
	"time"

	"github.com/rickb777/date/v2"
)

// State is where a plant is: always exactly one.
type State uint8

// The states.
const (
	AtHome  State = iota // on its shelf
	Soaking              // in the water
	Drying               // out of the water and not known to be dry
	Dry                  // dry, waiting to be hung
	Gone                 // lost, sold or given away
)

var stateWords = [...]string{"home", "soaking", "drying", "dry", "gone"}

// String is the state's word.
func (s State) String() string { return stateWords[s] }

// Away reports whether a plant in this state is off its shelf: in the water or
// out to dry.
func (s State) Away() bool { return s == Soaking || s == Drying || s == Dry }

// MarshalText writes the state's word.
func (s State) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Row is the standing of one plant: what the grower says it is, and what the
// entries add up to. A zero time means never, or not now.
type Row struct {
	Plant
	State State
	Since time.Time // when it came into this state

	Load     LoadID    // the load it is or was last in; 0 never
	In       time.Time // when it last went into the water
	Out      time.Time // when it last came out
	Minutes  float64   // how long it was in; 0 unknown
	Shaken   bool      // shaken when it came out
	Inverted bool      // laid upside down to dry
	InTurn   bool      // it came out one after another with others, and lies with those of the same minutes
	Bench    string    // where it was laid to dry; empty: not said
	DampAt   time.Time // last found still damp since Out
	DryAt    time.Time // last found dry
	HungAt   time.Time // last hung back

	// When it came out of a soak that was written before this one, and was dry after
	// it: one of last week may be written today.
	soaked, dried time.Time

	Signs   Signs     // as last seen
	SignsAt time.Time // when
	Bloom   time.Time // in bloom (bud or open) since
	Stage   Stage     // how far the bloom has come; empty: none, or not said
	StageAt time.Time // since when
	InBloom time.Time // when it was last said to be in bloom; zero when it is not
	Bloomed time.Time // when its last bloom ended
	Rot     time.Time // suspected rot since
	Misted  time.Time // last misted

	WetWeight WeightAt // fully soaked and blotted
	Weight    WeightAt // last weighed otherwise

	Fed         time.Time // last fed
	FedHow      Feeding   // how; empty when only the day was told
	FedMix      *Mix      // with what; nil when only the day was told
	Looked      time.Time // last looked over with nothing found
	CleanFrom   time.Time // first of the clean looks since the last trouble, or since the quarantine began
	Quarantine  time.Time // set apart since
	Released    time.Time // last released
	Troubles    []Ill     // what it has, in the order found
	Cleared     time.Time // when it was last rid of something that spreads
	Offsets     int       // offsets as last seen
	OffsetShare float64   // the biggest as a part of the parent's size; 0 not said
	OffsetsAt   time.Time // when they were seen
	Separated   time.Time // taken off its mother
	Fading      time.Time // giving out since

	GoneHow   string // lost, sold or given
	GoneCause string // why it was lost
	InSession bool   // pulled or soaked in the session at hand
}

// LastSoak is when the plant last had a soak: when it came out, or when it
// went in if it is still there. Zero means never heard of.
func (r *Row) LastSoak() time.Time {
	if r.State == Soaking {
		return r.In
	}
	return Later(r.Out, r.soaked)
}

// DrySince is when the plant last began to lose water: when it was found dry
// after its last soak, or when it came out if nobody looked.
func (r *Row) DrySince() time.Time {
	if r.DryAt.After(r.Out) {
		return Later(r.DryAt, r.dried)
	}
	return Later(r.Out, r.dried)
}

// tellSoak takes the soak told with the plant, unless a later one is known.
func (r *Row) tellSoak(p Plant, zone *time.Location) {
	if p.SoakedOn == 0 {
		return
	}
	if told := NoonOf(p.SoakedOn, zone); told.After(r.Out) && told.After(r.In) {
		r.In, r.Out, r.Minutes = told, told, 0
	}
}

// seenAfterSoak has the soak told with the plant, of which the day alone is known, end before what is seen on that day:
// who writes a look after telling of the soak has seen what it left.
func (r *Row) seenAfterSoak(seen time.Time, zone *time.Location) {
	byDay := r.SoakedOn != 0 && r.In.Equal(r.Out) && r.Out.Equal(NoonOf(r.SoakedOn, zone))
	if byDay && seen.Before(r.Out) && date.NewAt(seen.In(zone)) == r.SoakedOn {
		r.In, r.Out = seen, seen
	}
}

// tellFed takes the day told as that of its last feed, unless a later one is
// known.
func (r *Row) tellFed(p Plant, zone *time.Location) {
	if p.FedOn == 0 {
		return
	}
	if told := NoonOf(p.FedOn, zone); told.After(r.Fed) {
		r.Fed, r.FedHow, r.FedMix = told, "", nil
	}
}
