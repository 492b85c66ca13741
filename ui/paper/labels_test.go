package paper_test

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
	"tubside/ui/paper"

	"pgregory.net/rapid"

	"tubside/model"
)

type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

// read reads a page as XML: how many elements of each class it has, and the
// texts of the labels.
func readLabels(t fataler, page string) (classes map[string]int, texts []string) {
	t.Helper()
	classes = map[string]int{}
	d := xml.NewDecoder(strings.NewReader(page))
	body := false
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return classes, texts
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch x := token.(type) {
		case xml.StartElement:
			body = body || x.Name.Local == "main"
			for _, a := range x.Attr {
				if a.Name.Local == "class" {
					classes[a.Value]++
				}
			}
		case xml.CharData:
			if s := strings.TrimSpace(string(x)); body && s != "" {
				texts = append(texts, s)
			}
		}
	}
}

func printed(t fataler, some []paper.Label, size, sheet paper.Size) paper.LabelPages {
	t.Helper()
	p, err := paper.PrintLabels(some, size, sheet)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return p
}

// On the label: number, home, tag, name as received, name now.
func TestWhatStandsOnALabel(t *testing.T) {
	l := paper.LabelOf(model.Plant{ID: 17, Label: "<Fuego>", Name: "T. circinnata", Now: "T. paucifolia",
		Home: model.Home{Shelf: "A", Spot: "12"}})
	p := printed(t, []paper.Label{l}, paper.UsualLabel, paper.A4)
	_, texts := readLabels(t, p.HTML)
	if got := strings.Join(texts, "|"); got != "17|A 12|<Fuego>|T. circinnata|now T. paucifolia" || p.Cut != 0 ||
		p.Papers != 1 {
		t.Errorf("%s, %+v", got, p)
	}
	for _, want := range []string{"size: 210mm 297mm", "width: 60mm; height: 25mm", "repeat(3, 60mm)"} {
		if !strings.Contains(p.HTML, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	for _, not := range []string{"<Fuego>", "http", "src=", "<script"} {
		if strings.Contains(p.HTML, not) {
			t.Errorf("the page has %q", not)
		}
	}
}

// A name that is the same on the tag, as received and now stands there once.
func TestNothingStandsThereTwice(t *testing.T) {
	l := paper.LabelOf(model.Plant{ID: 1, Label: "T. stricta", Name: "T. stricta", Now: "T. stricta"})
	_, texts := readLabels(t, printed(t, []paper.Label{l}, paper.UsualLabel, paper.A4).HTML)
	if got := strings.Join(texts, "|"); got != "1|T. stricta" {
		t.Error(got)
	}
}

// A4 with 8 mm of edge takes 3 x 11 of 60x25 mm; letter 3 x 10.
func TestHowManyFit(t *testing.T) {
	some := make([]paper.Label, 34)
	for size, want := range map[paper.Size]int{paper.A4: 2, paper.Letter: 2} {
		if p := printed(t, some, paper.UsualLabel, size); p.Papers != want {
			t.Errorf("%s: %d papers", size, p.Papers)
		}
	}
	if p := printed(t, some[:33], paper.UsualLabel, paper.A4); p.Papers != 1 {
		t.Errorf("33 on A4 take %d papers", p.Papers)
	}
	if p := printed(t, some[:31], paper.UsualLabel, paper.Letter); p.Papers != 2 {
		t.Errorf("31 on letter take %d papers", p.Papers)
	}
	if _, err := paper.PrintLabels(some, paper.Size{Width: 250, Height: 25}, paper.A4); err == nil {
		t.Error("a label wider than the paper was taken")
	}
}

func TestALongNameIsSetSmallerAndThenCounted(t *testing.T) {
	long := paper.Label{ID: 1, Name: strings.Repeat("brachycaulos x ", 3)}
	if p := printed(t, []paper.Label{long}, paper.UsualLabel, paper.A4); p.Cut != 0 {
		t.Error("45 letters should fit in 57 mm")
	}
	long.Name = strings.Repeat("brachycaulos x ", 9)
	if p := printed(t, []paper.Label{long}, paper.UsualLabel, paper.A4); p.Cut != 1 {
		t.Error("135 letters cannot fit in 57 mm")
	}
}

func TestSizesAsTyped(t *testing.T) {
	for s, want := range map[string]paper.Size{"60x25": {60, 25}, " 50.5 x 20 mm": {50.5, 20}, "38×21": {38, 21}} {
		if got, err := paper.ParseSize(s); err != nil || got != want {
			t.Errorf("%q: %v, %v", s, got, err)
		}
	}
	for _, s := range []string{"", "60", "60x", "5x5", "NaNx25", "60x25x3", "-60x25", "9999x25"} {
		if got, err := paper.ParseSize(s); err == nil {
			t.Errorf("%q: %v", s, got)
		}
	}
	if _, err := paper.ParsePaper("A5"); err == nil {
		t.Error("A5 was taken")
	}
	if p, err := paper.ParsePaper(" Letter "); err != nil || p != paper.Letter {
		t.Errorf("%v, %v", p, err)
	}
}

// Every plant gets one label, whatever it is called, and the page is well-formed.
func TestEveryPlantGetsOneLabel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringN(0, 40, -1)
		var some []paper.Label
		for id := range rapid.IntRange(0, 80).Draw(t, "plants") {
			some = append(some, paper.LabelOf(model.Plant{
				ID: model.ID(id + 1), Label: text.Draw(t, "tag"), Name: text.Draw(t, "name"), Now: text.Draw(t, "now"), Home: model.Home{Shelf: text.Draw(t, "shelf")},
			}))
		}
		size := paper.Size{Width: rapid.Float64Range(20, 194).Draw(t, "width"),
			Height: rapid.Float64Range(8, 263).Draw(t, "height")}
		sheet := rapid.SampledFrom([]paper.Size{paper.A4, paper.Letter}).Draw(t, "paper")
		p := printed(t, some, size, sheet)
		classes, _ := readLabels(t, p.HTML)
		if classes["label"] != len(some) || classes["id"] != len(some) || classes["paper"] != p.Papers {
			t.Fatalf("%v for %d labels", classes, len(some))
		}
	})
}
