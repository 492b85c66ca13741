package board

import (
	"fmt"
	"math"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// roomScreen is the air of the room: now, day by day, and against other months.
type roomScreen struct {
	desk  *desk
	span  int // index in roomSpans
	days  []estimate.AirSpell
	built int

	suggested []estimate.Shelf // shelves whose climate is worth setting
}

// roomSpans are how many days the charts show.
var roomSpans = []int{30, 90, 365}

func newRoom(d *desk) *roomScreen { return &roomScreen{desk: d, built: -1} }

func (s *roomScreen) name() string   { return "Room" }
func (s *roomScreen) letter() string { return "a" }
func (s *roomScreen) badge() string  { return "" }
func (s *roomScreen) list() *list    { return nil }
func (s *roomScreen) lead() string   { return "" }

func (s *roomScreen) open() { s.build() }

func (s *roomScreen) sync() {
	if s.built != s.desk.version {
		s.build()
	}
}

func (s *roomScreen) build() {
	s.built = s.desk.version
	s.days = estimate.AirDays(s.desk.book, s.desk.now.AddDate(0, 0, -roomSpans[s.span]), s.desk.now)
	s.suggested = s.suggested[:0]
	for _, sh := range s.desk.keeper.Shelves() {
		if sh.Suggest {
			s.suggested = append(s.suggested, sh)
		}
	}
}

func (s *roomScreen) groups() []group {
	step := func(n int) func() {
		return func() { s.span = (s.span + n + len(roomSpans)) % len(roomSpans); s.build() }
	}
	return []group{{"The room", []binding{
		act(".", "a longer time", step(1)).foot("longer"),
		act(",", "a shorter time", step(-1)).foot("shorter"),
		act("f", "fan: off, low, on, near", s.desk.nextFan).foot("fan"),
		act("i", "window: shut, door, open, extractor", s.desk.nextWindow).foot("window"),
		remark("from a logger: tubside room import"),
		act("S", "set the climate suggested for a shelf", s.setShelf).unless(func() string {
			if len(s.suggested) == 0 {
				return "No shelf stands out yet"
			}
			return ""
		}),
	}}}
}

// nextFan turns the fan's setting on by one.
func (d *desk) nextFan() {
	for i, f := range model.Fans {
		if f == d.outlook.Air.Fan {
			d.enter(&model.FanSet{Fan: model.Fans[(i+1)%len(model.Fans)]})
			return
		}
	}
}

func (s *roomScreen) draw(p *page, height int) {
	words := s.words()
	for _, line := range words {
		p.line(" " + line)
	}
	if len(s.days) == 0 {
		p.line("")
		p.line("   No readings yet. a enters one;")
		p.line("   a logger's file comes in with tubside room import FILE")
		return
	}
	rows := max(2, (height-len(words)-6)/3)
	rules := s.desk.book.Rules()
	temp := func(d estimate.AirSpell) (t estimate.Span) {
		t.Mean, _ = air.Degrees(d.TempC.Mean, rules.Fahrenheit())
		t.Min, _ = air.Degrees(d.TempC.Min, rules.Fahrenheit())
		t.Max, _ = air.Degrees(d.TempC.Max, rules.Fahrenheit())
		return t
	}
	_, unit := air.Degrees(0, rules.Fahrenheit())
	now := s.desk.outlook.Air
	for _, q := range []quantity{
		{"Temperature", show.Temp(now.TempC, rules), "%.0f " + unit, 1, temp, nil},
		{"Humidity", show.Humidity(now.RH), "%.0f %%", 5, func(d estimate.AirSpell) estimate.Span { return d.RH }, nil},
		{"How dry the air is", show.AirZone(now.DeficitKPa), "", 0.2,
			func(d estimate.AirSpell) estimate.Span { return d.Deficit }, show.AirZone},
	} {
		s.chart(p, q, rows)
	}
}

// words say how the air is now, and how it compares.
func (s *roomScreen) words() []string {
	air := s.desk.outlook.Air
	now := fmt.Sprintf("Now %s, %s, %s air, %s", show.Temp(air.TempC, s.desk.book.Rules()), show.Humidity(air.RH),
		show.AirZone(air.DeficitKPa), show.Fan(air.Fan))
	switch {
	case air.ReadAt.IsZero():
		now += " (assumed: no reading)"
	default:
		now += ", read " + show.Clock(air.ReadAt, s.desk.now, s.desk.book.Zone())
	}
	lines := []string{now}
	if c, ok := estimate.CompareAir(s.desk.book, s.desk.now); ok {
		lines = append(lines, show.Line(show.AirCompared(c)))
		if math.Round(7/c.Ratio) != 7 {
			lines = append(lines, show.Line(show.AirInterval(c)))
		}
	}
	lines = append(lines, s.shelfWords()...)
	var broken []string
	for _, line := range lines {
		broken = append(broken, wrap(line, s.desk.width-2)...)
	}
	return broken
}

// shelfWords names the shelves that dry plants out faster or slower than the
// rest, and offers to set the first.
func (s *roomScreen) shelfWords() []string {
	var words []string
	for _, sh := range s.suggested {
		words = append(words, fmt.Sprintf("%s dries out %.1fx as fast as the rest", show.Safe(shelfWords(sh.Name)),
			sh.Factor))
	}
	if len(words) == 0 {
		return nil
	}
	return []string{"Shelf " + strings.Join(words, "; ") + " (S sets it)"}
}

// setShelf writes the first suggested climate of a shelf.
func (s *roomScreen) setShelf() {
	sh := s.suggested[0]
	s.desk.enter(&model.ShelfSet{Name: sh.Name, Factor: math.Round(10*sh.Set*sh.Factor) / 10})
}

const roomScale = 11 // columns for the scale at the left

// chart draws one quantity: a line through the means of the days, dots at the
// least and the most of each.
func (s *roomScreen) chart(p *page, q quantity, rows int) {
	width := s.desk.width - roomScale - 2
	until := s.desk.now
	from := until.AddDate(0, 0, -roomSpans[s.span])
	mean, least, most := s.byDay(q.of, 2*width, from, until)
	low, high := q.ends(least, most)
	chart := show.NewChart(width, rows, low, high)
	chart.Edge(least)
	chart.Edge(most)
	chart.Curve(mean)
	p.line(s.desk.heading(q.name, fmt.Sprintf("%s now, the last %d days ", q.now, roomSpans[s.span])))
	last := ""
	for row := range rows {
		v := high - (high-low)*float64(row)/float64(max(rows-1, 1))
		scale := ""
		if q.zone != nil {
			if zone := q.zone(v); zone != last {
				scale, last = zone, zone
			}
		} else if row == 0 || row == rows-1 {
			scale = fmt.Sprintf(q.format, v)
		}
		p.line(s.desk.theme.quiet.of(show.PadLeft(scale, roomScale-1)) + " " +
			chart.Row(row, s.desk.theme.accent.of, s.desk.theme.quiet.of))
	}
	p.line(strings.Repeat(" ", roomScale) + s.desk.theme.quiet.of(show.DateAxis(from, until, width, s.desk.book.Zone())))
}

// quantity is what a chart of the room shows.
type quantity struct {
	name, now string // what it is, and what it is now
	format    string // of the numbers at the scale
	step      float64
	of        func(estimate.AirSpell) estimate.Span
	zone      func(float64) string // plain words in place of numbers
}

// ends are the lowest and the highest value drawn, at whole steps.
func (q quantity) ends(least, most []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range least {
		if !math.IsNaN(least[i]) {
			low, high = min(low, least[i]), max(high, most[i])
		}
	}
	low, high = math.Floor(low/q.step)*q.step, math.Ceil(high/q.step)*q.step
	return low, max(high, low+q.step)
}

// mostGap is how many days without a reading a line still bridges.
const mostGap = 3

// byDay spreads the days over so many points, each mean at its noon and a straight
// line between; a longer gap has no numbers. The least and the most stand for the
// whole of their day.
func (s *roomScreen) byDay(of func(estimate.AirSpell) estimate.Span, n int, from, until time.Time) (mean, least, most []float64) {
	mean, least, most = make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range n {
		mean[i], least[i], most[i] = math.NaN(), math.NaN(), math.NaN()
	}
	perDay := float64(n) / (until.Sub(from).Hours() / 24)
	last, lastMean := 0, math.NaN()
	for _, d := range s.days {
		v, x := of(d), int(model.NoonOf(d.First, s.desk.book.Zone()).Sub(from).Hours()/24*perDay)
		x = min(max(x, 0), n-1)
		half := int(perDay / 2) // a day is wider than a dot
		for i := max(x-half, 0); i <= min(x+half, n-1); i++ {
			least[i], most[i] = v.Min, v.Max
		}
		mean[x] = v.Mean
		if gap := x - last; !math.IsNaN(lastMean) && float64(gap) <= mostGap*perDay {
			for i := 1; i < gap; i++ {
				mean[last+i] = lastMean + (v.Mean-lastMean)*float64(i)/float64(gap)
			}
		}
		last, lastMean = x, v.Mean
	}
	return mean, least, most
}
