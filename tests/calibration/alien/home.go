package alien

import (
	"math"
	"math/rand/v2"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// Plants is how many a home has.
const Plants = 120

// The days of a home: soaks until the trip, which ends on the last.
const (
	firstAsked = 56
	leaves     = 112
	lastDay    = leaves + 21
)

const shelves = 8

// How far homes, forms and plants lie apart in what they lose and when they curl: standard deviations of the logarithm.
// Guesses.
const (
	leakHome, leakForm, leakOwn    = 0.20, 0.15, 0.30
	curlsHome, curlsForm, curlsOwn = 0.25, 0.10, 0.10
	fillHome                       = 0.15
	shelfSpread, radiator          = 0.12, 1.35
)

// usualLift is the thirst at which the middle plant of the middle home lifts its edges: what the trade soaks for a
// plant whose edges lift is what a plant needs that is 0.18 to 0.30 down.
const usualLift = 0.24

// Home is one home, its book and the truth.
type Home struct {
	Nature
	Book   *model.Book
	Plants []*Plant
	Now    time.Time

	// Wrote is called after each entry that is in the book. Ask is called when the program may be asked: on some soak
	// days before and after the plants are looked at, and on the return. Out is called when all plants of a soak are
	// out of the water.
	Wrote func(model.Entry)
	Ask   func(looked bool)
	Out   func()

	// Choose is called on a soak day a month before the program is asked: for whom the next soak is a long one, and who
	// goes on the scale for four weeks, if the grower Weighs.
	Choose func() model.IDs
	Weighs bool

	begin              time.Time
	halves             []halfDay
	peak               float64 // of the season
	shelf              [shelves]float64
	lift, leak         float64 // of the home, as logarithms
	rhythm             int     // days between soaks
	looks, closely     float64 // shares of the plants
	acts               []model.Entry
	load               model.LoadID
	plants, acting, in *rand.Rand // what is drawn of the plants, of what the grower does, and of what happens in secret
	scale              *scale
	nextReading        float64
	told               float64          // the strength of the air by the last reading
	moves              map[int][]*Plant // by day
}

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
	{model.Pendent, 0.07, []model.Leaf{model.Xeric}},
}

// NewHome invents a home. Homes of one seed are alike in all that their natures leave alike.
func NewHome(n Nature, seed uint64) *Home {
	stream := func(of uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, of)) }
	h := &Home{Nature: n, Book: model.NewBook(time.UTC), load: 1, plants: stream(1), acting: stream(2), in: stream(3),
		moves: map[int][]*Plant{}, scale: newScale(stream(6))}
	h.Wrote, h.Ask, h.Out = func(model.Entry) {}, func(bool) {}, func() {}
	h.Choose = func() model.IDs { return nil }
	home := stream(4)
	h.begin = time.Date(2026, time.January, 1+home.IntN(365), 8, 0, 0, 0, time.UTC)
	h.Now, h.peak = h.begin, home.Float64()
	h.rhythm = [...]int{7, 7, 10, 14}[home.IntN(4)]
	h.looks, h.closely = 0.7+0.3*home.Float64(), 0.3+0.6*home.Float64()
	minutes := [...]float64{30, 45, 60, 90, 120}[home.IntN(5)]
	h.leak, h.lift = leakHome*home.NormFloat64(), math.Log(usualLift)+curlsHome*home.NormFloat64()
	if n.Lift > 0 {
		h.lift = math.Log(n.Lift)
	}
	for i := range h.shelf {
		h.shelf[i] = math.Exp(shelfSpread * home.NormFloat64())
	}
	h.shelf[0] *= radiator
	fills, dries := fillHome*home.NormFloat64(), driesHome*home.NormFloat64()
	h.halves = weather(stream(5), h.begin, lastDay+2)
	h.told = h.strength(h.halves[0])
	leakOf, curlsOf, driesOf := map[model.Form]float64{}, map[model.Form]float64{}, map[model.Form]float64{}
	for _, f := range forms {
		leakOf[f.form], curlsOf[f.form], driesOf[f.form] = leakForm*home.NormFloat64(), curlsForm*home.NormFloat64(), driesForm*home.NormFloat64()
	}
	for i := range Plants {
		p := h.born(model.ID(i+1), minutes)
		form := p.Row.Form
		p.leak = p.sort.leak * math.Exp(h.leak+leakOf[form]+leakOwn*h.plants.NormFloat64())
		p.curls = p.sort.curls / liftsAt * math.Exp(h.lift+curlsOf[form]+curlsOwn*h.plants.NormFloat64())
		p.toFill = p.sort.toFill * math.Exp(fills+n.Uptake*h.plants.NormFloat64())
		p.slow = math.Exp(dries + driesOf[form] + driesOwn*h.plants.NormFloat64())
		h.hide(p)
		h.Plants = append(h.Plants, p)
	}
	return h
}

