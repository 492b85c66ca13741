package paper

import (
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/ui/show"
)

// The sheets to walk with: triage, what may be dry, and where things hang.

// boxes are columns to write or tick in.
func boxes(heads ...string) (columns []Column) {
	for _, head := range heads {
		columns = append(columns, Column{Head: head, Box: true})
	}
	return columns
}

// TriageSheet is the plants named in walking order, with what each is expected to
// need and boxes for what is seen. A shelf is a section, and a page of its own
// where that is asked. It is keyed in afterwards in the same order.
func TriageSheet(b *model.Book, o *advice.Outlook, ids model.IDs, pages bool) *Sheet {
	s := &Sheet{
		Title: "Triage", Under: []string{o.At.In(b.Zone()).Format("Monday 2 January 2006") + ", " +
			show.Count(len(ids), "plant")},
		Foot: "Nothing counts before it is keyed in: K on Triage goes through the plants in this order, from where it " +
			"was left. It asks for the first box of the sheet, which is bloom. Each line is keyed in from left to right: b " +
			"and ! for a tick; curl and tips; 6, 7, 8 and 9 for a shift of 0, 1, 2 and 3; p for a tick.",
	}
	s.Add("", Points{
		"curl: 0 flat, 1 edges lifting, 2 deep channel, 3 rolled shut",
		"tips: brown new tips, 0 none, 1 a few, 2 many, 3 most",
		"shift: colour when a drop wets the leaf, 0 already dark, 1 slow or patchy, 2 quick and full, 3 stays pale",
	})
	for i, shelf := range byShelf(b, ids) {
		t := &Table{Columns: slices.Concat([]Column{
			{Head: "no.", Right: true}, {Head: "plant", Least: 10}, {Head: "spot", Least: 4}, {Head: "expect"},
		}, boxes("bloom", "rot", "curl", "tips", "shift", "pull"))}
		for _, id := range shelf.ids {
			row, expect := b.Row(id), ""
			if n := o.Need(id); n != nil {
				expect = n.Band.String()
			}
			if row.State != model.AtHome {
				expect = show.State(row, b)
			}
			t.Add(id.String(), row.Title(), row.Home.Spot, expect, "", "", "", "", "", "")
		}
		s.Sections = append(s.Sections, Section{Title: shelf.name, Blocks: []Block{t}, NewPage: pages && i > 0})
	}
	return s
}

// shelf is plants that hang together, in walking order.
type shelf struct {
	name string
	ids  model.IDs
}

// byShelf groups plants by their shelf, as the grower walks past them.
func byShelf(b *model.Book, ids model.IDs) (all []shelf) {
	for _, id := range b.Walk(ids) {
		name := show.Home(model.Home{Shelf: b.Row(id).Home.Shelf})
		if len(all) == 0 || all[len(all)-1].name != name {
			all = append(all, shelf{name: name})
		}
		all[len(all)-1].ids = append(all[len(all)-1].ids, id)
	}
	return all
}

// RehangSheet is what is dry and waits to be hung, shelf by shelf.
func RehangSheet(b *model.Book, now time.Time) *Sheet {
	ids := inState(b, model.Dry)
	s := &Sheet{
		Title: "To hang back", Under: []string{moment(b, now) + ", " + show.Count(len(ids), "plant")},
		Foot: "Look into the middle once more with a light: where water shines, it goes back to dry.",
	}
	if len(ids) == 0 {
		s.Add("", Words("Nothing is dry and waiting."))
	}
	for _, shelf := range byShelf(b, ids) {
		t := &Table{Tick: true, Columns: []Column{{Head: "spot", Least: 4}, {Head: "no.", Right: true},
			{Head: "plant", Least: 12}, {Head: "dry since"}}}
		for _, id := range shelf.ids {
			row := b.Row(id)
			t.Add(row.Home.Spot, id.String(), row.Title(), show.Clock(row.DryAt, now, b.Zone()))
		}
		s.Add(shelf.name, t)
	}
	return s
}

// CheckSheet is what is probably dry and nobody has felt yet, and what is still
// to come, the earliest first.
func CheckSheet(b *model.Book, o *advice.Outlook) *Sheet {
	var ready, later []advice.Drying
	for _, d := range o.Drying {
		switch {
		case b.Row(d.ID).State != model.Drying:
		case d.Expected.After(o.At):
			later = append(later, d)
		default:
			ready = append(ready, d)
		}
	}
	s := &Sheet{
		Title: "Ready to check", Under: []string{moment(b, o.At) + ", " + show.Count(len(ready), "plant")},
		Foot: "Probably dry is not dry: look into the middle with a light. Damp at the heart goes back on the rack, upside down.",
	}
	if len(ready) == 0 {
		s.Add("", Words("Nothing should be dry yet."))
	} else {
		s.Add("", dryTable(b, o.At, ready, boxes("dry", "damp")))
	}
	if len(later) > 0 {
		s.Add("Later", dryTable(b, o.At, later, boxes("dry", "damp")))
	}
	return s
}

func dryTable(b *model.Book, now time.Time, some []advice.Drying, marks []Column) *Table {
	slices.SortStableFunc(some, func(x, y advice.Drying) int { return x.Expected.Compare(y.Expected) })
	t := &Table{Columns: slices.Concat([]Column{
		{Head: "no.", Right: true}, {Head: "plant", Least: 10}, {Head: "home", Least: 6}, {Head: "out"},
		{Head: "dry at"},
	}, marks)}
	for _, d := range some {
		row := b.Row(d.ID)
		t.Add(d.ID.String(), row.Title(), show.Home(row.Home), show.Clock(d.OutAt, now, b.Zone()),
			fmt.Sprintf("%s–%s", show.Clock(d.Low, now, b.Zone()), show.Clock(d.High, now, b.Zone())), "", "")
	}
	return t
}

// inState lists the plants in a state.
func inState(b *model.Book, state model.State) (ids model.IDs) {
	for _, id := range b.IDs() {
		if b.Row(id).State == state {
			ids = append(ids, id)
		}
	}
	return ids
}

// moment is a day and an hour.
func moment(b *model.Book, t time.Time) string {
	return t.In(b.Zone()).Format("Monday 2 January 2006, 15:04")
}
