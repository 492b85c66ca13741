package board

import (
	"cmp"
	"slices"
	"strings"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// weekScreen is the collection spread over the week: the hours of each day, and
// which shelf has its turn when.
type weekScreen struct {
	desk  *desk
	week  *day.Week            // as it is, or as it would be with the shelf moved
	was   *day.Week            // as it is, while a shelf is being moved
	moved string               // the shelf being moved; "" is that of plants without one
	to    model.Weekday        // the day it is moved to; empty: none is
	rows  window               // the shelves
	hung  map[string]model.IDs // the plants of each shelf, the thirstiest first
	built int
}

func newWeek(d *desk) *weekScreen { return &weekScreen{desk: d, built: -1} }

func (s *weekScreen) name() string   { return "Week" }
func (s *weekScreen) letter() string { return "w" }
func (s *weekScreen) badge() string  { return "" }
func (s *weekScreen) list() *list    { return nil }

func (s *weekScreen) open() {
	if s.built != s.desk.version {
		s.build()
	}
}

func (s *weekScreen) sync() {
	if s.built != s.desk.version {
		s.build()
	}
}

func (s *weekScreen) build() {
	s.built, s.was, s.week = s.desk.version, nil, day.NewWeek(s.desk.keeper, s.desk.now)
	if s.moving() { // a minute later the shelf is still being moved
		if week, _, err := s.week.Move(s.moved, s.to); err == nil {
			s.was, s.week = s.week, week
		} else {
			s.moved, s.to = "", ""
		}
	}
	s.rows.fit(len(s.week.Shelves), s.rows.height)
	s.hung = make(map[string]model.IDs, len(s.week.Shelves))
	for i := range s.desk.outlook.Needs {
		id := s.desk.outlook.Needs[i].ID
		key := model.ShelfKey(s.desk.book.Row(id).Home.Shelf)
		s.hung[key] = append(s.hung[key], id)
	}
	for _, ids := range s.hung {
		slices.SortStableFunc(ids, func(a, b model.ID) int { return cmp.Compare(s.desk.need(a).RWC, s.desk.need(b).RWC) })
	}
}

func (s *weekScreen) groups() []group {
	none := func() string {
		if len(s.week.Shelves) == 0 {
			return "No shelves yet"
		}
		return ""
	}
	return []group{
		{"The week", []binding{
			act("enter", "keep the shelf on this day", s.keep).unless(none).footWhen("keep", s.moving),
			act("h ←", "the shelf to an earlier day",
				func() { s.move(-1) }).unless(none).foot("move the shelf to another day"),
			act("l →", "the shelf to a later day: see what it does",
				func() { s.move(1) }).unless(none).foot("move the shelf to another day"),
			act("K", "keep all days as proposed", s.keepAll).footWhen("keep all as proposed",
				func() bool { return !s.moving() }),
			act("esc", "drop the move", s.drop).footWhen("drop", s.moving),
		}},
		{"The shelves", s.rows.keys()},
	}
}

// drop shows the week as it is again.
func (s *weekScreen) drop() {
	s.moved, s.to = "", ""
	s.build()
}

// moving reports whether the week is shown with a shelf on another day.
func (s *weekScreen) moving() bool { return s.to != "" }

// turn is the shelf under the cursor.
func (s *weekScreen) turn() day.ShelfTurn { return s.week.Shelves[s.rows.cursor] }

// move shows the week with the shelf on another day; nothing is written yet.
func (s *weekScreen) move(n int) {
	turn := s.turn()
	to := turn.Day
	for i, d := range model.Weekdays {
		if d == to {
			to = model.Weekdays[(i+n+len(model.Weekdays))%len(model.Weekdays)]
			break
		}
	}
	was := day.NewWeek(s.desk.keeper, s.desk.now)
	week, changes, err := was.Move(turn.Shelf, to)
	if err != nil {
		s.desk.complain(err)
		return
	}
	s.was, s.week, s.moved, s.to = was, week, turn.Shelf, to
	text := strings.Join(show.Moved(changes), "; ")
	if turn.Shelf == "" {
		text = shelfWords("") + text // begins with the colon after the name
	}
	s.desk.say("%s", text)
}

// keep writes the day of the shelf under the cursor. With a shelf moved it writes
// the whole week as it is shown, so that no other shelf is proposed anew.
func (s *weekScreen) keep() {
	days := map[string]model.Weekday{s.turn().Shelf: s.turn().Day}
	if s.moving() {
		for _, t := range s.week.Shelves {
			if !t.Kept {
				days[t.Shelf] = t.Day
			}
		}
		days[s.moved] = s.to
	}
	if s.desk.enter(&model.ShelfDays{Days: days}) {
		s.drop()
	}
}

func (s *weekScreen) keepAll() {
	fact := day.NewWeek(s.desk.keeper, s.desk.now).Keep()
	if fact == nil {
		s.desk.say("Every shelf's day is in the book already")
		return
	}
	s.desk.enter(fact)
}

func (s *weekScreen) lead() string { return "" }
