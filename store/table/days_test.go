package table_test

import (
	"fmt"
	"strings"
	"testing"

	"tubside/model"
	"tubside/store/table"
)

// A column of days is read by the whole column.
func TestDaysAreReadByTheWholeColumn(t *testing.T) {
	for _, c := range []struct{ cells, want []string }{
		{[]string{"28.02.2026", "03.04.2026"}, []string{"2026-02-28", "2026-04-03"}},
		{[]string{"3/4/2026", "28/2/2026"}, []string{"2026-04-03", "2026-02-28"}},
		{[]string{"3/4/2026", "2/28/2026"}, []string{"2026-03-04", "2026-02-28"}},
		{[]string{"03.04.2026"}, []string{"2026-04-03"}},
		{[]string{"Jan 5, 2024", "February 29 2024", "5 Mar 2024", "1st Apr 2024", "5-May-24", "2. June 2024"},
			[]string{"2024-01-05", "2024-02-29", "2024-03-05", "2024-04-01", "2024-05-05", "2024-06-02"}},
		{[]string{"2026-01-31", "31/12/2025 00:00:00", ""}, []string{"2026-01-31", "2025-12-31", ""}},
	} {
		b := newBook()
		bring(t, b, "label,acquired\n"+rowsOf(c.cells))
		for i, want := range c.want {
			if got := b.Row(model.ID(i + 1)).Acquired; want != "" && got.String() != want {
				t.Errorf("%q: %s, want %s", c.cells[i], got, want)
			}
		}
	}
}

// A column that does not tell is written as the other is, where that one tells; where
// the others do not agree it is not guessed.
func TestOneHandWritesItsDaysOneWay(t *testing.T) {
	b := newBook()
	bring(t, b, "label,acquired,last soaked\nA1,11/21/2025,1/3/2026\nA2,,1/4/2026\n")
	if day := b.Row(2).SoakedOn.String(); day != "2026-01-04" {
		t.Errorf("soaked on %s, want 2026-01-04", day)
	}
	torn := "label,acquired,last soaked,last fed\nA1,11/21/2025,1/3/2026,21/11/2025\n"
	if got := faultsOf(t, torn); !strings.Contains(got, "say which comes first") {
		t.Errorf("guessed: %s", got)
	}
}

