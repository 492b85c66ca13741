package snapshot_test

import (
	"bytes"
	"encoding/gob"
	"fmt"
	"math"
	"testing"
	"time"

	"tubside/model/snapshot"
)

// kept is of the size and make of what is kept of one, without what gob cannot carry: pointers that are met twice and
// fields that are not exported.
type kept struct {
	Full           [2][61]float64
	Since, Dry     time.Time
	Shelf          string
	Evidence, Seen [][61]float64
	Message        [][61]float64
	Marks          [61]float64
}

func manyKept(n int) []kept {
	all := make([]kept, n)
	for i := range all {
		p := &all[i]
		p.Since, p.Dry, p.Shelf = time.Unix(int64(i)*9999, 0), time.Unix(int64(i)*8888, 0), fmt.Sprint("Shelf ", i%12)
		for _, rows := range []*[][61]float64{&p.Evidence, &p.Seen, &p.Message} {
			*rows = make([][61]float64, 7)
			for r := range *rows {
				for j := range (*rows)[r] {
					(*rows)[r][j] = math.Exp(-float64(i+r+j) / 7)
				}
			}
		}
		for j := range p.Marks {
			p.Marks[j], p.Full[0][j], p.Full[1][j] = -math.Sqrt(float64(i+j)), 1/float64(j+2), 1/float64(j+3)
		}
	}
	return all
}

// What is written and read back at each start, beside the library's own encoding.
func BenchmarkBesideGob(b *testing.B) {
	for _, n := range []int{640, 5000} {
		all := manyKept(n)
		ways := map[string]func(*bytes.Buffer, *[]kept) error{
			"snapshot": func(to *bytes.Buffer, back *[]kept) error {
				if err := snapshot.Write(to, &all); err != nil {
					return err
				}
				return snapshot.Read(to, back)
			},
			"gob": func(to *bytes.Buffer, back *[]kept) error {
				if err := gob.NewEncoder(to).Encode(&all); err != nil {
					return err
				}
				return gob.NewDecoder(to).Decode(back)
			},
		}
		for _, way := range []string{"snapshot", "gob"} {
			b.Run(fmt.Sprintf("%d/%s", n, way), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					var to bytes.Buffer
					var back []kept
					if err := ways[way](&to, &back); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
