package estimate

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
	readings   []model.ReadingAt
	spans      []span             // one a reading, in order
	reach      time.Duration      // how far a reading stands
	fallback   span               // the default air, at any time
	cumulative map[vpdKey]float64 `snapshot:"-"`
	lastKey    vpdKey             `snapshot:"-"` // of the cumulative deficit asked for last, which plants of a load share
	lastVPD    float64            `snapshot:"-"`
	past       map[vpdKey]PastAir `snapshot:"-"`
}

type span struct {
	from, to time.Time
	tempC    float64
	deficit  float64 // kPa
}

type vpdKey struct{ dry, from, to int64 }

// deficitKPa is the vapour pressure deficit of a room, in kPa.
func DeficitKPa(tempC, rh float64) float64 {
	return air.Air{TempC: tempC, RH: rh / 100}.Deficit() / 1000
}

func newClimate(rules model.Rules) *climate {
	c := &climate{
		reach: time.Duration(rules[model.ReadingDays] * 24 * float64(time.Hour)),
		fallback: span{
			tempC:   rules[model.DefaultTemp],
			deficit: DeficitKPa(rules[model.DefaultTemp], rules[model.DefaultRH]),
		},
	}
	c.remember()
	return c
}

// remember begins to keep what is worked out.
func (c *climate) remember() { c.cumulative, c.past = map[vpdKey]float64{}, map[vpdKey]PastAir{} }

// combine takes in a reading. Most come in order and touch only the end.
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
	c.lastKey = vpdKey{}
	clear(c.cumulative)
	clear(c.past)
}

func (c *climate) spanOf(i int) span {
	r := c.readings[i]
	s := span{r.At.Add(-c.reach), r.At.Add(c.reach), r.TempC, DeficitKPa(r.TempC, r.RH)}
	if i > 0 {
		s.from = model.Later(s.from, middle(c.readings[i-1].At, r.At))
	}
	if i+1 < len(c.readings) {
		s.to = model.Earlier(s.to, middle(r.At, c.readings[i+1].At))
	}
	return s
}

func middle(a, b time.Time) time.Time { return a.Add(b.Sub(a) / 2) }

// keptVPDs bounds the memory of cumulative deficits: far more than one look needs.
const keptVPDs = 4096

// cumulativeVPD is the drying power of the room on a plant dry since dry, between two
// times, in days of the reference air. Loads share their times, so cumulative deficits are kept.
func (c *climate) cumulativeVPD(dry, from, to time.Time) float64 {
	key := vpdKey{dry.Unix(), from.Unix(), to.Unix()}
	if key == c.lastKey {
		return c.lastVPD
	}
	c.lastKey, c.lastVPD = key, c.cachedVPD(key, dry, from, to)
	return c.lastVPD
}

func (c *climate) cachedVPD(key vpdKey, dry, from, to time.Time) float64 {
	if d, ok := c.cumulative[key]; ok {
		return d
	}
	if len(c.cumulative) >= keptVPDs {
		c.forget()
	}
	d := c.sum(dry, from, to)
	c.cumulative[key] = d
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
	for i := first; i < len(c.spans) && c.spans[i].from.Before(to); i++ {
		s := &c.spans[i]
		if s.from.After(at) { // no reading near enough
			total += f(at, s.from, &c.fallback)
			at = s.from
		}
		end := model.Earlier(s.to, to)
		total += f(at, end, s)
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

// PastAir is the room's air over some time that is past.
type PastAir struct {
	Deficit  float64 // its mean vapour pressure deficit, kPa
	Readings int     // that it rests on; 0: assumed by the house rules
}

// PastAir is the room's air from one time to another. Plants of a load share it.
func (k *Keeper) PastAir(from, to time.Time) PastAir {
	c, key := k.climate, vpdKey{from.Unix(), from.Unix(), to.Unix()}
	past, ok := c.past[key]
	if !ok {
		past = PastAir{c.mean(from, to), c.between(from, to)}
		c.past[key] = past
	}
	return past
}

// RoomNow is the room at a time: the last reading before it, or the default.
func RoomNow(b *model.Book, now time.Time) RoomAir {
	rules := b.Rules()
	room := RoomAir{
		TempC:  rules[model.DefaultTemp],
		RH:     rules[model.DefaultRH],
		Fan:    b.Fan(now),
		Window: b.Window(now).Window,
	}
	readings := b.Readings()
	i := sort.Search(len(readings), func(i int) bool { return readings[i].At.After(now) }) - 1
	if i >= 0 && now.Sub(readings[i].At).Hours() <= rules[model.ReadingDays]*24 {
		room.TempC, room.RH, room.ReadAt = readings[i].TempC, readings[i].RH, readings[i].At
	}
	room.DeficitKPa = DeficitKPa(room.TempC, room.RH)
	return room
}

// logBlock is how long a logger's readings are joined for before they count in
// what plants lose. A choice: short beside the two days in which a fresh plant's
// lossPopulation settles, so that the thirst is right to a hundredth of itself in a room
// that swings by 8 °C and 30 % from day to night; and a year of hourly readings
// costs a start no more than four a day.
const logBlock = 6 * time.Hour

// readLogs takes in what loggers wrote down, before anything else: it is told
// long after it was so, and changes how the past reads.
func (k *Keeper) readLogs() {
	for _, e := range k.book.Entries() {
		f, ok := e.Fact.(*model.Readings)
		if !ok || k.book.Struck(e.Seq) {
			continue
		}
		for _, r := range joined(f) {
			k.climate.add(r)
		}
	}
}

// joined is the mean of each block of readings, at the mean of their times. The
// humidity is the one that makes their mean deficit at their mean temperature.
func joined(f *model.Readings) []model.ReadingAt {
	var blocks []model.ReadingAt
	for from := 0; from < f.Len(); {
		block := f.At(from).At.Unix() / int64(logBlock/time.Second)
		var seconds, temp, deficit, n float64
		for ; from < f.Len(); from++ {
			r := f.At(from)
			if r.At.Unix()/int64(logBlock/time.Second) != block {
				break
			}
			seconds += float64(r.At.Unix() % int64(logBlock/time.Second))
			temp += r.TempC
			deficit += DeficitKPa(r.TempC, r.RH)
			n++
		}
		at := time.Unix(block*int64(logBlock/time.Second)+int64(seconds/n), 0)
		blocks = append(blocks, model.ReadingAt{At: at, TempC: temp / n, RH: humidityFor(deficit/n, temp/n)})
	}
	return blocks
}

// humidityFor is the relative humidity, in %, that makes a deficit in kPa at a
// temperature.
func humidityFor(deficit, tempC float64) float64 {
	return 100 * (1 - min(1000*deficit/air.Saturation(tempC), 1))
}
