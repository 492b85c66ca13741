// Package calibration_test asks how good the estimates are: it invents homes
// whose truth is known, lets a grower keep a book of them, late and sloppily,
// and holds what care makes of the book against the truth. The truth uses the
// published equations of leaf and drying, never estimate.
package calibration_test

import (
	"math"
	"math/rand/v2"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/drying"
	"tubside/model/estimate"
	"tubside/model/leaf"
)

// nature is how far things lie apart in an invented world: standard deviations
// of the logarithm unless said otherwise.
type nature struct {
	all, form, own    float64 // rate of water loss
	drift             float64 // of a plant's own rate, a week
	dryAll, dryForm   float64 // time to dry
	dryOwn, dryEvent  float64
	film              float64 // water on the leaves, beside the usual of its form
	radiator          float64 // how many times as fast plants dry out on shelf 1
	still             bool    // the same air all year
	winter            float64 // humidity of the rooms in the heating season, %
	weather           float64 // of the room's humidity from day to day, in %
	readingEvery      float64 // days
	readingError      float64 // %
	tempError         float64 // °C
	curlOffset        float64 // thirst at which a plant's curl begins, sd
	wrongGrade        float64 // share of grades that are off by one
	wrongMark         float64 // share of dry marks made without looking
	wrongLeaf         float64 // share of plants of which the book has the wrong leaf
	looked, closely   float64 // share of plants looked at before a soak; of looks with tips and the drop
	untold            float64 // share of plants of which nobody knows the last soak
	forgotten, unseen float64 // share of plants passed over on a soak day; of plants passed over on a walk along the bench
	lateLook          float64 // share of plants nobody looks at before the fourth walk
}

// hard is the world that the estimates are made for: everything a little wrong.
var hard = nature{
	all: 0.25, form: 0.20, own: 0.38, drift: 0.02,
	dryAll: 0.27, dryForm: 0.20, dryOwn: 0.22, dryEvent: 0.20, film: 0.4,
	radiator: 1.4, winter: 25, weather: 5, readingEvery: 4, readingError: 2, tempError: 0.3,
	curlOffset: 0.03, wrongGrade: 0.10, wrongMark: 0.03, wrongLeaf: 0.02,
	looked: 1, closely: 0.9, forgotten: 0.04, unseen: 0.3, lateLook: 0.1, untold: 0.15,
}

// hasty is the same world with a grower who looks at six plants in ten before
// a soak, and at half of those closely.
var hasty = func() nature {
	n := hard
	n.looked, n.closely = 0.6, 0.5
	return n
}()

// moister is a world with so much humidity in winter, in %.
func (n nature) moister(winter float64) nature {
	n.winter = winter
	return n
}

// asTold is a world in which all is as the estimates take it to be.
var asTold = nature{
	all: 0.25, form: 0.20, own: 0.38,
	dryAll: 0.27, dryForm: 0.20, dryOwn: 0.22, dryEvent: 0.22, wrongMark: 0.012,
	radiator: 1, still: true, readingEvery: 7, curlOffset: 0.035,
	wrongGrade: 0.06, looked: 1, closely: 0.9, forgotten: 0.04, unseen: 0.3,
}

// life is one plant as it really is.
type life struct {
	row     model.Plant
	rate    float64 // of water loss, per day and kPa, where it hangs, now
	tau     float64 // of uptake, hours
	curlsAt float64 // how much later than usual its curl begins, as thirst
	clings  drying.Plant
	slow    float64 // times as long to dry
	worn    float64 // the usual film, as a share of the water in a full leaf of its kind
	wears   float64 // times as much it wears
	every   int     // soaked every so many weeks

	pace float64 // true multiplier of the rate that the book would reckon
	rwc  float64
	dry  time.Time // when it began to lose water; zero while wet
	out  time.Time

	inverted bool // laid upside down to dry

	place float64  // times as fast as elsewhere it loses water where it hangs
	past  []moment // since it was soaked before it came into the book
}

// world is one invented home and its book.
type world struct {
	nature
	rng      *rand.Rand
	begin    time.Time
	now      time.Time
	lives    []*life
	lastWeek int     // all plants are soaked in it
	rh       float64 // % humidity of the rooms today, as difference to the season
	book     *model.Book
	acts     []model.Entry    // of a soak day, to be written in the order of their time
	load     model.LoadID     // the next
	keep     *estimate.Keeper // follows the book, when somebody asks week by week
	dried    func()           // called when all are out of the water, before the first mark
}

