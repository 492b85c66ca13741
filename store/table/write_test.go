package table_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/rickb777/date/v2"
	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	"tubside/model"
	"tubside/store/table"
)

func TestEveryEncoding(t *testing.T) {
	const file = "label;species;note\r\nÄ1;T. stricta × recurvifolia;“soft”, 3 €\r\n"
	for name, enc := range map[string]encoding.Encoding{
		"UTF-8":                     unicode.UTF8,
		"UTF-8 with a mark":         unicode.UTF8BOM,
		"UTF-16 little":             unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM),
		"UTF-16 little with a mark": unicode.UTF16(unicode.LittleEndian, unicode.UseBOM),
		"UTF-16 big":                unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM),
		"UTF-16 big with a mark":    unicode.UTF16(unicode.BigEndian, unicode.UseBOM),
		"Windows-1252":              charmap.Windows1252,
	} {
		text, err := enc.NewEncoder().String(file)
		if err != nil {
			t.Fatal(err)
		}
		p := only(t, text)
		if p.Label != "Ä1" || p.Name != "T. stricta × recurvifolia" || p.Note != "“soft”, 3 €" {
			t.Errorf("%s: %+v", name, p)
		}
	}
}

func TestLineEndsOfAllKinds(t *testing.T) {
	for _, end := range []string{"\n", "\r\n", "\r"} {
		p := only(t, strings.ReplaceAll("label,note\nA1,\"one\ntwo\"\n", "\n", end))
		if p.Label != "A1" || p.Note != "one\ntwo" {
			t.Errorf("%q: %+v", end, p)
		}
	}
}

func TestALostCharacterIsWarnedOf(t *testing.T) {
	_, sum := mustPlan(t, newBook(), "label,note\nA1,\nA2,a\xef\xbf\xbdb\n")
	if len(sum.Warnings) != 1 || !strings.HasPrefix(sum.Warnings[0], "line 3: ") {
		t.Errorf("%q", sum.Warnings)
	}
}

func TestNoCellIsAFormula(t *testing.T) {
	b := newBook()
	texts := []string{"=1+1", "+3", "-A", "@home", "'quoted'", "'=1", "''x", "'", "plain", `=HYPERLINK("x")`}
	var plants []model.Plant
	for i, s := range texts {
		plants = append(plants, model.Plant{ID: model.ID(i + 1), Count: 1, Label: s, Name: s, Now: s,
			Home: model.Home{Shelf: s, Spot: s}, Note: s})
	}
	tell(t, b, &model.Add{Plants: plants})
	out := export(t, b, table.WriteOptions{})
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
				t.Errorf("a live formula: %q", cell)
			}
		}
	}
	imp, _ := mustPlan(t, newBook(), out)
	for i, p := range imp.Added {
		if p.Label != texts[i] || p.Now != texts[i] || p.Note != texts[i] || p.Home.Spot != texts[i] {
			t.Errorf("%q came back as %+v", texts[i], p)
		}
	}
}

func TestGonePlantsAreListedOnlyOnDemand(t *testing.T) {
	b := newBook()
	bring(t, b, "label\nA\nB\nC\n")
	tell(t, b, &model.Leave{How: model.Lost, Cause: "rot"}, 2)
	if out := export(t, b, table.WriteOptions{}); strings.Contains(out, "B") || strings.Contains(out, "gone") {
		t.Errorf("a gone plant is listed:\n%s", out)
	}
	all := export(t, b, table.WriteOptions{All: true})
	if !strings.Contains(all, "2,B,") || !strings.Contains(all, ",lost\n") {
		t.Errorf("not all plants are listed:\n%s", all)
	}
	sum := bring(t, b, all)
	expect(t, "read again", sum, counts{unchanged: 2})
	if sum.Gone != 1 {
		t.Errorf("%d gone", sum.Gone)
	}
}

// text draws what may stand in a label or a note, the nasty cases often.
func text() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.Just(""), rapid.StringN(0, 12, 60),
		rapid.StringOfN(rapid.RuneFrom([]rune("'=+-@\"', ;\t\n\r\u00a0\ufeff\ufffd×-?")), 0, 6, -1),
		rapid.SampledFrom([]string{"T. ionantha", "A1", "n/a", "id", "name", "sep=;", "T. ×nidus", "Ä 12"}),
	)
}

