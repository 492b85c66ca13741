package demo

import (
	"math"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// What this home has, and what was told of it. Invented.
const (
	rackRoom, towelRoom = 6.0, 4.0 // m²
	toldOverRadiator    = 1.2      // how much faster plants dry on Warm, as it was told: only in part
	openDays            = 0.22     // of summer days, a window is open
	openFrom, openUntil = 9.0, 20.0
	loggedAgo           = 240 // days: a week with a logger
	loggedDays          = 7
)

// furnish tells of the house on the day the list comes in.
func (p *past) furnish(at time.Time) {
	feedPail := model.Vessel{Name: pail, Litres: pailLitres, Fed: true}
	p.say(at, &model.VesselSet{Vessel: feedPail})
	p.say(at.Add(time.Minute), &model.BenchSet{Bench: model.Bench{Name: "rack", Room: rackRoom}})
	p.say(at.Add(2*time.Minute), &model.BenchSet{Bench: model.Bench{Name: "towels", Room: towelRoom}})
	p.say(at.Add(3*time.Minute), &model.FanSet{Fan: p.fan})
	p.say(at.Add(3*time.Minute), &model.WindowSet{Window: model.DoorOpen})
	p.say(at.Add(4*time.Minute), &model.RuleSet{Name: model.LimitTable[model.TapTreated].Name, Value: 1}) // chlorine
	p.say(at.Add(5*time.Minute), &model.Sample{
		Of: model.Tap, EC: tapEC, TDS: 240, Hardness: 120, Sodium: 14, Chloride: 22, Boron: 0.04,
	})
	p.say(at.Add(6*time.Minute), &model.Bottle{Of: model.Rain})
}

// tellsWarm says that the wall over the radiator is dry, though not how dry; of
// the sunny sill nobody has said anything yet.
func (p *past) tellsWarm(at time.Time) {
	p.say(at, &model.ShelfSet{Name: "Warm", Factor: toldOverRadiator})
}

// tellsWeek says which shelf has its day when.
func (p *past) tellsWeek(at time.Time) {
	days := map[string]model.Weekday{}
	for _, s := range shelves {
		days[s.name] = "sun"
		if soakedFirst(s.name) {
			days[s.name] = "sat"
		}
	}
	p.say(at, &model.ShelfDays{Days: days})
}

// airs opens a window on some days of summer, and shuts it for the night.
func (p *past) airs(d date.Date) {
	if p.open = summer(d) > 0.7 && !p.away(d) && p.happens(openDays); !p.open {
		return
	}
	p.say(p.clock(d, openFrom-0.75).Add(p.minutes(0, 40)), &model.WindowSet{Window: model.WindowOpen})
	p.say(p.clock(d, openUntil).Add(p.minutes(0, 60)), &model.WindowSet{Window: model.DoorOpen})
}

// Swing of the logged air through a day, from its mean. Invented.
const tempSwing, rhSwing = 0.9, 3.0 // °C, %

// logged brings in a week that a logger wrote down hour by hour.
func (p *past) logged(d date.Date) {
	if d != p.today-loggedAgo+loggedDays {
		return
	}
	var log []model.ReadingAt
	for day := d - loggedDays; day < d; day++ {
		for hour := range 24 {
			at := p.clock(day, float64(hour))
			if n := len(log); n > 0 && !at.After(log[n-1].At) {
				continue // the clocks went forward
			}
			r := p.weather.read(p.rng, at)
			noon := math.Cos(2 * math.Pi * float64(hour-15) / 24)
			log = append(log, model.ReadingAt{At: at, TempC: r.TempC + tempSwing*noon, RH: r.RH - rhSwing*noon})
		}
	}
	p.say(p.clock(d, 19).Add(p.minutes(0, 60)), model.NewReadings("shelf-logger.csv", log))
}

func (p *past) loggedOn(d date.Date) bool {
	first := p.today - loggedAgo
	return first <= d && d < first+loggedDays
}
