package board

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tubside/model"
	"tubside/ui/show"
)

// ruleScreen is the house rules in groups: every limit the grower may change, what
// it is now, what it was at first, and where that came from.
type ruleScreen struct {
	desk   *desk
	rows   window
	lines  []ruleLine
	width  int    // what the lines were laid out for
	sought string // only rules with this in their words are shown
}

// ruleLine is a rule, the heading of a group, or what did not fit into the rule's line.
type ruleLine struct {
	head  string
	rest  string
	limit model.Limit
}

// ruleGroups are the house rules by what they are about.
var ruleGroups = []struct {
	title       string
	from, until model.Limit
}{
	{"The board", model.TempUnit, model.TempUnit},
	{"The board", model.VolumeUnit, model.VolumeUnit},
	{"The board", model.Notify, model.NumberPad},
	{"The soak day", model.DryByHour, model.DryByHour},
	{"The soak day", model.DayFrom, model.FillStands},
	{"The soak day", model.HandsPull, model.HandsHang},
	{"The week", model.SoakMon, model.SoakSun},
	{"The room", model.DefaultTemp, model.AirChangesExtractor},
	{"When to soak", model.SoakTarget, model.MistDays},
	{"When to soak", model.RhythmDays, model.RescueTarget},
	{"How long to soak", model.Shortest, model.RoutineBulbous},
	{"How long where edges lift", model.LiftingMesic, model.LiftingBulbous},
	{"How long for a deep channel", model.DeepMesic, model.DeepBulbous},
	{"The bands", model.DipFrom, model.OvernightTo},
	{"Never longer than", model.CapBulbous, model.CapXeric},
	{"How long wet", model.WetLimit, model.WetLimitClump},
	{"How long wet", model.WetPast, model.WetPast},
	{"Misting", model.MistMesic, model.MistFuzzyRH},
	{"Feeding", model.FeedDays, model.FeedRefuse},
	{"Looking and quarantine", model.LookDays, model.LooksApart},
	{"Offsets", model.SeparatedDays, model.OffsetTo},
	{"Water", model.TapTreated, model.WaterWarm},
	{"Weighing", model.ScaleStep, model.ScaleStep},
}

func newRules(d *desk) *ruleScreen {
	s := &ruleScreen{desk: d}
	s.rows.pass = func(i int) bool { return i < len(s.lines) && !s.lines[i].rule() }
	s.fill()
	return s
}

func (s *ruleScreen) name() string   { return "Rules" }
func (s *ruleScreen) letter() string { return "h" }
func (s *ruleScreen) badge() string  { return "" }
func (s *ruleScreen) list() *list    { return nil }
func (s *ruleScreen) open()          {}
func (s *ruleScreen) lead() string   { return "" }

// sync lays the list out for the window as it is; the cursor stays on its rule.
func (s *ruleScreen) sync() {
	if l, ok := s.limit(); s.width != s.desk.width {
		s.fill()
		if i := slices.IndexFunc(s.lines, func(line ruleLine) bool { return line.rule() && line.limit == l }); ok && i >= 0 {
			s.rows.put(i)
		}
	}
	s.rows.fit(len(s.lines), s.desk.height-10)
}

// rule reports whether the line is a rule.
func (l ruleLine) rule() bool { return l.head == "" && l.rest == "" }

// words are what a rule limits, in as many lines as it takes here.
func (s *ruleScreen) words(l model.Limit) []string {
	return wrap(show.Line(model.LimitTable[l].What), s.whatWidth()-1)
}

