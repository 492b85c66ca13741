package command

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/paper"
)

// cell is what stands in a row of a table under a head; "" where there is no such column.
func cell(t *paper.Table, row []string, head string) string {
	for i, c := range t.Columns {
		if c.Head == head {
			return row[i]
		}
	}
	return ""
}

// late checks what a load's words say for hands that are late: orders of which each can
// be obeyed, and none that has a plant wet in the night.
func (a *actor) late(l *actedLoad, title, words string) {
	a.Helper()
	if strings.Contains(words, "If it goes in late") {
		m := lateOut.FindStringSubmatch(words)
		if m == nil {
			a.Errorf("%s: no order for hands that are late: %s", title, words)
		} else if m[3] == "" && length(a.T, m[1]) >= length(a.T, m[2]) {
			a.Errorf("%s: out from %s on, and no later than %s", title, m[1], m[2])
		}
	}
	if !strings.HasPrefix(words, "Put it in") {
		return
	}
	m, head := lastIn.FindStringSubmatch(words), loadHead.FindStringSubmatch(title)
	n, _ := strconv.Atoi(head[1])
	of := &a.p.Loads[n-1]
	if m == nil {
		if !of.Night && !dryOf(of).After(a.p.Ask.DryBy) {
			a.Errorf("%s: nobody knows until when it may go in: %s", title, words)
		}
		return
	}
	if l.lastIn = m[2]; m[2] < m[1] {
		a.Errorf("%s: in from %s on, not after %s", title, m[1], m[2])
	}
	if wet := dryOf(of).Add(apart(m[1], m[2])); !of.Night && wet.After(a.p.Ask.DryBy.Add(time.Minute)) {
		a.Errorf("%s: in at %s it is wet until %s", title, m[2], wet.Format("15:04"))
	}
}

// dryOf is when the last plant of a load is dry.
func dryOf(l *day.Load) time.Time {
	last := l.End
	for _, t := range l.Plants {
		last = model.Later(last, t.Dry)
	}
	return last
}

// length reads a length of time off the sheet: "3 h 25 min".
func length(t *testing.T, text string) time.Duration {
	t.Helper()
	d, err := time.ParseDuration(strings.NewReplacer(" ", "", "min", "m").Replace(text))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// sameMinute checks that what is to be done to the minute comes first in its minute, but
// for a turn of the tap or what goes in, which takes time from a clock of its own; and
// that nobody walks through the house while a tap runs that is full in a minute.
func (a *actor) sameMinute(at, text string) {
	a.Helper()
	if at != a.at {
		a.at, a.walked = at, false
	}
	if turnOff.MatchString(text) && a.started {
		a.Errorf("%s %s: there was nothing to carry on with", at, text)
	}
	a.started = strings.HasPrefix(text, "Start to")
	if strings.Contains(text, "To the minute") && a.walked {
		a.Errorf("%s %s: something else comes before it in its minute", at, text)
	}
	walks := toPull.MatchString(text) || toHang.MatchString(text)
	a.walked = a.walked || walks
	if walks && a.runs != "" && a.near {
		a.Errorf("%s %s: the tap runs into %s", at, text, a.runs)
	}
}
