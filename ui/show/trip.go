package show

import (
	"fmt"
	"strconv"
	"time"

	"tubside/model"
	"tubside/model/trip"
)

// dampSaid is how much longer drying must take to be told. A guess.
const dampSaid = 1.2

// Trip says an absence in a few sentences, the most pressing last.
func Trip(b *model.Book, t *trip.Forecast) []string {
	n := t.Count(b)
	lines := []string{
		away(b, t) + ", " + AirSource(t.Air),
		fmt.Sprintf("left alone, %s of %d will want a soak, %s", orNone(n.Crossing), n.Plants, worse(n.Half, n.Injured)),
	}
	if n.Soak == 0 {
		lines = append(lines, "nothing needs a soak before you go")
	} else {
		lines = append(lines, lastSoaks(b, t, n), "after that "+worse(n.HalfAfter, n.InjuredAfter))
	}
	if n.Soak > 0 && t.Damp >= dampSaid {
		lines = append(lines, fmt.Sprintf(
			"that many in one room take %.1f times as long to dry: spread them over two days, or open the window", t.Damp))
	}
	if n.Move > 0 {
		lines = append(lines, fmt.Sprintf("move %d: away from dry shelves, heaters and sun, to the dampest airy spot", n.Move))
	}
	if n.StillWet > 0 {
		lines = append(lines, fmt.Sprintf("%d may still be wet when you leave: hang nothing back damp that day", n.StillWet))
	}
	return lines
}

// away says for how long and in what air the plants are left alone.
func away(b *model.Book, t *trip.Forecast) string {
	from, until := t.From.In(b.Zone()).Format("2 Jan"), t.Until.In(b.Zone()).Format("2 Jan 2006")
	if t.From.In(b.Zone()).Year() != t.Until.In(b.Zone()).Year() {
		from = t.From.In(b.Zone()).Format("2 Jan 2006")
	}
	return fmt.Sprintf("%s away, %s to %s, in air of %s and %.0f %% humidity", fullDays(t.Until.Sub(t.From).Hours()/24),
		from, until, wholeTemp(t.Air.TempC, b.Rules()), t.Air.RH)
}

// TripInShort says the same in short lines, each of which may be cut where a clause ends,
// apart from how many plants will want a soak, lose half their water or come to harm if
// nothing is done: see [TripNumbers].
func TripInShort(b *model.Book, t *trip.Forecast) []string {
	n := t.Count(b)
	lines := []string{away(b, t)}
	if n.Soak == 0 {
		lines = append(lines, "nothing needs a soak before you go")
	} else {
		first, last := t.LastSoakTimes()
		moment := func(at time.Time) string {
			if daysBetween(at.In(b.Zone()), first.In(b.Zone())) == 0 {
				return at.In(b.Zone()).Format("15:04")
			}
			return at.In(b.Zone()).Format("Mon 15:04")
		}
		lines = append(lines, fmt.Sprintf("soak %d on %s: the first in by %s, the last out by %s, %s of work", n.Soak,
			first.In(b.Zone()).Format("Mon 2 Jan"), moment(first), moment(last), Minutes(n.Handling.Minutes())),
			"after that "+worse(n.HalfAfter, n.InjuredAfter))
	}
	if n.Soak > 0 && t.Damp >= dampSaid {
		lines = append(lines, fmt.Sprintf("so many dry %.1f times as slowly: spread them over two days, or open the window",
			t.Damp))
	}
	if n.Move > 0 {
		lines = append(lines, fmt.Sprintf("move %d to the dampest airy spot, away from heaters and sun", n.Move))
	}
	if n.StillWet > 0 {
		lines = append(lines, fmt.Sprintf("%d may still be wet when you leave: hang nothing back damp that day", n.StillWet))
	}
	return lines
}

// TripNumbers says in one line what becomes of the plants if nothing is done, harm first.
func TripNumbers(n trip.Count) string {
	if n.Injured > 0 {
		return fmt.Sprintf("%d may come to harm, %s will be down to half, %s will want a soak", n.Injured, orNone(n.Half),
			orNone(n.Crossing))
	}
	return fmt.Sprintf("%s will want a soak, %s will be down to half, %s may come to harm", orNone(n.Crossing), orNone(n.Half),
		orNone(n.Injured))
}

// lastSoaks says how many to soak before leaving, and by when.
func lastSoaks(b *model.Book, t *trip.Forecast, n trip.Count) string {
	first, last := t.LastSoakTimes()
	moment := func(at time.Time) string {
		if daysBetween(at.In(b.Zone()), first.In(b.Zone())) == 0 {
			return at.In(b.Zone()).Format("15:04")
		}
		return at.In(b.Zone()).Format("Mon 2 Jan 15:04")
	}
	return fmt.Sprintf("soak %d before you go, about %s of work, on %s: the first in by %s, the last out by %s, all dry by %s",
		n.Soak, Minutes(n.Handling.Minutes()), first.In(b.Zone()).Format("Mon 2 Jan"), moment(first), moment(last), moment(t.DryBy))
}

// orNone is a number of plants, and none is a word.
func orNone(n int) string {
	if n == 0 {
		return "none"
	}
	return strconv.Itoa(n)
}

// worse says how many plants will have lost half their water, and how many may come
// to harm.
func worse(half, harmed int) string {
	if half == 0 && harmed == 0 {
		return "none will be down to half or come to harm"
	}
	text := orNone(half) + " will have lost half " + whether(half == 1, "its", "their") + " water, "
	if harmed == 0 {
		return text + "none should come to harm"
	}
	return text + strconv.Itoa(harmed) + " may come to harm"
}

// LeftAlone says how a plant will be on return, and apart from that what to do
// with it before leaving, the first thing first.
func LeftAlone(b *model.Book, l *trip.Left) (onReturn string, do []string) {
	row := b.Row(l.ID)
	at, _ := l.AtReturn()
	onReturn = fmt.Sprintf("%.0f %% of its water gone on return (%.0f to %.0f)", 100*at.Thirst(), 100*(1-at.High),
		100*(1-at.Low))
	if why := leftWhy[l.Why]; why != "" {
		do = append(do, why)
	}
	do = append(do, About{Book: b, Row: row}.Reasons(l.Bars)...)
	if l.SlowHours > 0 {
		do = append(do, "may take "+Minutes(l.SlowHours*60)+" to dry here: shake it hard, lay it upside down, give it air")
	}
	switch l.Move {
	case trip.OffDryShelf:
		do = append(do, fmt.Sprintf("move it: shelf %s dries plants out %.1f times as fast", Safe(row.Home.Shelf), l.Faster))
	case trip.ToMoistAir:
		do = append(do, "move it away from heaters and sun, to the dampest airy spot you have")
	}
	return onReturn, do
}

// leftWhy says why a plant gets no last soak.
var leftWhy = map[trip.Why]string{
	trip.MayBeWet:      "may be wet when you leave: tip it out, give it air, look into the heart",
	trip.HangBackFirst: "dry it and hang it back first",
	trip.RotSuspected:  "suspected rot: keep it apart, and decide before you go",
	trip.TooLate:       "too late: it would not dry in time",
	trip.LittleGain:    "a last soak would make little difference by then",
}
