package command

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/paper"
	"tubside/ui/show"
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
	a.oneClock(title, words)
	m, head := lastIn.FindStringSubmatch(words), loadHead.FindStringSubmatch(title)
	n, _ := strconv.Atoi(head[1])
	of := &a.p.Loads[slices.IndexFunc(a.p.Loads, func(l day.Load) bool { return l.Number == n && !l.Done })]
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

// oneClock checks that the lengths and hours that are said of a load are of one clock: who
// subtracts them gets what stands there.
func (a *actor) oneClock(title, words string) {
	a.Helper()
	in, out := putIn.FindStringSubmatch(words), takeOut.FindStringSubmatch(words)
	if in == nil || out == nil {
		return
	}
	soak := apart(in[1], cmp.Or(out[1], out[3]))
	if says := "Each plant soaks " + strings.TrimSuffix(show.Soak(soak.Minutes(), soak.Minutes()), " min"); !strings.Contains(words, says) {
		a.Errorf("%s: in at %s, out at %s, not %q", title, in[1], cmp.Or(out[1], out[3]), words)
	}
	late := lateOut.FindStringSubmatch(words)
	if late == nil {
		return
	}
	if from := length(a.T, cmp.Or(late[1], late[3])); from != soak {
		a.Errorf("%s: in time it is in for %v, late for %v", title, soak, from)
	}
	if late[2] != "" && out[2] != "" && length(a.T, late[2]) != apart(in[1], out[2]) {
		a.Errorf("%s: in at %s, at the latest out at %s, and late after %s", title, in[1], out[2], late[2])
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
