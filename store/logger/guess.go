package logger

import (
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// guess is the guess with what is needed to read by it.
type guess struct {
	Guess
	zone                  *time.Location
	time, clock, temp, rh int  // columns; clock -1 where the time has it
	numbered              bool // seconds or milliseconds since 1970
	lastDay               string
	lastDate              date.Date
}

// guess finds the columns, the unit and the order of dates; what the grower said
// goes first.
func (s *sheet) guess(opt Options) (*guess, error) {
	g := &guess{zone: opt.Zone, clock: -1}
	g.Columns = s.names
	if err := g.findTime(s, opt); err != nil {
		return nil, err
	}
	if err := g.findAir(s, opt); err != nil {
		return nil, err
	}
	g.findUnit(s, opt.Unit)
	g.Time, g.Temp, g.RH = s.names[g.time], s.names[g.temp], s.names[g.rh]
	if g.clock >= 0 {
		g.Clock = s.names[g.clock]
	}
	return g, nil
}

// findTime takes the column that most often holds a date, and beside it one that
// holds times of day where the date has none.
func (g *guess) findTime(s *sheet, opt Options) (err error) {
	if opt.Time != "" {
		g.time, err = s.find(opt.Time)
	} else {
		g.time = s.most(looksLikeMoment)
	}
	if err != nil {
		return err
	}
	_, g.numbered = epoch(cell(s.rows[0].Cells, g.time))
	if g.numbered {
		return nil
	}
	if _, clock, _ := apart(cell(s.rows[0].Cells, g.time)); clock == "" {
		if g.clock = s.most(isClock); s.share(g.clock, isClock) < mostly {
			g.clock = -1
			g.doubt("the times have days and no hours: each day is taken as read at noon")
		}
	}
	g.findOrder(s, opt.Dates)
	return nil
}

func isClock(cell string) bool {
	_, ok := parseClock(cell)
	return ok
}

// findOrder tells day and month apart: by the order in which every date is one,
// else by that in which the readings follow one another more closely.
func (g *guess) findOrder(s *sheet, given model.DayOrder) {
	if g.Dates = given; given != model.ISO {
		return
	}
	days := g.days(s)
	dmy, mdy := follow(days, model.DMY), follow(days, model.MDY)
	switch {
	case follow(days, model.ISO).read == len(s.rows):
	case dmy.better(mdy):
		g.Dates = model.DMY
	case mdy.better(dmy):
		g.Dates = model.MDY
	default:
		g.Dates = model.DMY
		if dmy.read > 0 && dmy.first != mdy.first {
			g.doubt("day or month first? taken as day first; say --dates mdy if it is not")
		}
	}
}

// following is how the dates of a file follow one another in one order.
type following struct {
	read       int // dates that there are
	back, jump int // steps back, and the longest step, in days
	first      date.Date
}

func (f following) better(o following) bool {
	switch {
	case f.read != o.read:
		return f.read > o.read
	case f.back != o.back:
		return f.back < o.back
	}
	return f.jump < o.jump
}

// sameDay is rows one after another with the same date.
type sameDay struct {
	text string
	rows int
}

func (g *guess) days(s *sheet) []sameDay {
	var days []sameDay
	for _, rec := range s.rows {
		text, _, _ := apart(cell(rec.Cells, g.time))
		if n := len(days) - 1; n >= 0 && days[n].text == text {
			days[n].rows++
		} else {
			days = append(days, sameDay{text, 1})
		}
	}
	return days
}

func follow(days []sameDay, order model.DayOrder) (f following) {
	var last date.Date
	up, down := 0, 0
	for _, day := range days {
		d, ok := parseDay(day.text, order)
		if !ok {
			continue
		}
		switch {
		case f.read == 0:
			f.first = d
		case d > last:
			up++
		case d < last:
			down++
		}
		if f.read > 0 {
			f.jump = max(f.jump, int(max(d-last, last-d)))
		}
		f.read += day.rows
		last = d
	}
	f.back = min(up, down) // a file may begin with the newest
	return f
}

// moment reads a row's time by the guess.
func (g *guess) moment(cells []string) (time.Time, bool) {
	text := cell(cells, g.time)
	if g.numbered {
		return epoch(text)
	}
	day, clock, zone := apart(text)
	if g.clock >= 0 {
		_, clock, zone = apart(cell(cells, g.clock))
	}
	if day != g.lastDay { // rows of one day stand together
		d, ok := parseDay(day, g.Dates)
		if !ok {
			return time.Time{}, false
		}
		g.lastDay, g.lastDate = day, d
	}
	length, ok := parseClock(clock)
	if clock == "" && g.clock < 0 {
		length, ok = 12*time.Hour, true
	}
	if !ok {
		return time.Time{}, false
	}
	// Through time.Date, so that days on which the clocks change come out right;
	// of the hour that comes twice in autumn both readings join the first.
	y, m, d := g.lastDate.Date()
	return time.Date(y, m, d, int(length/time.Hour), int(length/time.Minute)%60, int(length/time.Second)%60, 0,
		parseZone(zone, g.zone)), true
}
