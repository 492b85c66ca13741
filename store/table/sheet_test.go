package table_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"golang.org/x/text/encoding/charmap"

	"tubside/model"
	"tubside/store/table"
)

// messy builds a spreadsheet of n plants with everything that spreadsheets have
// that can still be understood: a title, blank lines, repeated headers, odd
// headers in odd order, footers of empty cells, mixed sizes, counts and dates,
// quoted line breaks, stray quotes, non-breaking spaces.
func messy(n int) string {
	r := rand.New(rand.NewPCG(5, 6))
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	head := "LAST SOAKED;Plant ;Price;species;Rack; hook ;Qty.;Size (cm);Bought on;In bloom?;Remarks;\r\n"
	var b strings.Builder
	b.WriteString("My air plants;;;;;;;;;;;\r\n;;;;;;;;;;;\r\n" + head)
	for i := range n {
		if i > 0 && i%100 == 0 {
			b.WriteString(";;;;;;;;;;;\r\n" + head)
		}
		fmt.Fprintf(&b, "%s;A%d;%s;%s;%s;%d;%s;%s;%s;%s;%s;\r\n",
			pick("", "22.2.2026", "2026-02-22", "22/02/26", "22. 2. 2026"), i+1, pick("", "3,50 €", "n/a"),
			pick("T. ionantha", "Tillandsia\u00a0stricta", "xerographica", "T. ionantha \"Fuego\"",
				"T. caput-medusae ", "zebra"),
			pick("A", "B", "C"), i+1, pick("", "1", "x3", "3 pcs", "12.0"),
			pick("", "?", "12", "12,5", "10-12 cm", `"4"""`, "120 mm"),
			pick("", "1.9.2024", "-", "2024-09-01 00:00:00"), pick("", "no", "Yes", "x", "In bloom"),
			pick("", "from the fair", "\"two\r\nlines\"", `"said ""soft"""`, "=see tag", "half price"))
	}
	return b.String() + strings.Repeat(";;;;;;;;;;;\r\n", 40)
}

func TestASpreadsheetOf600PlantsWithAllItsFaults(t *testing.T) {
	file, err := charmap.Windows1252.NewEncoder().String(messy(600))
	if err != nil {
		t.Fatal(err)
	}
	read := func() table.Sheet {
		s, err := table.Read(strings.NewReader(file), table.ReadOptions{Dates: model.DMY})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	b := newBook()
	imp, sum, err := table.Plan(b, read(), sunday)
	if err != nil {
		t.Fatal(err)
	}
	expect(t, "first", sum, counts{added: 600})
	if fmt.Sprint(sum.Ignored) != "[Price]" || fmt.Sprint(sum.Unknown) != "[zebra]" || len(sum.Warnings) != 0 {
		t.Errorf("ignored %q, unknown %q, warnings %q", sum.Ignored, sum.Unknown, sum.Warnings)
	}
	for i, p := range imp.Added {
		if p.Label != fmt.Sprintf("A%d", i+1) || p.Home.Spot != fmt.Sprint(i+1) || p.Name == "" ||
			p.SoakedOn != 0 && p.SoakedOn != day("2026-02-22") || p.Acquired != 0 && p.Acquired != day("2024-09-01") {
			t.Fatalf("row %d: %+v", i, p)
		}
	}
	tell(t, b, imp)
	_, sum, err = table.Plan(b, read(), sunday)
	if err != nil {
		t.Fatal(err)
	}
	expect(t, "again", sum, counts{unchanged: 600})

	// One bad cell, and nothing is taken.
	bad := strings.Replace(file, ";A300;", ";A300;;;;;many;;;;;\r\n;A300b;", 1)
	_, err = table.Read(strings.NewReader(bad), table.ReadOptions{Dates: model.DMY})
	if faults, ok := errors.AsType[table.Faults](err); !ok || len(faults) != 1 || faults[0].Field != "Qty." {
		t.Errorf("one bad cell: %v", err)
	}
}

// A file of 10,000 rows is to be read and planned in under 2 s.
func BenchmarkImport10000(b *testing.B) {
	file := messy(10000)
	for b.Loop() {
		s, err := table.Read(strings.NewReader(file), table.ReadOptions{Dates: model.DMY})
		if err != nil {
			b.Fatal(err)
		}
		if _, _, err := table.Plan(newBook(), s, sunday); err != nil {
			b.Fatal(err)
		}
	}
}

// The same file a second time meets 10,000 plants in the book.
func BenchmarkImport10000Again(b *testing.B) {
	file := messy(10000)
	book := newBook()
	for n := 0; b.Loop(); n++ {
		s, err := table.Read(strings.NewReader(file), table.ReadOptions{Dates: model.DMY})
		if err != nil {
			b.Fatal(err)
		}
		imp, sum, err := table.Plan(book, s, sunday)
		if err != nil {
			b.Fatal(err)
		}
		if sum.Changes() {
			if n > 0 {
				b.Fatal("the second time changed something")
			}
			tell(b, book, imp)
		}
	}
}
