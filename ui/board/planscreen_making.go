package board

import (
	"fmt"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"tubside/model"
	"tubside/model/soak"
	"tubside/ui/show"
)

// planBeatMsg asks for a look at how long a plan has been in the making.
type planBeatMsg struct{}

// planBeat beats each second while a plan is being made.
func (m *board) planBeat() tea.Cmd {
	if s, ok := m.front().(*planScreen); !ok || s.making == nil || m.beating {
		return nil
	}
	m.beating = true
	return m.every(time.Second, func(time.Time) tea.Msg { return planBeatMsg{} })
}

// drawMaking says what is being planned and what is known meanwhile: the hours, what the
// plants need, the vessels, and the plan that was shown before.
func (s *planScreen) drawMaking(p *page, height int) {
	until := p.lines + height
	counts, due := s.due()
	line := s.desk.theme.title.of(" Planning " + show.Count(due, "plant") + " …")
	if took := s.desk.now.Sub(s.making.since).Truncate(time.Second); took > 0 {
		line += s.desk.theme.quiet.of(fmt.Sprintf("  %.0f s so far", took.Seconds()))
	}
	p.line(line + "   Esc gives up")
	p.line("")
	p.line(s.desk.heading("What is known", ""))
	now := s.desk.now.In(s.desk.book.Zone())
	rules := s.desk.book.Rules()
	add := func(name, words string) {
		p.line(show.Fit("   "+show.Pad(name, nameColumn)+" "+words, s.desk.width))
	}
	hours := fmt.Sprintf("%s on %ss, from %s", hoursWords(rules[model.WeekdayOf(now).Limit()]), now.Format("Monday"),
		clockHour(rules[model.DayFrom]))
	add("your hours", hours+"; all dry by "+show.Clock(rules.DryBy(now), s.desk.now, s.desk.book.Zone()))
	add("to soak", counts)
	for _, v := range s.desk.book.Vessels() {
		words := show.Volume(v.Litres, rules) + ", no plants in it"
		if loads := s.desk.book.InVessel(v.Name); len(loads) > 0 {
			words = show.Count(loads[0].Left, "plant") + ", out " + s.desk.outClock(loads[0])
			if more := len(loads) - 1; more > 0 {
				words += fmt.Sprintf(", and %s after that", show.Count(more, "load"))
			}
		}
		add(show.Safe(v.Name), words)
	}
	if n := s.desk.tally.Drying; n > 0 {
		add("drying", show.Count(n, "plant"))
	}
	if s.faint == nil || until-p.lines < leastDrawn {
		return
	}
	p.line("")
	p.line(s.desk.heading("The plan before", ""))
	shown := s.plan
	s.plan = s.faint // only to be drawn
	for i := 0; i < len(s.plan.Loads) && p.lines < until; i++ {
		p.line(s.desk.theme.quiet.of(strings.TrimRight(ansi.Strip(s.loadLine(i)), " ")))
	}
	s.plan = shown
}

// due says how many plants wait for a soak, by how long.
func (s *planScreen) due() (words string, n int) {
	var counts bandCounts
	for i := range s.desk.outlook.Needs {
		if need := &s.desk.outlook.Needs[i]; need.Band.InWater() && s.desk.book.Row(need.ID).State == model.AtHome {
			counts[need.Band]++
			n++
		}
	}
	var parts []string
	for i := len(soak.Bands) - 1; i >= 0; i-- {
		if counts[i] > 0 {
			parts = append(parts, fmt.Sprintf("%s %d", soak.Bands[i], counts[i]))
		}
	}
	return strings.Join(parts, ", "), n
}
