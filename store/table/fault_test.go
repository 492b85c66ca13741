package table_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
	"tubside/store/table"
)

func faultsOf(t *testing.T, file string) string {
	t.Helper()
	_, err := table.Read(strings.NewReader(file), table.ReadOptions{})
	if _, ok := errors.AsType[table.Faults](err); !ok {
		t.Fatalf("%q: %v is not a list of faults", file, err)
	}
	return err.Error()
}

// Every fault of a file comes at once, with the line an editor shows, the column
// as the file calls it, and what to do.
func TestEveryFaultIsListed(t *testing.T) {
	file := `Tag,Species,Form,Leaf type,Ø size,Size,Qty,Bought,Last soaked,In bloom,Note
A1,zebra,round,,,big,0,30.2.2026,,maybe,"a note
over two lines"
A2,zebra,,,,12,1,,,,fine
,,,,,12,2,,,,
A3,zebra,b,m,,500,1.5,2026-02-30,46023,,
A4,zebra,,,,20-10,-3,,,,,stray
A5,"zebra" x,,,,,,,,,
A6,zebra "Fuego",,,,,,,,,
A7,"zebra,,,,,,,,,
A8,zebra,,,,,,,,,
`
	want := []string{
		`line 2, Form: form "round" is not one of the form words; use rosette, bulbous, wispy, stemmed, fuzzy, tank, pendent`,
		`line 2, Size: "big" is not a size; give the span in cm, as 12 or 10-12, or in inches, as 4 in`,
		`line 2, Qty: "0" is not a count; give a whole number from 1 to 10000`,
		`line 2, Bought: "30.2.2026" is not a date; write it as 2026-01-31`,
		`line 2, In bloom: "maybe" is neither yes nor no; write yes while the plant is in bloom, or bud, open or spent, else no`,
		`line 5: neither a label nor a name; say what the plant is, or take the line out`,
		`line 6, Size: "500" cannot be a size; give the span in cm, up to 300, the smaller number first`,
		`line 6, Qty: "1.5" is not a count; give a whole number from 1 to 10000`,
		`line 6, Bought: "2026-02-30" is not a date; write it as 2026-01-31`,
		`line 6, Last soaked: "46023" is a spreadsheet's day number; format the column as a date, as 2026-01-31, and save it again`,
		`line 7: 12 cells under 11 headers; put a text with the separator in it in quotes`,
		`line 8: text behind a closing quote: "x"; inside a quoted cell write "" for "`,
		`line 10: a quote that is opened here and never closed; inside a quoted cell write "" for "`,
	}
	if diff := cmp.Diff(want, strings.Split(faultsOf(t, file), "\n")); diff != "" {
		t.Error(diff)
	}
}

func TestWholeFilesThatCannotBeTaken(t *testing.T) {
	for file, want := range map[string]string{
		"":                                          "there is no header line that names the columns; write a first line with names such as label, name, shelf and spot",
		"1,2,3\n4,5,6\n":                            "there is no header line that names the columns; write a first line with names such as label, name, shelf and spot",
		"PK\x03\x04rest of a sheet":                 "this is a spreadsheet program's own file; save the sheet as CSV and import that",
		"name\nA1\x00\x00\n":                        "this is not a text file; export the sheet as CSV and import that",
		"species,cultivar\nx,y\n":                   `line 1, cultivar: the columns "species" and "cultivar" both hold the name; join them or rename one`,
		"Qty,label,Count\n1,A1,1\n":                 `line 1, Count: the columns "Qty" and "Count" both hold the count; join them or rename one`,
		"label,species,plant\na,b,c":                `line 1, plant: the columns "species" and "plant" both hold the name; join them or rename one`,
		"id,name\n3,a\n#3,b\n":                      `line 3, id: plant 3 stands in line 2 already; give each plant its own number, or leave the cell empty`,
		"no,name\nzero,a\n":                         `line 2, no: "zero" is not a plant number; number plants 1 to 999999, or leave the cell empty`,
		"name,assumed\na,colour\n":                  `line 2, assumed: "colour" cannot be assumed; leave the column empty or name form, leaf, size`,
		"name,note\na," + strings.Repeat("x", 2001): "line 2, note: a text of more than 2000 characters; shorten it",
	} {
		if got := faultsOf(t, file); got != want {
			t.Errorf("%.40q\ngot  %s\nwant %s", file, got, want)
		}
	}
}

func TestAPlantThatIsGoneIsNotBroughtBackByItsNumber(t *testing.T) {
	b := newBook()
	bring(t, b, "id,label\n4,A1\n")
	tell(t, b, &model.Leave{How: model.Sold}, 4)
	_, _, err := table.Plan(b, mustRead(t, "label,id\nA1,4\n"), sunday)
	want := `line 2, id: plant 4 (A1) has been gone since 1 Mar 2026; leave the number empty to bring in a new plant`
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

func TestNumbersRunOut(t *testing.T) {
	_, _, err := table.Plan(newBook(), mustRead(t, "id,label\n999999,A1\n"), sunday)
	if err != nil {
		t.Errorf("the last number: %v", err)
	}
	b := newBook()
	bring(t, b, "id,label\n999999,A1\n")
	if _, _, err := table.Plan(b, mustRead(t, "label\nA2\n"), sunday); err == nil {
		t.Error("a number past the last one was given")
	}
}

func TestWarnings(t *testing.T) {
	b := newBook()
	bring(t, b, "id,label,name,shelf,spot,last soaked\n1,A1,zebra,A,1,2026-02-20\n2,A2,mouse,A,2,\n")
	_, sum := mustPlan(t, b, "id,label,name,shelf,spot,acquired,last soaked,price\n"+
		"1,A1,zebra,A,1,2026-03-02,2026-02-10,9\n"+
		"2,B7,tiger,A,1,,2026-04-01,\n"+
		",C1,lion,A,1,,,\n"+
		",C2,lion,D,,,,\n,C3,lion,D,,,,\n")
	want := []string{
		"line 2: last soaked on 10 Feb 2026, but the book has a soak on 20 Feb 2026, which stands",
		"line 2: acquired on 2 Mar 2026, which is still to come",
		`line 3: plant 2 is "A2 mouse" in the book and would become "B7 tiger"`,
		"line 3: last soaked on 1 Apr 2026, which is still to come",
		"line 3: 3 plants would share the home A 1: 1 (A1), 2 (B7), 3 (C1)",
	}
	if diff := cmp.Diff(want, sum.Warnings); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"price"}, sum.Ignored); diff != "" {
		t.Error(diff)
	}
}

// A line that looks like a sum is offered to be left out; a plant with such a word in its
// name is none.
func TestALineThatLooksLikeASum(t *testing.T) {
	for _, file := range []string{"plant,where,notes\nstricta,A,\nTotal: 40,,\n", "plant,qty\nstricta,3\nTOTAL,3\n", "plant,qty\nstricta,3\n,\"Sum: 3\"\n"} {
		s, err := table.Read(strings.NewReader(file), table.ReadOptions{LeaveOut: true})
		if err != nil || s.Len() != 1 || len(s.Out) != 1 || s.Out[0].Line != 3 {
			t.Errorf("%q: %d plants, out %v, %v", file, s.Len(), s.Out, err)
		}
	}
	s, err := table.Read(strings.NewReader("plant,where\nTotal: 40,\nTotal Eclipse,A\ncount,A\n"), table.ReadOptions{})
	if err != nil || s.Len() != 3 || len(s.Sums) != 1 || s.Sums[0].Line != 2 {
		t.Errorf("%d plants, sums %v, %v", s.Len(), s.Sums, err)
	}
}
