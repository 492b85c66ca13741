package board

import (
	"fmt"
	"math"
	"slices"
	"strings"
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
		switch {
		case len(s.leaving()) > 0:
		case s.rows.several():
			return "None of the marked plants is in the water"
		default:
			return "Nothing lies in " + show.Safe(s.chosen().Name)
		}
		return ""
	}
	due := func() bool { return len(s.desk.loads) > 0 && s.desk.isDue(s.desk.loads[0]) }
	standing := func() bool { return len(s.desk.loads) == 0 && len(s.desk.standing)+len(s.desk.filled) > 0 }
	nothing := func() bool { return len(s.desk.loads)+len(s.desk.book.Waiting()) == 0 }
	return []group{
		{"Water", []binding{
			act("o", "take out of the chosen vessel, shaken", func() { s.takeOut(true) }).pad("1").unless(noneIn).foot("take out, shaken"),
			act("O", "take out without shaking", func() { s.takeOut(false) }).pad("2").unless(noneIn).footWhen("not shaken", due),
			act("b", "lay them on another drying place", func() { s.desk.layOn++ }).unless(noneIn).
				footWhen("another place", func() bool { return len(s.desk.loads) > 0 && len(s.desk.book.Benches()) > 1 }),
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
		s.into, s.adjust = s.vessel, 0
		s.goToVessel()
	}
}

// goToVessel has the cursor follow to the chosen vessel, if it is on a load: one
// cursor shows where the keys work.
func (s *soakScreen) goToVessel() {
	if g, ok := s.groupHere(); !ok || g.load == nil {
		return
	}
	if loads := s.desk.book.InVessel(s.chosen().Name); len(loads) > 0 {
		if in := s.of(loads[0]).ids; len(in) > 0 {
			s.rows.goTo(in[0])
			s.was = in[0]
		}
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

// draw writes the vessels, what o and s would do, and the list.
func (s *soakScreen) draw(p *page, height int) {
	until := p.lines + height
	s.drawVessels(p)
	for _, line := range s.actLines() {
		p.line(line)
	}
	if len(s.rows.rows) == 0 {
		s.drawEmpty(p)
		return
	}
	if !s.desk.room() {
		s.rows.draw(p.line, s.row, s.head)
		return
	}
	var lines []string
	s.rows.draw(func(line string) { lines = append(lines, line) }, s.row, s.head)
	s.desk.drawTwo(p, until, lines, s.besideLines(until-p.lines))
}

// actLines say what the two great keys would do: take out, and start.
func (s *soakScreen) actLines() []string {
	var lines []string
	for _, line := range []string{s.outLine(), s.nextLine()} {
		if line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// emptyWords stand where no plants are: what to do, and the cautions of filling.
var emptyWords = []string{
	"", "Nothing is pulled and nothing is in the water.",
	"In Triage, mark plants (space, v, A) and press p.", "",
	"Before filling:",
	"· Never leave a child or a pet alone with standing water, not for seconds. Empty tub and buckets as soon as the " +
		"session is over.",
	"· Keep fans, lamps and cords 1.5 m (5 ft) from the water, on a protected outlet, and dry your hands first. Local " +
		"codes rule; ask an electrician.",
	"· Wet floors are slippery: mats where you walk, no stool on wet tile.",
}

// emptyWidth is as wide as lines are that are read.
const emptyWidth = 76

// drawEmpty leaves out the empty lines where the window is low: every caution is seen.
func (s *soakScreen) drawEmpty(p *page) {
	var lines []string
	for _, words := range emptyWords {
		for i, line := range wrap(words, min(s.desk.width-6, emptyWidth)) {
			if i > 0 {
				line = "  " + line
			}
			if line != "" {
				line = s.desk.theme.plain.of("   " + line)
			}
			lines = append(lines, line)
		}
	}
	if len(lines) > s.desk.body()-s.vesselLines() {
		lines = slices.DeleteFunc(lines, func(line string) bool { return line == "" })
	}
	for _, line := range lines {
		p.line(line)
	}
}

// waterWords says what stands in a vessel without plants, and what to mind.
func (s *soakScreen) waterWords(w advice.VesselWater) (string, paint) {
	if w.Water == nil {
		return "not filled", s.desk.theme.quiet
	}
	text := model.SourceWords(w.Water.Of) + " water"
	switch {
	case w.Water.Fed != nil:
		text = "fed water"
	case len(w.Water.Of) == 0, len(w.Water.Of) == 1 && w.Water.Of[0] == model.RestedTap:
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
	paint := d.theme.plain
	switch left := d.left(l); {
	case d.outAt(l).ByNow(d.now):
		paint = d.theme.warn
	case !d.now.Before(l.In) && left <= 0:
		paint = d.theme.alarm
	case d.now.Before(l.In), left <= lastMinutes:
		paint = d.theme.warn
	}
	return paint.of(d.remainingWords(l))
}

func (d *desk) remainingWords(l *model.Load) string {
	left := d.left(l)
	switch {
	case d.now.Before(l.In):
		return "clock set back?"
	case d.outAt(l).ByNow(d.now):
		return "coming out"
	case left <= -time.Minute:
		return "OUT, " + show.Duration((-left).Truncate(time.Minute)) + " late"
	case left <= 0:
		return "OUT now"
	case left < time.Minute:
		return "under a minute"
	}
	return show.Duration(left.Truncate(time.Minute))
}

// nextLine says what s would start.
func (s *soakScreen) nextLine() string {
	if len(s.desk.book.Waiting()) == 0 {
		return ""
	}
	l := s.ready
	v := show.Safe(s.chosen().Name)
	if len(l.ids) == 0 {
		return s.desk.theme.quiet.of(show.Clause(" "+s.desk.key("s", "*")+" starts nothing: "+s.nothingFits(l), s.desk.width))
	}
	text := fmt.Sprintf(" %s starts in %s: %s, %s, %s", s.desk.key("s", "*"), v, show.Count(len(l.ids), "plant"),
		show.Volume(math.Round(l.litres), s.desk.book.Rules()), show.Minutes(l.minutes))
	if s.adjust != 0 {
		text += fmt.Sprintf(" (%+.0f by hand)", s.adjust)
	}
	if l.litres > s.chosen().Litres {
		text += fmt.Sprintf(": too large for it, it holds %s", show.Volume(s.chosen().Litres, s.desk.book.Rules()))
		return s.desk.theme.warn.of(show.Fit(text+l.leftBehind(), s.desk.width))
	}
	return s.desk.theme.input.of(show.Clause(text+l.leftBehind(), s.desk.width))
}

// head is the heading of a load or of waiting plants.
func (s *soakScreen) head(g int) string {
	group := s.shown[g]
	if l := group.load; l != nil {
		words := fmt.Sprintf("In %s, load %d", show.Safe(l.Vessel), l.ID)
		in, out := show.Clock(l.In, s.desk.now, s.desk.book.Zone()), s.desk.outClock(l)
		remark := ""
		for _, remark = range []string{
			fmt.Sprintf("in %s, %s so far, out %s, take out in this order ", in, show.Duration(s.desk.now.Sub(l.In)), out),
			fmt.Sprintf("in %s, out %s, take out in this order ", in, out),
			fmt.Sprintf("in %s, out %s ", in, out),
		} {
			if show.Width(words)+show.Width(remark)+8 <= s.desk.listWidth() {
				break
			}
		}
		return s.desk.headingIn(words, remark, s.desk.listWidth())
	}
	return s.desk.headingIn("Waiting, "+group.band.String(),
		fmt.Sprintf("%s, %s ", show.Count(len(group.ids), "plant"), show.Volume(handyLitres(group.litres), s.desk.book.Rules())), s.desk.listWidth())
}

// handyLitres is a volume as a person reads it: in whole litres from ten on.
func handyLitres(l float64) float64 {
	if l >= 10 {
		return math.Round(l)
	}
	return math.Max(math.Round(10*l)/10, 0.1)
}

// leastHint is the least room for how to treat a plant at the tub: "shake hard".
const leastHint = 10

// row draws one plant in the water or waiting: its name, where it hangs, how long, and
// how to treat it. A narrow window has no room for where those hang that wait.
func (s *soakScreen) row(id model.ID, i int) string {
	r, n := s.desk.book.Row(id), s.desk.need(id)
	width := s.desk.listWidth()
	minutes, time := show.Soak(n.From, n.To), timeWidth
	room := width - 2 - 1 - 2 - leastHint
	label, home := 0, 0
	switch {
	case r.State == model.Soaking: // its hours stand in the heading
		time = 0
		label, home = s.named.columns(room)
	case s.desk.width < narrow: // the minutes go closer together
		time -= 3
		minutes = strings.Replace(minutes, " to ", "–", 1)
		label = min(s.named.name, room-time-1-6)
	default:
		label, home = s.named.columns(room - time - 1)
	}
	title := show.PadName(s.named.of(r), label)
	if i == s.rows.cursor {
		title = s.desk.theme.cursor.of(title)
	}
	text, used := s.desk.sign(s.rows, id, i)+title+" ", 2+label+1
	if home > 0 {
		text, used = text+show.PadName(hangs(r), home)+"  ", used+home+2
	}
	if time > 0 {
		text, used = text+show.Pad(minutes, time)+" ", used+time+1
	}
	if moved := s.desk.moved(id); moved != "" && r.State != model.Soaking {
		return text + s.desk.theme.warn.of(s.desk.last(moved, width-used))
	}
	return text + s.desk.theme.quiet.of(s.desk.last(show.Clause(s.desk.handling(n, r), width-used), width-used))
}

// handling is how to treat a plant at the tub: what the grower noted of it, before all else.
func (d *desk) handling(n *advice.Need, r *model.Row) string {
	if note := strings.TrimRight(show.Safe(r.Note), ". "); note != "" {
		return note + "; " + d.treatment(n, r)
	}
	return d.treatment(n, r)
}

func (d *desk) treatment(n *advice.Need, r *model.Row) string {
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
