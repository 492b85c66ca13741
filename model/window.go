package model

import (
	"slices"
	"time"
)

var _ = register[WindowSet]("window")

// Window is how the room with the drying plants is aired.
type Window string

// The ways to air the room. How much each gives is a house rule.
const (
	WindowShut Window = "shut"
	WindowOpen Window = "open"
	DoorOpen   Window = "door"      // its door stands open to the rest of the home
	Extractor  Window = "extractor" // a fan that draws air out of the room
)

// AllWindows lists the ways to air the room.
var AllWindows = []Window{WindowShut, DoorOpen, WindowOpen, Extractor}

// ParseWindow reads a way to air the room by its word.
func ParseWindow(s string) (Window, error) { return oneOf("window", s, AllWindows) }

// WindowSet says how the room is aired from now on.
type WindowSet struct {
	Window Window `json:"window"`
}

// Kind implements [Fact].
func (WindowSet) Kind() Kind { return "window" }

func (f WindowSet) check(b *Book, e Entry) error {
	if !slices.Contains(AllWindows, f.Window) {
		return &Problem{What: "window " + string(f.Window), Do: "use shut, door, open or extractor"}
	}
	return nil
}

func (f WindowSet) apply(b *Book, e Entry) {
	i, _ := slices.BinarySearchFunc(b.windows, e.At, func(w WindowAt, t time.Time) int {
		if w.At.After(t) {
			return 1
		}
		return -1
	})
	b.windows = slices.Insert(b.windows, i, WindowAt{e.At, f.Window})
}

// WindowAt is how the room was aired from a time on.
type WindowAt struct {
	At     time.Time
	Window Window
}

// Window is how the room is aired at a time, and since when: by its door, since a
// zero time, until somebody said otherwise. A room is part of a home, not a box.
func (b *Book) Window(at time.Time) WindowAt {
	for i := len(b.windows) - 1; i >= 0; i-- {
		if !b.windows[i].At.After(at) {
			return b.windows[i]
		}
	}
	return WindowAt{Window: DoorOpen}
}

// AirChangesWith is the air changes per hour of the room aired in some way.
func (r Rules) AirChangesWith(w Window) float64 {
	switch w {
	case WindowOpen:
		return r[AirChangesOpen]
	case DoorOpen:
		return r[AirChangesDoor]
	case Extractor:
		return r[AirChangesExtractor]
	}
	return r[AirChanges]
}

// Windows is the history of how the room was aired, oldest first. The caller
// must not change it.
func (b *Book) Windows() []WindowAt { return b.windows }
