package board

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/show"
)

// loading is the load that one key would start: the plants, how long, and what
// stays behind.
type loading struct {
	ids      model.IDs
	minutes  float64
	litres   float64
	room     float64 // litres free in the vessel
	over     int     // plants for which the vessel has no room
	smallest float64 // litres of the smallest of those
	apart    int     // plants that need another time
	dry      int     // plants that must not be soaked
	marked   bool    // put together while plants were marked
	differ   bool    // marked by hand although their times do not meet

	company soak.Company              // that the plants keep
	others  map[soak.Company]struct{} // that those keep who stay behind for it
	strange int                       // how many stay behind for it
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
// whatever their times; then the shortest cap rules, since caps beat needs. All of
// a load are of one company, also by hand: the cleanest goes first.
func (s *soakScreen) fit(ids model.IDs, byHand bool) loading {
	v := s.chosen()
	room := v.Litres - s.taken(v)
	empty := len(s.desk.book.InVessel(v.Name)) == 0
	l := loading{room: room, company: s.cleanest(ids), others: map[soak.Company]struct{}{}}
	time := advice.AnyLength
	for _, id := range ids {
		company := s.company(id)
		litres := estimate.Bulk(s.desk.book.Row(id).Plant)
		window, ok := advice.MayLie(s.desk.book, *s.desk.need(id))
		meet := time.Meet(window)
		switch {
		case !ok:
			l.dry++
			continue
		case company != l.company:
			l.others[company] = struct{}{}
			l.strange++
			continue
		case l.litres+litres > room && !(empty && len(l.ids) == 0): // one too large still goes in alone
			if l.over++; l.over == 1 || litres < l.smallest {
				l.smallest = litres
			}
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

// company is the company that a plant keeps in the water.
func (s *soakScreen) company(id model.ID) soak.Company {
	return advice.CompanyOf(s.desk.book, s.desk.book.Row(id), s.desk.now)
}

// cleanest is the cleanest company among those of some plants that may be soaked.
func (s *soakScreen) cleanest(ids model.IDs) soak.Company {
	cleanest := soak.Sick
	for _, id := range ids {
		if _, ok := advice.MayLie(s.desk.book, *s.desk.need(id)); ok {
			cleanest = min(cleanest, s.company(id))
		}
	}
	return cleanest
}

// badCompany says why the load should not go into the chosen vessel as that is: who
// lay in its water before, or lies in it now; "" when nobody is in the way.
func (s *soakScreen) badCompany(l loading) string {
	clash, is := advice.ClashIn(s.desk.book, s.chosen().Name, l.company, s.desk.now)
	switch with := show.Line(show.InCompany(clash.With)); {
	case !is:
		return ""
	case clash.Lies:
		return fmt.Sprintf("%s still lie in there: s again puts %s in with them", with, show.InCompany(l.company))
	default:
		return with + " lay in this water: e empties it, s again goes ahead"
	}
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
	if l.strange > 0 {
		var who []string
		for _, c := range slices.Sorted(maps.Keys(l.others)) {
			who = append(who, show.InCompany(c))
		}
		text += fmt.Sprintf("; %d kept apart: %s", l.strange, strings.Join(who, ", "))
	}
	if l.dry > 0 {
		text += fmt.Sprintf("; %d not to be soaked", l.dry)
	}
	if l.differ {
		text += "; times differ"
	}
	return text
}
