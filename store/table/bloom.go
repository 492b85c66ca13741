package table

import (
	"strings"

	"tubside/model"
)

// bloom is what a cell says of a plant's bloom.
type bloom uint8

// A bloom may be told by yes and no alone, or by its stage.
const (
	bloomUnsaid bloom = iota
	bloomNo
	bloomYes
	bloomBud
	bloomOpen
	bloomSpent
)

// bloomCells are what is written for a bloom; "" is never written.
var bloomCells = [...]string{"", "no", "yes", "bud", "open", "spent"}

// bloomWords are the words for a bloom beside yes and no: see [answers].
var bloomWords = map[string]bloom{
	"bloom": bloomYes, "blooming": bloomYes, "in bloom": bloomYes, "flower": bloomYes, "flowering": bloomYes,
	"in flower": bloomYes,
	"bud":       bloomBud, "in bud": bloomBud, "budding": bloomBud, "spike": bloomBud, "in spike": bloomBud,
	"open": bloomOpen, "spent": bloomSpent, "faded": bloomSpent,
}

func readBloom(cell string) (bloom, error) {
	switch answers[strings.ToLower(cell)] {
	case yes:
		return bloomYes, nil
	case no:
		return bloomNo, nil
	}
	said, ok := bloomWords[strings.ToLower(cell)]
	if !ok {
		return bloomUnsaid, &model.Problem{
			What: quote(cell) + " is neither yes nor no",
			Do:   "write yes while the plant is in bloom, or bud, open or spent, else no",
		}
	}
	return said, nil
}

// bloomOf is what the book says of a plant's bloom.
func bloomOf(r *model.Row) bloom {
	switch {
	case r.Stage == model.Spent:
		return bloomSpent
	case r.Bloom.IsZero():
		return bloomNo
	case r.Stage == model.Bud:
		return bloomBud
	case r.Stage == model.Open:
		return bloomOpen
	}
	return bloomYes
}

func (b bloom) blooms() bool { return b == bloomYes || b == bloomBud || b == bloomOpen }

// changes reports whether what a file says of a bloom is news to the book. Yes
// and no say less than a stage, and do not take it back.
func (b bloom) changes(was bloom) bool {
	switch b {
	case bloomUnsaid:
		return false
	case bloomYes, bloomNo:
		return b.blooms() != was.blooms()
	}
	return b != was
}

// bloom notes what the file says of a plant's bloom.
func (p *planner) bloom(id model.ID, was, is bloom) {
	switch {
	case is.blooms() && !was.blooms():
		p.sum.BloomOn++
	case was.blooms() && !is.blooms():
		p.sum.BloomOff++
	}
	switch is {
	case bloomYes:
		p.fact.BloomOn = append(p.fact.BloomOn, id)
	case bloomNo:
		p.fact.BloomOff = append(p.fact.BloomOff, id)
	default:
		if p.fact.Stages == nil {
			p.fact.Stages = map[model.Stage]model.IDs{}
		}
		stage := model.Stage(bloomCells[is])
		p.fact.Stages[stage] = append(p.fact.Stages[stage], id)
	}
}
