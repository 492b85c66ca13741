package advice

import (
	"time"
)

// Reason is one step on the way to a number, as data: its sentence is made where
// it is shown.
type Reason struct {
	Code Code
	N    [4]float64 // as its code says
	Name string     // of a thing, as its code says
}

// Kind says what sort of step the reason is.
func (r Reason) Kind() ReasonKind { return kinds[r.Code] }

// Danger reports whether the reason tells of a plant that may be lost.
func (r Reason) Danger() bool {
	switch r.Code {
	case RotSuspected, Casualty, PastMendingSoon, BloomBadlyDry, WetBeyondLimit:
		return true
	}
	return false
}

// Time is one of the reason's numbers as a time.
func (r Reason) Time(i int, zone *time.Location) time.Time {
	return time.Unix(int64(r.N[i]), 0).In(zone)
}

// ReasonKind says what sort of step a reason is.
type ReasonKind int8

// The kinds of reason.
const (
	Saw      ReasonKind = iota // what the grower saw or did
	Computed                   // what the numbers say
	Capped                     // what a house rule changed
	Hint                       // what to do with it
	Warning                    // what to look at before anything else
)

// Code says which step a reason is. What the codes say of a plant's dates, its
// shelf, its signs and the like is in the book. Times are Unix seconds.
type Code uint8

// What a plant needs. Shares are 0 to 1.
const (
	NoCode      Code = iota
	ThirstSeen       // the signs of thirst seen since the soak
	SinceSoak        // days
	NeverSoaked      // no soak on record
	InWater          // minutes
	OutDripping      // minutes out, not marked dry
	ReadyToHang      // dry
	RotSince         // suspected rot
	SoakedLately
	MistedAgo     // minutes
	Weighed       // g now, g when full
	WaterGone     // thirst: mean, and the 80 % range
	ThirstTooLow  // thirst, and the house rule's days from soak to soak
	ThirstAsks    // the house rule's share that asks for a soak
	EveryDays     // the house rule's days from soak to soak, in this air and in the reference air
	RoomIs        // °C, RH in %, kPa, days since it was read or -1 for assumed
	AirSinceDry   // mean kPa, readings
	LossFromKin   // rate multiplier: median, and the 80 % range
	LossFromSoaks // the same, and how many soaks of its own
	LossFromSigns // the same, from kin and what was seen since the soak
	ShelfDries    // times as fast as elsewhere; Name: the shelf
	MinutesBack   // minutes in water, to a share of the full plant
	SeenAtLeast   // minutes that the house rule gives what was seen
	PartlyAssumed // form, leaf or size
	BloomMist     // in bloom
	MistOnly      // the grower never soaks it
	RestDays      // days between soaks, by the house rule
	CappedTo      // minutes allowed, minutes asked for; Name: what the cap is for
	JustSeparated
	PressTheBase
	FlowerUp     // how to water a badly dry plant in bloom
	WhatElseItIs // what looks like thirst
	ShakeHard
	TipOut
	Wring
	RotSuspected
	StillWet
	NotDriedYet // since the soak
	BloomBadlyDry
	MistOnlyDry  // seen thirsty, and never soaked
	StillInBloom // past the time by which such blooms are over
	StaysPale
	ThirstyTwice    // right after two soaks
	SeenDecides     // the band, and the thirst before the look
	LastSoakUnknown // minutes at most
	SoakNotSaid     // the same of a plant that was looked at
	FlatThoughDry   // thirst by the numbers before the look, minutes at most
	PastMendingSoon // thirst by the numbers alone, minutes at most
	Casualty        // the thirst from which injury is published
	DarkAndRolled   // signs that contradict each other
	DarkForLong     // already dark, days after the soak
	FarDrier        // than the numbers had it
	FarFuller       // than the numbers had it: their thirst
	FarLighter      // on the scale than the numbers had it: their thirst
	FarHeavier      // the same
	SeenTwice       // far from what the numbers had: their thirst
	ExpectLoss
	OnceMoreTomorrow // as long
	TwoSoaksApart    // instead of a night
	FillTheCup       // daily
	NewcomersWater   // whose water it may share
	SuspectsWater
	SicksWater
	WetBeyondLimit // minutes wet, minutes it was expected to take here, minutes of the limit
	SlowHere       // minutes it was expected to take here, minutes from which the trade worries
	ShouldBeDry    // minutes out
	FeltDamp       // minutes ago
	HeldUpByRoom   // the highest humidity, a share
	HeldUpByPocket
	HeldUpByFilm
	LayUpsideDown
	ShakeAgain
	MoreFan
	OpenAWindow
	SpreadOut
	DryingTimes     // minutes: leaves, heart, and the 80 % range
	DryingFromKin   // drying-time multiplier: median, and the 80 % range
	DryingFromMarks // the same, and how many dryings of its own
)

