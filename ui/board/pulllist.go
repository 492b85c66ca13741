package board

import (
	"fmt"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// loadView is a page about one thing in the plan: a load as it lies in the vessel and
// where to pull it from, or why a plant is left out.
type loadView struct {
	desk          *desk
	lay           func() (title, remark string, lines []string) // for the window as it is
	title, remark string
	wide          laidFor // what it was laid out for
	text          scroll
}

func newLoadView(d *desk, p *day.Plan, load int) *loadView {
	return &loadView{desk: d, lay: func() (title, remark string, lines []string) { return layLoad(d, p, load) }}
}

// layLoad writes a load for the window.
func layLoad(d *desk, p *day.Plan, load int) (title, remark string, lines []string) {
	l, zone := &p.Loads[load], d.book.Zone()
	title = fmt.Sprintf("Load %d, %s, %s", l.Number, show.Safe(l.Vessel), show.Count(len(l.Plants), "plant"))
	if heap := show.Heap(d.book, l); heap != "" {
		title += ", " + heap
	}
	remark = fmt.Sprintf("in %s, out %s", show.Clock(l.Start, d.now, zone), show.Clock(l.Out, d.now, zone))
	lines = append(lines, d.heading("As they lie in the water: the first in is the first out", ""))
	for i, t := range l.Plants {
		r := d.book.Row(t.ID)
		hours := "  in " + show.Clock(t.In, d.now, zone) + "  out " + show.Clock(t.Out, d.now, zone)
		lines = append(lines, show.Fit(fmt.Sprintf("  %3d  ", i+1)+loadColumns(d, r, 18, false)+hours, d.width))
	}
	lines = append(lines, "", d.heading("To pull, in walking order along the shelves", ""))
	place := map[model.ID]int{}
	for i, t := range l.Plants {
		place[t.ID] = i + 1
	}
	for _, id := range d.book.Walk(l.IDs()) {
		r, note := d.book.Row(id), ""
		if n := d.need(id); n != nil {
			note = d.handling(n, r)
		}
		lies := fmt.Sprintf(" goes in as no. %-3d  ", place[id])
		if d.width < wideScreen {
			lies = fmt.Sprintf(" no. %-3d ", place[id])
		}
		line := "  " + loadColumns(d, r, 11, true) + lies
		lines = append(lines, line+show.Clause(note, max(0, d.width-1-show.Width(line))))
	}
	return title, remark, lines
}

// loadColumns are a plant's number, name and home, the home first for one who walks. A
// narrow window has no room for the number, and so many cells for the name.
func loadColumns(d *desk, r *model.Row, name int, homeFirst bool) string {
	number, home := show.PadLeft("#"+r.ID.String(), 6)+"  ", 14
	if d.width < narrow {
		number, home = "", 10
	} else {
		name = 22
	}
	title, hangs := show.PadName(show.Title(r.Plant), name), show.PadName(show.Safe(r.Home.String()), home)
	if homeFirst {
		return hangs + " " + number + title
	}
	return number + title + "  " + hangs
}

func (v *loadView) groups() []group {
	back := anyOther("back", func(tea.KeyMsg) tea.Cmd { v.desk.drop(v); return nil }).foot("goes back")
	return []group{{"The load", append(v.text.keys(), back)}}
}

func (v *loadView) lead() string { return "" }

func (v *loadView) draw(p *page, height int) {
	if v.wide != v.desk.laid() {
		top := v.text.top
		title, remark, lines := v.lay()
		v.title, v.remark, v.wide = title, remark, v.desk.laid()
		v.text.set(lines)
		v.text.by(top)
	}
	p.line("")
	p.line(v.desk.heading(v.title, v.remark))
	v.text.draw(p, v.desk.width, height-2)
}

// hoursForm asks for the hours of the day, in which of them the hands are away, and which
// shelf to soak.
func hoursForm(s *planScreen) *form {
	zone := s.desk.book.Zone()
	on := s.desk.now.In(zone)
	from, until, dry, pauses := "", "", "", ""
	hours, err := s.ask.Filled(s.desk.book.Rules(), on) // of the next day, where those of this one are over
	if s.plan != nil {
		hours, err = s.plan.Ask, nil
	}
	if err == nil {
		on = hours.From.In(zone)
		clock := func(t time.Time) string { return t.In(zone).Format("15:04") }
		from, until, dry, pauses = clock(hours.From), clock(hours.Until), clock(hours.DryBy), strings.Join(show.Stretches(hours.Pauses, s.desk.now), ", ")
	}
	return newForm(s.desk, "The hours of "+on.Format("Mon 2 Jan"), func(f *form) (err error) {
		ask := s.ask
		for i, at := range []*time.Time{&ask.From, &ask.Until, &ask.DryBy} {
			if *at, err = day.ReadHour(f.text(i), on, time.Time{}); err != nil {
				return wrong(i, err)
			}
		}
		away := strings.FieldsFunc(f.text(3), func(r rune) bool { return r == ',' || r == ' ' })
		if ask.Pauses, err = day.ReadStretches("pause", away, on); err != nil {
			return wrong(3, err)
		}
		ask.Shelf = f.text(4)
		if _, err := ask.Filled(s.desk.book.Rules(), s.desk.now); err != nil {
			return err
		}
		s.ask = ask
		s.again()
		return nil
	},
		newField("from", from, "when you begin, 09:00"),
		newField("until", until, "when you are done"),
		newField("dry by", dry, "when all must be dry"),
		newField("pause", pauses, "hours in which you are away, for a break: 12:00-12:30; more with a comma"),
		newField("shelf", s.ask.Shelf, "only this shelf; empty: all that are due"))
}
