package board

import (
	"fmt"
	"math"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/ui/show"
)

// groups are the keys of the soak screen.
func (s *soakScreen) groups() []group {
	noneWaiting := func() string {
		if len(s.desk.book.Waiting()) == 0 {
			return "Nothing is pulled: mark plants in Triage and press p"
		}
		return ""
	}
	noneIn := func() string {
		if len(s.desk.loads) == 0 {
			return "Nothing is in the water here"
		}
		return ""
	}
	due := func() bool { return len(s.desk.loads) > 0 && !s.desk.now.Before(s.desk.loads[0].Due) }
	standing := func() bool { return len(s.desk.loads) == 0 && len(s.desk.standing)+len(s.desk.filled) > 0 }
	nothing := func() bool { return len(s.desk.loads)+len(s.desk.book.Waiting()) == 0 }
	return []group{
		{"Water", []binding{
			act("o", "take out shaken", func() { s.takeOut(true) }).pad("1").unless(noneIn).foot("take out shaken"),
			act("O", "take out without shaking", func() { s.takeOut(false) }).pad("2").unless(noneIn).footWhen("not shaken", due),
			act("s", "start a load in the chosen vessel", s.start).pad("*").unless(noneWaiting).foot("start"),
			act("e", "the chosen vessel is emptied",
				func() { s.desk.enter(&model.Drain{Vessel: s.chosen().Name}) }).pad("3").
				footWhen("the chosen vessel is emptied", standing),
			act("+ =", "five minutes longer", func() { s.adjust += 5 }).pad("5").unless(noneWaiting).foot("minutes"),
			act("-", "five minutes shorter", func() { s.adjust -= 5 }).pad("6").unless(noneWaiting).foot("minutes"),
			act(".", "choose the next vessel", func() { s.choose(1) }).pad(".").foot("vessel"),
			act(",", "choose the vessel before", func() { s.choose(-1) }),
			act("p", "put waiting plants back", s.putBack).pad("8").unless(noneWaiting).foot("put back"),
			act("W", "fill the chosen vessel: what water",
				func() { s.desk.push(fillForm(s.desk, s.chosen())) }).footWhen("fill", nothing),
			act("V", "add or change a vessel", func() { s.desk.push(vesselForm(s.desk, s.chosen())) }).footWhen("vessels",
				nothing),
		}},
		{"The list", append(s.rows.keys(),
			act("esc", "drop marks", s.rows.unmark).footWhen("unmark", s.rows.several))},
	}
}

func (s *soakScreen) lead() string { return s.rows.lead() }

func (s *soakScreen) choose(n int) {
	if count := len(s.desk.book.Vessels()); count > 0 {
		s.vessel = (s.vessel + n + count) % count
		s.adjust = 0
		s.build()
	}
}

// putBack hangs waiting plants back: the marked ones, else the one under the
// cursor.
func (s *soakScreen) putBack() {
	var ids model.IDs
	for _, id := range s.rows.chosen() {
		if s.desk.book.Waiting().Has(id) {
			ids = append(ids, id)
		}
	}
	if s.desk.enter(&model.PutBack{}, ids...) {
		s.rows.unmark()
	}
}

// draw writes the vessels, the next load, and the list.
func (s *soakScreen) draw(p *page, height int) {
	first := 0
	if lines := s.vesselLines(); s.vessel >= lines {
		first = s.vessel - lines + 1
	}
	for i, v := range s.desk.book.Vessels() {
		if i >= first && i < first+s.vesselLines() {
			p.line(s.vesselLine(v, i == s.vessel))
		}
	}
	p.line(s.nextLine())
	if len(s.rows.rows) == 0 {
		s.drawEmpty(p)
		return
	}
	s.rows.draw(p.line, s.row, s.head)
}

// drawEmpty stands where no plants are: what to do, and the cautions of filling.
func (s *soakScreen) drawEmpty(p *page) {
	for _, line := range []string{
		"",
		"   Nothing is pulled and nothing is in the water.",
		"   In Triage, mark plants (space, v, A) and press p. They wait here.",
		"",
		"   Before filling:",
		"   · Never leave a child or a pet alone with standing water, not for seconds.",
		"     Empty tub and buckets as soon as the session is over.",
		"   · Keep fans, lamps and cords 1.5 m (5 ft) from the water, on a protected",
		"     outlet, and dry your hands first. Local codes rule; ask an electrician.",
		"   · Wet floors are slippery: mats where you walk, no stool on wet tile.",
	} {
		p.line(s.desk.theme.plain.of(show.Fit(line, s.desk.width)))
	}
}

// Widths of the vessel lines.
const (
	vesselWidth = 12
	roomWidth   = 8
	lateWidth   = 21 // "OUT, 23 h 59 min late"
)

// vesselLine says what is in a vessel and until when.
func (s *soakScreen) vesselLine(v model.Vessel, here bool) string {
	sign := "  "
	name := show.Pad(show.Safe(v.Name), vesselWidth)
	if here {
		sign, name = s.desk.theme.cursor.of("▸")+" ", s.desk.theme.cursor.of(name)
	}
	taken := s.taken(v)
	share := taken / v.Litres
	room := show.VolumeOf(taken, v.Litres, s.desk.book.Rules())
	left := sign + name + " " + s.desk.bar(share, share, roomWidth) + " " + show.Pad(room, 10)
	used := 2 + vesselWidth + 1 + roomWidth + 1 + 10
	loads := s.desk.book.InVessel(v.Name)
	if len(loads) == 0 {
		words, paint := s.waterWords(s.waters[v.Name])
		return left + "  " + paint.of(show.Fit(words, s.desk.width-used-3))
	}
	space := min(s.desk.width-used-lateWidth-1, 48)
	return left + show.Pad("  "+s.loadWords(loads, space-2), space) + " " + s.desk.remaining(loads[0])
}

