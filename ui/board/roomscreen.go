package board

import (
	"fmt"
	"math"
	"strings"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// roomScreen is the air of the room: now, day by day, and against other months.
type roomScreen struct {
	*desk
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
	if s.built != s.version {
		s.build()
	}
}

func (s *roomScreen) build() {
	s.built = s.version
	s.days = estimate.AirDays(s.book, s.now.AddDate(0, 0, -roomSpans[s.span]), s.now)
	s.suggested = s.suggested[:0]
	for _, sh := range s.keeper.Shelves() {
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
		act("f", "fan: off, low, on, near", s.nextFan).foot("fan"),
		act("i", "window: shut, open, extractor", s.nextWindow).foot("window"),
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
	rows := max(2, (height-len(words)-3)/3-1)
	fahrenheit := s.book.Rules().Fahrenheit()
	temp := func(d estimate.AirSpell) float64 {
		t, _ := air.Degrees(d.TempC.Mean, fahrenheit)
		return t
	}
	_, unit := air.Degrees(0, fahrenheit)
	s.chart(p, "Temperature", rows, temp, "%.0f "+unit)
	s.chart(p, "Humidity", rows, func(d estimate.AirSpell) float64 { return d.RH.Mean }, "%.0f %%")
	s.chart(p, "Deficit", rows, func(d estimate.AirSpell) float64 { return d.Deficit.Mean }, "%.2f kPa")
}

// words say how the air is now, and how it compares.
func (s *roomScreen) words() []string {
	air := s.outlook.Air
	now := fmt.Sprintf("Now %s, %s, deficit %s, %s", show.Temp(air.TempC, s.book.Rules()), show.Humidity(air.RH), show.Deficit(air.DeficitKPa), show.Fan(air.Fan))
	switch {
	case air.ReadAt.IsZero():
		now += " (assumed: no reading)"
	default:
		now += ", read " + show.Clock(air.ReadAt, s.now, s.book.Zone())
	}
	lines := []string{now}
	if c, ok := estimate.CompareAir(s.book, s.now); ok {
		lines = append(lines, show.Line(show.AirCompared(c)))
		if math.Round(7/c.Ratio) != 7 {
			lines = append(lines, show.Line(show.AirInterval(c)))
		}
	}
	lines = append(lines, s.shelfWords()...)
	var broken []string
	for _, line := range lines {
		broken = append(broken, wrap(line, s.width-2)...)
	}
	return broken
}

// shelfWords names the shelves that dry plants out faster or slower than the
// rest, and offers to set the first.
func (s *roomScreen) shelfWords() []string {
	var words []string
	for _, sh := range s.suggested {
		words = append(words, fmt.Sprintf("%s dries out %.1fx as fast as the rest", show.Safe(shelfWords(sh.Name)), sh.Factor))
	}
	if len(words) == 0 {
		return nil
	}
	return []string{"Shelf " + strings.Join(words, "; ") + " (S sets it)"}
}

// setShelf writes the first suggested climate of a shelf.
func (s *roomScreen) setShelf() {
	sh := s.suggested[0]
	s.enter(&model.ShelfSet{Name: sh.Name, Factor: math.Round(10*sh.Set*sh.Factor) / 10})
}

const roomScale = 11 // columns for the scale at the left

// chart draws the daily means of one quantity, the latest day at the right.
func (s *roomScreen) chart(p *page, name string, rows int, of func(estimate.AirSpell) float64, format string) {
	columns := s.byColumn(of, s.width-roomScale-2)
	low, high := ends(columns)
	p.line(s.heading(name, fmt.Sprintf("daily, the last %d days ", roomSpans[s.span])))
	for row := rows - 1; row >= 0; row-- {
		scale := ""
		switch row {
		case rows - 1:
			scale = fmt.Sprintf(format, high)
		case 0:
			scale = fmt.Sprintf(format, low)
		}
		p.line(s.theme.quiet.of(show.PadLeft(scale, roomScale-1)) + " " + columnRow(columns, row, rows, low, high))
	}
}

// byColumn spreads the days over columns; a column without a reading is empty.
func (s *roomScreen) byColumn(of func(estimate.AirSpell) float64, width int) []float64 {
	span := roomSpans[s.span]
	width = max(10, min(width, 3*span))
	columns, counts := make([]float64, width), make([]int, width)
	first := s.now.In(s.book.Zone()).AddDate(0, 0, -span)
	for _, d := range s.days {
		age := model.NoonOf(d.First, s.book.Zone()).Sub(first).Hours() / 24
		i := min(max(int(age/float64(span+1)*float64(width)), 0), width-1)
		columns[i] += of(d)
		counts[i]++
	}
	for i, n := range counts {
		if n == 0 {
			columns[i] = -1
			if i > 0 && span < width { // a day is wider than a column
				columns[i] = columns[i-1]
			}
			continue
		}
		columns[i] /= float64(n)
	}
	return columns
}

// ends are the lowest and the highest value drawn, with room below the lowest.
func ends(columns []float64) (low, high float64) {
	first := true
	for _, v := range columns {
		if v < 0 {
			continue
		}
		if first {
			low, high, first = v, v, false
		}
		low, high = min(low, v), max(high, v)
	}
	return low - (high-low)*0.15, high
}

// columnRow is one line of the chart, in eighths of a line.
func columnRow(columns []float64, row, rows int, low, high float64) string {
	var b strings.Builder
	for _, v := range columns {
		if v < 0 || high <= low {
			b.WriteByte(' ')
			continue
		}
		filled := (v - low) / (high - low) * float64(rows*8)
		b.WriteRune(eighths[min(max(int(filled+0.5)-8*row, 0), 8)])
	}
	return b.String()
}
