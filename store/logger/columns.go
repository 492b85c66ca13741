package logger

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"tubside/store/csvfile"
)

// mostly is the share of rows that must agree for a column to be taken. A guess:
// loggers leave gaps.
const mostly = 0.6

// sampled is how many rows a guess looks at.
const sampled = 2000

// gap reports whether nothing was written where a reading should be.
func gap(cell string) bool {
	s := strings.ToLower(strings.TrimSpace(cell))
	return strings.Trim(s, "-.*?") == "" || s == "nan" || s == "na" || s == "n/a" || s == "null"
}

// share is the share of the cells in a column, gaps left out, that are as asked.
func (s *sheet) share(column int, is func(string) bool) float64 {
	n, all := 0, 0
	for _, rec := range s.rows[:min(len(s.rows), sampled)] {
		c := cell(rec.Cells, column)
		if gap(c) {
			continue
		}
		if all++; is(c) {
			n++
		}
	}
	return float64(n) / float64(max(all, 1))
}

// most is the first column in which most cells are as asked.
func (s *sheet) most(is func(string) bool) int {
	best, share := 0, 0.0
	for i := range s.names {
		if here := s.share(i, is); here > share {
			best, share = i, here
		}
	}
	return best
}

// quantity is what a column may hold, and how to know it.
type quantity struct {
	what  string
	words []string // in headings, in English, German, French, Spanish, Italian, Dutch and Swedish
	short string   // a heading of these letters alone
	signs string   // in cells
}

var (
	temperature = quantity{"temperature", []string{"temp", "°c", "ºc", "°f", "ºf", "celsius", "fahrenheit"}, "t", "°º"}
	humidity    = quantity{"humidity", []string{"hum", "umid", "feucht", "vocht", "fukt", "hygro", "r.h"}, "rh", "%"}
)

// Words that speak against a column: it holds something derived or about the
// device. A column of the room beats one of the garden, a mean beats an extreme,
// the first probe the others.
var (
	notWords = []string{"dew", "tau", "rosee", "rocio", "rugiada", "dauw", "wet", "feels", "index", "humidex", "vpd",
		"absol", "g/m", "battery", "akku", "signal", "rssi", "co2", "press", "alarm"}
	lessWords = []string{"out", "aussen", "exter", "dehors", "buiten", "min", "max", "low", "high", "2", "3", "4"}
)

// plainName is a heading in small letters, without the accents of our words.
func plainName(name string) string {
	plain := strings.NewReplacer("é", "e", "è", "e", "í", "i", "ß", "ss", "ä", "a", "ö", "o", "ü", "u")
	return plain.Replace(strings.ToLower(name))
}

func has(name string, words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(name, w) })
}

// score says how well a heading fits a quantity: 0 not at all, 2 best.
func (q quantity) score(heading string) int {
	name := plainName(heading)
	switch {
	case has(name, notWords) || !has(name, q.words) && !slices.Contains(lettersOf(name), q.short):
		return 0
	case has(name, lessWords):
		return 1
	}
	return 2
}

// lettersOf is the runs of letters in a heading.
func lettersOf(name string) []string {
	return strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) })
}

// findAir takes the columns of temperature and humidity: those the grower named,
// else those whose heading or cells say so, else what is left of numbers.
func (g *guess) findAir(s *sheet, opt Options) (err error) {
	if g.temp, err = g.column(s, temperature, opt.Temp); err != nil {
		return err
	}
	if g.rh, err = g.column(s, humidity, opt.RH); err != nil {
		return err
	}
	g.byValues(s)
	switch {
	case g.temp >= 0 && g.temp == g.rh:
		return csvfile.WholeFile(fmt.Sprintf("%s could be the temperature or the humidity",
			csvfile.Quote(s.names[g.temp])), "say which columns are which: --temp COLUMN --rh COLUMN")
	case g.temp < 0:
		return csvfile.WholeFile("no column of temperatures", "name it: --temp COLUMN")
	case g.rh < 0:
		return csvfile.WholeFile("no column of humidities", "name it: --rh COLUMN")
	}
	return nil
}

