package advice

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// TenPlants is how many plants are weighed: as many as are put on a scale three times a
// week without getting tired of it. A choice.
const TenPlants = 10

// leastSteps is how many of the scale's steps a plant must weigh: under that, rounding
// hides what it loses in a week. A choice: then rounding is no more than what water in
// the axils does (see [leaf.LogWeight]).
const leastSteps = 30

// Weighable is a plant that may be put on the scale, and what it stands for.
type Weighable struct {
	ID    model.ID
	Alike int     // plants here of its form and leaf, itself counted
	Grams float64 // about what it weighs full
}

// ChooseTen proposes whom to weigh, so that they tell most of the house: of the forms and
// leaves of which there are most and least is known, each time another, and of those
// the plants that are believed most vaguely. The first is the most worth.
func ChooseTen(k *estimate.Keeper, now time.Time, without ...model.ID) []Weighable {
	kinds := kindsToWeigh(k, now, without)
	var ten []Weighable
	for len(ten) < TenPlants {
		best := slices.MaxFunc(append(kinds, &kindToWeigh{}), func(a, b *kindToWeigh) int {
			return cmp.Compare(a.worth(), b.worth())
		})
		if len(best.plants) == 0 {
			break
		}
		ten = append(ten, best.plants[0])
		best.plants, best.chosen = best.plants[1:], best.chosen+1
	}
	return ten
}

// kindToWeigh is the plants here of a form and a leaf.
type kindToWeigh struct {
	all, vague float64     // plants, and the sum of how vaguely each is believed
	plants     []Weighable // those that may be weighed, the most vaguely believed first
	chosen     float64
}

// worth is by how much one more plant of a kind on the scale makes its plants less
// vaguely believed: what is not known of what n of them share falls about as 1/(n+1).
func (g *kindToWeigh) worth() float64 {
	if len(g.plants) == 0 {
		return -1
	}
	return g.vague / ((g.chosen + 1) * (g.chosen + 2))
}

func kindsToWeigh(k *estimate.Keeper, now time.Time, without model.IDs) []*kindToWeigh {
	type kind struct {
		form model.Form
		leaf model.Leaf
	}
	b := k.Book()
	found := map[kind]*kindToWeigh{}
	var kinds []*kindToWeigh
	vague := map[model.ID]float64{}
	for _, id := range b.IDs() {
		row := b.Row(id)
		if row.State == model.Gone {
			continue
		}
		of := kind{cmp.Or(row.Form, estimate.AssumedForm), cmp.Or(row.Leaf, estimate.AssumedLeaf)}
		g := found[of]
		if g == nil {
			g = &kindToWeigh{}
			found[of], kinds = g, append(kinds, g)
		}
		m, _ := k.LossMultiplier(id)
		vague[id] = math.Log(m.High / m.Low)
		g.all += float64(max(row.Count, 1))
		g.vague += float64(max(row.Count, 1)) * vague[id]
		if grams := k.Traits(id).FullGrams(); ToWeigh(b, row, now) && grams >= leastSteps*b.Rules()[model.ScaleStep] &&
			!without.Has(id) {
			g.plants = append(g.plants, Weighable{ID: id, Grams: grams})
		}
	}
	for _, g := range kinds {
		for i := range g.plants {
			g.plants[i].Alike = int(g.all)
		}
		slices.SortStableFunc(g.plants, func(x, y Weighable) int {
			return cmp.Or(untold(b.Row(x.ID))-untold(b.Row(y.ID)), cmp.Compare(vague[y.ID], vague[x.ID]),
				cmp.Compare(y.Grams, x.Grams))
		})
	}
	return kinds
}

// untold counts what nobody has said of a plant: of one whose form is a guess a weight
// says little about others.
func untold(row *model.Row) int {
	n := 0
	for _, unsaid := range []bool{row.Form == "", row.Leaf == "", row.Size == 0} {
		if unsaid {
			n++
		}
	}
	return n
}

// ToWeigh reports whether what a plant weighs says how such plants do: one plant, at home,
// sound and no newcomer, whose last soak is known. In bloom it spends water on the
// flower, a tank's cup is weighed with it, a hanging mass drips for hours.
func ToWeigh(b *model.Book, row *model.Row, now time.Time) bool {
	return row.State == model.AtHome && row.Count <= 1 && row.Form != model.Pendent && row.Form != model.Tank &&
		!row.LastSoak().IsZero() && !row.MistOnly &&
		row.Bloom.IsZero() && row.Rot.IsZero() && row.Fading.IsZero() && len(row.Troubles) == 0 &&
		b.Health(row, now) == model.Sound && !healing(row, b.Rules(), now)
}