// What a column does not tell is not guessed.
func TestDaysThatCouldBeEitherAreRefused(t *testing.T) {
	for file, want := range map[string]string{
		"label,acquired\n" + rowsOf([]string{"3/4/2026"}):               `line 2, acquired: "3/4/2026" could be day first or month first; say which comes first, day or month`,
		"label,acquired\n" + rowsOf([]string{"28/2/2026", "2/27/2026"}): `line 2, acquired: "28/2/2026" is not written as the others; write the column one way, as 2026-01-31`,
	} {
		if got, _, _ := strings.Cut(faultsOf(t, file), "\n"); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
}

// On request cells that cannot be read are taken for empty, and each is named;
// what makes a line no plant is refused all the same.
func TestCellsAreLeftEmptyOnRequest(t *testing.T) {
	file := "id,label,size,acquired\n1,A1,big,spring\n2,A2,12,2026-01-31\n"
	s, err := table.Read(strings.NewReader(file), table.ReadOptions{LeaveEmpty: true})
	if err != nil || len(s.Left) != 2 || s.Left[0].Line != 2 || s.Left[0].Field != "size" {
		t.Fatalf("left empty %v, %v", s.Left, err)
	}
	if _, err := table.Read(strings.NewReader(file+"2,A3,,\n"), table.ReadOptions{LeaveEmpty: true}); err == nil {
		t.Error("a number given twice was taken")
	}
	if _, err := table.Read(strings.NewReader(file), table.ReadOptions{}); err == nil {
		t.Error("unasked, the cells were left empty")
	}
}

// A day without its year is the latest such day that has come, and that is said.
func TestADayWithoutItsYearIsTheLatest(t *testing.T) {
	for cell, want := range map[string]string{
		"21 Nov": "2025-11-21", "Nov 21": "2025-11-21", "21-Nov": "2025-11-21", "1 March": "2026-03-01", "2 Mar.": "2025-03-02",
		"28th February": "2026-02-28", "29 Feb": "2024-02-29", "December 24th": "2025-12-24",
	} {
		s, err := table.Read(strings.NewReader("label,got\nA1,"+cell+"\n"), table.ReadOptions{Today: day("2026-03-01")})
		if err != nil {
			t.Errorf("%q: %v", cell, err)
			continue
		}
		imp, sum, err := table.Plan(newBook(), s, sunday)
		if err != nil || imp.Added[0].Acquired != day(want) {
			t.Errorf("%q: %s, want %s (%v)", cell, imp.Added[0].Acquired, want, err)
		}
		said := fmt.Sprintf(`line 2, got: %q is read as "%s"; where there is no year it is the latest such day`, cell,
			model.DayWords(day(want)))
		if len(sum.Warnings) != 1 || sum.Warnings[0] != said {
			t.Errorf("%q: warned %q", cell, sum.Warnings)
		}
	}
	for _, cell := range []string{"Nov-21", "Nov/21", "31 Nov", "summer 2021", "April 2026", "2027", "last Saturday", "21", "11/21"} {
		s, err := table.Read(strings.NewReader("label,got\nA1,"+cell+"\n"), table.ReadOptions{Today: day("2026-03-01")})
		if err == nil {
			t.Errorf("%q was taken for a day: %+v", cell, s)
		}
	}
}

// When a plant was bought is remembered by the month, or the year: it is the last day of
// that which has come, and is shown no more exactly. When one was soaked is not.
func TestAMonthOrAYearIsWhenAPlantWasBought(t *testing.T) {
	for cell, want := range map[string]string{
		"Mar 2024": "2024-03-31", "February 2024": "2024-02-29", "2021": "2021-12-31", "March 2026": "2026-03-01", "2026": "2026-03-01",
	} {
		s, err := table.Read(strings.NewReader("label,got\nA1,"+cell+"\n"), table.ReadOptions{Today: day("2026-03-01")})
		if err != nil {
			t.Errorf("%q: %v", cell, err)
			continue
		}
		imp, sum, err := table.Plan(newBook(), s, sunday)
		if err != nil || imp.Added[0].Acquired != day(want) {
			t.Errorf("%q: %s, want %s (%v)", cell, imp.Added[0].Acquired, want, err)
		}
		came := imp.Added[0].Came()
		if len(sum.Warnings) != 0 || len(came) > len("Mar 2024") || !strings.HasSuffix(cell, came[len(came)-4:]) {
			t.Errorf("%q is shown as %q, warned %q", cell, came, sum.Warnings)
		}
		if _, err := table.Read(strings.NewReader("label,last soak\nA1,"+cell+"\n"), table.ReadOptions{Today: day("2026-03-01")}); err == nil {
			t.Errorf("%q was taken for the day of a soak", cell)
		}
	}
}

// A day written in numbers without its year is read on a word, where the column tells which
// of the two is the day; when a plant was bought is not, for 11/21 may be a month.
func TestDaysInNumbersWithoutTheirYear(t *testing.T) {
	file := "label,got,last soak\nA1,,21/11\nA2,,3/11\nA3,1 Sept 2023,last Sat\n"
	opt := table.ReadOptions{Today: day("2026-11-28"), LeaveEmpty: true}
	_, err := table.Read(strings.NewReader(file), opt)
	if err == nil || strings.Count(err.Error(), "has no year; "+table.WhichYear) != 2 || strings.Contains(err.Error(), "last Sat") {
		t.Fatalf("cells that can be read on a word are not asked about: %v", err)
	}
	opt.Yearless = true
	s, err := table.Read(strings.NewReader(file), opt)
	if err != nil || len(s.Left) != 1 || s.Left[0].Line != 4 {
		t.Fatalf("%v; left empty %v", err, s.Left)
	}
	imp, sum, err := table.Plan(newBook(), s, sunday)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"2026-11-21", "2026-11-03", ""} {
		if got := imp.Added[i].SoakedOn; want == "" && got != 0 || want != "" && got != day(want) {
			t.Errorf("row %d soaked on %s, want %q", i+1, got, want)
		}
	}
	if imp.Added[2].Acquired != day("2023-09-01") || !strings.Contains(strings.Join(sum.Warnings, "\n"), `"21/11" is read as "21 Nov 2026"`) {
		t.Errorf("got %s, warned %q", imp.Added[2].Acquired, sum.Warnings)
	}
	for file, want := range map[string]string{
		"label,last soak\nA1,3/4\n":             table.WhichFirst,
		"label,last soak\nA1,11/21\nA2,21/11\n": "is not written as the others",
		"label,got\nA1,21/11\n":                 "is not a date",
		"label,last soak\nA1,21/13\n":           "is not",
	} {
		if _, err := table.Read(strings.NewReader(file), table.ReadOptions{Today: day("2026-11-28"), Yearless: true}); err == nil ||
			!strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", file, err, want)
		}
	}
}

// What could not be read is kept in the note, once, however often the file comes.
func TestWhatCouldNotBeReadIsKeptInTheNote(t *testing.T) {
	for file, want := range map[string]string{
		"label,got it,note\nA1,summer 2021,from the fair\n": "from the fair\ngot it: summer 2021",
		"label,got it\nA1,summer 2021\n":                    "got it: summer 2021",
		"label,size,last bath\nA1,big,last Saturday\n":      "size: big\nlast bath: last Saturday",
	} {
		b := newBook()
		for n, want := range []counts{{added: 1}, {unchanged: 1}} {
			s, err := table.Read(strings.NewReader(file), table.ReadOptions{LeaveEmpty: true})
			if err != nil {
				t.Fatal(err)
			}
			imp, sum, err := table.Plan(b, s, sunday)
			if err != nil {
				t.Fatal(err)
			}
			expect(t, fmt.Sprintf("%q, %d", file, n+1), sum, want)
			if sum.Changes() {
				tell(t, b, imp)
			}
		}
		if got := b.Row(1).Note; got != want {
			t.Errorf("%q: note %q, want %q", file, got, want)
		}
	}
	b := newBook()
	tell(t, b, &model.Add{Plants: []model.Plant{{ID: 1, Label: "A1", Count: 1, Note: strings.Repeat("x", model.MaxText)}}})
	s, _ := table.Read(strings.NewReader("id,bought\n1,spring\n"), table.ReadOptions{LeaveEmpty: true})
	if _, sum, err := table.Plan(b, s, sunday); err != nil || sum.Changes() {
		t.Errorf("a full note: %+v, %v", sum, err)
	}
}

func rowsOf(days []string) string {
	var b strings.Builder
	for i, day := range days {
		fmt.Fprintf(&b, "A%d,%q\n", i+1, day)
	}
	return b.String()
}