var shelves = []string{"Radiator", "Bath", "Bay", "Desk", "Hall", "Loft", "Rail", "Sill"}

// form is a form, its share of the collection and the leaves it comes with.
var forms = []struct {
	form   model.Form
	share  float64
	leaves []model.Leaf
}{
	{model.Rosette, 0.34, model.Leaves},
	{model.Bulbous, 0.13, model.Leaves},
	{model.Wispy, 0.15, model.Leaves},
	{model.Stemmed, 0.12, model.Leaves},
	{model.Fuzzy, 0.14, []model.Leaf{model.Xeric}},
	{model.Tank, 0.05, []model.Leaf{model.Mesic}},
	{model.Pendent, 0.07, []model.Leaf{model.Xeric, model.Intermediate}},
}

func newWorld(seed uint64, n int, nat nature) *world {
	w := &world{nature: nat, rng: rand.New(rand.NewPCG(seed, 77)), book: model.NewBook(time.UTC), load: 1}
	w.begin = time.Date(2026, time.January, 3, 8, 0, 0, 0, time.UTC) // a Saturday
	w.now = w.begin
	films := rand.New(rand.NewPCG(seed, 78)) // apart: worlds with and without are otherwise the same
	all, dryAll := w.log(nat.all), w.log(nat.dryAll)
	byForm, dryByForm := map[model.Form]float64{}, map[model.Form]float64{}
	for _, f := range forms {
		byForm[f.form], dryByForm[f.form] = w.log(nat.form), w.log(nat.dryForm)
	}
	for i := range n {
		l := w.born(model.ID(i + 1))
		l.pace = all * byForm[l.row.Form] * w.log(nat.own)
		l.slow = dryAll * dryByForm[l.row.Form] * w.log(nat.dryOwn)
		l.wears = math.Exp(nat.film * films.NormFloat64())
		w.place(l)
		w.lives = append(w.lives, l)
	}
	return w
}

// sizeSpread puts nine plants in ten between 6 and 40 cm.
const sizeSpread = 0.6

// log is a lognormal multiplier around 1.
func (w *world) log(spread float64) float64 { return math.Exp(spread * w.rng.NormFloat64()) }

func (w *world) happens(chance float64) bool { return w.rng.Float64() < chance }

// born is one plant, as the book will have it.
func (w *world) born(id model.ID) *life {
	x := w.rng.Float64()
	f := forms[0]
	for _, f = range forms {
		if x -= f.share; x < 0 {
			break
		}
	}
	l := &life{rwc: 1, place: 1}
	l.row = model.Plant{ID: id, Form: f.form, Leaf: f.leaves[w.rng.IntN(len(f.leaves))], Count: 1}
	l.row.Size = math.Round(min(max(15*w.log(sizeSpread), 4), 55))
	if w.happens(0.05) {
		l.row.Count = 3 + w.rng.IntN(5)
	}
	l.row.Home = model.Home{Shelf: shelves[w.rng.IntN(len(shelves))], Spot: id.String()}
	return l
}

// place gives a plant the numbers of its true kind, and lets the book be wrong
// about some.
func (w *world) place(l *life) {
	l.rate = lossRate(l.row) * l.pace
	if l.row.Home.Shelf == shelves[0] {
		l.rate *= w.radiator
		l.pace *= w.radiator
		l.place = w.radiator
	}
	l.tau, l.clings, l.every = tauOf(l.row), drying.Typical(), 1
	if l.row.Form != model.Fuzzy && l.row.Leaf == model.Xeric {
		l.every = 2 + w.rng.IntN(2)
	}
	switch l.row.Form {
	case model.Bulbous:
		l.clings = drying.Bulbous()
	case model.Tank:
		l.clings = drying.Tank()
	case model.Fuzzy:
		l.clings = drying.Fuzzy()
	case model.Wispy:
		l.clings = drying.Wispy()
	case model.Stemmed:
		l.clings = drying.OpenRosette()
	case model.Pendent:
		l.clings = drying.Strand()
	}
	if l.row.Form != model.Tank && l.row.Leaf != model.Mesic {
		l.clings = l.clings.Wicking()
	}
	l.clings = l.clings.Sized(l.row.Size)
	l.clings.AreaCM2 *= float64(l.row.Count)
	l.clings.PocketG *= float64(l.row.Count)
	if l.row.Form == model.Bulbous {
		l.curlsAt = leaf.CurlsReadily
	}
	l.curlsAt += w.curlOffset * w.rng.NormFloat64()
	l.worn = usualFilm(l.row, l.clings)
	if w.happens(w.wrongLeaf) {
		was := lossRate(l.row)
		l.row.Leaf = model.Leaves[w.rng.IntN(3)]
		l.pace *= was / lossRate(l.row)
	}
}

