package command

import (
	"cmp"
	"context"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// A load that goes in late is told one time to come out that is no later than the latest,
// also where there are only seconds between the two.
func TestALateLoadHasOneOrder(t *testing.T) {
	for _, is := range []struct {
		out, most time.Duration
		says      string
	}{
		{19*time.Minute + 35*time.Second, 19*time.Minute + 40*time.Second,
			"begin to take it out 19 min after its first plant went in, to the minute."},
		{20 * time.Minute, 20*time.Minute + 30*time.Second,
			"begin to take it out 20 min after its first plant went in, to the minute."},
		{19*time.Minute + 5*time.Second, 21 * time.Minute,
			"take it out from 20 min on after its first plant went in, and begin no later than 21 min after."},
	} {
		l := &day.Load{Start: noon, Out: noon.Add(is.out)}
		l.Plants = []day.Plant{{In: noon, Out: l.Out, Most: int(is.most.Seconds())}}
		if says := lateWords(l); says != " If it goes in late: "+is.says {
			t.Errorf("out after %v, at the latest %v: %q", is.out, is.most, says)
		}
	}
}

// A tap is not opened in the middle of a walk, but a vessel that a sick plant was in stands
// disinfected as long as the plan has it.
func TestATapIsOpenedBeforeAWalkButNotIntoADisinfectedVessel(t *testing.T) {
	for company, opened := range map[soak.Company]int{soak.Healthy: 5, soak.Sick: 14} {
		at := func(minutes int) time.Time { return noon.Add(time.Duration(minutes) * time.Minute) }
		p := &day.Plan{Ask: day.Ask{From: noon}, Loads: []day.Load{{Vessel: "crate", Company: company}, {Vessel: "crate", Start: at(15)}},
			Steps: []day.Step{
				{At: at(0), Until: at(2), Do: soak.Empty, Vessel: "crate", Load: 0},
				{At: at(5), Until: at(15), Do: soak.Pull, Vessel: "crate", Load: 1},
				{At: at(14), Until: at(15), Do: soak.Fill, Vessel: "crate", Load: 1},
				{At: at(15), Until: at(20), Do: soak.PutIn, Vessel: "crate", Load: 1},
			}}
		s := soakPaper{p: p, now: noon}
		if fills := s.fills(); !fills[0].At.Equal(at(opened)) {
			t.Errorf("%v: opened at %s, not %s", company, fills[0].At.Format("15:04"), at(opened).Format("15:04"))
		}
	}
}

// A long day without half an hour to eat says on paper and in the shell that a break can be
// asked for, and what the plan with it comes to.
func TestALongDayHasABreakToAskFor(t *testing.T) {
	s, p := agreedDay(t, "homecoming")
	now, k := noon, estimate.New(s.Book())
	says := ""
	for _, words := range offerWords(p, day.Offers(context.Background(), k, now, p), s.Book().Rules(), now) {
		if strings.HasPrefix(words, "with a break") {
			says = words
		}
	}
	m := regexp.MustCompile(`^with a break (\S+)–(\S+): free at (\S+), not (\S+), ` +
		`(?:(\d+) plants, not (\d+)|as many plants) \(tubside enter plan --pause (\S+)-(\S+)\)$`).FindStringSubmatch(says)
	if m == nil || m[1] != m[7] || m[2] != m[8] || m[4] != p.DayFree.Format("15:04") || m[6] != "" && m[6] != fmt.Sprint(p.Count()) {
		t.Fatalf("a day until %v: %q", p.DayFree, says)
	}
	book := bookOf(t, s)
	flags := []string{"--now", now.Format(time.RFC3339)}
	letters := func(text string) string { return strings.Join(strings.Fields(text), "") }
	for _, args := range [][]string{{"plan"}, {"plan", "--sheet", "-"}} {
		if out := must(t, book, "", append(args, flags...)...); !strings.Contains(letters(out), letters(says)) {
			t.Errorf("%v does not say %q", args, says)
		}
	}
	must(t, book, "", append([]string{"enter", "plan", "--pause", m[7] + "-" + m[8]}, flags...)...)
	out := must(t, book, "", append([]string{"plan"}, flags...)...)
	if !strings.Contains(out, cmp.Or(m[5], fmt.Sprint(p.Count()))+" plants in") || !strings.Contains(out, "free at "+m[3]) {
		t.Errorf("%s; asked for: %.200s", says, out)
	}
}

// What the sheet says to write down can be entered as it stands there.
func TestTheSheetsExampleCanBeEntered(t *testing.T) {
	s, p := agreedDay(t, "homecoming")
	text := saidOnPaper(s.Book(), p, noon)
	line := regexp.MustCompile(`with that time \(\d\d:\d\d (out) \d+\)`).FindStringSubmatch(text)
	if line == nil {
		t.Fatal("the sheet has no example")
	}
	id := s.Book().OpenLoads()[0].Plants[0]
	must(t, bookOf(t, s), fmt.Sprintf("11:59 %s %d\n", line[1], id), "enter", "--from", "-", "--now", noon.Format(time.RFC3339))
}