// fill lists the rules that have the sought text in their words, under their
// groups; a group has its rules together, wherever they stand in the table.
func (s *ruleScreen) fill() {
	s.lines, s.width = s.lines[:0], s.desk.width
	done := map[string]bool{}
	for _, g := range ruleGroups {
		if done[g.title] {
			continue
		}
		done[g.title] = true
		head := len(s.lines)
		for _, part := range ruleGroups {
			for l := part.from; part.title == g.title && l <= part.until; l++ {
				info := model.LimitTable[l]
				if l.Retired() {
					continue
				}
				if strings.Contains(strings.ToLower(g.title+" "+info.Name+" "+info.What),
					strings.ToLower(strings.TrimSpace(s.sought))) {
					s.lines = append(s.lines, ruleLine{limit: l})
					for _, more := range s.words(l)[1:] {
						s.lines = append(s.lines, ruleLine{rest: more, limit: l})
					}
				}
			}
		}
		if len(s.lines) > head {
			s.lines = append(s.lines[:head], append([]ruleLine{{head: g.title}}, s.lines[head:]...)...)
		}
	}
	s.rows.fit(len(s.lines), s.desk.height-10)
	s.rows.put(s.rows.cursor)
}

// limit is the rule under the cursor; there may be none.
func (s *ruleScreen) limit() (model.Limit, bool) {
	if s.rows.cursor < len(s.lines) && s.lines[s.rows.cursor].rule() {
		return s.lines[s.rows.cursor].limit, true
	}
	return 0, false
}

func (s *ruleScreen) groups() []group {
	none := func() string {
		if _, ok := s.limit(); !ok {
			return "No rule here"
		}
		return ""
	}
	return []group{
		{"House rules", []binding{
			act("enter e", "change the rule", func() { l, _ := s.limit(); s.desk.push(ruleForm(s.desk, l)) }).unless(none).foot("change"),
			act("r", "as it was at first", s.reset).unless(none).foot("as at first"),
			remark("/ find"),
			act("esc", "show all again", func() { s.sought = ""; s.fill() }).footWhen("all",
				func() bool { return s.sought != "" }),
		}},
		{"The list", append(s.rows.keys(),
			act("l →", "next group", func() { s.group(1) }),
			act("h ←", "group before", func() { s.group(-1) }),
		)},
	}
}

// find shows only the rules with a text in their words while it is typed.
func (s *ruleScreen) find() {
	was := s.sought
	p := newPrompt(s.desk, s, "Find:", "")
	p.change = func(text string) { s.sought = text; s.fill() }
	p.accept = func(text string) { s.desk.said, s.sought = "", text; s.fill() }
	p.cancel = func() { s.desk.said, s.sought = "", was; s.fill() }
	s.desk.push(p)
}

// findAgain goes to the next rule of those shown, or the one before.
func (s *ruleScreen) findAgain(dir int) { s.rows.move(dir) }

// group goes to the first rule of the group n further on.
func (s *ruleScreen) group(n int) {
	at, heads := 0, []int{}
	for i, line := range s.lines {
		if line.head != "" {
			if i <= s.rows.cursor {
				at = len(heads)
			}
			heads = append(heads, i)
		}
	}
	if len(heads) > 0 {
		s.rows.put(heads[min(max(at+n, 0), len(heads)-1)] + 1)
	}
}

// reset puts a rule back to what it was in a fresh book.
func (s *ruleScreen) reset() {
	l, _ := s.limit()
	info := model.LimitTable[l]
	if s.desk.book.Rules()[l] == info.Default {
		s.desk.say("%s is as it was at first", info.Name)
		return
	}
	s.desk.enter(&model.RuleSet{Name: info.Name, Value: info.Default})
}

// draw lists the rules; where the first value of the one under the cursor comes
// from stands below.
func (s *ruleScreen) draw(p *page, height int) {
	until := p.lines + height
	heads := "   " + show.Pad(s.shown(), s.whatWidth()) + show.PadLeft("now", ruleValueWidth)
	if s.desk.width >= narrow {
		heads += " " + show.PadLeft("at first", ruleValueWidth)
	}
	p.line(s.desk.theme.quiet.of(heads))
	s.rows.fit(len(s.lines), height-1-ruleStrip)
	for from, end := s.rows.inView(); from < end; from++ {
		p.line(s.row(from))
	}
	p.fill(until - ruleStrip)
	p.line(s.desk.theme.quiet.of(" " + strings.Repeat("─", s.desk.width-2)))
	if l, ok := s.limit(); ok {
		info := model.LimitTable[l]
		lines := wrap(show.Line(info.What), s.desk.width-2)
		for i := range 2 {
			if i < len(lines) {
				p.line(" " + lines[i])
			}
		}
		p.line(s.desk.theme.quiet.of(" " + show.Clause("First value: "+s.firstValue(l), s.desk.width-2)))
		p.line(s.desk.theme.quiet.of(show.Fit(" In the shell: tubside enter rule "+info.Name+" "+s.desk.book.Rules().Word(l),
			s.desk.width)))
	}
}

