package board

import (
	"slices"
	"time"

	"tubside/model"
)

// A walk is a round of looking at the plants. It does not end at midnight: a soak
// day may, and a sheet may be keyed in the morning after.

// A walk goes on over a pause as long as a night, and is over a day after it began.
// Choices.
const (
	walkPause = 12 * time.Hour
	walkLasts = 24 * time.Hour
)

// walkBegan is when the walk at hand began, of the times at which plants were looked
// at; now when there is none.
func walkBegan(looks []time.Time, now time.Time) time.Time {
	slices.SortFunc(looks, func(a, b time.Time) int { return b.Compare(a) })
	began := now.Truncate(time.Second) // as entries are dated
	for _, at := range looks {
		if began.Sub(at) > walkPause || now.Sub(at) >= walkLasts {
			break
		}
		began = at
	}
	return began
}

// findWalk finds out when the walk at hand began. A plant looked at later belongs
// to it.
func (t *triage) findWalk() {
	var looks []time.Time
	for _, id := range t.desk.book.IDs() {
		if at := t.desk.book.Row(id).SignsAt; t.desk.now.Sub(at) < walkLasts {
			looks = append(looks, at)
		}
	}
	t.walk = walkBegan(looks, t.desk.now)
}

// looked reports whether a plant was looked at in the walk at hand.
func (t *triage) looked(id model.ID) bool { return !t.desk.book.Row(id).SignsAt.Before(t.walk) }
