package table_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
	"tubside/store/table"
)

type counts struct{ added, changed, unchanged int }

func expect(t *testing.T, what string, sum table.Summary, want counts) {
	t.Helper()
	if got := (counts{sum.Added, sum.Changed, sum.Unchanged}); got != want {
		t.Errorf("%s: %+v, want %+v", what, got, want)
	}
}

func TestTheSameFileTwiceDoesNotDoubleTheCollection(t *testing.T) {
	for name, file := range map[string]string{
		"labelled":       "label,species,shelf,spot,bloom\nA1,T. stricta,A,1,yes\nA2,T. stricta,A,2,no\n",
		"all alike":      "species,shelf\n" + strings.Repeat("T. ionantha,A\n", 40),
		"names only":     "species\nT. ionantha\nT. ionantha\nT. stricta\n",
		"numbered":       "no,species\n10,T. ionantha\n20,T. stricta\n",
		"partly":         "no,species\n10,T. ionantha\n,T. stricta\n,T. stricta\n",
		"with soaks":     "label,last soaked,acquired,count\nA1,2026-02-22,2024-01-01,x3\n",
		"odd characters": "label,note\n'-3,\"=1+1\nsecond\"\n@home,+1\n",
	} {
		b := newBook()
		n := mustRead(t, file).Len()
		expect(t, name, bring(t, b, file), counts{added: n})
		expect(t, name+" again", bring(t, b, file), counts{unchanged: n})
		if b.Len() != n {
			t.Errorf("%s: %d plants of %d", name, b.Len(), n)
		}
	}
}

func TestOnlyTheMoreOfAlikeRowsAreNew(t *testing.T) {
	b := newBook()
	bring(t, b, "species,shelf\nT. ionantha,A\nT. ionantha,A\n")
	expect(t, "five of two", bring(t, b, "species,shelf\n"+strings.Repeat("T. ionantha,A\n", 5)),
		counts{added: 3, unchanged: 2})
}

func TestAPlantIsKnownByItsLabelAfterAMove(t *testing.T) {
	b := newBook()
	bring(t, b, "label,shelf,spot\nA1,A,1\nA2,A,2\nB,A,3\nB,A,4\n")
	sum := bring(t, b, "label,shelf,spot\nA1,C,9\nB,A,3\nB,D,1\n")
	expect(t, "moved", sum, counts{changed: 2, unchanged: 1})
	if got := b.Row(1).Home.String(); got != "C 9" {
		t.Errorf("A1 is at %s", got)
	}
	if got := b.Row(4).Home.String(); got != "D 1" {
		t.Errorf("the second B is at %s", got)
	}
}

func TestGonePlantsMatchNothing(t *testing.T) {
	b := newBook()
	bring(t, b, "label\nA1\n")
	tell(t, b, &model.Leave{How: model.Given}, 1)
	expect(t, "bought again", bring(t, b, "label\nA1\n"), counts{added: 1})
	if b.Row(2) == nil {
		t.Error("the new plant got an old number")
	}
}

func TestNewNumbersStepAroundTheNumbersOfTheFile(t *testing.T) {
	imp, _ := mustPlan(t, newBook(), "id,label\n,A\n2,B\n,C\n1,D\n")
	var got []string
	for _, p := range imp.Added {
		got = append(got, fmt.Sprint(p.ID, p.Label))
	}
	if text := strings.Join(got, " "); text != "3A 2B 4C 1D" {
		t.Error(text)
	}
}

