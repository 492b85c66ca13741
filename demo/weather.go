package demo

import (
	"math"
	"math/rand/v2"
	"sort"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/leaf"
)

// The invented rooms through the year: heated and dry in winter (28 to
// 40 % humidity), open and moist in summer (50 to 65 %).
const (
	winterTemp, summerTemp = 20.5, 24.5 // °C
	winterRH, summerRH     = 34.0, 57.0 // %
	lowestRH, highestRH    = 28.0, 65.0 // %
	tempSpread, rhSpread   = 0.8, 3.5   // standard deviation from day to day
	carriedOver            = 0.7        // share of a day's difference left on the next
	coldestDay             = 20         // of the year
)

// weather is the true air of the rooms, day by day.
type weather struct{ days []day }

// day is one day's mean air.
type day struct {
	start   time.Time
	tempC   float64
	rh      float64 // %
	deficit float64 // vapour pressure deficit, kPa
}

// inventWeather makes the days from first to last, both included.
func inventWeather(rng *rand.Rand, first, last date.Date, zone *time.Location) *weather {
	w := &weather{}
	var warmer, moister float64
	for d := first; d <= last; d++ {
		warmer = carriedOver*warmer + math.Sqrt(1-carriedOver*carriedOver)*tempSpread*rng.NormFloat64()
		moister = carriedOver*moister + math.Sqrt(1-carriedOver*carriedOver)*rhSpread*rng.NormFloat64()
		s := summer(d)
		w.days = append(w.days, dayOf(
			clock(d, 0, zone),
			winterTemp+(summerTemp-winterTemp)*s+warmer,
			min(max(winterRH+(summerRH-winterRH)*s+moister, lowestRH), highestRH),
		))
	}
	return w
}

func dayOf(start time.Time, tempC, rh float64) day {
	return day{start, tempC, rh, air.Air{TempC: tempC, RH: rh / 100}.Deficit() / 1000}
}

// summer is 0 through the heating season, 1 at the height of summer, and rises
// and falls between.
func summer(d date.Date) float64 {
	wave := 0.5 - 0.5*math.Cos(2*math.Pi*float64(d.YearDay()-coldestDay)/yearDays)
	x := min(max((wave-0.25)/0.5, 0), 1)
	return x * x * (3 - 2*x)
}

// clock is a time of a day in the grower's zone, in minutes after midnight. It
// goes by the wall clock also on days when the clocks change.
func clock(d date.Date, minutes int, zone *time.Location) time.Time {
	y, m, dd := d.Date()
	return time.Date(y, m, dd, 0, minutes, 0, 0, zone)
}

// index finds the day of a time; times outside get the nearest day.
func (w *weather) index(t time.Time) int {
	i := sort.Search(len(w.days), func(i int) bool { return w.days[i].start.After(t) })
	return max(i-1, 0)
}

// at is the day of a time.
func (w *weather) at(t time.Time) day { return w.days[w.index(t)] }

// dose is the drying power of the rooms on a plant truly dry since dry until to,
// in days of the reference air. It is 0 while the plant is not dry yet.
func (w *weather) dose(dry, to time.Time) float64 {
	total, from := 0.0, 0.0
	for i := w.index(dry); from < to.Sub(dry).Hours()/24; i++ {
		end := to
		if i+1 < len(w.days) && w.days[i+1].start.Before(to) {
			end = w.days[i+1].start
		}
		days := end.Sub(dry).Hours() / 24
		total += leaf.Dose(from, days, w.days[i].deficit)
		from = days
	}
	return total
}

// Errors of the invented hygrometer, as standard deviations. Invented.
const (
	tempError = 0.3 // °C
	rhError   = 1.5 // %
)

// read is what the hygrometer shows at a time.
func (w *weather) read(rng *rand.Rand, t time.Time) *model.Reading {
	d := w.at(t)
	return &model.Reading{
		TempC: math.Round(10*(d.tempC+tempError*rng.NormFloat64())) / 10,
		RH:    math.Round(d.rh + rhError*rng.NormFloat64()),
	}
}
