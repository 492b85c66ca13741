package board

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
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
	{"What do you soak in?", "Each with the water it holds when plants are in it, in litres, or in US gallons with gal: tub 100, bucket 10. " +
		"Take out what you do not use.",
		vesselsAsText, takeVessels},
	{"Which days do you soak, and for how many hours?", "Sat 5, Sun 5 is five hours on each. On the days you leave out nothing is soaked.", daysAsText,
		takeDays},
	{"The room they dry in: how big, and what is open?", "Its floor in m² or ft², or its air in m³ or ft³; then shut, door, open, or extractor for a fan that blows " +
		"out of the house: 16 m², shut.",
		roomAsText, takeRoom},
	{"Is there a fan where they dry?", "off, low, on, or near for one that blows right at them. Keep fans away from the water: a shock can kill.",
		func(d *desk) string { return string(d.book.Fan(d.now)) },
		func(d *desk, text string) ([]model.Fact, error) {
			fan, err := model.ParseFan(text)
			if err != nil || fan == d.book.Fan(d.now) {
				return nil, err
			}
			return []model.Fact{&model.FanSet{Fan: fan}}, nil
		}},
	{"Which units?",
		"c or f for degrees Celsius or Fahrenheit, L or gal for water in litres or US gallons. " +
			"A number with its unit is always understood.",
		unitsAsText, takeUnits},
	{"Where is the list of your plants?", "A spreadsheet saved as CSV, its first line naming the columns. You see what comes in before anything is " +
		"written. No list? Leave this empty and add plants with +.",
		func(*desk) string { return newestList() },
		func(*desk, string) ([]model.Fact, error) { return nil, nil }},
}

func unitsAsText(d *desk) string {
	rules := d.book.Rules()
	return rules.Word(model.TempUnit) + ", " + rules.Word(model.VolumeUnit)
}

// takeUnits reads "f, gal", in any order; what is left out stays.
func takeUnits(d *desk, text string) ([]model.Fact, error) {
	var facts []model.Fact
	for word := range strings.FieldsSeq(strings.ReplaceAll(text, ",", " ")) {
		limit := model.TempUnit
		if _, err := model.ParseLimit(model.VolumeUnit, word); err == nil {
			limit = model.VolumeUnit
		}
		some, err := ruleFacts(d, limit, word)
		if err != nil {
			return nil, &model.Problem{What: fmt.Sprintf("%q is not a unit", word), Do: "write c or f, and L or gal"}
		}
		facts = append(facts, some...)
	}
	return facts, nil
}

// ruleFacts set a rule, unless it has the value already.
func ruleFacts(d *desk, l model.Limit, text string) ([]model.Fact, error) {
	v, err := model.ParseLimit(l, text)
	if err != nil || v == d.book.Rules()[l] {
		return nil, err
	}
	return []model.Fact{&model.RuleSet{Name: model.LimitTable[l].Name, Value: v}}, nil
}

func vesselsAsText(d *desk) string {
	var words []string
	for _, v := range d.book.Vessels() {
		words = append(words, v.Name+" "+show.Volume(v.Litres, d.book.Rules()))
	}
	return strings.Join(words, ", ")
}

var vesselText = regexp.MustCompile(`^(.+?)\s+([0-9]+(?:[.][0-9]+)?\s*[a-zA-Z]*)$`)

// takeVessels reads "tub 100, bucket 10".
func takeVessels(d *desk, text string) ([]model.Fact, error) {
	var facts []model.Fact
	named := map[string]bool{}
	for _, part := range strings.Split(text, ",") {
		m := vesselText.FindStringSubmatch(strings.TrimSpace(part))
		if m == nil {
			return nil, &model.Problem{
				What: fmt.Sprintf("%q is not a name and an amount of water", strings.TrimSpace(part)),
				Do:   "write tub 100, bucket 10",
			}
		}
		litres, err := show.ParseVolume(m[2], d.book.Rules().Gallons())
		if err != nil {
			return nil, err
		}
		set, known := d.book.Vessel(m[1]) // what else is known of it stays
		rules := d.book.Rules()
		same := show.Volume(set.Litres, rules) == show.Volume(litres, rules) // what is shown is rounded
		if named[strings.ToLower(m[1])] = true; known && same {
			continue
		}
		set.Name, set.Litres = m[1], litres
		facts = append(facts, &model.VesselSet{Vessel: set})
	}
	for _, v := range d.book.Vessels() {
		if !named[strings.ToLower(v.Name)] {
			facts = append(facts, &model.VesselSet{Vessel: model.Vessel{Name: v.Name}, Away: true})
		}
	}
	return facts, nil
}

