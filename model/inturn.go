package model

import "time"

// AtOf is when the hands came to a plant of the entry, by its place in Plants: the entry's
// time, but for plants that were laid in or taken out one after another. The first of two
// hundred that come out lies on the bench an hour before the last.
func (e Entry) AtOf(place int) time.Time {
	n := len(e.Plants)
	switch f := e.Fact.(type) {
	case *Soak:
		return e.At.Add(inTurn(f.Took, place, n))
	case *Out:
		return e.At.Add(-inTurn(f.Took, n-1-place, n))
	}
	return e.At
}

// inTurn is how long the hands take for so many of n plants, in whole seconds.
func inTurn(seconds, plants, n int) time.Duration {
	if n == 0 {
		return 0
	}
	return time.Duration(seconds*plants/n) * time.Second
}

// checkTook says what is wrong with how long the hands took.
func checkTook(seconds int) error {
	if seconds < 0 || seconds > int(MaxSoak.Seconds()) {
		return tookTooLong(seconds)
	}
	return nil
}

func tookTooLong(seconds int) error {
	return &Problem{What: "the hands cannot have taken " + inWords(time.Duration(seconds)*time.Second), Do: "say how long they took, or nothing"}
}