// born is a plant as it is, and as the book will have it if nothing is wrong.
func (h *Home) born(id model.ID, minutes float64) *Plant {
	rng := h.plants
	x := rng.Float64()
	f := forms[0]
	for _, f = range forms {
		if x -= f.share; x < 0 {
			break
		}
	}
	p := &Plant{water: full, every: 1, minutes: minutes, seen: model.NoSigns}
	p.Row = model.Plant{ID: id, Form: f.form, Leaf: f.leaves[rng.IntN(len(f.leaves))], Count: 1}
	p.Row.Size = math.Round(min(max(13*math.Exp(0.45*rng.NormFloat64()), 4), 50))
	p.shelf = rng.IntN(shelves)
	p.Row.Home = model.Home{Shelf: string(rune('A' + p.shelf)), Spot: id.String()}
	p.is = p.Row.Form
	p.sort = usualOf(p.Row.Form, p.Row.Leaf)
	p.sort.leak *= sizeFactor(p.Row.Size)
	switch {
	case f.form == model.Fuzzy:
		p.minutes = 8
	case f.form == model.Bulbous:
		p.minutes = 20
	case f.form == model.Tank:
		p.minutes = 15
	case f.form == model.Pendent:
		p.minutes = 30
	case p.Row.Leaf == model.Xeric:
		p.minutes, p.every = min(minutes, 45), 2
	}
	return p
}

// hide makes the book wrong about a plant, or a plant move in secret.
func (h *Home) hide(p *Plant) {
	label, other, form, moved, day := h.in.Float64(), h.in.IntN(3), h.in.IntN(4), h.in.Float64(), firstAsked/2+h.in.IntN(leaves-firstAsked/2)
	if label < h.Mislabelled {
		p.Row.Leaf = model.Leaves[other]
		if label < h.Mislabelled/2 {
			p.Row.Form = forms[form].form
		}
	}
	if moved < h.MovedUnwritten {
		h.moves[day] = append(h.moves[day], p)
	}
}

// Live lives the whole time.
func (h *Home) Live() {
	h.open()
	for day := 1; day <= lastDay; day++ {
		h.Now = h.begin.AddDate(0, 0, day)
		h.secrets(day)
		h.weighBetween(day)
		if float64(day) >= h.nextReading {
			h.readRoom()
			h.nextReading += h.ReadingGap * (0.75 + 0.5*h.acting.Float64())
		}
		if day%7 == 0 {
			for _, p := range h.Plants {
				h.advance(p, h.Now)
				p.lives(moment{week: true})
			}
		}
		switch {
		case day == lastDay:
			h.home()
		case day == leaves, day%h.rhythm == 0 && day <= leaves-h.rhythm/2:
			h.soakDay(day)
		}
	}
}

// advance lets a plant lose water to a time. It loses none while it is wet.
func (h *Home) advance(p *Plant, to time.Time) {
	at := p.at
	if p.dry.After(at) {
		at = p.dry
	}
	for at.Before(to) {
		half := int(at.Sub(h.begin) / (12 * time.Hour))
		end := h.begin.Add(time.Duration(half+1) * 12 * time.Hour)
		if at.Before(h.begin) { // before the book begins the air was as on its first day
			half, end = 0, h.begin
		}
		if end.After(to) {
			end = to
		}
		p.lives(moment{days: end.Sub(at).Hours() / 24,
			leak: h.shelf[p.shelf] * h.strength(h.halves[half]) * h.season(at, h.peak),
			told: h.told, shelf: h.shelf[p.shelf], booked: h.shelf[p.Row.Home.Shelf[0]-'A']})
		at = end
	}
	if p.at.Before(to) {
		p.at = to
	}
}

// secrets is what happens without a word.
func (h *Home) secrets(day int) {
	for _, p := range h.moves[day] {
		h.advance(p, h.Now)
		p.shelf = (p.shelf + 1 + h.in.IntN(shelves-1)) % shelves
	}
	mists := day%7 == 3 || day%7 == 5 && h.MistsUnwritten > 1
	for s := range shelves {
		soaks := h.in.Float64() < h.HelperUnwritten && day%7 == 4 && day%h.rhythm != 0
		for _, p := range h.Plants {
			if p.shelf != s || p.dry.After(h.Now) {
				continue
			}
			if mists && h.MistsUnwritten > 0 {
				h.advance(p, h.Now)
				p.lives(moment{misted: true, secret: true})
			}
			if soaks {
				h.advance(p, h.Now)
				p.lives(moment{soak: 1, minutes: 60, secret: true})
				p.dry = h.Now.Add(4 * time.Hour)
			}
		}
	}
}

// open brings the list in: each plant was soaked some days ago, which is said of most.
func (h *Home) open() {
	list := &model.Import{}
	for _, p := range h.Plants {
		days := 1 + h.acting.IntN(6)
		if told := h.acting.Float64() < 0.85; !told {
			days += h.acting.IntN(8)
		} else {
			p.Row.SoakedOn = date.NewAt(h.begin) - date.Date(days)
		}
		p.soaked = h.begin.AddDate(0, 0, -days)
		p.at, p.water = p.soaked, store{brimful, brimful}
		h.advance(p, h.begin)
		list.Added = append(list.Added, p.Row)
	}
	h.write(h.begin, list)
	h.readRoom()
	h.nextReading = h.ReadingGap
}

// home is the return: the plants are asked for, looked at, all of them, and asked for again.
func (h *Home) home() {
	for _, p := range h.Plants {
		h.advance(p, h.Now)
	}
	h.Ask(false)
	h.lookAt(h.Plants, 1)
	h.Ask(true)
}
