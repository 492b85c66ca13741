package board

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// dryScreen is what is out of the water: how far it is, what holds it up, and
// where it hangs when it is dry.
type dryScreen struct {
	*desk
	rows   *list
	counts []int // rows in each group
	built  int
	last   time.Time // when the last should be dry
	into   int       // plants that may be wet into the night
	ahead  *estimate.Ahead
	looked time.Time // when ahead was worked out
}

func newDrying(d *desk) *dryScreen { return &dryScreen{desk: d, rows: newList(), built: -1} }

func (s *dryScreen) name() string   { return "Drying" }
func (s *dryScreen) letter() string { return "d" }

func (s *dryScreen) badge() string {
	switch n := s.tally.Drying + s.tally.Dry; {
	case n == 0:
		return ""
	case s.overdue > 0:
		return fmt.Sprintf("%d, %d late", n, s.overdue)
	default:
		return fmt.Sprint(n)
	}
}

func (s *dryScreen) list() *list { return s.rows }

func (s *dryScreen) open() { s.build() }

func (s *dryScreen) sync() {
	if s.built != s.version {
		s.build()
	}
	s.lookAhead()
	s.rows.resize(s.body() - 1 - len(s.aheadLines()))
}

// lookAhead works out the hours to come, after an entry and once a minute.
func (s *dryScreen) lookAhead() {
	if s.ahead != nil && s.looked.Equal(s.outlook.At) {
		return
	}
	s.looked, s.ahead = s.outlook.At, nil
	if a, ok := s.keeper.Ahead(s.now); ok {
		s.ahead = &a
	}
}

// build lists overdue plants first, then what is dry and waits to be hung, in
// walking order, then each load, the first dry first.
func (s *dryScreen) build() {
	s.built, s.last, s.into, s.ahead = s.version, time.Time{}, 0, nil
	by := s.book.Rules().DryBy(s.now.In(s.book.Zone()))
	var late, dry model.IDs
	loads := map[model.LoadID]model.IDs{}
	var order []model.LoadID
	for i := range s.outlook.Drying {
		d := &s.outlook.Drying[i]
		drying := s.book.Row(d.ID).State == model.Drying
		if drying && d.High.After(s.last) {
			s.last = d.High
		}
		if drying && d.High.After(by) {
			s.into++
		}
		switch {
		case !drying:
			dry = append(dry, d.ID)
		case d.Overdue:
			late = append(late, d.ID)
		default:
			if loads[d.Load] == nil {
				order = append(order, d.Load)
			}
			loads[d.Load] = append(loads[d.Load], d.ID)
		}
	}
	var sections []section
	add := func(head string, ids model.IDs) {
		if len(ids) > 0 {
			sections = append(sections, section{head, ids})
		}
	}
	slices.SortStableFunc(late, func(a, b model.ID) int { return s.out(a).OutAt.Compare(s.out(b).OutAt) })
	add("Overdue", late)
	add("Dry: hang these back", s.book.Walk(dry))
	for _, ids := range loads {
		slices.SortStableFunc(ids, func(a, b model.ID) int { return s.out(a).Expected.Compare(s.out(b).Expected) })
	}
	slices.SortFunc(order, func(a, b model.LoadID) int {
		return cmp.Or(s.out(loads[a][0]).Expected.Compare(s.out(loads[b][0]).Expected), cmp.Compare(a, b))
	})
	for _, l := range order {
		out := s.out(loads[l][0]).OutAt
		add(fmt.Sprintf("Load %d, out %s", l, show.Clock(out, s.now, s.book.Zone())), loads[l])
	}
	s.counts = s.counts[:0]
	for _, sec := range sections {
		s.counts = append(s.counts, len(sec.ids))
	}
	s.rows.fill(sections)
}

func (s *dryScreen) out(id model.ID) *advice.Drying { return s.outlook.DryOut(id) }

// groups are the keys of the drying screen.
func (s *dryScreen) groups() []group {
	empty := func() string {
		if s.rows.current() == 0 {
			return "Nothing is drying"
		}
		return ""
	}
	return []group{
		{"Drying", []binding{
			act("d", "dry to the heart", func() { s.mark(&model.FoundDry{}, model.Drying) }).unless(empty).foot("dry"),
			act("w", "still damp", func() { s.mark(&model.Damp{}, model.Drying, model.Dry) }).unless(empty).foot("still damp"),
			act("r", "rehung: it is back home", func() { s.mark(&model.Hung{}, model.Dry) }).unless(empty).foot("rehung"),
			act("W", "weigh it wet: what later weights are held against", func() { s.push(weighForm(s.desk, s.rows.current())) }).unless(empty),
			act("f", "fan: off, low, on, near", s.nextFan).foot("fan"),
			act("i", "window: shut, door, open, extractor", s.nextWindow).foot("window"),
		}},
		{"The list", append(s.rows.keys(), act("esc", "drop marks", s.rows.unmark).footWhen("unmark", s.rows.several))},
	}
}