// tauOf is the time constant of a plant's uptake in water, hours.
func tauOf(p model.Plant) float64 {
	switch {
	case p.Form == model.Fuzzy, p.Form == model.Pendent:
		return leaf.TauFuzzy
	case p.Form == model.Wispy && p.Leaf != model.Xeric:
		return leaf.TauWispy
	}
	return leaf.TauDefault
}

// lossRate is what the published values make of a plant as the book has it.
func lossRate(p model.Plant) float64 {
	k := map[model.Leaf]float64{model.Mesic: leaf.KMesic, model.Intermediate: leaf.KIntermediate, model.Xeric: leaf.KXeric}[p.Leaf]
	switch {
	case p.Form == model.Pendent:
		return leaf.KThin
	case p.Form == model.Bulbous && p.Leaf == model.Xeric:
		k = leaf.KIntermediate
	case p.Form == model.Wispy && p.Leaf != model.Xeric:
		k *= leaf.WispyFactor
	}
	return k * leaf.SizeFactor(p.Size)
}

// usualFilm is the water on the leaves of a plant as the book has it, both faces, as a share of the water in them when full.
func usualFilm(p model.Plant, clings drying.Plant) float64 {
	return 2 * clings.FilmMM / leaf.WaterMM(lossRate(p))
}

// filmHours is how long a film of the usual thickness would wet the whole plant in the true air of now, which its neighbours do not
// dampen: they do not in the estimates either.
func (w *world) filmHours(l *life) float64 {
	s := drying.Stream{Air: w.air(), Speed: drying.Low}
	return l.clings.Dry(s, drying.Handling{Shaken: true}).FilmHours * (1 - l.clings.FilmPower)
}

// air is the true air of the rooms now: 25 % in the heating season (Canadian houses 25 to 30 % on average: Kent, Handegord & Robson,
// ASHRAE Transactions 72; Iowa State Extension has 10 to 20 %), more in summer.
func (w *world) air() air.Air {
	if w.still {
		return air.Air{TempC: 21, RH: 0.30}
	}
	season := 0.5 - 0.5*math.Cos(2*math.Pi*float64(w.now.YearDay()-20)/365)
	return air.Air{TempC: 20.5 + 3.5*season, RH: min(max(w.winter+18*season+w.rh, 10), 75) / 100}
}

// pass lets time go by to the same moment some days on: plants lose water, the
// weather changes, paces drift, and the grower reads the hygrometer now and
// then.
func (w *world) pass(until time.Time) {
	for w.now.Before(until) {
		next := w.now.Add(6 * time.Hour)
		if next.After(until) {
			next = until
		}
		deficit := w.air().Deficit() / 1000
		for _, l := range w.lives {
			l.loses(w.now, next, deficit)
		}
		days := next.Sub(w.now).Hours() / 24
		keep := math.Pow(0.7, days)
		w.rh = keep*w.rh + math.Sqrt(1-keep*keep)*w.weather*w.rng.NormFloat64()
		w.now = next
		if w.happens(days / w.readingEvery) {
			w.readRoom()
		}
	}
}

// loses takes the water of some hours of constant air.
func (l *life) loses(from, to time.Time, deficit float64) {
	if l.dry.IsZero() || !to.After(l.dry) {
		return
	}
	dose := leaf.Dose(from.Sub(l.dry).Hours()/24, to.Sub(l.dry).Hours()/24, deficit)
	l.rwc = leaf.Remaining(l.rwc, l.rate, dose)
	l.lost(dose)
}

// drifts moves each plant's own pace by a week's worth.
func (w *world) drifts() {
	for _, l := range w.lives {
		by := w.log(w.drift)
		l.rate *= by
		l.pace *= by
		l.past = append(l.past, moment{drifted: true})
	}
}
