package paper_test

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
	"time"
	"tubside/ui/paper"

	"tubside/model"
	"tubside/model/accounts"
	"tubside/ui/show"
)

var newYear = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)

// story tells a few weeks of a home: soaks of three plants, one suspected,
// one lost, one sold, and a feed.
func story(t *testing.T) *model.Book {
	b, at := model.NewBook(time.UTC), newYear.Add(9*time.Hour)
	tell := func(wait time.Duration, fact model.Fact, ids ...model.ID) {
		at = at.Add(wait)
		e := model.NewEntry(at, fact, ids...)
		e.Seq = model.Seq(len(b.Entries()) + 1)
		if err := b.Check(e); err != nil {
			t.Fatalf("%s: %v", fact.Kind(), err)
		}
		if err := b.Apply(e); err != nil {
			t.Fatal(err)
		}
	}
	tell(0, &model.Add{Plants: []model.Plant{
		{ID: 1, Count: 1, Label: "<b>Fuego</b>", Form: model.Bulbous, Home: model.Home{Shelf: "A & B"}},
		{ID: 2, Count: 12, Name: "T. stricta", Form: model.Rosette}, {ID: 3, Count: 1},
	}})
	for range 5 {
		tell(7*24*time.Hour, &model.Soak{Load: b.NextLoad(), Vessel: "tub", Due: at.Add(8 * 24 * time.Hour)}, 1, 2, 3)
		tell(90*time.Minute, &model.Out{Shaken: true}, 1, 2, 3)
		tell(5*time.Hour, &model.FoundDry{}, 1, 2, 3)
		tell(time.Minute, &model.Hung{}, 1, 2, 3)
	}
	tell(3*24*time.Hour, &model.Rot{}, 1)
	tell(time.Hour, &model.Feed{How: model.ByMist, Mix: model.Mix{Powder: "20-10-20", N: 20, PPM: 50}, Litres: 2}, 2)
	tell(24*time.Hour, &model.Leave{How: model.Lost, Cause: "rot", Note: "soft at the base"}, 1)
	tell(time.Hour, &model.Leave{How: model.Sold, Note: "spring table"}, 2)
	return b
}

func ledger(t *testing.T, b *model.Book, until time.Time) accounts.Ledger {
	t.Helper()
	l, err := accounts.Of(b, newYear, until)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestWhatTheSheetSays(t *testing.T) {
	b := story(t)
	text := paper.YearSheet(ledger(t, b, newYear.AddDate(0, 4, 0)), b).Text()
	for _, want := range []string{
		"1 Jan 2026 to 30 Apr 2026",
		"1 plant at the end, 1 more than at the start.",
		"all      0  +14    -1   -12    1",
		"rosette       0  +12         -12    0",
		"no shelf      0  +13         -12    1",
		"rot         1            1  bulbous 1",
		"newcomers        3     1          100 %  67 % (5 to 95)",
		"1 case of suspected rot: 0 turned out sound, 1 lost to it. Of 13 soaks",
		"1 h – 3 h",
		"4 to 6 h  2 of 13",
		"all              12   7.2 d",
		"5 loads on 5 soak days: 15 plants put into the water (a tray counts as one)",
		"500 L of water in 5 fillings, not entered",
		"20-10-20      1    2 L    0.5    0.10 g        0",
		"T. stricta      12  spring table",
		"<b>Fuego</b>       1  rot; soft at the base",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	for line := range strings.Lines(text) {
		if show.Width(strings.TrimSuffix(line, "\n")) > 80 {
			t.Errorf("too wide: %q", line)
		}
	}
	if t.Failed() {
		t.Log(text)
	}
}

// The page is well-formed, links to nothing, runs nothing, and every chart has a
// title and a description.
func TestThePageStandsAlone(t *testing.T) {
	b := story(t)
	page, err := paper.YearSheet(ledger(t, b, newYear.AddDate(0, 4, 0)), b).HTML()
	if err != nil {
		t.Fatal(err)
	}
	elements, ids := map[string]int{}, map[string]bool{}
	d := xml.NewDecoder(strings.NewReader(page))
	d.Entity = xml.HTMLEntity
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		x, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		elements[x.Name.Local]++
		for _, a := range x.Attr {
			if a.Name.Local == "id" && ids[a.Value] {
				t.Errorf("two elements are called %s", a.Value)
			}
			if a.Name.Local == "id" {
				ids[a.Value] = true
			}
			if a.Name.Local == "src" || a.Name.Local == "href" || strings.HasPrefix(a.Name.Local, "on") {
				t.Errorf("%s has %s", x.Name.Local, a.Name.Local)
			}
		}
	}
	if n := elements["svg"]; n != 6 || elements["title"] != n+1 || elements["desc"] != n || elements["script"]+elements["link"] != 0 {
		t.Errorf("%v", elements)
	}
	if strings.Contains(page, "<b>Fuego") {
		t.Error("a label became markup")
	}
}

func TestAnEmptyYear(t *testing.T) {
	b := model.NewBook(time.UTC)
	s := paper.YearSheet(ledger(t, b, newYear.AddDate(1, 0, 0)), b)
	for _, want := range []string{"0 plants at the end", "Nothing was lost.", "No plants yet.", "No plant was soaked twice."} {
		if !strings.Contains(s.Text(), want) {
			t.Errorf("lacks %q:\n%s", want, s.Text())
		}
	}
	if _, err := s.HTML(); err != nil {
		t.Error(err)
	}
}