// mark writes a fact about the chosen plants that are in one of the states.
func (s *dryScreen) mark(f model.Fact, states ...model.State) {
	var ids model.IDs
	for _, id := range s.rows.chosen() {
		if slices.Contains(states, s.book.Row(id).State) {
			ids = append(ids, id)
		}
	}
	if len(ids) == 0 {
		if f.Kind() == "hung" {
			s.say("Not marked dry yet: d first, then r")
		} else {
			s.say("Already dry: r when it hangs, w if it is damp after all")
		}
		return
	}
	if !s.enter(f, ids...) {
		return
	}
	several := s.rows.several()
	s.rows.unmark()
	at := s.rows.cursor
	s.build()
	if !several && f.Kind() != "damp" {
		s.rows.put(at) // the next plant has moved up
	} else if !several {
		s.rows.move(1)
	}
}

func (s *dryScreen) lead() string { return s.rows.lead() }

// draw writes one line about the whole bench, then the list.
func (s *dryScreen) draw(p *page, height int) {
	if len(s.rows.rows) == 0 {
		p.line("")
		p.line("   Nothing is out to dry.")
		return
	}
	p.line(s.benchLine())
	for _, line := range s.aheadLines() {
		p.line(line)
	}
	s.rows.draw(p.line, s.row, s.head)
}

// benchLine says when all should be dry, and what that means for the night.
func (s *dryScreen) benchLine() string {
	zone := s.book.Zone()
	if s.last.IsZero() {
		return s.theme.good.of(show.Fit(" All dry: hang them back in walking order", s.width))
	}
	by := s.book.Rules().DryBy(s.now.In(zone))
	if !s.last.After(s.now) {
		return s.theme.warn.of(show.Fit(" All should have been dry by "+show.Clock(s.last, s.now, zone)+": look into the hearts, then d dry or w still damp", s.width))
	}
	text := " All should be dry by " + show.Clock(s.last, s.now, zone)
	if s.into > 0 {
		text += fmt.Sprintf("; %d may still be wet at %s", s.into, show.Clock(by, s.now, zone))
		return s.theme.warn.of(show.Fit(text, s.width))
	}
	return show.Fit(text+", before the day ends at "+show.Clock(by, s.now, zone), s.width)
}

func (s *dryScreen) head(g int) string {
	return s.heading(s.rows.heads[g], show.Count(s.counts[g], "plant")+" ")
}

// row draws one plant: its time out, when it should be dry, what holds it up.
func (s *dryScreen) row(id model.ID, i int) string {
	r, d := s.book.Row(id), s.out(id)
	if d == nil {
		return ""
	}
	zone := s.book.Zone()
	label, home := nameWidth(s.width), 11
	title := show.Pad(show.Title(r.Plant), label)
	if i == s.rows.cursor {
		title = s.theme.cursor.of(title)
	}
	left := s.sign(s.rows, id, i) + show.PadLeft("#"+id.String(), 6) + " " + title + " " + show.Pad(show.Safe(r.Home.String()), home) + " "
	used := 2 + 6 + 1 + label + 1 + home + 1
	if r.State == model.Dry {
		return left + s.theme.good.of(show.Fit("dry since "+show.Clock(r.DryAt, s.now, zone), s.width-used-1))
	}
	left += show.PadLeft(show.Clock(r.Out, s.now, zone), clockWidth) + " " + s.bar(d.Progress, d.Progress, progressWidth) + " "
	used += clockWidth + 1 + progressWidth + 1
	if d.Overdue {
		wet := show.Fit(show.Duration(s.now.Sub(r.Out))+" wet", s.width-used-1)
		return left + s.theme.alarm.of(wet) + show.Fit(": "+s.adviceOf(d.Reasons), s.width-used-show.Width(wet)-1)
	}
	return left + show.Fit(s.tail(r, d), s.width-used-1)
}

// Widths of the drying columns: a time with its day, and a bar.
const (
	clockWidth    = 9
	progressWidth = 6
)

// tail is when a plant should be dry and what holds it up.
func (s *dryScreen) tail(r *model.Row, d *advice.Drying) string {
	zone := s.book.Zone()
	text := show.Clock(d.Low, s.now, zone) + "–" + show.Clock(d.High, s.now, zone)
	if r.DampAt.After(r.Out) {
		return text + " damp " + show.Clock(r.DampAt, s.now, zone)
	}
	if s.width < wideScreen {
		return text + " " + string(d.HoldUp)
	}
	return text + "  " + show.HoldUp(d.HoldUp)
}

// adviceOf is the first thing to do.
func (d *desk) adviceOf(rs []advice.Reason) string {
	for _, r := range rs {
		if r.Kind() == advice.Hint {
			return d.subject(0).Reason(r)
		}
	}
	return "look into the heart"
}
