// Package logger reads the files of logging hygrometers: whatever their columns
// are called, it guesses which holds the time, the temperature and the humidity,
// says so for the grower to confirm, and thins the readings to one an hour.
package logger

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/store/csvfile"
)

// Options say what the grower knows of a file.
type Options struct {
	Zone           *time.Location // of times written without one
	Time, Temp, RH string         // columns by name or by number from 1; empty to guess
	Dates          model.DayOrder // of dates with the year last; empty to guess
	Unit           Unit           // of temperatures; empty to guess
}

// Unit is a unit of temperature.
type Unit string

// The units of temperature.
const (
	Celsius    Unit = "°C"
	Fahrenheit Unit = "°F"
)

// Log is a file read and understood, not yet compared with a book.
type Log struct {
	Guess
	Samples []model.ReadingAt // in the order of time
	Rows    int               // that held a time
	Skipped int               // of these, rows without a usable reading
	First   string            // what was wrong with the first of them
}

// Guess is how a file was understood.
type Guess struct {
	Columns  []string // what the file calls its columns, "column 3" where it does not
	Time     string   // the column of the time, or of the date
	Clock    string   // the column of the time of day, where it has its own
	Temp, RH string
	Unit     Unit
	Dates    model.DayOrder // empty where the year comes first
	Doubts   []string       // what the grower should look at before it is taken; none where the file is plain
}

// Read reads a whole file. What cannot be understood at all is a
// [csvfile.Faults]; a column that is not there is a [model.Problem].
func Read(r io.Reader, opt Options) (*Log, error) {
	text, err := csvfile.Text(r)
	if err != nil {
		return nil, err
	}
	sheet, err := cut(text)
	if err != nil {
		return nil, err
	}
	g, err := sheet.guess(opt)
	if err != nil {
		return nil, err
	}
	log := &Log{Guess: g.Guess}
	log.take(sheet, g)
	if len(log.Samples) == 0 {
		return nil, csvfile.WholeFile("not one row has a time, a temperature and a humidity",
			orElse(log.First, "say which columns they are in: --time, --temp, --rh"))
	}
	if 2*log.Skipped > log.Rows {
		log.doubt("%d of %d rows hold no usable reading (%s)", log.Skipped, log.Rows, log.First)
	}
	return log, nil
}

// take reads the rows by the guess.
func (log *Log) take(s *sheet, g *guess) {
	for _, rec := range s.rows {
		at, ok := g.moment(rec.Cells)
		if !ok {
			continue
		}
		log.Rows++
		temp, okTemp := number(cell(rec.Cells, g.temp))
		rh, okRH := number(cell(rec.Cells, g.rh))
		if g.Unit == Fahrenheit {
			temp = air.Celsius(temp)
		}
		switch {
		case !okTemp || !okRH:
			log.skip(rec, "no number")
		case !(temp >= leastTemp && temp <= mostTemp):
			log.skip(rec, fmt.Sprintf("%.1f °C", temp))
		case !(rh >= leastRH && rh <= mostRH):
			log.skip(rec, fmt.Sprintf("%g %% humidity", rh))
		default:
			log.Samples = append(log.Samples, model.ReadingAt{At: at, TempC: temp, RH: rh})
		}
	}
	slices.SortStableFunc(log.Samples, func(a, b model.ReadingAt) int { return a.At.Compare(b.At) })
}

// What a room's sensor can mean, in °C and %: the limits of a reading in the
// book. Outside of them it is broken, unplugged or in another unit.
const (
	leastTemp, mostTemp = -5, 50
	leastRH, mostRH     = 1, 100
)

func (log *Log) skip(rec csvfile.Record, why string) {
	if log.Skipped++; log.First == "" {
		log.First = fmt.Sprintf("line %d: %s", rec.Line, why)
	}
}

func (g *Guess) doubt(format string, args ...any) {
	g.Doubts = append(g.Doubts, fmt.Sprintf(format, args...))
}

// Hourly thins readings, which are in the order of time, to the mean of each
// hour, dated with the mean of their times.
//
// An hour is a choice. What a plant loses follows the mean of days, so
// nothing is lost by it; a door opened for a minute does not stand for more than
// it was; and a year is 8,760 readings, small enough to be read at every start.
func Hourly(samples []model.ReadingAt) []model.ReadingAt {
	var hours []model.ReadingAt
	for from := 0; from < len(samples); {
		to := from + 1
		for to < len(samples) && model.HourOf(samples[to].At) == model.HourOf(samples[from].At) {
			to++
		}
		hours = append(hours, mean(samples[from:to]))
		from = to
	}
	return hours
}

func mean(samples []model.ReadingAt) model.ReadingAt {
	var seconds int64
	var m model.ReadingAt
	for _, s := range samples {
		seconds += s.At.Unix() - samples[0].At.Unix()
		m.TempC += s.TempC
		m.RH += s.RH
	}
	n := float64(len(samples))
	m.At = samples[0].At.Add(time.Duration(seconds/int64(len(samples))) * time.Second)
	m.TempC, m.RH = m.TempC/n, m.RH/n
	return m
}

// New leaves out the hours that the book has from a logger already, so that a
// file that grows can be read in again and again.
func New(b *model.Book, hours []model.ReadingAt) []model.ReadingAt {
	known := b.LoggedHours()
	return slices.DeleteFunc(slices.Clone(hours), func(r model.ReadingAt) bool { return known[model.HourOf(r.At)] })
}

func orElse(s, other string) string {
	if strings.TrimSpace(s) == "" {
		return other
	}
	return s
}