// loadWords tells of the load in a vessel that is due first, and how many plants
// of later ones are with it, as fully as fits.
func (s *soakScreen) loadWords(loads []*model.Load, width int) string {
	l, all := loads[0], 0
	for _, other := range loads {
		all += other.Left
	}
	count := fmt.Sprintf("%d in", l.Left)
	if len(loads) > 1 {
		count = fmt.Sprintf("%d of %d in", l.Left, all)
	}
	since, due := show.Clock(l.In, s.desk.now, s.desk.book.Zone()), show.Clock(l.Due, s.desk.now, s.desk.book.Zone())
	words := []string{fmt.Sprintf("load %d, %s since %s, due %s", l.ID, count, since, due),
		fmt.Sprintf("%s, due %s", count, due), count, fmt.Sprint(l.Left)}
	for _, w := range words[:len(words)-1] {
		if show.Width(w) <= width {
			return w
		}
	}
	return words[len(words)-1]
}

// waterWords says what stands in a vessel without plants, and what to mind.
func (s *soakScreen) waterWords(w advice.VesselWater) (string, paint) {
	if w.Water == nil {
		return "empty", s.desk.theme.quiet
	}
	text := model.SourceWords(w.Water.Of) + " water"
	switch {
	case w.Water.Fed != nil:
		text = "fed water"
	case len(w.Water.Of) == 1 && w.Water.Of[0] == model.RestedTap:
		text = "water"
	}
	text += " stood " + show.Duration(w.Age)
	if w.Fitness == advice.Fine {
		return text, s.desk.theme.plain
	}
	return text + ": " + s.desk.subject(0).Reason(w.Reasons[0]), s.desk.theme.warn
}

// remaining is the time left of a load, or how late it is, to the minute: the
// strip above counts the seconds where they matter.
func (d *desk) remaining(l *model.Load) string {
	left := l.Due.Sub(d.now)
	switch {
	case d.now.Before(l.In):
		return d.theme.warn.of("clock set back?")
	case left <= -time.Minute:
		return d.theme.alarm.of("OUT, " + show.Duration((-left).Truncate(time.Minute)) + " late")
	case left <= 0:
		return d.theme.alarm.of("OUT now")
	case left < time.Minute:
		return d.theme.warn.of("under a minute")
	case left <= lastMinutes:
		return d.theme.warn.of(show.Duration(left.Truncate(time.Minute)))
	}
	return d.theme.plain.of(show.Duration(left.Truncate(time.Minute)))
}

// nextLine says what s would start.
func (s *soakScreen) nextLine() string {
	if len(s.desk.book.Waiting()) == 0 {
		return ""
	}
	l := s.ready
	v := show.Safe(s.chosen().Name)
	if len(l.ids) == 0 {
		return s.desk.theme.warn.of(show.Fit(fmt.Sprintf(" %s is full", v), s.desk.width))
	}
	text := fmt.Sprintf(" s starts in %s: %s, %s, %s", v, show.Count(len(l.ids), "plant"),
		show.Volume(math.Round(l.litres), s.desk.book.Rules()), show.Minutes(l.minutes))
	if s.adjust != 0 {
		text += fmt.Sprintf(" (%+.0f by hand)", s.adjust)
	}
	return s.desk.theme.input.of(show.Fit(text+l.leftBehind(), s.desk.width))
}

// head is the heading of a load or of waiting plants.
func (s *soakScreen) head(g int) string {
	group := s.shown[g]
	if l := group.load; l != nil {
		words := fmt.Sprintf("In %s, load %d", show.Safe(l.Vessel), l.ID)
		return s.desk.heading(words, fmt.Sprintf("in %s, due %s, take out in this order ",
			show.Clock(l.In, s.desk.now, s.desk.book.Zone()), show.Clock(l.Due, s.desk.now, s.desk.book.Zone())))
	}
	return s.desk.heading("Waiting, "+group.band.String(),
		fmt.Sprintf("%s, %.0f L ", show.Count(len(group.ids), "plant"), s.bulk(group.ids)))
}

// row draws one plant in the water or waiting.
func (s *soakScreen) row(id model.ID, i int) string {
	r, n := s.desk.book.Row(id), s.desk.need(id)
	label := nameWidth(s.desk.width)
	title := show.Pad(show.Title(r.Plant), label)
	if i == s.rows.cursor {
		title = s.desk.theme.cursor.of(title)
	}
	window := "in " + show.Duration(s.desk.now.Sub(r.In))
	if r.State != model.Soaking {
		window = show.Soak(n.From, n.To)
	}
	left := s.desk.sign(s.rows, id, i) + show.PadLeft("#"+id.String(), 6) + " " + title + " " +
		show.Pad(show.Safe(r.Home.String()), 13) + " " + show.Pad(window, timeWidth) + " "
	return left + s.desk.theme.quiet.of(show.Fit(s.desk.handling(n, r), s.desk.width-2-6-1-label-1-13-1-timeWidth-2))
}

// handling is the short note on how to treat a plant at the tub.
func (d *desk) handling(n *advice.Need, r *model.Row) string {
	for _, reason := range n.Reasons {
		if reason.Kind() == advice.Hint {
			return d.subject(n.ID).Reason(reason)
		}
	}
	if r.Count > 1 {
		return fmt.Sprintf("%d of them", r.Count)
	}
	return string(r.Form)
}
