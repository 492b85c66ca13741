package board

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tubside/model"
	"tubside/model/advice"
	"tubside/ui/show"
)

// roundScreen is a walk with one job: whom to mist, feed or look over today, in
// walking order, and whom not and why.
type roundScreen struct {
	desk   *desk
	rows   *list
	job    int // index in roundJobs
	round  advice.Round
	stops  map[model.ID]*advice.Stop
	counts []int // plants in each group
	all    bool  // those not due are listed too
	built  int
	named  naming
	side   beside // the card, in a wide window

	proposed map[model.ID]advice.Weighable // for the scale, while nobody is weighed
	passed   model.IDs                     // proposed, and not wanted
}

// roundJobs are the jobs in the order of the screen.
var roundJobs = append(slices.Clone(advice.RoundJobs), advice.WeighRound)

func newRounds(d *desk) *roundScreen {
	rows := newList()
	rows.bar = func(line string) string { return d.barredIn(line, d.listWidth()) }
	return &roundScreen{desk: d, rows: rows, built: -1, side: beside{desk: d, rows: rows}}
}

func (s *roundScreen) name() string   { return "Rounds" }
func (s *roundScreen) letter() string { return "r" }
func (s *roundScreen) badge() string  { return "" }
func (s *roundScreen) list() *list    { return s.rows }
func (s *roundScreen) open()          { s.build() }

// sync builds the walk anew only while it is in front: nobody else shows it.
func (s *roundScreen) sync() {
	s.rows.resize(s.desk.body() - 1 - len(s.remarkLines()) - len(s.noteLines()) - s.foot())
	if s.built != s.desk.version {
		s.build()
	}
	s.side.ask()
}

func (s *roundScreen) kind() advice.RoundJob { return roundJobs[s.job] }

// build makes up the walk: due plants by shelf, then those that come later and
// those left out, when they are wanted.
func (s *roundScreen) build() {
	s.built = s.desk.version
	s.round = advice.NewRound(s.desk.keeper, s.kind(), s.desk.now)
	s.stops = map[model.ID]*advice.Stop{}
	var sections []section
	add := func(head func(model.ID) string, stops []advice.Stop) {
		for i := range stops {
			id := stops[i].ID
			s.stops[id] = &stops[i]
			name := head(id)
			if n := len(sections); n > 0 && sections[n-1].head == name {
				sections[n-1].ids = append(sections[n-1].ids, id)
				continue
			}
			sections = append(sections, section{name, model.IDs{id}})
		}
	}
	add(func(id model.ID) string {
		if s.kind() == advice.WeighRound { // ten plants hang on as many shelves
			return "On the scale now"
		}
		return shelfWords(s.desk.book.Row(id).Home.Shelf)
	}, s.round.Due)
	if s.proposing() {
		sections = []section{s.propose()}
	}
	if s.all || s.kind() == advice.WeighRound {
		add(func(model.ID) string { return "Later" }, s.round.Later)
		add(func(model.ID) string { return "Left out" }, s.round.Skipped)
	}
	var all model.IDs
	s.counts = s.counts[:0]
	for _, sec := range sections {
		s.counts = append(s.counts, len(sec.ids))
		all = append(all, sec.ids...)
	}
	s.named = s.desk.namingOf(all)
	s.rows.fill(sections)
}

func shelfWords(shelf string) string {
	if shelf == "" {
		return "No shelf"
	}
	return shelf
}

// remarks are what to settle before the first plant.
func (s *roundScreen) remarks() []advice.Reason { return s.round.Asks }

func (s *roundScreen) groups() []group {
	empty := func() string {
		if s.rows.current() == 0 {
			return "Nobody is due"
		}
		return ""
	}
	return []group{
		{"The round", []binding{
			act("d", "done: misted, fed, looked over or weighed", s.done).pad("*").unless(empty).foot(s.doneWord()),
			act("D", "done for the whole group", func() { s.rows.unmark(); s.rows.markGroup(); s.done() }).pad("1").
				unless(func() string { return cmp.Or(s.oneByOne(), empty()) }).
				footWhen("whole group", func() bool { return s.kind() != advice.WeighRound }),
			act(".", "next job: mist, feed, look, weigh", func() { s.change(1) }).pad(".").foot("next job"),
			act(",", "job before", func() { s.change(-1) }),
			act("z", "show those not due, or hide them", func() { s.all = !s.all; s.build() }).
				footWhen("all plants", func() bool { return s.kind() != advice.WeighRound }),
			act("W", "what is in the mist bottle", func() { s.desk.push(bottleForm(s.desk)) }),
		}},
		{"The scale", s.scaleKeys()},
		{"What was found", s.desk.findings(s.rows)},
		{"The list", append(s.rows.keys(), act("esc", "drop marks", s.rows.unmark).footWhen("unmark", s.rows.several))},
	}
}

