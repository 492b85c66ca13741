//go:build unix

package terminal_test

import (
	"fmt"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

// atATime is how many plants a load of a lived book has, as loads of the demo
// have.
const atATime = 47

// lately is a moment after the last soak of a lived book.
var lately = time.Date(2026, 5, 4, 9, 0, 0, 0, time.UTC)

// lived writes a book of plants that were soaked once a week for some years.
func lived(b *testing.B, path string, plants, years int) {
	s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		b.Fatal(err)
	}
	entries := []model.Entry{model.NewEntry(firstWeek(years), &model.Add{Plants: rows(plants)})}
	for week := range 52 * years {
		entries = append(entries, soaked(firstWeek(years).AddDate(0, 0, 7*week+1), plants, week)...)
		if week%52 == 51 {
			if _, err := s.AppendAll(entries, nil); err != nil {
				b.Fatal(err)
			}
			entries = nil
		}
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
}

func firstWeek(years int) time.Time { return lately.AddDate(0, 0, -7*52*years-7) }

func rows(n int) []model.Plant {
	var rows []model.Plant
	for id := 1; id <= n; id++ {
		rows = append(rows, model.Plant{
			ID: model.ID(id), Label: fmt.Sprintf("P%d", id), Name: "ionantha", Form: model.Forms[id%len(model.Forms)],
			Leaf: model.Mesic, Size: 10, Count: 1, Home: model.Home{Shelf: fmt.Sprint("S", id/80), Spot: fmt.Sprint(id % 80)},
		})
	}
	return rows
}

// soaked is the entries of one week: the air read daily, and every plant looked
// at, soaked, found dry and hung, a few loads a day.
func soaked(monday time.Time, plants, week int) []model.Entry {
	var entries []model.Entry
	write := func(at time.Time, f model.Fact, ids ...model.ID) {
		entries = append(entries, model.NewEntry(at, f, ids...))
	}
	for day := range 7 {
		write(monday.AddDate(0, 0, day), &model.Reading{TempC: 20, RH: 40 + float64((week+day)%15)})
	}
	loads := (plants + atATime - 1) / atATime
	for n := range loads {
		var ids model.IDs
		for i := n * atATime; i < min((n+1)*atATime, plants); i++ {
			ids = append(ids, model.ID(i*7%plants+1)) // not as they are numbered
		}
		at := monday.AddDate(0, 0, n%5).Add(time.Duration(n/5) * 20 * time.Minute)
		write(at, &model.Pull{}, ids...)
		write(at, &model.Look{Signs: model.Signs{Curl: model.Grade(week % 3), Shift: 1}}, ids[:len(ids)/2+1]...)
		write(at, &model.Fill{Vessel: "tub", Of: []model.Source{model.Rain}})
		write(at, &model.Soak{Load: model.LoadID(week*loads + n + 1), Vessel: "tub", Due: at.Add(15 * time.Minute)},
			ids...)
		write(at.Add(15*time.Minute), &model.Out{Shaken: true}, ids...)
		write(at.Add(3*time.Hour), &model.FoundDry{}, ids[:len(ids)/2]...)
		write(at.Add(4*time.Hour), &model.FoundDry{}, ids[len(ids)/2:]...)
		write(at.Add(5*time.Hour), &model.Hung{}, ids...)
	}
	return entries
}
