package paper

import (
	"fmt"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// Calendar is times to keep, for a phone that knows no network: a file that its
// calendar takes in, and which rings.
type Calendar struct {
	Name   string
	Made   time.Time
	Events []Event
}

// Event is one thing at a time. The same thing has the same ID each time the
// calendar is made, so that taking it in again moves it instead of doubling it.
type Event struct {
	ID        string
	At, Until time.Time
	What      string
	More      string // more lines; may be empty
	AllDay    bool   // days, Until the first that is not
	Weekly    bool   // every week at this hour, wherever the phone is
	Ring      bool   // an alarm when it begins
	Before    time.Duration
}

// ICS is the calendar as RFC 5545 has it: lines of at most 75 octets, CRLF.
func (c Calendar) ICS() string {
	cal := ics.NewCalendarFor("tubside")
	cal.SetProductId("-//tubside//" + show.Safe(c.Name) + "//EN")
	cal.SetMethod(ics.MethodPublish)
	cal.SetXWRCalName(show.Safe(c.Name))
	for _, e := range c.Events {
		e.onto(cal, c.Made)
	}
	return cal.Serialize(ics.WithNewLineWindows)
}

// floating is a time of day without a zone: the same hour wherever the phone is.
const floating = "20060102T150405"

func (e Event) onto(cal *ics.Calendar, made time.Time) {
	v := cal.AddEvent(e.ID + "@tubside")
	v.SetDtStampTime(made)
	v.SetSummary(show.Safe(e.What))
	if e.More != "" {
		lines := strings.Split(e.More, "\n")
		for i, line := range lines {
			lines[i] = show.Safe(line)
		}
		v.SetDescription(strings.Join(lines, "\n"))
	}
	until := e.Until
	if !until.After(e.At) {
		until = e.At.Add(time.Minute)
	}
	switch {
	case e.AllDay:
		v.SetAllDayStartAt(e.At)
		if !e.Until.After(e.At) {
			until = e.At.AddDate(0, 0, 1)
		}
		v.SetAllDayEndAt(until)
	case e.Weekly:
		v.SetProperty(ics.ComponentPropertyDtStart, e.At.Format(floating))
		v.SetProperty(ics.ComponentPropertyDtEnd, until.Format(floating))
		v.AddRrule("FREQ=WEEKLY")
	default:
		v.SetStartAt(e.At)
		v.SetEndAt(until)
	}
	if e.Ring {
		alarm := v.AddAlarm()
		alarm.SetAction(ics.ActionDisplay)
		alarm.SetTrigger(fmt.Sprintf("-PT%dM", int(e.Before.Minutes())))
		alarm.SetProperty(ics.ComponentPropertyDescription, show.Safe(e.What))
	}
}

// PlanCalendar is a soak day's plan: each step at its time. What comes out of
// the water rings when it is due, the first step a quarter of an hour before.
func PlanCalendar(b *model.Book, p *day.Plan) Calendar {
	c := Calendar{Name: "Soak day", Made: p.Made}
	seen := map[string]int{}
	for i := range p.Steps {
		s := &p.Steps[i]
		if s.Done {
			continue
		}
		id := fmt.Sprintf("plan-%s-%s-%s", p.Ask.From.Format("20060102"), word(s.Vessel), word(fmt.Sprint(s.Do)))
		seen[id]++
		e := Event{
			ID: fmt.Sprintf("%s-%d", id, seen[id]), At: s.At, Until: s.Until, What: show.Step(b, p, s),
			Ring: i == 0 || s.Do == soak.PutIn || s.Do == soak.GetOut, More: plantLines(b, s.Plants),
		}
		if i == 0 {
			e.Before = 15 * time.Minute
		}
		c.Events = append(c.Events, e)
	}
	return c
}

// word is a name that may stand in an event's ID.
func word(name string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ToLower(name))
}

// mostInEvent is how many plants an event lists; the rest is counted. Our own:
// what a phone shows without scrolling for long.
const mostInEvent = 40

// plantLines lists plants, a line each.
func plantLines(b *model.Book, ids model.IDs) string {
	var lines []string
	for i, id := range ids {
		if i == mostInEvent {
			lines = append(lines, fmt.Sprintf("and %d more", len(ids)-i))
			break
		}
		row := b.Row(id)
		lines = append(lines, fmt.Sprintf("%d %s, %s", id, row.Title(), show.Home(row.Home)))
	}
	return strings.Join(lines, "\n")
}