func (s *roundScreen) change(n int) {
	s.job = (s.job + n + len(roundJobs)) % len(roundJobs)
	s.build()
}

// done writes the job as done for the chosen plants, and goes on to the next.
func (s *roundScreen) done() {
	if s.kind() == advice.WeighRound {
		s.onScale()
		return
	}
	fact := s.round.Fact(s.desk.book)
	if fact == nil {
		s.desk.say("Nothing to feed with: W says what is in the bottle")
		return
	}
	ids := s.rows.chosen()
	if s.kind() == advice.FeedRound {
		if stop, refused := advice.NotToFeed(s.desk.keeper, ids, s.desk.now); refused {
			s.desk.complain(show.NotFed(s.desk.book, stop, s.desk.now))
			return
		}
	}
	at := s.rows.cursor
	if !s.desk.enter(fact, ids...) {
		return
	}
	s.rows.unmark()
	s.build()
	s.rows.put(at) // the next plant has moved up
}

// doneWords are what is said of a plant when the job is done.
var doneWords = map[advice.RoundJob]string{advice.MistRound: "misted", advice.FeedRound: "fed",
	advice.LookRound: "looked over", advice.WeighRound: "weigh"}

func (s *roundScreen) doneWord() string {
	if s.proposing() {
		return "weigh these"
	}
	return doneWords[s.kind()]
}

func (s *roundScreen) lead() string { return s.rows.lead() }

func (s *roundScreen) draw(p *page, height int) {
	until := p.lines + height
	p.line(s.jobsLine())
	for _, line := range s.remarkLines() {
		p.line(s.desk.theme.warn.of(line))
	}
	if len(s.rows.rows) == 0 {
		p.line("")
		p.line("   Nobody is due. z shows all plants, and why not.")
		for _, note := range s.round.Notes {
			p.line("")
			for _, line := range wrap(show.Line(s.aboutStop(0).Reason(note)), s.desk.width-6) {
				p.line(s.desk.theme.quiet.of("   " + line))
			}
		}
		return
	}
	for _, line := range s.noteLines() {
		p.line(s.desk.theme.quiet.of(line))
	}
	head := func(g int) string {
		return s.desk.headingIn(show.Safe(s.rows.heads[g]), show.Count(s.counts[g], "plant"), s.desk.listWidth())
	}
	if s.desk.room() {
		var lines []string
		s.rows.draw(func(line string) { lines = append(lines, line) }, s.row, head)
		s.desk.drawTwo(p, until, lines, s.besideLines())
		return
	}
	s.rows.draw(p.line, s.row, head)
	p.fill(until - roundFoot)
	p.line(s.desk.theme.quiet.of(" " + strings.Repeat("─", s.desk.width-2)))
	lines := wrap(s.whole(), s.desk.width-2)
	for i := range min(len(lines), roundFoot-1) {
		p.line(" " + lines[i])
	}
}

// roundFoot is how many lines under the list say the whole of the cursor's plant, a
// rule among them.
const roundFoot = 3

// foot is how many lines that takes here: in a wide window they stand beside the list.
func (s *roundScreen) foot() int {
	if s.desk.room() {
		return 0
	}
	return roundFoot
}

// besideLines are the whole of the cursor's plant, then its card.
func (s *roundScreen) besideLines() []string {
	var lines []string
	for _, line := range wrap(s.whole(), cardWidth-2) {
		lines = append(lines, " "+line)
	}
	return append(append(lines, ""), s.side.lines()...)
}

// whole is all that is said of the plant under the cursor.
func (s *roundScreen) whole() string {
	id := s.rows.current()
	stop := s.stops[id]
	if stop == nil {
		return ""
	}
	return show.Title(s.desk.book.Row(id).Plant) + ". " + show.Line(strings.Join(s.aboutStop(id).Reasons(stop.Reasons), "; "))
}

// remarkLines are what to settle first, in full.
func (s *roundScreen) remarkLines() []string {
	var lines []string
	for _, r := range s.remarks() {
		for _, line := range wrap(show.Line(s.aboutStop(0).Reason(r)), s.desk.width-2) {
			lines = append(lines, " "+line)
		}
	}
	return lines
}

// jobsLine names the jobs with how many are due of the one at hand.
func (s *roundScreen) jobsLine() string {
	line := " "
	for i, job := range roundJobs {
		if i == s.job {
			line += s.desk.theme.title.of("▸"+show.Line(string(job))) + fmt.Sprintf(" %d due   ", len(s.round.Due))
		} else {
			line += s.desk.theme.quiet.of(" "+show.Line(string(job))) + "   "
		}
	}
	return fitStyled(line, s.desk.width)
}

