package day

import (
	"slices"

	"tubside/model"
)

// numberAnew gives the loads of a new plan their numbers: from 1, or from after those of the
// plan agreed before it that are out or in the water, which keep theirs.
func (p *Plan) numberAnew(b *model.Book, was *model.AgreedAt) {
	last := 0
	if was != nil {
		for _, l := range outOf(b, was) {
			last = max(last, l.Number)
		}
	}
	for i := range p.Loads {
		l := &p.Loads[i]
		if l.Number = 0; l.Load != 0 && was != nil {
			l.Number = numberIn(&was.Agreed, l.IDs())
			last = max(last, l.Number)
		}
	}
	p.numberRest(last)
}

// numberAsAgreed has each load keep the number it was agreed with. What went into the water
// beside the plan comes after all of them.
func (p *Plan) numberAsAgreed(a *model.Agreed) {
	for i := range p.Loads {
		p.Loads[i].Number = numberIn(a, p.Loads[i].IDs())
	}
	p.numberRest(a.LastNumber())
}

// numberRest numbers those that have none, on from the last number.
func (p *Plan) numberRest(last int) {
	for i := range p.Loads {
		if l := &p.Loads[i]; l.Number == 0 {
			last++
			l.Number = last
		}
	}
}

// numberIn is the number of the agreed load that some plants are of; 0 for none.
func numberIn(a *model.Agreed, ids model.IDs) int {
	for _, id := range ids {
		for n, l := range a.Loads {
			if slices.Contains(l.Plants, id) {
				return a.Number(n)
			}
		}
	}
	return 0
}

// Numbered is the plants of the load with a number, in the order they go in; none where no
// load of the plan has it.
func (p *Plan) Numbered(number int) (ids model.IDs) {
	for _, l := range p.Loads {
		if l.Number == number {
			ids = append(ids, l.IDs()...)
		}
	}
	return ids
}

// Gone is the numbers of the loads of which nothing is left in the plan: they wait for
// another day.
func (p *Plan) Gone() (numbers []int) {
	for _, l := range p.Left {
		if l.Load > 0 && len(p.Numbered(l.Load)) == 0 && !slices.Contains(numbers, l.Load) {
			numbers = append(numbers, l.Load)
		}
	}
	slices.Sort(numbers)
	return numbers
}