func TestWhatAFileDoesNotSayStays(t *testing.T) {
	b := newBook()
	tell(t, b, &model.Add{Plants: []model.Plant{{
		ID: 1, Label: "A1", Name: "zebra", Form: model.Tank, Leaf: model.Mesic, Size: 30, Count: 4,
		Home: model.Home{Shelf: "A", Spot: "1"}, Acquired: day("2024-01-01"), SoakedOn: day("2026-02-01"), Note: "kept",
	}}})
	tell(t, b, &model.Bloom{}, 1)
	was := *b.Row(1)
	expect(t, "columns missing", bring(t, b, "id\n1\n"), counts{unchanged: 1})
	expect(t, "cells empty", bring(t, b, "id,form,leaf,size,count,last soaked,bloom\n1,,,,,,\n"), counts{unchanged: 1})
	if now := *b.Row(1); !cmp.Equal(now, was, cmp.AllowUnexported(model.Row{})) {
		t.Errorf("now %+v\nwas %+v", now, was)
	}
	expect(t, "texts emptied", bring(t, b, "id,label,name,shelf,spot,acquired,note\n1,,,,,,\n"), counts{changed: 1})
	want := was.Plant
	want.Label, want.Name, want.Home, want.Acquired, want.Note = "", "", model.Home{}, 0, ""
	if got := b.Row(1).Plant; got != want {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func TestBloomGoesOnAndOff(t *testing.T) {
	b := newBook()
	bring(t, b, "label,bloom\nA,yes\nB,no\nC,x\nD,\n")
	imp, sum := mustPlan(t, b, "label,bloom\nA,no\nB,yes\nC,yes\nD,\n")
	if imp.BloomOn.String() != "2" || imp.BloomOff.String() != "1" || sum.BloomOn != 1 || sum.BloomOff != 1 {
		t.Errorf("on %s, off %s", imp.BloomOn, imp.BloomOff)
	}
	expect(t, "bloom alone", sum, counts{changed: 2, unchanged: 2})
}

func TestAssumedUntilTheGrowerSays(t *testing.T) {
	b := newBook()
	bring(t, b, "label,name\nA,T. ionantha\n")
	file := "label,name,form,size,assumed\nA,T. ionantha,bulbous,7,form leaf\n"
	expect(t, "corrected", bring(t, b, file), counts{changed: 1})
	want := model.Assumed{Leaf: true} // form is corrected, size confirmed
	if p := b.Row(1).Plant; p.Form != model.Bulbous || p.Assumed != want {
		t.Errorf("%+v", p)
	}
	expect(t, "once more", bring(t, b, file), counts{unchanged: 1})
}

func TestACorrectedNameBringsItsOwnAssumptions(t *testing.T) {
	b := newBook()
	bring(t, b, "label,name,form\nA,T. ionantha,\n")
	file := "label,name,form\nA,T. tectorum,\n"
	expect(t, "renamed", bring(t, b, file), counts{changed: 1})
	if p := b.Row(1).Plant; p.Form != model.Fuzzy || p.Leaf != model.Xeric || !p.Assumed.Form {
		t.Errorf("%+v", p)
	}
	expect(t, "once more", bring(t, b, file), counts{unchanged: 1})
}

func TestANameNowBringsTheAssumptionsOfAnUnknownName(t *testing.T) {
	b := newBook()
	bring(t, b, "label,name\nA,T. tectoorum\n")
	file := "label,name,name_now\nA,T. tectoorum,T. tectorum\n"
	expect(t, "told", bring(t, b, file), counts{changed: 1})
	if p := b.Row(1).Plant; p.Form != model.Fuzzy || p.Leaf != model.Xeric || !p.Assumed.Form {
		t.Errorf("%+v", p)
	}
	expect(t, "once more", bring(t, b, file), counts{unchanged: 1})
}

func TestALaterSoakInTheFileIsTaken(t *testing.T) {
	b := newBook()
	bring(t, b, "label,last soaked\nA,2026-02-01\n")
	expect(t, "later", bring(t, b, "label,last soaked\nA,2026-02-20\n"), counts{changed: 1})
	if got := b.Row(1).LastSoak(); !got.Equal(model.NoonOf(day("2026-02-20"), b.Zone())) {
		t.Errorf("last soak %v", got)
	}
	expect(t, "earlier", bring(t, b, "label,last soaked\nA,2026-02-10\n"), counts{unchanged: 1})
}

func TestOneStrikeTakesAnImportBack(t *testing.T) {
	b := newBook()
	bring(t, b, "label\nA\nB\n")
	tell(t, b, &model.Strike{Seq: 1})
	if b.Len() != 0 {
		t.Errorf("%d plants left", b.Len())
	}
}
