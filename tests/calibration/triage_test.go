package calibration_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/care"
	"tubside/model/leaf"
)

// The homes of the table: 600 plants, eight weekly soaks, then a trip.
const (
	homePlants = 600
	weeks      = 8
	tripDays   = 21
	driest     = 50
	lookFirst  = 60
	seeds      = 20
)

// order is one way to order plants by thirst, and what it came to.
type order struct {
	name      string
	rho, hits float64
	homes     int // that it is the mean of
}

// homecoming lives the weeks and the trip, and orders the plants in every way,
// before any sign is seen and after all are.
func homecoming(seed uint64, nat nature) (before, after []order, claim claim) {
	w := newWorld(seed, homePlants, nat)
	w.lastWeek = weeks - 1
	w.open()
	for n := range weeks {
		w.week(n)
	}
	home := w.begin.AddDate(0, 0, 7*(weeks-1)+tripDays)
	w.pass(home)
	w.readRoom()
	thirst := make([]float64, len(w.lives))
	for i, l := range w.lives {
		thirst[i] = 1 - l.rwc
	}
	rate := func(name string, score []float64) order {
		return order{name: name, rho: rankCorrelation(thirst, score), hits: found(thirst, score, driest, lookFirst)}
	}
	blind := w.without(func(f model.Fact) bool { _, look := f.(*model.Look); return look })
	before = []order{
		rate("days since the soak", w.days()),
		rate("model without learning", w.asks(care.New(blind))),
		rate("learning", w.asks(care.New(w.book))),
	}
	claim = w.claims(thirst)
	said := len(w.book.Entries())
	w.lookAt(w.lives, 1)
	for _, e := range w.book.Entries()[said:] {
		e.Seq = model.Seq(len(blind.Entries()) + 1)
		if err := blind.Apply(e); err != nil {
			panic(err)
		}
	}
	after = []order{
		before[0],
		rate("signs alone", w.signsAlone()),
		rate("model without learning", w.asks(care.New(blind))),
		rate("learning", w.asks(care.New(w.book))),
	}
	return before, after, claim
}

// claim is what the program says of itself before any sign is entered, and what comes of it.
type claim struct {
	homes     int // that it is the mean of
	first     float64
	hits      float64 // share of the driest among those to look at first
	suggested float64 // share of homes in which the shelf over the radiator is suggested
	wrong     float64 // other shelves suggested, a home
	factor    float64 // of the shelf over the radiator
}

func (w *world) claims(thirst []float64) (c claim) {
	k := care.New(w.book)
	e := k.Earned(w.now)
	score := make([]float64, len(w.lives))
	for i, id := range e.First {
		score[id-1] = float64(len(e.First) - i)
	}
	c.homes, c.first = 1, float64(len(e.First))
	c.hits = found(thirst, score, e.Driest, len(e.First))
	for _, s := range k.Shelves() {
		if s.Name == shelves[0] {
			c.factor = s.Factor
			if s.Suggest {
				c.suggested = 1
			}
		} else if s.Suggest {
			c.wrong++
		}
	}
	return c
}

func (c *claim) add(one claim) {
	c.homes++
	for _, pair := range [][2]*float64{{&c.first, &one.first}, {&c.hits, &one.hits}, {&c.suggested, &one.suggested}, {&c.wrong, &one.wrong}, {&c.factor, &one.factor}} {
		*pair[0] += (*pair[1] - *pair[0]) / float64(c.homes)
	}
}

// without is the book without some lines.
func (w *world) without(left func(model.Fact) bool) *model.Book {
	b := model.NewBook(time.UTC)
	for _, e := range w.book.Entries() {
		if left(e.Fact) {
			continue
		}
		e.Seq = model.Seq(len(b.Entries()) + 1)
		if err := b.Apply(e); err != nil {
			panic(err)
		}
	}
	return b
}

// asks is the thirst that care makes of a book, now.
func (w *world) asks(k *care.Keeper) []float64 {
	look := k.Look(w.now)
	score := make([]float64, len(w.lives))
	for i, l := range w.lives {
		score[i] = look.Need(l.row.ID).Thirst()
	}
	return score
}

func (w *world) days() []float64 {
	score := make([]float64, len(w.lives))
	for i, l := range w.lives {
		score[i] = math.Floor(w.now.Sub(w.book.Row(l.row.ID).LastSoak()).Hours() / 24)
	}
	return score
}

