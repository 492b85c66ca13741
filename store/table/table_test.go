package table_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/store/table"
)

var sunday = time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)

func day(s string) date.Date {
	d, err := model.ParseDay(s, model.ISO)
	if err != nil {
		panic(err)
	}
	return d
}

func newBook() *model.Book { return model.NewBook(time.UTC) }

// tell applies a fact to a book as the store would.
func tell(t testing.TB, b *model.Book, f model.Fact, ids ...model.ID) {
	t.Helper()
	e := model.NewEntry(sunday, f, ids...)
	e.Seq = model.Seq(len(b.Entries()) + 1)
	if err := b.Check(e); err != nil {
		t.Fatal(err)
	}
	if err := b.Apply(e); err != nil {
		t.Fatal(err)
	}
}

func mustRead(t testing.TB, file string) table.Sheet {
	t.Helper()
	s, err := table.Read(strings.NewReader(file), table.ReadOptions{Today: date.NewAt(sunday)})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func mustPlan(t testing.TB, b *model.Book, file string) (*model.Import, table.Summary) {
	t.Helper()
	imp, sum, err := table.Plan(b, mustRead(t, file), sunday)
	if err != nil {
		t.Fatal(err)
	}
	return imp, sum
}

// bring imports a file into a book.
func bring(t testing.TB, b *model.Book, file string) table.Summary {
	t.Helper()
	imp, sum := mustPlan(t, b, file)
	if sum.Changes() {
		tell(t, b, imp)
	}
	return sum
}

func export(t testing.TB, b *model.Book, opt table.WriteOptions) string {
	t.Helper()
	var out bytes.Buffer
	if err := table.Write(&out, b, opt); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func only(t testing.TB, file string) model.Plant {
	t.Helper()
	imp, _ := mustPlan(t, newBook(), file)
	if len(imp.Added) != 1 {
		t.Fatalf("%d plants in %q", len(imp.Added), file)
	}
	return imp.Added[0]
}

func TestASpreadsheetAsGrowersKeepIt(t *testing.T) {
	p := only(t, "Label;Species;Rack;Hook;Qty;Size;Acquired;Last soaked;Bloom;Note\n"+
		"A1;Tillandsia xerographica;A;12;x3;12,5 cm;2024-09-01;2026-02-22;yes;from the fair\n")
	want := model.Plant{
		ID: 1, Label: "A1", Name: "Tillandsia xerographica", Form: model.Rosette, Leaf: model.Xeric, Size: 12.5,
		Count: 3, Home: model.Home{Shelf: "A", Spot: "12"}, Acquired: day("2024-09-01"), SoakedOn: day("2026-02-22"),
		Note: "from the fair", Assumed: model.Assumed{Form: true, Leaf: true},
	}
	if p != want {
		t.Errorf("got  %+v\nwant %+v", p, want)
	}
}

func TestHeadersInAnyWords(t *testing.T) {
	label := model.Plant{ID: 1, Label: "A1", Name: "zebra", Count: 1}
	nameOnly := model.Plant{ID: 1, Name: "A1", Count: 1}
	for file, want := range map[string]model.Plant{
		"label,name\nA1,zebra\n":                      label,
		"Plant,Species\nA1,zebra\n":                   label,
		"SPECIES , Name\nzebra,A1\n":                  label,
		"plant,name\nA1,zebra\n":                      label,
		"name,plant\nzebra,A1\n":                      label,
		"Tag,Plant\nA1,zebra\n":                       label,
		"Latin name;Plant label\nzebra;A1\n":          label,
		"label\tname\nA1\tzebra\n":                    label,
		"sep=;\nlabel;name\nA1;zebra\n":               label,
		"My air plants,,\n\n,label,name\n,A1,zebra\n": label,
		"name\nA1\n":                                  nameOnly,
		"Plant\nA1\n":                                 nameOnly,
		"#,plant\n7,A1\n":                             {ID: 7, Name: "A1", Count: 1},
		"name,size (in)\nA1,4\n":                      {ID: 1, Name: "A1", Count: 1, Size: 10.16},
		"name,Size (mm)\nA1,120\n":                    {ID: 1, Name: "A1", Count: 1, Size: 12},
		"name,SIZE_CM\nA1,12\n":                       {ID: 1, Name: "A1", Count: 1, Size: 12},
	} {
		if got := only(t, file); got != want {
			t.Errorf("%q\ngot  %+v\nwant %+v", file, got, want)
		}
	}
}

// Every column is known by the words that people head it with.
func TestTheSameColumnUnderManyWords(t *testing.T) {
	for want, heads := range map[string][]string{
		"shelf": {"Where", "Where it hangs", "Hangs", "Hung", "Place", "Location", "Home", "Room", "Rack", "shelf"},
		"acquired": {"Got it", "Got", "Got on", "Since", "When bought", "Bought", "Purchased", "Received on", "Arrived",
			"Date acquired"},
		"last_soaked": {"Last watered", "Last bath", "Watered on", "Soaked", "Last soak", "LAST_SOAKED"},
		"last_fed":    {"Last fed", "Fed", "Fertilized", "Last fertilised"},
		"name_now":    {"Name now", "Accepted name", "name_now"},
	} {
		for _, head := range heads {
			cell := "2026-02-20"
			text := export(t, brought(t, "label,"+head+"\nA1,"+cell+"\n"), table.WriteOptions{})
			lines := strings.Split(text, "\n")
			column := slices.Index(strings.Split(lines[0], ","), want)
			if got := strings.Split(lines[1], ",")[column]; got != cell {
				t.Errorf("%q is not read as %s: %s", head, want, lines[1])
			}
		}
	}
}

func brought(t *testing.T, file string) *model.Book {
	b := newBook()
	bring(t, b, file)
	return b
}

// A column that is left out is named with the header that would bring it in, if the
// file has no such column yet.
func TestAColumnLeftOutIsNamedWithWhatWouldDo(t *testing.T) {
	file := "label,species,shelf,price,Lst watered,Date I bought it,Shop,Wher,Colour\nA1,zebra,A,3,,,,,\n"
	want := []string{"price", "Lst watered (call it last_soaked to bring it in)",
		"Date I bought it (call it acquired to bring it in)", "Shop", "Wher", "Colour"}
	if diff := cmp.Diff(want, mustRead(t, file).Unused); diff != "" {
		t.Error(diff)
	}
}

func TestSizesCountsAndDays(t *testing.T) {
	for cell, want := range map[string]float64{
		"12": 12, "12 cm": 12, "12cm": 12, `"12,5"`: 12.5, "4 in": 10.16, `"4"""`: 10.16, `4"`: 10.16, "10-12": 11, "10 – 12 cm": 11,
		"4 to 6 inches": 12.7, "~ 8": 8, "120mm": 12, "0.5 m": 50, "": 0, "?": 0, "n/a": 0, "-": 0, ".5": 0.5,
	} {
		if got := only(t, "name,size\nzebra,"+cell+"\n").Size; got != want {
			t.Errorf("size %q: %g, want %g", cell, got, want)
		}
	}
	for cell, want := range map[string]int{"3": 3, "x3": 3, "3x": 3, "× 12": 12, "3 pcs": 3, "3.0": 3, "": 1,
		"10000": 10000} {
		if got := only(t, "name,qty\nzebra,"+cell+"\n").Count; got != want {
			t.Errorf("count %q: %d, want %d", cell, got, want)
		}
	}
	for cell, want := range map[string]string{"2026-01-05": "2026-01-05", "2026-1-5": "2026-01-05",
		"2026-01-05 00:00:00": "2026-01-05", "2026-01-05T00:00:00Z": "2026-01-05"} {
		if got := only(t, "name,acquired\nzebra,"+cell+"\n").Acquired; got != day(want) {
			t.Errorf("day %q: %s, want %s", cell, got, want)
		}
	}
	for order, want := range map[model.DayOrder]string{model.DMY: "2026-04-03", model.MDY: "2026-03-04"} {
		s, err := table.Read(strings.NewReader("name,bought\nzebra,3/4/2026\n"), table.ReadOptions{Dates: order})
		if err != nil {
			t.Fatal(err)
		}
		imp, _, err := table.Plan(newBook(), s, sunday)
		if err != nil || imp.Added[0].Acquired != day(want) {
			t.Errorf("3/4/2026 as %s: %v, %v", order, imp.Added[0].Acquired, err)
		}
	}
}

func TestWhatTheListFillsInIsMarked(t *testing.T) {
	imp, sum := mustPlan(t, newBook(), "name,form,size\nT. tectorum,,\nT. bulbosa,bulbous,20\nzebra,,\n")
	want := []model.Assumed{{Form: true, Leaf: true, Size: true}, {Leaf: true}, {}}
	for i, p := range imp.Added {
		if p.Assumed != want[i] {
			t.Errorf("%s: assumed %+v, want %+v", p.Name, p.Assumed, want[i])
		}
	}
	if p := only(t, "label,name,name now\nA,zebra,T. tectorum\n"); p.Form != model.Fuzzy || p.Leaf != model.Xeric {
		t.Errorf("a name now is not looked up: %+v", p)
	}
	if imp.Added[0].Form != model.Fuzzy || imp.Added[1].Size != 20 {
		t.Errorf("filled in: %+v", imp.Added)
	}
	if sum.AssumedForm != 1 || sum.AssumedLeaf != 2 || sum.AssumedSize != 1 || len(sum.Unknown) != 1 ||
		sum.Unknown[0] != "zebra" {
		t.Errorf("summary: %+v", sum)
	}
}

func TestTheTemplateIsAFileOneCanImport(t *testing.T) {
	var out bytes.Buffer
	if err := table.Template(&out); err != nil {
		t.Fatal(err)
	}
	_, sum := mustPlan(t, newBook(), out.String())
	if sum.Added != 3 || len(sum.Ignored)+len(sum.Warnings)+len(sum.Unknown) != 0 {
		t.Errorf("%+v", sum)
	}
}

func TestProgressRisesToTheEnd(t *testing.T) {
	file := "name\n" + strings.Repeat("T. stricta\n", 1000)
	var seen []int
	_, err := table.Read(strings.NewReader(file), table.ReadOptions{Progress: func(done, total int) {
		if total != 1002 {
			t.Errorf("total %d", total)
		}
		seen = append(seen, done)
	}})
	if err != nil || len(seen) < 4 || !slices.IsSorted(seen) || seen[len(seen)-1] != 1002 {
		t.Errorf("%v, %v", seen, err)
	}
}