// firstValue is what a rule was at first, and where that came from.
func (s *ruleScreen) firstValue(l model.Limit) string {
	info, first := model.LimitTable[l], model.DefaultRules()
	return strings.TrimSpace(ruleWord(first, l)+" "+info.Unit) + ", " + info.Source
}

// shown says which rules are listed.
func (s *ruleScreen) shown() string {
	if s.sought == "" {
		return "yours to change"
	}
	return "only with " + show.Safe(s.sought)
}

// ruleStrip is the lines below the list: a rule, the whole of what the rule limits,
// where its first value comes from, and the command.
const ruleStrip = 5

// ruleValueWidth is the widest value of a rule with its unit.
const ruleValueWidth = 9

// mostWhat keeps the values near to what they limit in a wide window.
const mostWhat = 110

// whatWidth is the room for what a rule limits; a narrow window does without the first
// values, which stand in the strip below.
func (s *ruleScreen) whatWidth() int {
	if s.desk.width < narrow {
		return s.desk.width - ruleValueWidth - 4
	}
	return min(s.desk.width-2*ruleValueWidth-5, mostWhat)
}

func (s *ruleScreen) row(i int) string {
	line := s.lines[i]
	if line.head != "" {
		return s.desk.heading(line.head, "")
	}
	if line.rest != "" {
		return "     " + line.rest
	}
	info, rules, first := model.LimitTable[line.limit], s.desk.book.Rules(), model.DefaultRules()
	sign := "   "
	if i == s.rows.cursor {
		sign = s.desk.theme.cursor.of("▸") + "  "
	}
	value := show.PadLeft(strings.TrimSpace(ruleWord(rules, line.limit)+" "+info.Unit), ruleValueWidth)
	if rules[line.limit] != info.Default {
		value = s.desk.theme.input.of(value)
	}
	room := s.whatWidth()
	text := sign + show.Pad(s.words(line.limit)[0], room) + value
	if s.desk.width >= narrow {
		text += " " + s.desk.theme.quiet.of(show.PadLeft(ruleWord(first, line.limit), ruleValueWidth))
	}
	if i == s.rows.cursor {
		return s.desk.barred(text)
	}
	return text
}

// ruleWords are how values are said that are written shorter.
var ruleWords = map[model.Limit]map[string]string{
	model.TempUnit:   {"c": "°C", "f": "°F"},
	model.VolumeUnit: {"gal": "gallon", "L": "litre"},
	model.PullItself: {"curl-1": "curl 1", "curl-2": "curl 2", "curl-3": "curl 3"},
	model.Notify:     {"osc9": "note (9)", "osc777": "note (777)"},
}

// ruleWord is the value of a rule as it is said.
func ruleWord(rules model.Rules, l model.Limit) string {
	word := rules.Word(l)
	return cmp.Or(ruleWords[l][word], word)
}

// ruleForm asks for a rule's new value.
func ruleForm(d *desk, l model.Limit) *form {
	info := model.LimitTable[l]
	value := newField(info.Name, d.book.Rules().Word(l), fmt.Sprintf("from %g to %g %s", info.Min, info.Max, info.Unit))
	if info.Choices != nil {
		value = newChoice(info.Name, d.book.Rules().Word(l), "by its first letters", info.Choices...)
	}
	return newForm(d, show.Line(info.What), func(f *form) error {
		v, err := model.ParseLimit(l, f.text(0))
		if err != nil {
			return wrong(0, err)
		}
		return d.write(&model.RuleSet{Name: info.Name, Value: v})
	}, value)
}
