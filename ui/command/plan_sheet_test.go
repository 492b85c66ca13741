package command

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/store"
	"tubside/ui/paper"
)

// The sheet's lists add up to the number under its title, its loads' titles and its
// steps, and every plant that is out has an hour to hang back, with its name at that
// hour, or is for tomorrow morning.
func TestTheSheetsCountsAddUp(t *testing.T) {
	for _, scene := range []string{"homecoming", "soakday", "bench"} {
		t.Run(scene, func(t *testing.T) {
			b, p := demoPlan(t, scene)
			s := soakSheet(b, p, "")
			listed, hang, named, tomorrow := 0, map[string]int{}, map[string]int{}, 0
			for _, section := range s.Sections {
				rows := 0
				for _, block := range section.Blocks {
					table, ok := block.(*paper.Table)
					if !ok {
						continue
					}
					rows += len(table.Rows)
					back := slices.IndexFunc(table.Columns, func(c paper.Column) bool { return c.Head == "hang back" })
					for _, row := range table.Rows {
						switch {
						case back < 0:
						case row[back] == "tomorrow":
							tomorrow++
						default:
							hang[row[back]]++
						}
					}
				}
				if strings.HasPrefix(section.Title, "Load ") {
					listed += rows
					if want := fmt.Sprintf(": %d plant", rows); !strings.Contains(section.Title, want) {
						t.Errorf("%q lists %d plants", section.Title, rows)
					}
				}
				if at, ok := strings.CutPrefix(section.Title, "Hang back at "); ok {
					named[at[:len("15:04")]] += rows
				}
			}
			if want := fmt.Sprintf("%d plants in %d loads", listed, len(p.Loads)); !strings.HasPrefix(s.Under[0], want) {
				t.Errorf("the lists have %s, under the title stands %q", want, s.Under[0])
			}
			if tomorrow != len(p.Morning) {
				t.Errorf("%d are listed for tomorrow, the plan says %d", tomorrow, len(p.Morning))
			}
			if fmt.Sprint(hang) != fmt.Sprint(named) {
				t.Errorf("hung by the lists of the loads: %v, by name: %v", hang, named)
			}
			if scene == "homecoming" && len(named) == 0 {
				t.Error("nobody hangs back in the day: it does not show the names")
			}
		})
	}
}

// demoPlan plans the soak day of a scene of the demo, as the shell does.
func demoPlan(t *testing.T, scene string) (*model.Book, *day.Plan) {
	t.Helper()
	s, err := store.Open(demoBook(t, scene), store.Options{Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	p, err := day.NewPlan(context.Background(), estimate.New(s.Book()), noon, day.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	return s.Book(), p
}
