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
			"take it out from 19 min on after its first plant went in, and begin no later than 21 min after."},
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

// A load that may go in late says from when on it leaves no time for the one after it in its
// vessel: that must still go in by its own last hour, when the first is out, the vessel rinsed
// and filled, and the hands are there.
func TestALoadThatGoesInLateNamesTheOneItLeavesNoTimeFor(t *testing.T) {
	at := func(hour, minute int) time.Time {
		return noon.Add(time.Duration(hour-12)*time.Hour + time.Duration(minute)*time.Minute)
	}
	p := &day.Plan{Ask: day.Ask{From: at(9, 0), Until: at(18, 0), DryBy: at(23, 0)},
		Loads: []day.Load{
			{Vessel: "bucket 1", Start: at(10, 0), Out: at(11, 50), End: at(12, 0), Plants: []day.Plant{{ID: 1}}},
			{Vessel: "tub", Start: at(10, 30), Out: at(15, 0), End: at(16, 0), Plants: []day.Plant{{ID: 2}}},
			{Number: 3, Vessel: "bucket 1", Start: at(12, 10), Out: at(15, 50), End: at(16, 0), Plants: []day.Plant{{ID: 3}}},
		},
		Steps: []day.Step{
			{At: at(12, 0), Until: at(12, 2), Do: soak.Empty, Vessel: "bucket 1"},
			{At: at(12, 2), Until: at(12, 3), Do: soak.Fill, Vessel: "bucket 1", Load: 2},
		}}
	s := soakPaper{p: p, at: planClock(p)}
	for n, want := range []time.Time{at(12, 7), at(12, 3)} {
		busy := 125 * n // of the two hours to the second load
		p.Steps = append(p.Steps[:2], day.Step{At: at(10, 0), Until: at(10, busy), Do: soak.PutIn, Vessel: "tub", Load: 1})
		if is, load := s.without(&p.Loads[0]); !is.Equal(want) || load != 2 {
			t.Errorf("hands busy for %d min: after %s without load %d, not after %s without load 3", busy, is.Format("15:04"), load+1, want.Format("15:04"))
		}
	}
	if words := s.inWords(&p.Loads[0]); !strings.HasSuffix(words, "begin by 16:00, or leave it for tomorrow. After 12:03 there is no time left for load 3.") {
		t.Error(words)
	}
	if is, load := s.without(&p.Loads[1]); !is.IsZero() || load >= 0 {
		t.Errorf("the tub's only load leaves no time for load %d after %v", load+1, is)
	}
}
