package board

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// question is one of those that a new book asks.
type question struct {
	ask, hint string
	first     func(*desk) string // what stands there already
	take      func(*desk, string) ([]model.Fact, error)
	said      func(*desk, string) string // what was taken; nil where the entry says it
}

// firstMinute asks what a new book has to know, one question at a time. Enter
// takes what stands there, and Esc passes over a question: what is not said keeps
// its first value, and can be changed on the Rules and Soak screens.
type firstMinute struct {
	desk      *desk
	questions []question
	at        int
	input     textinput.Model
	problem   string
	fresh     bool // what stands there has not been touched: a key replaces it
}

func newFirstMinute(d *desk) *firstMinute {
	m := &firstMinute{desk: d, questions: firstQuestions, input: textinput.New()}
	m.input.Prompt, m.input.CharLimit = "", model.MaxText
	m.input.Focus()
	m.put()
	return m
}

// put shows the question at hand.
func (m *firstMinute) put() {
	m.input.SetValue(m.questions[m.at].first(m.desk))
	m.input.CursorEnd()
	m.problem, m.fresh = "", true
}

func (m *firstMinute) lead() string { return "" }

func (m *firstMinute) groups() []group {
	return []group{{"A new book", []binding{
		act("enter", "take what stands there", m.answer).foot("next"),
		act("esc", "skip the question", func() { m.onward(1) }).foot("skip"),
		act("shift+tab ↑", "the question before", func() { m.onward(-1) }).foot("back"),
		act("ctrl+x", "skip all questions", func() { m.desk.drop(m) }).foot("skip all"),
		anyOther("type", m.typed),
	}}}
}

func (m *firstMinute) typed(msg tea.KeyMsg) tea.Cmd {
	if m.fresh && msg.Type == tea.KeyRunes {
		m.input.SetValue("")
	}
	m.fresh, m.problem = false, ""
	m.input, _ = m.input.Update(msg)
	return nil
}

// onward goes to another question; after the last the board is there.
func (m *firstMinute) onward(n int) {
	if m.at += n; m.at >= len(m.questions) {
		m.desk.drop(m)
		return
	}
	m.at = max(m.at, 0)
	m.put()
}

// answer writes what was said. The last question is where the list is: it goes on
// to the list itself.
func (m *firstMinute) answer() {
	text := strings.TrimSpace(m.input.Value())
	facts, err := m.questions[m.at].take(m.desk, text)
	for _, fact := range facts {
		if err == nil {
			err = m.desk.write(fact)
		}
	}
	if err != nil {
		m.problem = err.Error()
		return
	}
	switch said := m.questions[m.at].said; {
	case len(facts) == 0:
		m.desk.say("") // what the question before wrote is no longer news
	case said != nil:
		m.desk.say("%s", said(m.desk, text))
	}
	if m.at == len(m.questions)-1 && text != "" {
		list, err := newTakeList(m.desk, text)
		if err != nil {
			m.problem = err.Error()
			return
		}
		m.desk.drop(m)
		m.desk.push(list)
		return
	}
	m.onward(1)
}

func (m *firstMinute) draw(p *page, height int) {
	q := m.questions[m.at]
	p.line("")
	p.line(m.desk.heading(q.ask, fmt.Sprintf("%d of %d ", m.at+1, len(m.questions))))
	p.line("")
	value := show.Safe(m.input.Value())
	p.line("   " + m.desk.theme.input.of(show.Fit(value, m.desk.width-6)+"▏"))
	p.line("")
	for _, line := range wrap(q.hint, m.desk.width-6) {
		p.line(m.desk.theme.quiet.of("   " + line))
	}
	if m.problem != "" {
		p.line("")
		for _, line := range wrap(show.Line(m.problem), m.desk.width-6) {
			p.line(m.desk.theme.alarm.of("   " + line))
		}
	}
	if m.at == 0 {
		p.line("")
		for _, line := range wrap(welcome, m.desk.width-6) {
			p.line(m.desk.theme.quiet.of("   " + line))
		}
	}
}

// welcome stands under the first question.
const welcome = "Six questions, each with an answer already filled in: Enter takes it, and everything can be changed " +
	"later. Small children and standing water do not mix: never leave them alone with it, and empty buckets after use."

var firstQuestions = []question{
	{"What do you soak in?", "Each with the water it holds when plants are in it, in litres, or in US gallons with gal: tub 100, 2 buckets 10. " +
		"Take out what you do not use.",
		vesselsAsText, takeVessels,
		func(d *desk, _ string) string { return "You soak in " + vesselsAsText(d) }},
	{"Which days do you soak, and for how many hours?", "Sat 5, Sun 5 is five hours on each; Sat alone is the usual hours. On the days you leave " +
		"out nothing is soaked.",
		daysAsText, takeDays,
		func(d *desk, _ string) string {
			return "You soak on " + strings.ReplaceAll(daysAsText(d), ",", " h,") + " h"
		}},
	{"The room they dry in: how big, and what is open?", "Its sides, 4x5 m, or its floor in m² or ft², or its air in m³ or ft³; then shut, door, open, or extractor for a fan that blows " +
		"out of the house: 16 m², shut.",
		roomAsText, takeRoom, roomSays},
	{"Is there a fan where they dry?", "off, low, on, or near for one that blows right at them. Keep fans away from the water: a shock can kill.",
		func(d *desk) string { return string(d.book.Fan(d.now)) },
		func(d *desk, text string) ([]model.Fact, error) {
			fan, err := model.ParseFan(text)
			if err != nil || fan == d.book.Fan(d.now) {
				return nil, err
			}
			return []model.Fact{&model.FanSet{Fan: fan}}, nil
		}, nil},
	{"Which units?",
		"c or f for degrees Celsius or Fahrenheit, L or gal for water in litres or US gallons. " +
			"A number with its unit is always understood.",
		unitsAsText, takeUnits,
		func(d *desk, _ string) string { return "Units: " + unitsAsText(d) }},
	{"Where is the list of your plants?", "A spreadsheet saved as CSV, its first line naming the columns. You see what comes in before anything is " +
		"written. No list? Leave this empty and add plants with +.",
		func(*desk) string { return newestList() },
		func(*desk, string) ([]model.Fact, error) { return nil, nil }, nil},
}

// newestList is the CSV file written last where people keep such files, "" when
// there is none.
func newestList() string {
	home, _ := os.UserHomeDir()
	var newest string
	var at time.Time
	for _, folder := range []string{".", home, filepath.Join(home, "Downloads"), filepath.Join(home, "Documents"),
		filepath.Join(home, "Desktop")} {
		files, _ := filepath.Glob(filepath.Join(folder, "*.csv"))
		for _, file := range files {
			if info, err := os.Stat(file); err == nil && info.Mode().IsRegular() && info.ModTime().After(at) {
				newest, at = file, info.ModTime()
			}
		}
	}
	return newest
}
