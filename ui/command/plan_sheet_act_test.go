package command

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/paper"
)

// actor is somebody with a sheet and two hands.
type actor struct {
	*testing.T
	b       *model.Book
	p       *day.Plan
	loads   map[string]*actedLoad
	rounds  map[string]*paper.Table
	full    map[string]bool // vessels
	runs    string          // the vessel under the tap that is running
	busy    string          // until when the hands are at the last line
	near    bool            // they stay where they hear the tap
	at      string          // the hour of the line before
	started bool            // the line before turns the tap on
	walked  bool            // a walk came before in the same minute
	hung    map[string]bool // rounds
}

// actedLoad is a load as its list has it.
type actedLoad struct {
	vessel          string
	rows            []actedPlant
	pulled, in, out int // so many of the rows, the first, but for the starred
	from, latest    string
	lastIn          string // not to go in later
	begun           bool
	spare           time.Duration // it may come out as much later
}

type actedPlant struct {
	id        model.ID
	stands    bool
	lay, hang string
	inAt      time.Time
}

var (
	loadHead  = regexp.MustCompile(`^Load (\d+): (\d+) plants? in (.+?)(?:, .*)?$`)
	roundHead = regexp.MustCompile(`^Round (\d+) of hanging, (any time from )?(\S+) (?:to|on, until) (\S+): (\d+) plants?$`)
	takeOut   = regexp.MustCompile(`Take it out from (\S+) on, done by \S+\. At the latest begin at (\S+)\.|` +
		`Begin to take it out at (\S+), to the minute`)
	lateOut = regexp.MustCompile(`If it goes in late: (?:take it out from (.+?) on after its first plant went in, and begin ` +
		`no later than (.+?) after|begin to take it out (.+?) after its first plant went in, to the minute)\.`)
	lastIn = regexp.MustCompile(`Put it in (?:from|at) (\d\d:\d\d)(?: on, not after|, and not after) (\d\d:\d\d); ` +
		`else leave it for tomorrow\.`)
	oneBench = regexp.MustCompile(`(?:Lay each|Each lies|What is from a load lies) on: (.+?)\.`)
	toFill   = regexp.MustCompile(`(?i)(?:fill|mix fed water in) ([^(]+?) \(`)
	turnOff  = regexp.MustCompile(`^Turn off the tap: (.+?) is full`)
	toEmpty  = regexp.MustCompile(`^Empty (.+?)(?: at once|:| and rinse)`)
	toPull   = regexp.MustCompile(`(?i)\bpull (\d+) `)
	toPut    = regexp.MustCompile(`(?i)\bput (\d+) .*? into (.+?)(?:, | \(|\.|$)`)
	toTake   = regexp.MustCompile(`(?i)\btake out (.+?): (\d+) `)
	toHang   = regexp.MustCompile(`(?i)\blook into the hearts of (\d+) plants?, .*: round (\d+)`)
)

// actSheet prints a plan's sheet, and acts it.
func actSheet(t *testing.T, b *model.Book, p *day.Plan, now time.Time) {
	t.Helper()
	sheet := soakSheet(estimate.New(b), p, now, "")
	a := &actor{T: t, b: b, p: p, loads: map[string]*actedLoad{}, rounds: map[string]*paper.Table{},
		full: map[string]bool{}, hung: map[string]bool{}}
	for _, v := range b.Vessels() {
		a.full[v.Name] = b.Water(v.Name) != nil
	}
	before := 0
	for _, section := range sheet.Sections {
		a.read(section)
		for _, block := range section.Blocks {
			if table, ok := block.(*paper.Table); ok && section.Title == "Drying already" {
				before += len(table.Rows)
			}
		}
	}
	a.head(sheet, before)
	for _, section := range sheet.Sections {
		for _, block := range section.Blocks {
			switch block := block.(type) {
			case paper.Ticks:
				for _, tick := range block {
					if m := toEmpty.FindStringSubmatch(tick); m != nil && section.Title == "Before anything else" {
						a.full[m[1]] = false
					}
				}
			case *paper.Table:
				if section.Title == "The day" {
					for _, row := range block.Rows {
						a.line(row[0], row[1], row[2], row[3])
					}
				}
			}
		}
	}
	a.ends(sheet)
}

