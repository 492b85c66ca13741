package board

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// ruleScreen is the house rules: every limit the grower may change, what it is
// now, what it was at first, and where that came from.
type ruleScreen struct {
	*desk
	cursor, top, shown int
}

func newRules(d *desk) *ruleScreen { return &ruleScreen{desk: d} }

func (s *ruleScreen) name() string          { return "Rules" }
func (s *ruleScreen) letter() string        { return "h" }
func (s *ruleScreen) badge() string         { return "" }
func (s *ruleScreen) list() *list           { return nil }
func (s *ruleScreen) open()                 {}
func (s *ruleScreen) sync()                 {}
func (s *ruleScreen) typed(tea.KeyMsg) bool { return false }
func (s *ruleScreen) hints() string         { return "enter change   r as at first   u strike" }

// limit is the rule under the cursor.
func (s *ruleScreen) limit() model.Limit { return model.Limit(s.cursor) }

func (s *ruleScreen) groups() []group {
	step := func(n int) func() { return func() { s.cursor = min(max(s.cursor+n, 0), len(model.LimitTable)-1) } }
	return []group{
		{"House rules", []binding{
			act([]string{"enter", "e"}, "enter", "change the rule", func() { s.push(ruleForm(s.desk, s.limit())) }),
			act([]string{"r"}, "r", "as it was at first", s.reset),
			act([]string{"j", "down"}, "j ↓", "down", step(1)),
			act([]string{"k", "up"}, "k ↑", "up", step(-1)),
			act([]string{"pgdown", "ctrl+d"}, "pgdn", "a screen down", func() { step(max(1, s.shown-1))() }),
			act([]string{"pgup", "ctrl+u"}, "pgup", "a screen up", func() { step(-max(1, s.shown-1))() }),
			act([]string{"g", "home"}, "g", "first", step(-len(model.LimitTable))),
			act([]string{"G", "end"}, "G", "last", step(len(model.LimitTable))),
		}},
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
	s.shown = height - 3
	s.top = min(max(s.top, s.cursor-s.shown+1), s.cursor)
	for i := s.top; i < len(model.LimitTable) && i < s.top+s.shown; i++ {
		p.line(s.row(model.Limit(i)))
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
	hint := fmt.Sprintf("from %g to %g %s", info.Min, info.Max, info.Unit)
	if info.Choices != nil {
		hint = strings.Join(info.Choices, ", ")
	}
	return newForm(d, show.Line(info.What), func(f *form) error {
		v, err := model.ParseLimit(l, f.text(0))
		if err != nil {
			return wrong(0, err)
		}
		d.enter(&model.RuleSet{Name: info.Name, Value: v})
		return nil
	}, newField(info.Name, d.book.Rules().Word(l), hint))
}
