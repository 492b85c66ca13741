package paper

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/emersion/go-ical"
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

// ICS is the calendar as RFC 5545 has it. It refuses a calendar without events, as
// that does, with a [model.Problem].
func (c Calendar) ICS() (string, error) {
	if len(c.Events) == 0 {
		return "", &model.Problem{
			What: "there is nothing to put into the calendar",
			Do:   "make it when something is due",
		}
	}
	cal := ical.NewCalendar()
	cal.Props.SetText(ical.PropVersion, "2.0")
	cal.Props.SetText(ical.PropProductID, "-//tubside//"+show.Safe(c.Name)+"//EN")
	cal.Props.SetText(ical.PropMethod, "PUBLISH")
	cal.Props.SetText("X-WR-CALNAME", show.Safe(c.Name))
	for _, e := range c.Events {
		cal.Children = append(cal.Children, e.component(c.Made))
	}
	var b strings.Builder
	if err := ical.NewEncoder(&b).Encode(cal); err != nil {
		return "", fmt.Errorf("write the calendar: %w", err)
	}
	return fold(b.String()), nil
}

// octets is how long a line may be (RFC 5545, 3.1), which the library leaves to
// its caller.
const octets = 75

// fold breaks lines that are longer, between characters; the rest begins with a
// space.
func fold(text string) string {
	var b strings.Builder
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		for room := octets; len(line) > room; room = octets - 1 {
			cut := room
			for !utf8.RuneStart(line[cut]) {
				cut--
			}
			b.WriteString(line[:cut] + "\r\n ")
			line = line[cut:]
		}
		b.WriteString(line + "\r\n")
	}
	return b.String()
}

// component is the event as it stands in the file.
func (e Event) component(made time.Time) *ical.Component {
	v := ical.NewEvent()
	v.Props.SetText(ical.PropUID, e.ID+"@tubside")
	v.Props.SetDateTime(ical.PropDateTimeStamp, made.UTC())
	v.Props.SetText(ical.PropSummary, show.Safe(e.What))
	if e.More != "" {
		lines := strings.Split(e.More, "\n")
		for i, line := range lines {
			lines[i] = show.Safe(line)
		}
		v.Props.SetText(ical.PropDescription, strings.Join(lines, "\n"))
	}
	until := e.Until
	if !until.After(e.At) {
		until = e.At.Add(time.Minute)
	}
	switch {
	case e.AllDay:
		if !e.Until.After(e.At) {
			until = e.At.AddDate(0, 0, 1)
		}
		v.Props.SetDate(ical.PropDateTimeStart, e.At)
		v.Props.SetDate(ical.PropDateTimeEnd, until)
	case e.Weekly: // the same hour wherever the phone is: without a zone
		for name, at := range map[string]time.Time{ical.PropDateTimeStart: e.At, ical.PropDateTimeEnd: until} {
			v.Props.Set(&ical.Prop{Name: name, Params: ical.Params{}, Value: at.Format("20060102T150405")})
		}
		v.Props.Set(&ical.Prop{Name: ical.PropRecurrenceRule, Params: ical.Params{}, Value: "FREQ=WEEKLY"})
	default:
		v.Props.SetDateTime(ical.PropDateTimeStart, e.At.UTC())
		v.Props.SetDateTime(ical.PropDateTimeEnd, until.UTC())
	}
	if e.Ring {
		alarm := ical.NewComponent(ical.CompAlarm)
		alarm.Props.SetText(ical.PropAction, "DISPLAY")
		alarm.Props.SetText(ical.PropDescription, show.Safe(e.What))
		alarm.Props.Set(&ical.Prop{
			Name: ical.PropTrigger, Params: ical.Params{}, Value: fmt.Sprintf("-PT%dM", int(e.Before.Minutes())),
		})
		v.Children = append(v.Children, alarm)
	}
	return v.Component
}

// PlanCalendar is a soak day's plan: each step at its time. What goes in or comes out of
// the water rings when it is due, the first step a quarter of an hour before, and a tap when
// it is to be opened and when it is to be turned off.
func PlanCalendar(b *model.Book, p *day.Plan) Calendar {
	c := Calendar{Name: "Soak day", Made: p.Made}
	seen := map[string]int{}
	for i := range p.Steps {
		s := &p.Steps[i]
		id := fmt.Sprintf("plan-%s-%s-%s", p.Ask.From.Format("20060102"), word(s.Vessel), word(fmt.Sprint(s.Do)))
		seen[id]++ // also of what is done: the next keeps its own
		if s.Done {
			continue
		}
		e := Event{
			ID: fmt.Sprintf("%s-%d", id, seen[id]), At: s.At, Until: s.Until, What: show.Step(b, p, s),
			Ring: i == 0 || s.Do == soak.PutIn || s.Do == soak.GetOut || s.Do == soak.Fill, More: plantLines(b, s.Plants),
		}
		if i == 0 {
			e.Before = 15 * time.Minute
		}
		c.Events = append(c.Events, e)
		if s.Do == soak.Fill {
			c.Events = append(c.Events, turnOff(e.ID+"-off", s.Vessel, s.Until))
		}
	}
	for _, v := range p.Vessels { // the tap runs there now
		if full := p.Full[v.Name]; full.After(p.Made) {
			c.Events = append(c.Events, turnOff(fmt.Sprintf("plan-%s-%s-off", p.Ask.From.Format("20060102"), word(v.Name)), v.Name, full))
		}
	}
	return c
}

// turnOff is the end of a filling: a tap that is forgotten runs onto the floor.
func turnOff(id, vessel string, at time.Time) Event {
	return Event{
		ID: id, At: at, Until: at, What: "Turn off the tap: " + vessel + " is full", Ring: true,
		More: "Never leave a filled tub or bucket, not for a minute, where there is a child or a pet.",
	}
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

// mostInEvent is how many plants an event lists; the rest is counted:
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
			ID: "week-" + word(string(d.Day)), At: d.Next,
			Until: d.Next.Add(time.Duration(d.Needs * float64(time.Hour))),
			What:  "Soak " + strings.Join(shelves, ", "), Weekly: true, Ring: true, Before: 30 * time.Minute,
			More: fmt.Sprintf("About %.0f plants, %s of work.", d.Plants, show.Minutes(d.Needs*60)),
		})
	}
	for _, r := range rounds {
		c.Events = append(c.Events, roundEvents(b, r, now)...)
	}
	for _, t := range b.Trips() {
		if end := t.Home(); end.After(now) {
			c.Events = append(c.Events, Event{
				ID: "trip-" + t.From.In(b.Zone()).Format("20060102"), AllDay: true, What: "Away from the plants",
				More: t.Note, At: t.From.In(b.Zone()), Until: end.In(b.Zone()).AddDate(0, 0, 1),
			})
		}
	}
	return c
}

// roundDays is how far ahead the rounds are put into the calendar: two
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
