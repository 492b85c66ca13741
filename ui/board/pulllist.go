package board

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// pullList is the plants of one step of a planned load in walking order, to be
// taken off the shelves.
type pullList struct {
	*desk
	load *day.Load
	ids  model.IDs
	text scroll
}

func newPullList(d *desk, load *day.Load, ids model.IDs) *pullList {
	l := &pullList{desk: d, load: load, ids: ids}
	var lines []string
	for _, id := range d.book.Walk(ids) {
		r, n := d.book.Row(id), d.need(id)
		note := ""
		if n != nil {
			note = d.handling(n, r)
		}
		lines = append(lines, "   "+show.Pad(show.Safe(r.Home.String()), 14)+" "+show.PadLeft("#"+id.String(), 6)+" "+show.Pad(show.Title(r.Plant), 26)+" "+show.Fit(note, d.width-54))
	}
	l.text.set(lines)
	return l
}

func (l *pullList) groups() []group {
	back := anyOther("back", func(tea.KeyMsg) tea.Cmd { l.drop(l); return nil }).foot("goes back")
	return []group{{"The plants of the step", append(l.text.keys(), back)}}
}

func (l *pullList) lead() string { return "" }

func (l *pullList) draw(p *page, height int) {
	zone := l.book.Zone()
	p.line("")
	p.line(l.heading(fmt.Sprintf("%s, %s", show.Line(show.Safe(l.load.Vessel)), show.Count(len(l.ids), "plant")),
		fmt.Sprintf("in %s, out %s, here in walking order ", show.Clock(l.load.Start, l.now, zone), show.Clock(l.load.Out, l.now, zone))))
	l.text.draw(p, l.width, height-2)
}

// hoursForm asks for the hours of the day and which shelf to soak.
func hoursForm(s *planScreen) *form {
	zone := s.book.Zone()
	day := s.now.In(zone)
	from, until, dry := "", "", ""
	if s.plan != nil {
		day = s.plan.Ask.From.In(zone)
		from, until, dry = day.Format("15:04"), s.plan.Ask.Until.In(zone).Format("15:04"), s.plan.Ask.DryBy.In(zone).Format("15:04")
	}
	return newForm(s.desk, "The hours of "+day.Format("Mon 2 Jan"), func(f *form) error {
		ask := s.ask
		for i, at := range []*timeField{{&ask.From}, {&ask.Until}, {&ask.DryBy}} {
			if err := at.read(f.text(i), day); err != nil {
				return wrong(i, err)
			}
		}
		ask.Shelf = f.text(3)
		s.ask = ask
		s.make(0)
		if s.plan == nil {
			return fmt.Errorf("%s", s.why)
		}
		return nil
	},
		newField("from", from, "when the hands begin, 09:00"),
		newField("until", until, "when the hands are done"),
		newField("dry by", dry, "when all must be dry"),
		newField("shelf", s.ask.Shelf, "only this shelf; empty: all that are due"))
}