// overdue is the latest hour of a load that is beyond its own.
const overdue = "99:99"

// apart is the time between two hours of one day; none for any others.
func apart(from, until string) time.Duration {
	a, errA := time.Parse("15:04", from)
	b, errB := time.Parse("15:04", until)
	if errA != nil || errB != nil {
		return 0
	}
	return b.Sub(a)
}

// read takes in the lists of the sheet.
func (a *actor) read(s paper.Section) {
	a.Helper()
	rows, bench := 0, ""
	l := &actedLoad{}
	for _, block := range s.Blocks {
		switch block := block.(type) {
		case paper.Words:
			if m := takeOut.FindStringSubmatch(string(block)); m != nil {
				l.from, l.latest = cmp.Or(m[1], m[3]), cmp.Or(m[2], m[3])
			}
			if m := oneBench.FindStringSubmatch(string(block)); m != nil {
				bench = m[1]
			}
			a.late(l, s.Title, string(block))
			if strings.Contains(string(block), "OVERDUE") {
				l.from, l.latest = "00:00", overdue
			}
			for _, begun := range []string{"It has been in", "It is out"} {
				l.begun = l.begun || strings.HasPrefix(string(block), begun)
			}
		case *paper.Table:
			rows += len(block.Rows)
			if m := roundHead.FindStringSubmatch(s.Title); m != nil {
				a.rounds[m[1]] = block
				for _, row := range block.Rows {
					if from := cell(block, row, "from"); from == "" || row[0] == "" || bench == "" &&
						strings.HasPrefix(from, "load ") && !strings.Contains(from, ", ") {
						a.Errorf("%s: nobody knows where %v lies", s.Title, row)
					}
				}
			}
			if loadHead.MatchString(s.Title) {
				for _, row := range block.Rows {
					id, err := strconv.Atoi(row[3])
					if err != nil {
						a.Fatal(err)
					}
					stands := strings.HasSuffix(row[0], standsBy)
					l.rows = append(l.rows, actedPlant{id: model.ID(id), stands: stands,
						lay: cmp.Or(cell(block, row, "lay on"), bench), hang: cell(block, row, "hang back")})
				}
			}
		}
	}
	if m := loadHead.FindStringSubmatch(s.Title); m != nil {
		if l.vessel = m[3]; m[2] != fmt.Sprint(rows) {
			a.Errorf("%q lists %d plants", s.Title, rows)
		}
		for i := range l.rows {
			r := &l.rows[i]
			switch state := a.b.Row(r.id).State; {
			case state == model.Soaking:
				l.pulled, l.in = l.pulled+1, l.in+1
				_, at, _ := a.p.Placed(r.id)
				r.inAt = at.In
			case l.begun && l.latest == "":
				l.pulled, l.in, l.out = l.pulled+1, l.in+1, l.out+1
			}
		}
		a.loads[m[1]] = l
	}
	if m := roundHead.FindStringSubmatch(s.Title); m != nil && m[5] != fmt.Sprint(rows) {
		a.Errorf("%q lists %d plants", s.Title, rows)
	}
}