// noteLines are what to mind on the round, in full: a caution cut off is none.
func (s *roundScreen) noteLines() []string {
	var notes, lines []string
	for _, note := range s.round.Notes {
		notes = append(notes, show.Line(s.aboutStop(0).Reason(note)))
	}
	for _, line := range wrap(strings.Join(notes, ". "), s.desk.width-2) {
		lines = append(lines, " "+line)
	}
	return lines
}

func (s *roundScreen) row(id model.ID, i int) string {
	r, stop := s.desk.book.Row(id), s.stops[id]
	if stop == nil && !s.proposing() {
		return ""
	}
	name, home := s.named.columns(s.desk.listWidth() - 2 - 1 - 2 - 1 - roomForWhy)
	title := show.PadName(s.named.of(r), name)
	if i == s.rows.cursor {
		title = s.desk.theme.cursor.of(title)
	}
	left := s.desk.sign(s.rows, id, i) + title + " " + show.PadName(hangs(r), home) + "  "
	room := s.desk.listWidth() - (2 + name + 1 + home + 2) - 1
	if stop == nil {
		return left + s.desk.last(s.proposal(id, room), room+1)
	}
	why := stop.Reasons[0]
	paint := s.desk.paintOf(why)
	if why.Kind() == advice.Hint { // as in most rows
		paint = s.desk.theme.plain
	}
	return left + paint.of(s.desk.last(show.Clause(show.Safe(s.aboutStop(id).Reason(why)), room), room+1))
}

// aboutStop is what a reason of the round is about; 0 is the round itself.
func (s *roundScreen) aboutStop(id model.ID) show.About {
	return show.About{Book: s.desk.book, Row: s.desk.book.Row(id), Now: s.round.At}
}

// subject is what a reason is about; 0 is no plant.
func (d *desk) subject(id model.ID) show.About {
	return show.About{Book: d.book, Row: d.book.Row(id), Now: d.now}
}

// paintOf is the ink of a reason: red for danger, amber for what asks for care, bold
// for what to do.
func (d *desk) paintOf(r advice.Reason) paint {
	switch r.Code {
	case advice.EveryDays, advice.SeenAtLeast: // the usual, and nothing to mind
		return d.theme.plain
	}
	if r.Danger() {
		return d.theme.alarm
	}
	switch r.Kind() {
	case advice.Warning, advice.Capped:
		return d.theme.warn
	case advice.Hint:
		return d.theme.title
	}
	return d.theme.plain
}

// findings are the keys for what is found on a plant; triage and the rounds
// share them.
func (d *desk) findings(l *list) []binding {
	none := func() string {
		if l.current() == 0 {
			return "No plant here"
		}
		return ""
	}
	enter := func(f model.Fact) {
		if d.enter(f, l.chosen()...) {
			l.unmark()
		}
	}
	all := func(is func(*model.Row) bool) bool {
		return !slices.ContainsFunc(l.chosen(), func(id model.ID) bool { return !is(d.book.Row(id)) })
	}
	return []binding{
		act("b", "in bloom; again: spent", func() { enter(d.nextBloom(all)) }).unless(none),
		act("B", "in bud; asked whether it still blooms: yes", func() {
			if late := all(func(r *model.Row) bool { return advice.AskBloom(r, d.now) }); !late {
				enter(&model.Bloom{Stage: model.Bud})
			} else if enter(&model.Bloom{}); !d.trouble {
				d.say("Still in bloom; asked again after %s", show.Count(int(advice.BloomAgain.Hours()/24), "day"))
			}
		}).unless(none),
		act("!", "suspected rot; again: found sound", func() {
			enter(&model.Rot{Over: all(func(r *model.Row) bool { return !r.Rot.IsZero() })})
		}).pad("8").unless(none),
		act("t", "one-minute test: thirst or what else", func() { d.push(newMinute(d, l.current())) }).unless(none),
		act("i", "a trouble: scale, mealybug, mites, burn, cold, sun",
			func() { d.push(troubleForm(d, l)) }).unless(none),
		act("I", "offsets seen", func() { d.push(offsetForm(d, l)) }).unless(none),
		act("Q", "into quarantine; again: released", func() {
			enter(&model.Quarantine{Over: all(func(r *model.Row) bool { return !r.Quarantine.IsZero() })})
		}).unless(none),
	}
}

// nextBloom is in bloom for plants that are not, and spent for plants that are.
func (d *desk) nextBloom(all func(func(*model.Row) bool) bool) model.Fact {
	if all(func(r *model.Row) bool { return !r.Bloom.IsZero() && r.Stage != model.Bud }) {
		return &model.Bloom{Stage: model.Spent}
	}
	return &model.Bloom{Stage: model.Open}
}
