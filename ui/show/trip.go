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
	moment := func(at time.Time) string { return at.In(b.Zone()).Format("Mon 2 Jan 15:04") }
	date := func(at time.Time) string { return at.In(b.Zone()).Format("2 Jan 2006") }
	lines := []string{
		fmt.Sprintf(
			"%s away, %s to %s, in air of %s and %.0f %% humidity (%.1f kPa): %s",
			fullDays(
				t.Until.Sub(t.From).Hours()/24,
			),
			date(t.From),
			date(t.Until),
			wholeTemp(t.Air.TempC, b.Rules()),
			t.Air.RH,
			t.Air.Deficit,
			AirSource(t.Air),
		),
		fmt.Sprintf(
			"left alone, %s of %d will want a soak, %s",
			orNone(n.Crossing),
			n.Plants,
			worse(n.Half, n.Injured),
		),
	}
	if n.Soak > 0 {
		first, last := t.LastSoakTimes()
		lines = append(
			lines,
			fmt.Sprintf(
				"soak %d before you go, %s of handling: the first in by %s, the last out by %s, all dry by %s; then %s",
				n.Soak,
				Minutes(n.Handling.Minutes()),
				moment(first),
				moment(last),
				moment(t.DryBy),
				worse(n.HalfAfter, n.InjuredAfter),
			),
		)
	} else {
		lines = append(lines, "nothing needs a soak before you go")
	}
	if n.Soak > 0 && t.Damp >= dampSaid {
		lines = append(
			lines,
			fmt.Sprintf(
				"so many in one room make it damp: each takes %.1fx as long to dry; over two days, or with the window open, less",
				t.Damp,
			),
		)
	}
	if n.Move > 0 {
		lines = append(
			lines,
			fmt.Sprintf("%d to move: off dry shelves and heaters, out of the sun, to the moistest airy place", n.Move),
		)
	}
	if n.StillWet > 0 {
		lines = append(
			lines,
			fmt.Sprintf("%d may still be wet when you leave: nothing goes back damp on the day you leave", n.StillWet),
		)
	}
	return lines
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
	text := orNone(half) + " will have lost half their water, "
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
	onReturn = fmt.Sprintf(
		"%.0f %% of its water gone on return (%.0f to %.0f)",
		100*at.Thirst(),
		100*(1-at.High),
		100*(1-at.Low),
	)
	if why := leftWhy[l.Why]; why != "" {
		do = append(do, why)
	}
	do = append(do, About{Book: b, Row: row}.Reasons(l.Bars)...)
	if l.SlowHours > 0 {
		do = append(
			do,
			"may take "+Minutes(l.SlowHours*60)+" to dry here: shake it hard, lay it upside down, give it air",
		)
	}
	switch l.Move {
	case trip.OffDryShelf:
		do = append(do, fmt.Sprintf("move it: shelf %s dries plants out %.1fx as fast", row.Home.Shelf, l.Faster))
	case trip.ToMoistAir:
		do = append(do, "move it off heaters and out of the sun, to an airy place with the moistest air you have")
	}
	return onReturn, do
}

// leftWhy says why a plant gets no last soak.
var leftWhy = map[trip.Why]string{
	trip.MayBeWet:      "may be wet when you leave: tip it out, more air, look into the heart",
	trip.HangBackFirst: "dry it and hang it back first",
	trip.RotSuspected:  "suspected rot: keep it apart, decide before you go",
	trip.TooLate:       "too late: would not dry in time",
	trip.LittleGain:    "a last soak would change little by then",
}
