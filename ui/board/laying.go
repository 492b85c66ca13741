package board

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// layElsewhere moves the chosen plants to the other drying place; where there is not
// just one, it asks which.
func (s *dryScreen) layElsewhere() {
	ids := s.rows.chosen()
	from := s.lies(ids[0])
	others := slices.DeleteFunc(slices.Clone(s.desk.book.Benches()), func(b model.Bench) bool { return b.Name == from })
	if len(others) == 1 {
		s.lay(others[0].Name, ids)
		return
	}
	s.desk.push(layForm(s, ids, others))
}

// lay writes where plants lie now.
func (s *dryScreen) lay(bench string, ids model.IDs) {
	if s.desk.enter(&model.Laid{Bench: bench}, ids...) {
		s.rows.unmark()
		s.build()
	}
}

// layForm asks where plants are laid. A place that is not in the book yet comes into it.
func layForm(s *dryScreen, ids model.IDs, others []model.Bench) *form {
	first, names := "", make([]string, len(others))
	for i, b := range others {
		names[i] = b.Name
	}
	if len(names) > 0 {
		first = names[0]
	}
	need := 0.0
	for _, id := range ids {
		need += estimate.BenchRoom(s.desk.book.Row(id).Plant)
	}
	need = math.Ceil(10*need) / 10
	return newForm(s.desk, "Lay "+show.Plants(ids, s.desk.book)+" elsewhere", func(f *form) error {
		name := strings.TrimSpace(f.text(0))
		if name == "" {
			return wrong(0, errors.New("name the place"))
		}
		if _, known := s.desk.book.Bench(name); !known {
			room, err := show.ParseQuantity(f.text(1), "m²")
			if err != nil {
				return wrong(1, err)
			}
			if err := s.desk.write(&model.BenchSet{Bench: model.Bench{Name: name, Room: room}}); err != nil {
				return err
			}
		}
		s.lay(name, ids)
		return nil
	},
		newField("place", first, "rack, towels, tray 2: a new name makes a new place").offering(names...),
		newField("room", strconv.FormatFloat(need, 'f', 1, 64), "m² to lay plants on; only for a new place"))
}