// column is the column named, or that of numbers whose heading fits best or
// whose cells carry the sign; -1 for none. Columns that fit as well are told.
func (g *guess) column(s *sheet, q quantity, named string) (int, error) {
	if named != "" {
		return s.find(named)
	}
	best, top := -1, 0
	var equals []string
	for i, name := range s.names {
		if i == g.time || i == g.clock || !s.numbers(i) {
			continue
		}
		points := q.score(name)
		if unsaid(name) && s.signed(i, q.signs) {
			points = 2
		}
		switch {
		case points > top:
			best, top, equals = i, points, []string{name}
		case points == top && top > 0:
			equals = append(equals, name)
		}
	}
	if len(equals) > 1 {
		g.doubt("several columns of %s: %s; the first is taken", q.what, strings.Join(equals, ", "))
	}
	return best, nil
}

// unsaid reports whether a heading says nothing of what is in the column.
func unsaid(name string) bool {
	return temperature.score(name) == 0 && humidity.score(name) == 0 && !has(plainName(name), notWords)
}

// signed reports whether most cells of a column carry one of the signs.
func (s *sheet) signed(column int, signs string) bool {
	return s.share(column, func(c string) bool { return strings.ContainsAny(c, signs) }) > mostly
}

// byValues fills what headings did not say from the columns of numbers left
// over, temperature first as loggers write it.
func (g *guess) byValues(s *sheet) {
	if g.temp >= 0 && g.rh >= 0 {
		return
	}
	for i, name := range s.names {
		taken := i == g.time || i == g.clock || i == g.temp || i == g.rh
		if taken || !s.numbers(i) || s.counts(i) || has(plainName(name), notWords) {
			continue
		}
		switch low, high := s.span(i); {
		case g.temp < 0 && low >= leastTemp && high <= 130:
			g.temp = i
			g.doubt("the temperature is guessed to be in %s", name)
		case g.rh < 0 && low >= 0 && high <= mostRH:
			g.rh = i
			g.doubt("the humidity is guessed to be in %s", name)
		}
	}
}

// numbers reports whether a column holds numbers.
func (s *sheet) numbers(column int) bool {
	return s.share(column, func(c string) bool { _, ok := number(c); return ok }) > mostly
}

// counts reports whether a column numbers the rows.
func (s *sheet) counts(column int) bool {
	var last float64
	for i, rec := range s.rows[:min(len(s.rows), sampled)] {
		v, ok := number(cell(rec.Cells, column))
		if !ok || i > 0 && v != last+1 {
			return false
		}
		last = v
	}
	return len(s.rows) > 1
}

// span is the middle nine tenths of a column's values.
func (s *sheet) span(column int) (low, high float64) {
	values := s.values(column)
	return values[len(values)/20], values[len(values)-1-len(values)/20]
}

func (s *sheet) values(column int) []float64 {
	var values []float64
	for _, rec := range s.rows[:min(len(s.rows), sampled)] {
		if v, ok := number(cell(rec.Cells, column)); ok {
			values = append(values, v)
		}
	}
	slices.Sort(values)
	return values
}

// warmest is the median over which temperatures cannot be °C: a room of 45 °C is
// none.
const warmest = 45

// findUnit tells °C from °F: as said, else by heading, else by the cells, else
// by what a room can be.
func (g *guess) findUnit(s *sheet, said Unit) {
	name := plainName(s.names[g.temp])
	letters := lettersOf(name)
	inF := s.share(g.temp, func(c string) bool { return strings.HasSuffix(strings.ToUpper(strings.TrimSpace(c)), "F") }) > mostly
	low, high := s.span(g.temp)
	switch {
	case said != "":
		g.Unit = said
	case slices.Contains(letters, "f") || slices.Contains(letters, "fahrenheit") || inF:
		g.Unit = Fahrenheit
	case slices.Contains(letters, "c") || slices.Contains(letters, "celsius"):
		g.Unit = Celsius
	case (low+high)/2 > warmest:
		g.Unit = Fahrenheit
		g.doubt("temperatures of %g to %g are taken as °F", low, high)
	default:
		g.Unit = Celsius
	}
}
