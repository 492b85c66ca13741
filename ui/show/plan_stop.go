package show

import (
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
)

// Stopped says what is still to do when the day has broken off: whom to carry home, and what
// to empty.
func Stopped(b *model.Book, p *day.Plan) (todo []string) {
	full := slices.Clone(p.Standing)
	for _, s := range p.Steps {
		if s.Do == soak.Empty && !s.Done {
			full = append(full, s.Vessel)
		}
	}
	for _, words := range []string{PutBack(b, p), emptyStanding(full)} {
		if words != "" {
			todo = append(todo, words)
		}
	}
	return todo
}

// BrokenOff says in what order to take out what was written out of the water when the day broke
// off; "" for nothing.
func BrokenOff(b *model.Book, p *day.Plan, now time.Time) string {
	all, until := p.BrokenOff(b, now)
	if len(all) == 0 {
		return ""
	}
	words := make([]string, len(all))
	for i, out := range all {
		words[i] = Count(len(out.Plants), "plant") + " out of " + Safe(out.Vessel)
	}
	return "take out now, in this order: " + strings.Join(words, ", then ") + "; until " + Clock(until, now, b.Zone())
}
