package model

import "time"

// What a machine's clock may differ from the newest entry before it is doubted.
// A choice: two machines of one house are minutes apart, and no grower leaves the
// book alone for half a year.
const (
	clockBehind = 10 * time.Minute
	clockAhead  = 183 * 24 * time.Hour
)

// earliest is before any entry that a clock which is right can date.
var earliest = time.Date(2020, time.January, 1, 0, 0, 0, 0, time.UTC)

// ClockDoubt is what is odd about a machine's clock.
type ClockDoubt struct {
	Newest time.Time // when the newest entry happened, zero when there is none
	Ahead  bool      // the clock is far ahead of it; else it is behind
}

// DoubtClock says whether a machine's clock can be right, going by the entry
// written last. It returns false when nothing speaks against it.
func (b *Book) DoubtClock(now time.Time) (ClockDoubt, bool) {
	if len(b.entries) == 0 {
		return ClockDoubt{}, now.Before(earliest)
	}
	newest := b.entries[len(b.entries)-1].At
	switch {
	case now.Before(earliest), newest.Sub(now) > clockBehind:
		return ClockDoubt{Newest: newest}, true
	case now.Sub(newest) > clockAhead:
		return ClockDoubt{Newest: newest, Ahead: true}, true
	}
	return ClockDoubt{}, false
}
