package table

import (
	"fmt"

	"tubside/model"
)

// Which row of a file is which plant of the book:
//
//  1. A row with a number is the plant of that number; if the book has none,
//     it is a new plant with that number.
//  2. A row without one is a plant with the same label, name and home, if there
//     is one that no other row has taken. Alike rows take alike plants in turn,
//     the lowest number first: of five equal rows and three equal plants, two
//     rows are new. So the same file imported twice adds nothing.
//  3. A row still without a plant, whose label is the only one of its kind among
//     such rows, is the plant with that label, if there is just one such left.
//  4. Any other row is a new plant.
//
// Plants that are gone match nothing.

// likeness is what makes a row and a plant alike.
type likeness struct{ label, name, shelf, spot string }

func likenessOf(p model.Plant) likeness {
	return likeness{
		plainText(p.Label, false), plainText(p.Name, false),
		plainText(p.Home.Shelf, false), plainText(p.Home.Spot, false),
	}
}

// match gives for every row the plant it is, or nil for a new one. A row with
// the number of a plant that is gone is a fault.
func match(b *model.Book, rows []row) ([]*model.Row, Faults) {
	m := matcher{book: b, rows: rows, found: make([]*model.Row, len(rows)), taken: map[model.ID]bool{}}
	m.byNumber()
	m.byLikeness()
	m.byLabel()
	return m.found, m.faults
}

type matcher struct {
	book   *model.Book
	rows   []row
	found  []*model.Row
	taken  map[model.ID]bool
	faults Faults
}

func (m *matcher) take(i int, r *model.Row) {
	m.found[i], m.taken[r.ID] = r, true
}

func (m *matcher) byNumber() {
	for i, r := range m.rows {
		known := m.book.Row(r.ID)
		switch {
		case known == nil:
		case known.State == model.Gone:
			m.faults.Add(Fault{
				Line: r.line, Field: columns[fieldID],
				Text: fmt.Sprintf("plant %d (%s) has been gone since %s", r.ID, known.Title(),
					known.Since.In(m.book.Zone()).Format(model.DayLayout)),
				Do: "leave the number empty to bring in a new plant",
			})
		default:
			m.take(i, known)
		}
	}
}

// open reports whether row i still looks for a plant.
func (m *matcher) open(i int) bool { return m.rows[i].ID == 0 && m.found[i] == nil }

// free lists the plants that no row has taken, by number.
func (m *matcher) free() []*model.Row {
	var free []*model.Row
	for _, id := range m.book.IDs() {
		if r := m.book.Row(id); r.State != model.Gone && !m.taken[id] {
			free = append(free, r)
		}
	}
	return free
}

func (m *matcher) byLikeness() {
	waiting := map[likeness][]*model.Row{}
	for _, p := range m.free() {
		l := likenessOf(p.Plant)
		waiting[l] = append(waiting[l], p)
	}
	for i := range m.rows {
		l := likenessOf(m.rows[i].Plant)
		if queue := waiting[l]; m.open(i) && len(queue) > 0 {
			m.take(i, queue[0])
			waiting[l] = queue[1:]
		}
	}
}

func (m *matcher) byLabel() {
	rowsWith, plantsWith := map[string][]int{}, map[string][]*model.Row{}
	for i, r := range m.rows {
		if m.open(i) && r.Label != "" {
			rowsWith[r.Label] = append(rowsWith[r.Label], i)
		}
	}
	for _, p := range m.free() {
		l := plainText(p.Label, false)
		plantsWith[l] = append(plantsWith[l], p)
	}
	for label, rows := range rowsWith {
		if plants := plantsWith[label]; len(rows) == 1 && len(plants) == 1 {
			m.take(rows[0], plants[0])
		}
	}
}