// Who is due on a round.
const (
	OffItsShelf Code = iota + DryingFromMarks + 1 // soaking, drying or dry
	PulledForSoak
	KeepDry // suspected rot
	BloomLeavesOnly
	JustSeparatedMist
	ThroatHoldsWater
	CoatStaysWet
	WantsASoak // the band
	NeverMisted
	LastMisted // minutes ago
	NoSoakEver
	LastSoaked // minutes ago
	NoFeedRot
	NoFeedTrouble // its first
	NoFeedQuarantine
	NoFeedBloom
	NoFeedSeparated
	NoFeedNew
	NoFeedWinter // when the season begins
	NeverFed
	LastFed
	SoakItFirst
	BottleStillFed // what the mist bottle holds
	MistInTheMorning
	BottleNotFed
	BottleTooStrong // ppm, the house rule's ppm
	FeedCaution
	LookDry
	LookAfterTrip // day after coming home
	LookAtRot
	LookAtTrouble // place among its troubles
	NewcomerLacks // the first thing it lacks to be released
	NewcomerReady
	TroubleBack // over since
	OffsetMay   // be separated
	OffsetReady
	NeverLookedOver
	LastLookedOver
	NobodyWeighed
	ScaleCaution
	WeighingDay   // day, of so many
	FirstSoakLong // of the weeks of weighing
	WeighBefore   // it goes in
	WeighAndLook  // the same, and nobody has graded it today
	WeighFull
	WeighHalfWay
	WeighAfterSoak
	WeighWhenDry
	WeighedOnce // g
	WeighedFull // g
)

// What stands in a vessel.
const (
	EmptyOrUnknown Code = iota + WeighedFull + 1
	SickWasIn
	SuspectWasIn
	LoadsUsedUp   // loads, loads of the house rule
	NotAnotherDay // minutes since its first plant
	HoursUsedUp   // minutes since its first plant, hours of the house rule
	NewcomerWasIn
	TooCold        // °C
	TooWarm        // °C
	OverLimit      // value, limit; Name: what was measured
	HardWater      // mg/L as CaCO3
	SourceWarns    // Name: the source
	TapStood       // hours
	ChlorineIsLeft // hours it stood, and the range of the share that is left
	Chloramine
	WaterFine
	StandingWater
)

