package board

import (
	"fmt"
	"math"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// loading is the load that one key would start: the plants, how long, and what
// stays behind.
type loading struct {
	ids     model.IDs
	minutes float64
	litres  float64
	over    int  // plants for which the vessel has no room
	apart   int  // plants that need another time
	differ  bool // marked by hand although their times do not meet
}

// next puts together the load that would start now: the marked waiting plants,
// else those of the waiting group under the cursor, or of the first one, that
// can share a time.
func (s *soakScreen) next() loading {
	return s.fit(s.candidates(), s.rows.several())
}

func (s *soakScreen) candidates() model.IDs {
	waiting := map[model.ID]bool{}
	for _, id := range s.book.Waiting() {
		waiting[id] = true
	}
	if s.rows.several() {
		var ids model.IDs
		for _, id := range s.rows.chosen() {
			if waiting[id] {
				ids = append(ids, id)
			}
		}
		return ids
	}
	if g, ok := s.groupHere(); ok && g.load == nil {
		return g.ids
	}
	for _, g := range s.shown {
		if g.load == nil {
			return g.ids
		}
	}
	return nil
}

// groupHere is the group under the cursor.
func (s *soakScreen) groupHere() (soakGroup, bool) {
	if s.rows.cursor < len(s.rows.rows) {
		return s.shown[s.rows.rows[s.rows.cursor].group], true
	}
	return soakGroup{}, false
}

// fit takes plants in order while the vessel has room and their times meet, and
// soaks them as long as the one that needs most. Plants marked by hand go in
// whatever their times; then the shortest cap rules, since caps beat needs.
func (s *soakScreen) fit(ids model.IDs, byHand bool) loading {
	v := s.chosen()
	room := v.Litres - s.taken(v)
	empty := len(s.book.InVessel(v.Name)) == 0
	var l loading
	w := soak.Window{To: math.Inf(1)}
	for _, id := range ids {
		litres := estimate.Bulk(s.book.Row(id).Plant)
		meet := meeting(w, s.window(id))
		switch {
		case l.litres+litres > room && !(empty && len(l.ids) == 0): // one too large still goes in alone
			l.over++
			continue
		case meet.From > meet.To && !byHand:
			l.apart++
			continue
		}
		l.ids, l.litres, w = append(l.ids, id), l.litres+litres, meet
	}
	l.differ = w.From > w.To
	l.minutes = min(max(min(w.From, w.To)+s.adjust, 1), model.MaxSoak.Minutes())
	return l
}

// meeting is the time that suits both windows; From is past To when none does.
func meeting(a, b soak.Window) soak.Window {
	return soak.Window{From: max(a.From, b.From), To: min(a.To, b.To)}
}

// window is a plant's from-to; a plant that needs no soak but was pulled by
// hand gets the shortest real one.
func (s *soakScreen) window(id model.ID) soak.Window {
	if n := s.need(id); n.To > 0 {
		return soak.Window{From: n.From, To: n.To}
	}
	return advice.DipWindow(s.book.Rules())
}

// leftBehind says what the load does not take.
func (l loading) leftBehind() string {
	text := ""
	if l.over > 0 {
		text += fmt.Sprintf("; no room for %d", l.over)
	}
	if l.apart > 0 {
		text += fmt.Sprintf("; another time for %d", l.apart)
	}
	if l.differ {
		text += "; their times differ, the shortest cap rules"
	}
	return text
}