// head checks the numbers under the title.
func (a *actor) head(s *paper.Sheet, before int) {
	a.Helper()
	toPut, loads, out, in := 0, 0, 0, map[string]int{}
	for _, l := range a.loads {
		if n := len(l.rows) - l.in; n > 0 {
			toPut, loads = toPut+n, loads+1
		}
		in[l.vessel] += l.in - l.out
		out += l.out
	}
	want := []string{fmt.Sprintf("To put in: %d plant", toPut), fmt.Sprintf(" in %d load", loads)}
	for v, n := range in {
		if n > 0 {
			want = append(want, fmt.Sprintf("in %s now: %d", v, n))
		}
	}
	if out > 0 {
		want = append(want, fmt.Sprintf("out already: %d", out))
	}
	if before > 0 {
		want = append(want, fmt.Sprintf("drying from before: %d", before))
	}
	under := strings.Join(s.Under, " ")
	for _, w := range want {
		if !strings.Contains(under, w) {
			a.Errorf("the lists have %q, under the title stands %q", w, under)
		}
	}
}

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
		if l.in == 0 && l.lastIn != "" && !strings.HasSuffix(text, ". Not after "+l.lastIn) {
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

// ends checks what the day comes to.
func (a *actor) ends(s *paper.Sheet) {
	a.Helper()
	tomorrow := map[model.ID]bool{}
	inRound := map[model.ID]string{}
	for name, table := range a.rounds {
		if !a.hung[name] {
			a.Errorf("no line of the day is round %s", name)
		}
		for _, row := range table.Rows {
			id, _ := strconv.Atoi(row[2])
			if was, twice := inRound[model.ID(id)]; twice {
				a.Errorf("plant %d is in rounds %s and %s", id, was, name)
			}
			inRound[model.ID(id)] = "round " + name
		}
	}
	for name, l := range a.loads {
		if l.pulled != len(l.rows) || l.in != len(l.rows) || l.out != len(l.rows) {
			a.Errorf("load %s: of %d plants %d pulled, %d in, %d out", name, len(l.rows), l.pulled, l.in, l.out)
		}
		for _, r := range l.rows {
			switch {
			case r.lay == "":
				a.Errorf("load %s: plant %d is laid nowhere", name, r.id)
			case r.hang == "tomorrow":
				tomorrow[r.id] = true
			case r.hang != "hangs" && inRound[r.id] != r.hang:
				a.Errorf("load %s: plant %d hangs in %q, by name in %q", name, r.id, r.hang, inRound[r.id])
			}
		}
	}
	for _, section := range s.Sections {
		for _, block := range section.Blocks {
			if table, ok := block.(*paper.Table); ok && section.Title == "Drying already" {
				for _, row := range table.Rows {
					id, _ := strconv.Atoi(row[3])
					if row[4] == "tomorrow" {
						tomorrow[model.ID(id)] = true
					} else if inRound[model.ID(id)] != row[4] {
						a.Errorf("plant %d hangs in %q, by name in %q", id, row[4], inRound[model.ID(id)])
					}
				}
			}
		}
	}
	closing := fmt.Sprint(s.Sections[len(s.Sections)-1].Blocks)
	free, under := 0, strings.Join(s.Under, " ")
	for _, section := range s.Sections {
		if m := roundHead.FindStringSubmatch(section.Title); m != nil && m[2] != "" {
			free += len(a.rounds[m[1]].Rows)
			if from := a.p.DayFree.Format("15:04"); m[3] < from || m[4] != a.p.Ask.Until.Format("15:04") {
				a.Errorf("%q, and the hands are free from %s to %s", section.Title, from, a.p.Ask.Until.Format("15:04"))
			}
		}
	}
	if n := len(tomorrow); n > 0 && !strings.Contains(closing, fmt.Sprintf("of the %d plant", n)) ||
		len(a.p.Morning) != n+free || n+free > 0 && !strings.Contains(under, fmt.Sprintf("in the morning: %d.", n+free)) ||
		free > 0 && !strings.Contains(under, fmt.Sprintf("you like, %d of these", free)) {
		a.Errorf("%d are listed for tomorrow and %d for the evening of %d, not: %s %s", n, free, len(a.p.Morning), under, closing)
	}
	for v, full := range a.full {
		if full || a.runs != "" {
			a.Errorf("%s stands full at the end, the tap runs into %q", v, a.runs)
		}
	}
}
