package store_test

import (
	"fmt"
	"testing"
	"time"

	"tubside/model"
)

// yearsOf fills a book with 640 plants and n entries of soak days: a third of
// the entries are signs, the rest loads of 20 through their day.
func yearsOf(b testing.TB, n int) *book {
	bk := mustOpen(b)
	entries := make([]model.Entry, 0, n)
	var plants []model.Plant
	for id := model.ID(1); id <= 640; id++ {
		p := ionantha(id)
		p.Label, p.Home.Spot = fmt.Sprintf("A%d", id), id.String()
		plants = append(plants, p)
	}
	entries = append(entries, model.NewEntry(sunday, &model.Add{Plants: plants}))
	for round := 0; len(entries) < n; round++ {
		at := sunday.Add(time.Duration(round) * 5 * time.Hour)
		ids := make(model.IDs, 20)
		for i := range ids {
			ids[i] = plants[(round*20+i)%640].ID
		}
		for _, f := range []model.Fact{
			&model.Look{Signs: model.Signs{Curl: 1, Tips: 0, Shift: 2}},
			&model.Soak{Load: model.LoadID(round + 1), Vessel: "tub", Due: at.Add(2 * time.Hour)},
			&model.Out{Shaken: true}, &model.FoundDry{}, &model.Hung{}, &model.Look{Signs: model.LooksFine},
		} {
			at = at.Add(30 * time.Minute)
			entries = append(entries, model.NewEntry(at, f, ids...))
		}
	}
	if _, err := bk.AppendAll(entries, nil); err != nil {
		b.Fatal(err)
	}
	return bk
}

func BenchmarkOpen(b *testing.B) {
	for _, n := range []int{0, 1000, 5000, 20000, 100000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			bk := yearsOf(b, n)
			bk.mustClose()
			b.ReportAllocs()
			for b.Loop() {
				bk.open()
				bk.mustClose()
			}
			bk.open()
		})
	}
}

func BenchmarkReplay(b *testing.B) {
	for _, n := range []int{20000, 100000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			entries := yearsOf(b, n).Book().Entries()
			for b.Loop() {
				if _, err := model.Replay(entries, time.UTC); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkAppend(b *testing.B) {
	for _, n := range []int{0, 20000} {
		bk := yearsOf(b, n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				bk.must(sunday, &model.Mist{}, 1)
			}
		})
	}
}

func BenchmarkStrike(b *testing.B) {
	bk := yearsOf(b, 20000)
	for b.Loop() {
		e := bk.must(sunday, &model.Mist{}, 1)
		bk.must(sunday, &model.Strike{Seq: e.Seq})
	}
}

func BenchmarkBackup(b *testing.B) {
	bk := yearsOf(b, 20000)
	path := b.TempDir() + "/copy"
	for b.Loop() {
		if err := bk.Backup(path); err != nil {
			b.Fatal(err)
		}
	}
}