// DryingCalendar is when to look at what is drying, a load at a time: from when
// the first of it is expected dry until the last should be.
func DryingCalendar(b *model.Book, drying []advice.Drying, now time.Time) Calendar {
	c := Calendar{Name: "Drying", Made: now}
	at := map[model.LoadID]int{}
	ids := map[model.LoadID]model.IDs{}
	for _, d := range drying {
		row := b.Row(d.ID)
		if row.State == model.Dry || d.Expected.IsZero() {
			continue
		}
		i, known := at[row.Load]
		if !known {
			i = len(c.Events)
			at[row.Load] = i
			c.Events = append(c.Events, Event{ID: fmt.Sprintf("dry-load-%d", row.Load), At: d.Expected, Ring: true})
		}
		e := &c.Events[i]
		e.At, e.Until = model.Earlier(e.At, d.Expected), model.Later(e.Until, d.High)
		ids[row.Load] = append(ids[row.Load], d.ID)
	}
	for load, i := range at {
		e := &c.Events[i]
		e.What = fmt.Sprintf("Look whether %s are dry, load %d", show.Count(len(ids[load]), "plant"), load)
		e.More = plantLines(b, b.Walk(ids[load]))
	}
	return c
}

// WeekCalendar is the home's week: on which day which shelves are soaked, the
// rounds that come due, and the trips.
func WeekCalendar(b *model.Book, w *day.Week, rounds []advice.Round, now time.Time) Calendar {
	c := Calendar{Name: "Air plants", Made: now}
	for _, d := range w.Days {
		var shelves []string
		for _, s := range w.Shelves {
			if s.Day == d.Day || s.Second == d.Day {
				shelves = append(shelves, show.Home(model.Home{Shelf: s.Shelf}))
			}
		}
		if len(shelves) == 0 {
			continue
		}
		c.Events = append(c.Events, Event{
			ID: "week-" + word(string(d.Day)), At: d.Next, Until: d.Next.Add(time.Duration(d.Needs * float64(time.Hour))),
			What: "Soak " + strings.Join(shelves, ", "), Weekly: true, Ring: true, Before: 30 * time.Minute,
			More: fmt.Sprintf("About %.0f plants, %s of work.", d.Plants, model.Minutes(d.Needs*60)),
		})
	}
	for _, r := range rounds {
		c.Events = append(c.Events, roundEvents(b, r, now)...)
	}
	for _, t := range b.Trips() {
		if end := t.Home(); end.After(now) {
			c.Events = append(c.Events, Event{
				ID: "trip-" + t.From.In(b.Zone()).Format("20060102"), AllDay: true, What: "Away from the plants", More: t.Note,
				At: t.From.In(b.Zone()), Until: end.In(b.Zone()).AddDate(0, 0, 1),
			})
		}
	}
	return c
}

// roundDays is how far ahead the rounds are put into the calendar. Our own: two
// weeks, in which the plants' state is still foreseeable.
const roundDays = 14

// roundEvents is a round's days: today for what is due, and the days to come.
func roundEvents(b *model.Book, r advice.Round, now time.Time) (events []Event) {
	ids := map[string]model.IDs{}
	today := model.NoonOf(date.NewAt(now.In(b.Zone())), b.Zone())
	for _, s := range r.Due {
		ids[today.Format("20060102")] = append(ids[today.Format("20060102")], s.ID)
	}
	for _, s := range r.Later {
		if !s.When.IsZero() {
			key := s.When.In(b.Zone()).Format("20060102")
			ids[key] = append(ids[key], s.ID)
		}
	}
	for i := range roundDays {
		at := today.AddDate(0, 0, i)
		key := at.Format("20060102")
		if len(ids[key]) > 0 {
			events = append(events, Event{
				ID: fmt.Sprintf("round-%s-%s", word(string(r.Job)), key), At: at, AllDay: true,
				What: fmt.Sprintf("%s round: %s", show.Line(string(r.Job)), show.Count(len(ids[key]), "plant")),
				More: plantLines(b, b.Walk(ids[key])),
			})
		}
	}
	return events
}
