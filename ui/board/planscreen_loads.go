package board

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// Widths of the columns of loads.
const (
	hoursColumn = 11 // "08:36–08:51"
	soakColumn  = 7
)

// columnHeads name the columns of the loads; at the right stands how many plants have no
// place in the plan, and how many loads lie below the window.
func (s *planScreen) columnHeads() string {
	head := "   load  " + show.Pad("vessel", vesselColumn) + " plants  " + show.Pad("in", hoursColumn) + "  " + show.Pad("out", hoursColumn)
	if !s.narrow() {
		head += "  " + show.PadLeft("soak", soakColumn) + "  from"
	}
	head = show.Fit(head, s.desk.width-1)
	var rights []string // the fullest first
	_, until := s.rows.inView()
	if below := len(s.plan.Loads) - until; below > 0 {
		rights = []string{fmt.Sprintf("%d more below", below), fmt.Sprintf("%d below", below), fmt.Sprintf("+%d", below)}
	}
	if n := len(s.plan.Left); n > 0 {
		words := fmt.Sprintf("not today: %d (w)", n)
		if len(rights) > 0 {
			words += ", " + rights[0]
		}
		rights = append([]string{words}, rights...)
	}
	right := ""
	for _, words := range slices.Backward(rights) {
		if show.Width(head)+show.Width(words)+2 <= s.desk.width {
			right = words
		}
	}
	return s.desk.theme.quiet.of(head + show.PadLeft(right, s.desk.width-1-show.Width(head)))
}

// vesselColumn is the width of a load's vessel and where in it the load lies.
const vesselColumn = 14

// narrow reports whether there is no room for how long loads soak, and from where.
func (s *planScreen) narrow() bool { return s.desk.width < 66 }

// loadLine is one load: ticked when it is out, an arrow to what is next.
func (s *planScreen) loadLine(i int) string {
	l := &s.plan.Loads[i]
	sign := " "
	switch next := s.nextStep(); {
	case l.Done:
		sign = "✓"
	case l.Load != 0:
		sign = "~"
	case next != nil && next.Load == i:
		sign = "→"
	}
	zone := s.desk.book.Zone()
	clock := func(t time.Time) string { return t.In(zone).Format("15:04") }
	vessel := show.Safe(l.Vessel)
	if l.Heap > 0 {
		vessel += " " + s.heapSign(l)
	}
	if l.Night {
		vessel = "night " + vessel
	}
	in, out := clock(l.Start)+"–"+clock(inUntil(l)), clock(l.Out)+"–"+clock(l.End)
	line := fmt.Sprintf(" %s %4d  %s %6d  %s  %s", sign, l.Number, show.Pad(show.Fit(vessel, vesselColumn), vesselColumn), len(l.Plants),
		show.Pad(in, hoursColumn), show.Pad(out, hoursColumn))
	if !s.narrow() {
		line += "  " + show.PadLeft(clockLength(l.Out.Sub(l.Start)), soakColumn) + "  "
		line += s.from(l, s.desk.width-show.Width(line))
	}
	line = show.Fit(line, s.desk.width)
	switch {
	case i == s.rows.cursor:
		return s.desk.barred(line)
	case l.Done:
		return s.desk.theme.quiet.of(line)
	}
	return line
}

// clockLength is the clock of a load, for a column: "54 min", "1 h 10".
func clockLength(d time.Duration) string {
	minutes := int(d.Round(time.Minute).Minutes())
	if minutes < 60 {
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %02d", minutes/60, minutes%60)
}

// heapSign tells two heaps in one vessel apart, by where they lie.
func (s *planScreen) heapSign(l *day.Load) string {
	if v, _ := s.desk.book.Vessel(l.Vessel); show.IsTub(v) {
		return [...]string{"", "by tap", "far end"}[l.Heap]
	}
	return [...]string{"", "left", "right"}[l.Heap]
}

// inUntil is when the last plant of a load is in.
func inUntil(l *day.Load) time.Time {
	last := l.Plants[len(l.Plants)-1]
	return last.In.Add(time.Duration(last.Hands.In) * time.Second)
}

// from names the shelves of a load, in the order in which its plants go in, or counts
// them where they do not fit; and the company that keeps it apart.
func (s *planScreen) from(l *day.Load, room int) string {
	var names []string
	seen := map[string]bool{}
	for _, t := range l.Plants {
		shelf := s.desk.book.Row(t.ID).Home.Shelf
		if !seen[shelf] {
			seen[shelf] = true
			names = append(names, shelfWords(shelf))
		}
	}
	text, company := show.Safe(strings.Join(names, ", ")), ""
	if l.Company != soak.Healthy {
		company = show.CompanyName(l.Company) + ": "
	}
	if show.Width(company+text) <= room {
		return company + text
	}
	if company != "" {
		return show.CompanyName(l.Company)
	}
	return show.Count(len(names), "shelf", "shelves")
}

// leastDrawn is from how many free lines on the load under the cursor is drawn.
const leastDrawn = 4

// drawLoad shows the load under the cursor as it lies, in as many lines as are free:
// its plants in the order in which they are pulled, go in and come out.
func (s *planScreen) drawLoad(p *page, free int) {
	l := s.load()
	if l == nil || free < leastDrawn {
		return
	}
	title := fmt.Sprintf("Load %d, %s", l.Number, show.Safe(l.Vessel))
	if heap := show.Heap(s.desk.book, l); heap != "" {
		title += ", " + heap
	}
	p.line("")
	order := ", in the order to pull them"
	if !l.ToCome() {
		order = ", in the order in which they went in"
	}
	p.line(s.desk.heading(title+order, ""))
	cell := 38
	if s.desk.lines { // one after the other
		cell = s.desk.width - 1
	}
	rows, columns := free-2, max(1, (s.desk.width-1)/cell)
	n := len(l.Plants)
	if n > rows*columns {
		rows-- // to say how many more there are
	} else {
		rows = (n + columns - 1) / columns
	}
	for r := range rows {
		line := " "
		for c := range columns {
			if i := c*rows + r; i < len(l.Plants) {
				row := s.desk.book.Row(l.Plants[i].ID)
				line += show.Pad(show.Fit(fmt.Sprintf("%4d %s %s", i+1, show.Pad(show.Safe(show.Home(row.Home)), 12), show.Safe(show.Title(row.Plant))), cell-2), cell)
			}
		}
		p.line(show.Fit(line, s.desk.width))
	}
	if more := n - rows*columns; more > 0 {
		p.line(s.desk.theme.quiet.of(fmt.Sprintf("  and %d more: enter", more)))
	}
}