var kinds = [...]ReasonKind{
	ThirstSeen: Saw, SinceSoak: Saw, NeverSoaked: Saw, InWater: Saw, OutDripping: Saw, ReadyToHang: Saw, RotSince: Saw,
	SoakedLately: Saw, MistedAgo: Saw, Weighed: Saw,
	WaterGone: Computed, ThirstTooLow: Computed, RoomIs: Computed, AirSinceDry: Computed, LossFromKin: Computed,
	LossFromSoaks: Computed, LossFromSigns: Computed, ShelfDries: Computed, MinutesBack: Computed, SeenAtLeast: Capped,
	PartlyAssumed: Computed, ThirstAsks: Computed, EveryDays: Capped, SeenDecides: Capped, SoakNotSaid: Capped, FlatThoughDry: Capped,
	LastSoakUnknown: Warning,
	PastMendingSoon: Warning, Casualty: Warning, DarkAndRolled: Warning, DarkForLong: Warning, FarDrier: Warning,
	FarFuller: Warning, FarLighter: Warning, FarHeavier: Warning, SeenTwice: Saw, ExpectLoss: Warning,
	OnceMoreTomorrow: Hint, TwoSoaksApart: Hint, FillTheCup: Hint,
	BloomMist: Capped, MistOnly: Capped, RestDays: Capped, CappedTo: Capped, JustSeparated: Capped,
	PressTheBase: Hint, FlowerUp: Hint, WhatElseItIs: Hint, ShakeHard: Hint, TipOut: Hint, Wring: Hint,
	RotSuspected: Warning, StillWet: Warning, NotDriedYet: Warning, BloomBadlyDry: Warning, MistOnlyDry: Warning, StillInBloom: Warning, StaysPale: Warning,
	ThirstyTwice: Warning, NewcomersWater: Warning, SuspectsWater: Warning, SicksWater: Warning,
	WetBeyondLimit: Warning, SlowHere: Computed, ShouldBeDry: Warning, FeltDamp: Saw,
	HeldUpByRoom: Computed, HeldUpByPocket: Computed, HeldUpByFilm: Computed,
	LayUpsideDown: Hint, ShakeAgain: Hint, MoreFan: Hint, OpenAWindow: Hint, SpreadOut: Hint,
	DryingTimes: Computed, DryingFromKin: Computed, DryingFromMarks: Computed,

	OffItsShelf: Saw, PulledForSoak: Saw, KeepDry: Warning, BloomLeavesOnly: Capped, JustSeparatedMist: Capped,
	ThroatHoldsWater: Capped, CoatStaysWet: Capped, WantsASoak: Capped, NeverMisted: Saw, LastMisted: Saw,
	NoSoakEver: Saw, LastSoaked: Saw, NoFeedRot: Capped, NoFeedTrouble: Capped, NoFeedQuarantine: Capped,
	NoFeedBloom: Capped, NoFeedSeparated: Capped, NoFeedNew: Capped, NoFeedWinter: Capped, NeverFed: Saw, LastFed: Saw,
	SoakItFirst: Hint, BottleStillFed: Warning, MistInTheMorning: Hint, BottleNotFed: Hint, BottleTooStrong: Warning,
	FeedCaution: Warning, LookDry: Hint, LookAfterTrip: Hint, LookAtRot: Warning, LookAtTrouble: Warning,
	NewcomerLacks: Saw, NewcomerReady: Hint, TroubleBack: Saw, OffsetMay: Saw, OffsetReady: Saw, NeverLookedOver: Saw,
	LastLookedOver: Saw, NobodyWeighed: Hint, ScaleCaution: Warning, WeighingDay: Saw, FirstSoakLong: Hint, WeighBefore: Hint,
	WeighAndLook: Hint, WeighFull: Hint, WeighHalfWay: Hint, WeighAfterSoak: Hint, WeighWhenDry: Hint, WeighedOnce: Saw,
	WeighedFull: Saw,

	EmptyOrUnknown: Saw, SickWasIn: Warning, SuspectWasIn: Warning, LoadsUsedUp: Capped, NotAnotherDay: Capped,
	HoursUsedUp: Capped, NewcomerWasIn: Warning, TooCold: Capped, TooWarm: Capped, OverLimit: Warning,
	HardWater: Warning, SourceWarns: Warning, TapStood: Hint, ChlorineIsLeft: Computed, Chloramine: Computed,
	WaterFine: Computed, StandingWater: Warning,
}

// because is a reason with its numbers.
func because(c Code, n ...float64) Reason {
	r := Reason{Code: c}
	copy(r.N[:], n)
	return r
}

// about is a reason with the name of what it is about.
func about(name string, r Reason) Reason {
	r.Name = name
	return r
}
