package command

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"

	"tubside/model/estimate"
	"tubside/model/soak"
)

// line does one line of the day.
func (a *actor) line(at, until, load, text string) {
	a.Helper()
	if strings.Contains(text, "the evening before") {
		a.full[toFill.FindStringSubmatch(text)[1]] = true
		return
	}
	a.sameMinute(at, text)
	if len(at) == len("15:04") && !strings.HasPrefix(text, "If you like") {
		if at < a.busy {
			a.Errorf("%s %s: the hands are busy until %s", at, text, a.busy)
		}
		if a.busy = cmp.Or(until, at); a.busy < at {
			a.Errorf("%s %s: done by %s", at, text, until)
		}
	}
	switch {
	case strings.HasPrefix(text, nothingToDo):
	case strings.HasPrefix(text, "Put back "):
		a.back = true
	case turnOff.MatchString(text):
		if v := turnOff.FindStringSubmatch(text)[1]; a.runs != v {
			a.Errorf("%s %s: the tap runs into %q", at, text, a.runs)
		} else {
			a.full[v], a.runs = true, ""
		}
	case toFill.MatchString(text):
		for _, m := range toFill.FindAllStringSubmatch(text, -1) {
			if a.runs != "" || a.full[m[1]] && !strings.Contains(text, "after its old water is out") {
				a.Errorf("%s %s: the tap runs into %q, %s is full: %v", at, text, a.runs, m[1], a.full[m[1]])
			}
			if strings.HasPrefix(text, "Start to") {
				a.runs, a.full[m[1]], a.near = m[1], false, strings.Contains(text, "Carry on beside it")
			} else {
				a.full[m[1]] = true
			}
			if stays := strings.Contains(text, "Stay beside it"); stays == (a.runs == m[1]) || stays && until == "" &&
				!strings.Contains(text, "the evening before") {
				a.Errorf("%s %s: neither stays nor comes back to turn it off", at, text)
			}
		}
	case toEmpty.MatchString(text):
		a.full[toEmpty.FindStringSubmatch(text)[1]] = false
	case toHang.MatchString(text):
		m := toHang.FindStringSubmatch(text)
		if a.rounds[m[2]] == nil {
			a.Fatalf("%s %s: there is no list of that round", at, text)
		}
		if !a.hung[m[2]] && !strings.Contains(text, "(the ") && fmt.Sprint(len(a.rounds[m[2]].Rows)) != m[1] {
			a.Errorf("%s %s: its list has %d", at, text, len(a.rounds[m[2]].Rows))
		}
		a.hung[m[2]] = true
	default:
		a.withLoad(at, load, text)
	}
}

// withLoad does a line that moves plants of a load.
func (a *actor) withLoad(at, load, text string) {
	a.Helper()
	l := a.loads[load]
	if l == nil {
		a.Fatalf("%s %s: there is no load %q", at, text, load)
	}
	number := func(s string) int {
		n, err := strconv.Atoi(s)
		if err != nil {
			a.Fatal(err)
		}
		return n
	}
	switch {
	case toPull.MatchString(text):
		for n := number(toPull.FindStringSubmatch(text)[1]); n > 0; n-- {
			for l.pulled < len(l.rows) && l.rows[l.pulled].stands {
				l.pulled++
			}
			if l.pulled++; l.pulled > len(l.rows) {
				a.Fatalf("%s %s: more than load %s has", at, text, load)
			}
		}
	case toPut.MatchString(text):
		m := toPut.FindStringSubmatch(text)
		if m[2] != l.vessel || !a.full[m[2]] {
			a.Errorf("%s %s: load %s is for %s, full: %v", at, text, load, l.vessel, a.full[m[2]])
		}
		if l.in == 0 && l.lastIn != "" && !strings.HasSuffix(text, ". Begin by "+l.lastIn+", or leave it for tomorrow") {
			a.Errorf("%s %s: its list says not after %s", at, text, l.lastIn)
		}
		a.each(&l.in, l, number(m[1]), at, soak.PutIn)
		for l.pulled < l.in && l.rows[l.pulled].stands {
			l.pulled++
		}
		if l.in > l.pulled {
			a.Errorf("%s %s: %d are pulled", at, text, l.pulled)
		}
	case toTake.MatchString(text):
		m := toTake.FindStringSubmatch(text)
		early, late := len(at) == len(l.from) && at < l.from, len(at) == len(l.latest) && at > l.latest
		if m[1] != l.vessel || l.out == 0 && (early || late) {
			a.Errorf("%s %s: load %s is in %s, to come out from %s to %s", at, text, load, l.vessel, l.from, l.latest)
		}
		if l.out == 0 {
			l.spare = apart(at, l.latest)
		}
		a.each(&l.out, l, number(m[2]), at, soak.GetOut)
		if l.out > l.in {
			a.Errorf("%s %s: %d are in", at, text, l.in)
		}
	default:
		a.Errorf("%s %s: nobody knows what to do", at, text)
	}
}

// each goes on along a load's list by so many plants, a plant after the other.
func (a *actor) each(done *int, l *actedLoad, n int, at string, do soak.Do) {
	a.Helper()
	hour, err := time.Parse("15:04", at[len(at)-len("15:04"):])
	if err != nil {
		a.Fatal(err)
	}
	from := a.p.Ask.From
	when := time.Date(from.Year(), from.Month(), from.Day(), hour.Hour(), hour.Minute(), 0, 0, from.Location())
	if len(at) > len("15:04") {
		when = when.AddDate(0, 0, 1)
	}
	for ; n > 0; n-- {
		if *done++; *done > len(l.rows) {
			a.Fatalf("%s: more than the load has", at)
		}
		r := &l.rows[*done-1]
		_, plant, _ := a.p.Placed(r.id)
		hands := estimate.HandsFor(a.b.Row(r.id).Plant, a.b.Rules())
		if do == soak.PutIn {
			r.inAt = when
			when = when.Add(time.Duration(hands.In) * time.Second)
			continue
		}
		// the sheet has whole minutes, of two times
		const near = 2 * time.Minute
		least, most := time.Duration(plant.Least)*time.Second-near, time.Duration(plant.Most)*time.Second+near
		if is := when.Sub(r.inAt); is < least || is+l.spare > most && l.latest != overdue {
			a.Errorf("%s: plant %d soaks %v and may be %v late, not %v to %v", at, r.id, is, l.spare, least, most)
		}
		when = when.Add(time.Duration(hands.Out+hands.Lay) * time.Second)
	}
}
