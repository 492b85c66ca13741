package care

import (
	"slices"
	"sort"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/leaf"
)

// climate is the room's past as spans of constant air: each reading stands for
// the time nearer to it than to any other, up to the house rule's days; the
// rest is the default.
type climate struct {
	readings []model.ReadingAt
	spans    []span        // one a reading, in order
	reach    time.Duration // how far a reading stands
	fallback span          // the default air, at any time
	doses    map[doseKey]float64
	lastKey  doseKey // of the dose asked for last, which plants of a load share
	lastDose float64
	words    map[doseKey]string
}

type span struct {
	from, to time.Time
	tempC    float64
	deficit  float64 // kPa
}

type doseKey struct{ dry, from, to int64 }

// deficitKPa is the vapour pressure deficit of a room, in kPa.
func deficitKPa(tempC, rh float64) float64 {
	return air.Air{TempC: tempC, RH: rh / 100}.Deficit() / 1000
}

func newClimate(rules model.Rules) *climate {
	return &climate{
		reach:    time.Duration(rules[model.ReadingDays] * 24 * float64(time.Hour)),
		fallback: span{tempC: rules[model.DefaultTemp], deficit: deficitKPa(rules[model.DefaultTemp], rules[model.DefaultRH])},
		doses:    map[doseKey]float64{},
		words:    map[doseKey]string{},
	}
}

// add takes in a reading. Most come in order and touch only the end.
func (c *climate) add(r model.ReadingAt) {
	i := sort.Search(len(c.readings), func(i int) bool { return c.readings[i].At.After(r.At) })
	c.readings = slices.Insert(c.readings, i, r)
	c.spans = slices.Insert(c.spans, i, span{})
	for j := max(i-1, 0); j <= min(i+1, len(c.readings)-1); j++ {
		c.spans[j] = c.spanOf(j)
	}
	c.forget()
}

// forget drops what was worked out before.
func (c *climate) forget() {
	c.lastKey = doseKey{}
	clear(c.doses)
	clear(c.words)
}

func (c *climate) spanOf(i int) span {
	r := c.readings[i]
	s := span{r.At.Add(-c.reach), r.At.Add(c.reach), r.TempC, deficitKPa(r.TempC, r.RH)}
	if i > 0 {
		s.from = later(s.from, middle(c.readings[i-1].At, r.At))
	}
	if i+1 < len(c.readings) {
		s.to = earlier(s.to, middle(r.At, c.readings[i+1].At))
	}
	return s
}

func middle(a, b time.Time) time.Time { return a.Add(b.Sub(a) / 2) }

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

// keptDoses bounds the memory of doses: far more than one look needs.
const keptDoses = 4096

// dose is the drying power of the room on a plant dry since dry, between two
// times, in kPa day. Loads share their times, so doses are kept.
func (c *climate) dose(dry, from, to time.Time) float64 {
	key := doseKey{dry.Unix(), from.Unix(), to.Unix()}
	if key == c.lastKey {
		return c.lastDose
	}
	c.lastKey, c.lastDose = key, c.doseOf(key, dry, from, to)
	return c.lastDose
}

func (c *climate) doseOf(key doseKey, dry, from, to time.Time) float64 {
	if d, ok := c.doses[key]; ok {
		return d
	}
	if len(c.doses) >= keptDoses {
		c.forget()
	}
	d := c.sum(dry, from, to)
	c.doses[key] = d
	return d
}

func (c *climate) sum(dry, from, to time.Time) float64 {
	return c.along(from, to, func(from, end time.Time, s *span) float64 {
		return leaf.Dose(from.Sub(dry).Hours()/24, end.Sub(dry).Hours()/24, s.deficit)
	})
}

// mean is the mean deficit of the room over some time, kPa.
func (c *climate) mean(from, to time.Time) float64 {
	return c.meanOf(from, to, func(s *span) float64 { return s.deficit })
}

// meanOf is the mean of something of the room's air over some time.
func (c *climate) meanOf(from, to time.Time, of func(*span) float64) float64 {
	hours := c.along(from, to, func(from, end time.Time, s *span) float64 { return of(s) * end.Sub(from).Hours() })
	return hours / to.Sub(from).Hours()
}

// dayBefore is the mean air of the room over the day before a time: what is read
// at one hour is no measure of the hours that leaves stay wet.
func (c *climate) dayBefore(at time.Time) air.Air {
	from := at.Add(-24 * time.Hour)
	temp := c.meanOf(from, at, func(s *span) float64 { return s.tempC })
	return air.Air{TempC: temp, RH: humidityFor(c.mean(from, at), temp) / 100}
}

// along adds up what f makes of each span of constant air between two times.
func (c *climate) along(begin, to time.Time, f func(from, end time.Time, air *span) float64) float64 {
	total, at := 0.0, begin
	first := sort.Search(len(c.spans), func(i int) bool { return c.spans[i].to.After(begin) })
	for _, s := range c.spans[first:] {
		if !s.from.Before(to) {
			break
		}
		if s.from.After(at) { // no reading near enough
			total += f(at, s.from, &c.fallback)
			at = s.from
		}
		end := earlier(s.to, to)
		total += f(at, end, &s)
		at = end
	}
	if at.Before(to) {
		total += f(at, to, &c.fallback)
	}
	return total
}

// lastBefore is the last reading up to a time, if it still stands for it.
func (c *climate) lastBefore(t time.Time) (model.ReadingAt, bool) {
	i := sort.Search(len(c.readings), func(i int) bool { return c.readings[i].At.After(t) }) - 1
	if i < 0 || t.Sub(c.readings[i].At) > c.reach {
		return model.ReadingAt{}, false
	}
	return c.readings[i], true
}

// between counts the readings that stand for some of the time.
func (c *climate) between(from, to time.Time) int {
	first := sort.Search(len(c.spans), func(i int) bool { return c.spans[i].to.After(from) })
	n := 0
	for _, s := range c.spans[first:] {
		if !s.from.Before(to) {
			break
		}
		n++
	}
	return n
}

// roomNow is the room at a time: the last reading before it, or the default.
func roomNow(b *model.Book, now time.Time) RoomAir {
	rules := b.Rules()
	room := RoomAir{TempC: rules[model.DefaultTemp], RH: rules[model.DefaultRH], Fan: b.Fan(now), Window: b.Window(now).Window}
	readings := b.Readings()
	i := sort.Search(len(readings), func(i int) bool { return readings[i].At.After(now) }) - 1
	if i >= 0 && now.Sub(readings[i].At).Hours() <= rules[model.ReadingDays]*24 {
		room.TempC, room.RH, room.ReadAt = readings[i].TempC, readings[i].RH, readings[i].At
	}
	room.DeficitKPa = deficitKPa(room.TempC, room.RH)
	return room
}
