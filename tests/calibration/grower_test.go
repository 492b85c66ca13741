package calibration_test

import (
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/drying"
)

// write writes a line in the book, now.
func (w *world) write(at time.Time, f model.Fact, ids ...model.ID) {
	e := model.NewEntry(at, f, ids...)
	e.Seq = model.Seq(len(w.book.Entries()) + 1)
	if err := w.book.Check(e); err != nil {
		panic(fmt.Sprintf("%s: %v", f.Kind(), err))
	}
	if err := w.book.Apply(e); err != nil {
		panic(err)
	}
	if w.keep != nil {
		w.keep.Follow(e)
	}
}

// open brings the list in, each plant soaked and dry a few days ago, and says so
// of most.
func (w *world) open() {
	list := &model.Import{}
	for _, l := range w.lives {
		days := 2 + w.rng.IntN(5)
		l.dry = time.Date(2026, 1, 3-days, 12, 0, 0, 0, time.UTC)
		if !w.happens(w.untold) {
			l.row.SoakedOn = date.NewAt(l.dry)
		}
		l.loses(l.dry, w.now, w.air().Deficit()/1000)
		list.Added = append(list.Added, l.row)
	}
	w.write(w.now, list)
	w.readRoom()
}

func (w *world) readRoom() {
	a := w.air()
	w.write(w.now, &model.Reading{TempC: math.Round(10*(a.TempC+w.tempError*w.rng.NormFloat64())) / 10, RH: math.Round(100*a.RH + w.readingError*w.rng.NormFloat64())})
}

// week is a soak day and the days to the next.
func (w *world) week(n int) {
	day := w.begin.AddDate(0, 0, 7*n)
	w.pass(day)
	turn := w.turn(n)
	w.lookAt(turn, w.looked)
	w.soakDay(turn)
	w.drifts()
}

// turn is who is soaked this week: all in the last before a trip.
func (w *world) turn(week int) []*life {
	return slices.DeleteFunc(slices.Clone(w.lives), func(l *life) bool {
		resting := (week+int(l.row.ID))%l.every != 0 && week != w.lastWeek
		return resting || w.happens(w.forgotten)
	})
}

// lookAt notes the signs of a share of some plants.
func (w *world) lookAt(lives []*life, share float64) {
	alike := map[model.Signs][]model.ID{}
	for _, l := range lives {
		if w.happens(share) {
			s := w.signs(l)
			l.past = append(l.past, moment{signs: s})
			alike[s] = append(alike[s], l.row.ID)
		}
	}
	for curl := model.Grade(-1); curl <= 3; curl++ {
		for tips := model.Grade(-1); tips <= 3; tips++ {
			for shift := model.Grade(-1); shift <= 3; shift++ {
				s := model.Signs{Curl: curl, Tips: tips, Shift: shift}
				if ids := alike[s]; ids != nil {
					w.write(w.now, &model.Look{Signs: s}, ids...)
				}
			}
		}
	}
}

// signs is what the grower sees, or thinks to see.
func (w *world) signs(l *life) model.Signs {
	s := model.NoSigns
	s.Curl = w.grade(curl, 1-l.rwc-l.curlsAt)
	if w.happens(w.closely) {
		s.Tips, s.Shift = w.grade(tips, 1-l.rwc), w.grade(shift, 1-l.rwc)
	}
	return s
}

// sign is when the grades of a sign truly begin, as thirst, and how blurred. The
// numbers are the guesses of leaf; nobody has measured them.
type sign struct {
	begins []float64
	blur   float64
}

var (
	curl  = sign{[]float64{0.345, 0.49, 0.60}, 0.06}
	tips  = sign{[]float64{0.35, 0.50, 0.65}, 0.20}
	shift = sign{[]float64{0.10, 0.30}, 0.15}
)

// grade is drawn from an ordered logistic model; now and then it is seen or
// keyed one off.
func (w *world) grade(s sign, thirst float64) model.Grade {
	u := w.rng.Float64()
	blurred := thirst + s.blur*math.Log(u/(1-u))
	seen := 0
	for _, begins := range s.begins {
		if blurred > begins {
			seen++
		}
	}
	if w.happens(w.wrongGrade) {
		seen = min(max(seen+2*w.rng.IntN(2)-1, 0), len(s.begins))
	}
	return model.Grade(seen)
}

// minutes is this grower's rule of thumb.
func (l *life) minutes() float64 {
	switch {
	case l.row.Form == model.Fuzzy:
		return 20
	case l.row.Form == model.Bulbous || l.row.Form == model.Tank || l.row.Form == model.Pendent || l.row.Leaf == model.Xeric:
		return 75
	}
	return 150
}

// perLoad is how many plants go into the tub together.
const perLoad = 60

// soakDay soaks and dries: loads one after another, each out a little late.
func (w *world) soakDay(turn []*life) {
	at := w.now.Add(30 * time.Minute)
	w.write(w.now, &model.FanSet{Fan: model.FanLow})
	var laid []*life
	for _, minutes := range []float64{150, 75, 20} {
		queue := slices.DeleteFunc(slices.Clone(turn), func(l *life) bool { return l.minutes() != minutes })
		for len(queue) > 0 {
			load := queue[:min(perLoad, len(queue))]
			queue = queue[len(load):]
			w.soak(load, at, minutes)
			laid = append(laid, load...)
			at = at.Add(25 * time.Minute)
		}
	}
	slices.SortStableFunc(w.acts, func(a, b model.Entry) int { return a.At.Compare(b.At) })
	for _, e := range w.acts {
		w.write(e.At, e.Fact, e.Plants...)
	}
	w.acts = nil
	w.drying(laid)
}

