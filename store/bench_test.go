package store_test

import (
	"encoding/binary"
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
)

// yearsOf fills a book with 640 plants and n entries of soak days: a third of
// the entries are signs, the rest loads of 20 through their day.
func yearsOf(b testing.TB, n int) *book { return yearsOfMany(b, 640, n) }

func yearsOfMany(b testing.TB, count, n int) *book {
	bk := mustOpen(b)
	entries := make([]model.Entry, 0, n)
	var plants []model.Plant
	for id := model.ID(1); int(id) <= count; id++ {
		p := ionantha(id)
		p.Label, p.Home.Spot = fmt.Sprintf("A%d", id), id.String()
		plants = append(plants, p)
	}
	entries = append(entries, model.NewEntry(sunday, &model.Add{Plants: plants}))
	for round := 0; len(entries) < n; round++ {
		at := sunday.Add(time.Duration(round) * 5 * time.Hour)
		ids := make(model.IDs, 20)
		for i := range ids {
			ids[i] = plants[(round*20+i)%count].ID
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

// BenchmarkAppend writes an entry and, by turns, does a bare bbolt update of the
// same bytes in a file like it, so that a busy machine slows both. times-bare is
// the ratio of the medians: an entry is to cost at most 1.2 times the bare update.
func BenchmarkAppend(b *testing.B) {
	for _, n := range []int{0, 20000, 100000} {
		bk := yearsOf(b, n)
		path := filepath.Join(b.TempDir(), "bare")
		if err := bk.Backup(path); err != nil {
			b.Fatal(err)
		}
		db, err := bolt.Open(path, 0o600, nil)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			// As long as a mist and its checksum, at the end of all that is there.
			value, seq := make([]byte, 97), uint64(1<<40)
			var book, bare []time.Duration
			for b.Loop() {
				began := b.Elapsed()
				bk.must(sunday, &model.Mist{}, 1)
				between := b.Elapsed()
				err := db.Update(func(tx *bolt.Tx) error {
					seq++
					journal := tx.Bucket([]byte("journal"))
					journal.FillPercent = 0.95
					return journal.Put(binary.BigEndian.AppendUint64(nil, seq), value)
				})
				if err != nil {
					b.Fatal(err)
				}
				book, bare = append(book, between-began), append(bare, b.Elapsed()-between)
			}
			slices.Sort(book)
			slices.Sort(bare)
			b.ReportMetric(float64(book[len(book)/2].Microseconds()), "µs/entry")
			b.ReportMetric(float64(book[len(book)/2])/float64(bare[len(bare)/2]), "times-bare")
		})
		if err := db.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

// A strike of the newest entry, and of one written a soak day before.
func BenchmarkStrike(b *testing.B) {
	for _, size := range [][2]int{{640, 20000}, {640, 100000}, {5000, 100000}} {
		bk := yearsOfMany(b, size[0], size[1])
		for _, back := range []int{0, 300} {
			b.Run(fmt.Sprintf("plants=%d/entries=%d/back=%d", size[0], size[1], back), func(b *testing.B) {
				for b.Loop() {
					b.StopTimer()
					e := bk.must(sunday, &model.Mist{}, 1)
					for range back {
						bk.must(sunday, &model.Mist{}, 2)
					}
					b.StartTimer()
					bk.must(sunday, &model.Strike{Seq: e.Seq})
				}
			})
		}
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
