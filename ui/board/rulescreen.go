package board

import (
	"fmt"
	"strings"

	"tubside/model"
	"tubside/ui/show"
)

// ruleScreen is the house rules: every limit the grower may change, what it is
// now, what it was at first, and where that came from.
type ruleScreen struct {
	*desk
	rows window
}

func newRules(d *desk) *ruleScreen { return &ruleScreen{desk: d} }

func (s *ruleScreen) name() string   { return "Rules" }
func (s *ruleScreen) letter() string { return "h" }
func (s *ruleScreen) badge() string  { return "" }
func (s *ruleScreen) list() *list    { return nil }
func (s *ruleScreen) open()          {}
func (s *ruleScreen) sync()          { s.rows.fit(len(model.Limits()), s.body()-3) }
func (s *ruleScreen) lead() string   { return "" }

// limit is the rule under the cursor.
func (s *ruleScreen) limit() model.Limit { return model.Limits()[s.rows.cursor] }

func (s *ruleScreen) groups() []group {
	return []group{
		{"House rules", []binding{
			act("enter e", "change the rule", func() { s.push(ruleForm(s.desk, s.limit())) }).foot("change"),
			act("r", "as it was at first", s.reset).foot("as at first"),
		}},
		{"The list", s.rows.keys()},
	}
}

// reset puts a rule back to what it was in a fresh book.
func (s *ruleScreen) reset() {
	info := model.LimitTable[s.limit()]
	if s.book.Rules()[s.limit()] == info.Default {
		s.say("%s is as it was at first", info.Name)
		return
	}
	s.enter(&model.RuleSet{Name: info.Name, Value: info.Default})
}

// draw lists the rules; the source of the one under the cursor stands below.
func (s *ruleScreen) draw(p *page, height int) {
	p.line(s.heading("House rules: yours to change", "value, first value"))
	s.rows.fit(len(model.Limits()), height-3)
	limits := model.Limits()
	for from, until := s.rows.inView(); from < until; from++ {
		p.line(s.row(limits[from]))
	}
	p.fill(height - 1)
	info := model.LimitTable[s.limit()]
	p.line(s.theme.quiet.of(show.Fit(" First value: "+info.Source, s.width)))
	p.line(s.theme.quiet.of(show.Fit(" In the shell: tubside enter rule "+info.Name+" "+s.book.Rules().Word(s.limit()), s.width)))
}

const ruleValueWidth = 11

func (s *ruleScreen) row(l model.Limit) string {
	info, rules, first := model.LimitTable[l], s.book.Rules(), model.DefaultRules()
	value := strings.TrimSpace(rules.Word(l) + " " + info.Unit)
	sign, what := "  ", show.Pad(show.Line(info.What), s.width-2-2*ruleValueWidth-4)
	if l == s.limit() {
		sign, what = s.theme.cursor.of("▸")+" ", s.theme.cursor.of(what)
	}
	shown := show.PadLeft(value, ruleValueWidth)
	if rules[l] != info.Default {
		shown = s.theme.input.of(show.PadLeft("* "+value, ruleValueWidth))
	}
	return sign + what + " " + shown + " " + s.theme.quiet.of(show.PadLeft(first.Word(l), ruleValueWidth))
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
