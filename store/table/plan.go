package table

import (
	"fmt"
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/species"
)

// Summary counts what an import would do, in plants (rows).
type Summary struct {
	Rows      int // in the file
	Added     int
	Changed   int // of those in the book, bloom and health included
	Unchanged int
	Gone      int // rows of plants that the file itself says are gone; left out
	BloomOn   int
	BloomOff  int
	RotOn     int
	RotOff    int
	Troubles  int // plants whose list of troubles changes
	Offsets   int // plants whose offsets change
	FadingOn  int
	FadingOff int
	// How many of the added and changed rows have a form, leaf or size that the
	// species list filled in.
	AssumedForm, AssumedLeaf, AssumedSize int

	Unknown  []string // names that are not on the species list, of plants whose form, leaf or size nobody gave
	Ignored  []string // headers of columns that mean nothing to us
	Unused   []string // the same, each with the header that would do, if one is near
	Warnings []string // what would be done but looks odd
	Left     Faults   // cells taken for empty, for they could not be read
	Out      Faults   // lines of which no plant is taken
	Sums     Faults   // lines of which a plant is taken that look like a sum
	NoSoak   Faults   // plants whose note says not to soak them: mist only, where that was asked for
}

// Changes reports whether the import would change anything.
func (s Summary) Changes() bool { return s.Added+s.Changed > 0 }

// Plan says what a sheet would do to a book, as one entry's fact to append. The
// book is not changed. When nothing changes the fact is empty, and the book would
// refuse it: see [Summary.Changes]. now is only used to warn of days to come.
// What the book cannot take comes back as [Faults] or as a [model.Problem].
func Plan(b *model.Book, s Sheet, now time.Time) (*model.Import, Summary, error) {
	p := &planner{book: b, sheet: s, today: date.NewAt(now.In(b.Zone())), fact: &model.Import{},
		lines: map[model.ID]int{}}
	p.sum = Summary{Rows: len(s.rows), Ignored: s.Ignored, Unused: s.Unused, Warnings: slices.Clone(s.Warnings), Left: s.Left, Out: s.Out, Sums: s.Sums}
	rows := p.present(s.rows)
	found, faults := match(b, rows)
	if err := faults.OrNil(); err != nil {
		return nil, p.sum, err
	}
	if err := p.number(rows, found); err != nil {
		return nil, p.sum, err
	}
	for i, r := range rows {
		if found[i] == nil {
			p.add(r)
		} else {
			p.change(found[i], r)
		}
	}
	p.warnOfSharedHomes()
	if !p.sum.Changes() {
		return p.fact, p.sum, nil
	}
	return p.fact, p.sum, b.Check(model.NewEntry(now, p.fact))
}

type planner struct {
	book  *model.Book
	sheet Sheet
	today date.Date
	fact  *model.Import
	sum   Summary
	lines map[model.ID]int // the line of each plant of the file
}

// present leaves out the rows of plants that are gone.
func (p *planner) present(rows []row) []row {
	kept := make([]row, 0, len(rows))
	for _, r := range rows {
		if !r.gone {
			kept = append(kept, r)
		}
	}
	p.sum.Gone = len(rows) - len(kept)
	return kept
}

// number gives the new plants without one the lowest numbers never used that
// the file does not use either.
func (p *planner) number(rows []row, found []*model.Row) error {
	used := map[model.ID]bool{}
	for _, r := range rows {
		used[r.ID], used[r.Mother] = true, true
	}
	next := p.book.NextID()
	for i := range rows {
		if rows[i].numbered || found[i] != nil {
			continue
		}
		for used[next] {
			next++
		}
		rows[i].ID = next
		next++
	}
	if next-1 > model.MaxID {
		return &model.Problem{
			What: fmt.Sprintf("the plants would be numbered past %d", model.MaxID),
			Do:   "use smaller numbers in the file",
		}
	}
	return nil
}

func (p *planner) add(r row) {
	plant := p.sheet.fresh(r)
	p.mistOnly(&plant, model.Plant{}, r)
	p.sum.Added++
	p.fact.Added = append(p.fact.Added, plant)
	if r.bloom.changes(bloomNo) {
		p.bloom(plant.ID, bloomNo, r.bloom)
	}
	p.health(plant.ID, &model.Row{}, r.health)
	p.count(plant)
	p.warnOfDays(r)
	p.lines[plant.ID] = r.line
}

func (p *planner) change(old *model.Row, r row) {
	plant := p.sheet.merged(old, r, p.book.Zone())
	p.mistOnly(&plant, old.Plant, r)
	was := bloomOf(old)
	bloomed := r.bloom.changes(was)
	if plant != old.Plant {
		p.fact.Changed = append(p.fact.Changed, plant)
		p.count(plant)
	}
	if bloomed {
		p.bloom(plant.ID, was, r.bloom)
	}
	ails := p.health(plant.ID, old, r.health)
	if plant != old.Plant || bloomed || ails {
		p.sum.Changed++
	} else {
		p.sum.Unchanged++
	}
	p.warnOfRename(old, plant, r)
	p.warnOfEarlierSoak(old, r)
	p.warnOfDays(r)
	p.lines[plant.ID] = r.line
}

// count counts what is assumed of a plant, and what nobody knows.
func (p *planner) count(plant model.Plant) {
	for _, c := range []struct {
		is bool
		n  *int
	}{
		{plant.Assumed.Form, &p.sum.AssumedForm},
		{plant.Assumed.Leaf, &p.sum.AssumedLeaf},
		{plant.Assumed.Size, &p.sum.AssumedSize},
	} {
		if c.is {
			*c.n++
		}
	}
	unsure := plant.Form == "" || plant.Leaf == "" || plant.Size == 0 || plant.Assumed != model.Assumed{}
	if _, listed := species.Find(plant.Name); unsure && !listed && plant.Name != "" && !slices.Contains(p.sum.Unknown, plant.Name) {
		p.sum.Unknown = append(p.sum.Unknown, plant.Name)
	}
}