func plantGen(id model.ID) *rapid.Generator[model.Plant] {
	fed := rapid.SampledFrom([]date.Date{0, day("1999-12-31"), day("2026-02-28")})
	lately := rapid.SampledFrom([]date.Date{0, day("2024-02-29"), day("2026-02-28")})
	days := rapid.Custom(func(t *rapid.T) date.Date {
		return rapid.SampledFrom([]date.Date{0, day("1999-12-31"), day("2024-02-29"), day("2026-02-28"),
			day("2026-03-29")}).Draw(t, "day")
	})
	return rapid.Custom(func(t *rapid.T) model.Plant {
		p := model.Plant{
			ID: id, Label: text().Draw(t, "label"), Name: text().Draw(t, "name"), Now: text().Draw(t, "name now"),
			Form:  rapid.SampledFrom(append([]model.Form{""}, model.Forms...)).Draw(t, "form"),
			Leaf:  rapid.SampledFrom(append([]model.Leaf{""}, model.Leaves...)).Draw(t, "leaf"),
			Size:  rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, model.MaxSizeCM)).Draw(t, "size"),
			Count: rapid.IntRange(1, model.MaxCount).Draw(t, "count"),
			Home:  model.Home{Shelf: text().Draw(t, "shelf"), Spot: text().Draw(t, "spot")},
			Note:  text().Draw(t, "note"), Acquired: days.Draw(t, "acquired"), SoakedOn: lately.Draw(t, "soaked"),
			FedOn: fed.Draw(t, "fed"), NewOn: days.Draw(t, "new"),
			Mother:   rapid.SampledFrom([]model.ID{0, 1, 2, 500}).Draw(t, "mother"),
			MistOnly: rapid.Bool().Draw(t, "mist only"),
		}
		if p.Acquired != 0 {
			p.AcquiredTo = rapid.SampledFrom([]model.Exact{"", model.ToMonth, model.ToYear}).Draw(t, "acquired to")
		}
		p.Assumed = model.Assumed{
			Form: p.Form != "" && rapid.Bool().Draw(t, "a form"),
			Leaf: p.Leaf != "" && rapid.Bool().Draw(t, "a leaf"),
			Size: p.Size >= 0.01 && rapid.Bool().Draw(t, "a size"),
		}
		return p
	})
}

// lives draws what may have happened to a plant that a file tells of.
func lives() *rapid.Generator[[]model.Fact] {
	return rapid.SliceOfN(rapid.SampledFrom([]model.Fact{
		&model.Bloom{}, &model.Bloom{Over: true}, &model.Bloom{Stage: model.Bud}, &model.Bloom{Stage: model.Open}, &model.Bloom{Stage: model.Spent},
		&model.Feed{How: model.ByDip, Mix: model.Mix{PPM: 50}}, &model.Quarantine{},
		&model.Rot{}, &model.Rot{Over: true}, &model.Fading{}, &model.Fading{Over: true},
		&model.Trouble{What: model.Sun}, &model.Trouble{What: model.Scale, Treatment: "wiped off"}, &model.Trouble{What: model.Burn},
		&model.Offsets{}, &model.Offsets{Count: 3}, &model.Offsets{Count: 100, Share: 1.5}, &model.Offsets{Count: 2, Share: 1. / 3}, &model.Offsets{Count: 1, Share: 0.004},
	}), 0, 6)
}

// A file written from a book changes nothing when it is read in again; brought
// into an empty book and written once more it is the same file.
func TestAnExportReadInAgainChangesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := newBook()
		var plants []model.Plant
		for id := model.ID(1); id < model.ID(rapid.IntRange(2, 8).Draw(rt, "plants")); id++ {
			plants = append(plants, plantGen(id*3).Draw(rt, "plant"))
		}
		tell(t, b, &model.Add{Plants: plants})
		for _, p := range plants {
			for _, f := range lives().Draw(rt, "life") {
				tell(t, b, f, p.ID)
			}
		}
		tell(t, b, &model.Soak{Load: 1, Vessel: "tub", Due: sunday.AddDate(0, 0, 1)}, plants[0].ID)

		file := export(t, b, table.WriteOptions{})
		imp, sum := mustPlan(t, b, file)
		if sum.Changes() {
			rt.Fatalf("would change %+v %+v\n%s", imp, sum, file)
		}
		second := newBook()
		bring(t, second, file)
		if again := export(t, second, table.WriteOptions{}); again != file {
			rt.Fatalf("first\n%q\nthen\n%q", file, again)
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("label,species,shelf,spot,qty,size,last soaked,bloom\nA1,T. ionantha,A,1,x3,4 in,2026-02-22,yes\n"),
		"")
	f.Add([]byte("sep=;\nid;name\n1;\"a\n\"\"b\"\n"), "dmy")
	f.Add([]byte("\xff\xfen\x00a\x00m\x00e\x00\n\x00x\x00"), "mdy")
	f.Add([]byte("na\xefve\tname\r1\t2\r"), "")
	f.Add([]byte("name\n\"open"), "")
	f.Add([]byte("assumed,gone,id,name\nform,,,T. stricta\n,lost,2,x\n"), "")
	f.Fuzz(func(t *testing.T, file []byte, order string) {
		s, err := table.Read(bytes.NewReader(file), table.ReadOptions{Dates: model.DayOrder(order)})
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without a word")
			}
			return
		}
		b := newBook()
		imp, sum, err := table.Plan(b, s, sunday)
		if err != nil || !sum.Changes() {
			return
		}
		tell(t, b, imp)
		file2 := export(t, b, table.WriteOptions{})
		again, sum, err := table.Plan(b, mustRead(t, file2), sunday)
		if err != nil || sum.Changes() {
			t.Errorf("%v: its export would change %+v\n%s", err, again, file2)
		}
	})
}