// soakDays are the hours for soaking by day of the week.
var soakDays = []struct {
	name  string
	limit model.Limit
}{
	{"Mon", model.SoakMon}, {"Tue", model.SoakTue}, {"Wed", model.SoakWed}, {"Thu", model.SoakThu},
	{"Fri", model.SoakFri}, {"Sat", model.SoakSat}, {"Sun", model.SoakSun},
}

func daysAsText(d *desk) string {
	var words []string
	for _, day := range soakDays {
		if hours := d.book.Rules()[day.limit]; hours > 0 {
			words = append(words, fmt.Sprintf("%s %g", day.name, hours))
		}
	}
	return strings.Join(words, ", ")
}

var dayText = regexp.MustCompile(`(?i)^(mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?\s*([0-9]+(?:[.][0-9]+)?)\s*h?$`)

// takeDays reads "Sat 5, Sun 5".
func takeDays(d *desk, text string) ([]model.Fact, error) {
	hours := map[string]string{}
	for _, part := range strings.Split(text, ",") {
		m := dayText.FindStringSubmatch(strings.TrimSpace(part))
		if m == nil {
			return nil, &model.Problem{
				What: fmt.Sprintf("%q is not a day and its hours", strings.TrimSpace(part)),
				Do:   "write Sat 5, Sun 5",
			}
		}
		hours[strings.ToLower(m[1])] = m[2]
	}
	var facts []model.Fact
	for _, day := range soakDays {
		said := hours[strings.ToLower(day.name)]
		if said == "" {
			said = "0"
		}
		some, err := ruleFacts(d, day.limit, said)
		if err != nil {
			return nil, err
		}
		facts = append(facts, some...)
	}
	return facts, nil
}

// ceiling is how high a room is taken to be whose floor alone is said, m: a guess.
const ceiling = 2.5

// cubicMetres are the units a room may be given in; a foot is 0.3048 m.
var cubicMetres = map[string]float64{"m3": 1, "m2": ceiling, "ft3": 0.3048 * 0.3048 * 0.3048,
	"ft2": 0.3048 * 0.3048 * ceiling, "": 1}

var roomText = regexp.MustCompile(`(?i)^([0-9]+(?:[.][0-9]+)?)\s*(?:(?:sq\.?|square)?\s*(m|ft)\s*(2|3)?)?\s*,?\s*([a-z]*)$`)

func roomAsText(d *desk) string {
	return fmt.Sprintf("%g m³, %s", d.book.Rules()[model.RoomVolume], d.book.Window(d.now).Window)
}

// takeRoom reads "16 m², shut".
func takeRoom(d *desk, text string) ([]model.Fact, error) {
	m := roomText.FindStringSubmatch(strings.NewReplacer("²", "2", "³", "3").Replace(text))
	if m == nil {
		return nil, &model.Problem{What: fmt.Sprintf("%q is not a room", text), Do: "write 16 m², shut"}
	}
	size, _ := strconv.ParseFloat(m[1], 64)
	facts, err := ruleFacts(d, model.RoomVolume, fmt.Sprintf("%.4g", size*cubicMetres[strings.ToLower(m[2])+m[3]]))
	if err != nil || m[4] == "" {
		return facts, err
	}
	window, err := model.ParseWindow(m[4])
	if err == nil && window != d.book.Window(d.now).Window {
		facts = append(facts, &model.WindowSet{Window: window})
	}
	return facts, err
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
