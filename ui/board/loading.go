package board

import (
	"fmt"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
)

// loading is the load that one key would start: the plants, how long, and what
// stays behind.
type loading struct {
	ids     model.IDs
	minutes float64
	litres  float64
	over    int  // plants for which the vessel has no room
	apart   int  // plants that need another time
	dry     int  // plants that must not be soaked
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
	for _, id := range s.desk.book.Waiting() {
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
	empty := len(s.desk.book.InVessel(v.Name)) == 0
	var l loading
	time := advice.AnyLength
	for _, id := range ids {
		litres := estimate.Bulk(s.desk.book.Row(id).Plant)
		window, ok := advice.MayLie(s.desk.book, *s.desk.need(id))
		meet := time.Meet(window)
		switch {
		case !ok:
			l.dry++
			continue
		case l.litres+litres > room && !(empty && len(l.ids) == 0): // one too large still goes in alone
			l.over++
			continue
		case !meet.Agrees() && !byHand:
			l.apart++
			continue
		}
		l.ids, l.litres, time = append(l.ids, id), l.litres+litres, meet
	}
	l.differ = !time.Agrees()
	l.minutes = min(max(time.Length().Minutes()+s.adjust, 1), model.MaxSoak.Minutes())
	return l
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
	if l.dry > 0 {
		text += fmt.Sprintf("; %d not to be soaked", l.dry)
	}
	if l.differ {
		text += "; their times differ, the shortest cap rules"
	}
	return text
}
