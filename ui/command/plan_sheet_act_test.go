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
	back    bool            // who has no place any more hangs again
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
	lastIn   = regexp.MustCompile(`Put it in from (\d\d:\d\d) on; begin by (\d\d:\d\d), or leave it for tomorrow\.`)
	putIn    = regexp.MustCompile(`Put it in from (\d\d:\d\d) on`)
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
		if l.begun && l.latest == "" {
			m[1] += ", out" // the rest of it may have a list of its own
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
	if n := len(a.p.Back(a.b)); a.back != (n > 0) {
		a.Errorf("%d are to be put back, and a line says so: %v", n, a.back)
	}
	for v, full := range a.full {
		if full || a.runs != "" {
			a.Errorf("%s stands full at the end, the tap runs into %q", v, a.runs)
		}
	}
}