func idsOf(lives []*life) model.IDs {
	ids := make(model.IDs, len(lives))
	for i, l := range lives {
		ids[i] = l.row.ID
	}
	return ids
}

// soak is one load, in and out.
func (w *world) soak(load []*life, in time.Time, minutes float64) {
	deficit := w.air().Deficit() / 1000
	for _, l := range load {
		l.loses(w.now, in, deficit)
	}
	late := 20 * w.rng.Float64() * math.Min(1, minutes/60)
	due := in.Add(time.Duration(minutes * float64(time.Minute)))
	out := due.Add(time.Duration(late * float64(time.Minute))).Truncate(time.Second)
	inverted := load[0].row.Form == model.Bulbous
	w.acts = append(w.acts,
		model.NewEntry(in, &model.Soak{Load: w.load, Vessel: "tub", Due: due}, idsOf(load)...),
		model.NewEntry(out, &model.Out{Shaken: true, Inverted: inverted}, idsOf(load)...))
	w.load++
	for _, l := range load {
		wet := moment{minutes: out.Sub(in).Minutes(), filmHours: w.filmHours(l)}
		rwc := []float64{l.rwc}
		wet.fill(rwc, l.worn, l.wears, l.tau)
		l.rwc = rwc[0]
		l.past = append(l.past, wet)
		l.dry, l.out, l.inverted = time.Time{}, out, inverted
	}
}

// drying is the bench from the first plant out to the last dry: the true room,
// the true plants, and a grower who looks now and then.
func (w *world) drying(laid []*life) {
	start := laid[0].out
	for _, l := range laid {
		if l.out.Before(start) {
			start = l.out
		}
	}
	a := w.air()
	room := drying.Room{VolumeM3: 40, AirChanges: drying.WinterAirChanges, Air: a, SupplyDensity: a.VapourDensity()}
	places := map[string]int{}
	var groups []drying.Group
	at := make([]int, len(laid))
	for i, l := range laid {
		h := drying.Handling{Shaken: true, Inverted: l.inverted}
		if l.row.Count > 1 || l.row.Form == model.Pendent {
			h.Clump = drying.ClumpTime
		}
		alike := l.clings
		alike.AreaCM2, alike.PocketG = 0, 0
		key := fmt.Sprint(l.out.Unix(), alike, h)
		if _, ok := places[key]; !ok {
			places[key] = len(groups)
			groups = append(groups, drying.Group{Plant: l.clings, Handling: h, Speed: drying.Low, MinutesOut: -l.out.Sub(start).Minutes()})
		}
		at[i] = places[key]
		g := &groups[at[i]]
		n := float64(g.Count)
		g.Plant.AreaCM2 = (g.Plant.AreaCM2*n + l.clings.AreaCM2) / (n + 1)
		g.Plant.PocketG = (g.Plant.PocketG*n + l.clings.PocketG) / (n + 1)
		g.Count++
	}
	f, err := room.Dry(groups)
	if err != nil {
		panic(err)
	}
	for i, l := range laid {
		hours := f.Groups[at[i]].Hours() + groups[at[i]].MinutesOut/60
		hours = math.Min(hours*l.slow*w.log(w.dryEvent), 100)
		l.dry = l.out.Add(time.Duration(hours * float64(time.Hour)))
	}
	if w.dried != nil {
		w.dried()
	}
	w.walkBench(laid)
}

// dampNoted is how many of the plants found damp are marked so.
const dampNoted = 0.57

// walkBench marks what the grower finds: walks two to three hours apart until
// the evening, then mornings and evenings. Some plants are passed over, some
// until late; some are marked dry without a look.
func (w *world) walkBench(laid []*life) {
	late := map[*life]bool{}
	for _, l := range laid {
		late[l] = w.happens(w.lateLook)
	}
	left := slices.Clone(laid)
	at := w.now.Add(6 * time.Hour)
	for walk := 0; len(left) > 0; walk++ {
		var damp, dry model.IDs
		left = slices.DeleteFunc(left, func(l *life) bool {
			if !at.After(l.out.Add(10*time.Minute)) || late[l] && walk < 4 || w.happens(w.unseen) {
				return false
			}
			if at.After(l.dry) || w.happens(w.wrongMark) {
				dry = append(dry, l.row.ID)
				return true
			}
			if w.happens(dampNoted) {
				damp = append(damp, l.row.ID)
			}
			return false
		})
		if len(damp) > 0 {
			w.write(at, &model.Damp{}, damp...)
		}
		if len(dry) > 0 {
			w.write(at, &model.FoundDry{}, dry...)
			w.write(at.Add(time.Minute), &model.Hung{}, dry...)
		}
		at = at.Add(time.Duration((2 + w.rng.Float64()) * float64(time.Hour)))
		if at.Hour() >= 22 || at.Hour() < 8 {
			morning := at.Add(2 * time.Hour) // past midnight
			at = time.Date(morning.Year(), morning.Month(), morning.Day(), 8, 0, 0, 0, time.UTC)
		}
	}
}
