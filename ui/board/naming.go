package board

import (
	"tubside/model"
	"tubside/ui/show"
)

// naming is how the plants of a list are named: by where they hang too, and by their
// number where two of one name hang in one place; and how wide the longest of them are.
type naming struct {
	twins      map[model.ID]bool
	name, home int
}

// namingOf looks at all names of a list, once for each time it is built.
func (d *desk) namingOf(ids model.IDs) naming {
	n := naming{twins: map[model.ID]bool{}}
	first := make(map[[2]string]model.ID, len(ids))
	for _, id := range ids {
		r := d.book.Row(id)
		key := [2]string{r.Title(), hangs(r)}
		if other, ok := first[key]; ok {
			n.twins[id], n.twins[other] = true, true
		} else {
			first[key] = id
		}
	}
	for _, id := range ids {
		r := d.book.Row(id)
		n.name, n.home = max(n.name, show.Width(n.of(r))), max(n.home, show.Width(hangs(r)))
	}
	return n
}

// of is a plant's name in the list.
func (n naming) of(r *model.Row) string {
	if n.twins[r.ID] {
		return show.Title(r.Plant) + " #" + r.ID.String()
	}
	return show.Title(r.Plant)
}

// leastHome is the least share of the room that a home has, where not all names and homes
// can be whole. A choice.
const leastHome = 0.4

// columns shares out the room between names and homes: no wider than the longest, and
// both whole where they can be.
func (n naming) columns(room int) (name, home int) {
	if n.name+n.home <= room {
		return n.name, n.home
	}
	home = min(n.home, max(room-n.name, int(leastHome*float64(room))))
	return room - home, home
}

// hangs is where a plant hangs, or its number: two of one name are told apart.
func hangs(r *model.Row) string {
	if home := show.Safe(r.Home.String()); home != "" {
		return home
	}
	return "#" + r.ID.String()
}