// signsAlone is the best that signs can do without a model of the plant: the
// mean thirst that goes with them, when every thirst is equally likely before.
func (w *world) signsAlone() []float64 {
	score := make([]float64, len(w.lives))
	for i, l := range w.lives {
		s := w.book.Row(l.row.ID).Signs
		var scale leaf.SignsScale
		if l.row.Form == model.Bulbous {
			scale.CurlShift = leaf.CurlsReadily
		}
		var sum, all float64
		for thirst := 0.0; thirst <= 1; thirst += 0.01 {
			p := math.Exp(leaf.Signs{Curl: int8(s.Curl), Tips: int8(s.Tips), Shift: int8(s.Shift)}.LogLikelihood(thirst, scale))
			sum += p * thirst
			all += p
		}
		score[i] = sum / all
	}
	return score
}

// The order by thirst after eight weeks and a trip, against three plainer ways.
func TestTriageRanksRight(t *testing.T) {
	mean, claims := means{}, claim{}
	for seed := uint64(1); seed <= seeds; seed++ {
		before, after, one := homecoming(seed, hard)
		claims.add(one)
		for i, orders := range [][]order{before, after} {
			mean.add(i, orders)
			best := orders[len(orders)-1]
			for _, o := range orders[:len(orders)-1] {
				if o.rho > best.rho || o.hits > best.hits {
					t.Errorf("seed %d: %s %.3f and %.2f, learning %.3f and %.2f", seed, o.name, o.rho, o.hits, best.rho, best.hits)
				}
			}
		}
	}
	record(t, "triage", fmt.Sprintf("%d homes of %d plants, every plant looked at before each of %d weekly soaks, then %d days away\n\n%s",
		seeds, homePlants, weeks, tripDays, mean.table()))
	record(t, "claims", fmt.Sprintf("\"look at these %.0f first\", before any sign is entered: %.0f %% of the %d driest are among them\n"+
		"the shelf over the radiator (x%.2g) is suggested in %.0f %% of homes, as x%.2f on average; %.2f other shelves a home",
		claims.first, 100*claims.hits, homePlants/12, hard.radiator, 100*claims.suggested, claims.factor, claims.wrong))
	if claims.hits < 0.80 || claims.hits > 0.95 {
		t.Errorf("of the driest %.3f are among the first to look at; 0.85 was expected", claims.hits)
	}
	for i, least := range [][2]float64{{0.90, 0.80}, {0.92, 0.82}} {
		if got := mean[i][len(mean[i])-1]; got.rho < least[0] || got.hits < least[1] {
			t.Errorf("learning comes to %.3f and %.3f, want %.2f and %.2f", got.rho, got.hits, least[0], least[1])
		}
	}
}

// hastySeeds is how many homes a second table rests on, of which nothing is
// asked but the figures.
const hastySeeds = 6

// What is left of it when six plants in ten are looked at, half of them closely.
func TestTriageOfAHastyGrower(t *testing.T) {
	mean := means{}
	for seed := uint64(1); seed <= hastySeeds; seed++ {
		before, after, _ := homecoming(seed, hasty)
		mean.add(0, before)
		mean.add(1, after)
	}
	record(t, "triage-hasty", fmt.Sprintf("%d homes as before, six plants in ten looked at, half of those closely\n\n%s", hastySeeds, mean.table()))
	for i := range mean {
		if n := len(mean[i]); mean[i][n-1].rho < mean[i][n-2].rho {
			t.Errorf("learning %.3f, without %.3f", mean[i][n-1].rho, mean[i][n-2].rho)
		}
	}
}

// means is the mean of many homes, before and after signs are entered.
type means [2][]order

func (m *means) add(i int, orders []order) {
	if m[i] == nil {
		m[i] = make([]order, len(orders))
	}
	for j, o := range orders {
		was := &m[i][j]
		was.name = o.name
		was.homes++
		was.rho += (o.rho - was.rho) / float64(was.homes)
		was.hits += (o.hits - was.hits) / float64(was.homes)
	}
}

func (m *means) table() string {
	var b strings.Builder
	for i, title := range []string{"before signs are entered", "after"} {
		fmt.Fprintf(&b, "%-26s rank correlation   of the %d driest in the first %d\n", title, driest, lookFirst)
		for _, o := range m[i] {
			fmt.Fprintf(&b, "  %-24s %16.3f   %10.3f\n", o.name, o.rho, o.hits)
		}
	}
	return b.String()
}
