package care

import (
	"fmt"
	"time"

	"tubside/model"
)

// TripCount counts the plants of a trip.
type TripCount struct {
	Plants, Soak             int // all; to soak on the last day
	Crossing, Half, Injured  int // over each line on return, left alone
	HalfAfter, InjuredAfter  int // after the last soaks
	StillWet, Move, Blooming int
	Handling                 time.Duration // of all last soaks, in and out
}

// Count counts what the forecast says.
func (t *Trip) Count(b *model.Book) TripCount {
	n := TripCount{Plants: len(t.Plants)}
	for i := range t.Plants {
		l := &t.Plants[i]
		_, after := l.AtReturn()
		if l.Last != nil {
			in, out := HandSeconds(b.Row(l.ID).Plant, b.Rules())
			n.Handling += time.Duration((in + out) * float64(time.Second))
		}
		for _, c := range []struct {
			counts bool
			in     *int
		}{
			{l.Last != nil, &n.Soak}, {l.StillWet, &n.StillWet}, {l.Move, &n.Move}, {!b.Row(l.ID).Bloom.IsZero(), &n.Blooming},
			{!l.Lines.Soak.IsZero(), &n.Crossing}, {!l.Lines.HalfGone.IsZero(), &n.Half}, {!l.Lines.Injury.IsZero(), &n.Injured},
			{!after.HalfGone.IsZero(), &n.HalfAfter}, {!after.Injury.IsZero(), &n.InjuredAfter},
		} {
			if c.counts {
				*c.in++
			}
		}
	}
	return n
}

// LastSoakTimes is the earliest of the latest times to put a plant in, and the
// latest to take one out, among the last soaks. Both are zero when there are
// none.
func (t *Trip) LastSoakTimes() (firstIn, lastOut time.Time) {
	for _, l := range t.Plants {
		if l.Last == nil {
			continue
		}
		if firstIn.IsZero() || l.Last.InBy.Before(firstIn) {
			firstIn = l.Last.InBy
		}
		lastOut = later(lastOut, l.Last.OutBy)
	}
	return firstIn, lastOut
}

// dampSaid is how much longer drying must take to be told. Our own.
const dampSaid = 1.2

// Words says the trip in a few sentences, the most pressing last.
func (t *Trip) Words(b *model.Book) []string {
	n := t.Count(b)
	lines := []string{
		fmt.Sprintf("%s away, %s to %s, in air of %s, deficit %.2f kPa: %s",
			daysAway(t.From, t.Until), dayWords(t.From, b), dayWords(t.Until, b), tempWords(t.Air, b.Rules()), t.Air.Deficit, t.Air.Words()),
		fmt.Sprintf("left alone, %d of %d cross the soak line, %d lose half their water, %d reach injury", n.Crossing, n.Plants, n.Half, n.Injured),
	}
	if n.Soak > 0 {
		first, last := t.LastSoakTimes()
		lines = append(lines, fmt.Sprintf("soak %d before you go, %s of handling: the first in by %s, the last out by %s, all dry by %s; then %d lose half, %d reach injury",
			n.Soak, minutesWords(n.Handling.Minutes()), momentWords(first, b), momentWords(last, b), momentWords(t.DryBy, b), n.HalfAfter, n.InjuredAfter))
	} else {
		lines = append(lines, "nothing needs a soak before you go")
	}
	if n.Soak > 0 && t.Damp >= dampSaid {
		lines = append(lines, fmt.Sprintf("so many in one room make it damp: each takes %.1fx as long to dry; over two days, or with the window open, less", t.Damp))
	}
	if n.Move > 0 {
		lines = append(lines, fmt.Sprintf("%d to move: off dry shelves and heaters, out of the sun, to the moistest airy place", n.Move))
	}
	if n.StillWet > 0 {
		lines = append(lines, fmt.Sprintf("%d may still be wet when you leave: nothing goes back damp on the day you leave", n.StillWet))
	}
	return lines
}

func daysAway(from, until time.Time) string {
	if until.Sub(from) < 24*time.Hour {
		return "less than a day"
	}
	return daysWords(until.Sub(from).Hours() / 24)
}

func dayWords(t time.Time, b *model.Book) string { return t.In(b.Zone()).Format("2 Jan 2006") }

func momentWords(t time.Time, b *model.Book) string { return t.In(b.Zone()).Format("Mon 2 Jan 15:04") }

func tempWords(a ExpectedAir, rules model.Rules) string {
	temp, unit := a.TempC, "°C"
	if rules.Fahrenheit() {
		temp, unit = temp*9/5+32, "°F"
	}
	return fmt.Sprintf("%.0f %s and %.0f %% humidity", temp, unit, a.RH)
}
