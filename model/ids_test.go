package model_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tubside/model"
)

// anyIDs draws lists as they come up at the tub: runs off a shelf, single
// plants, in any order, the same one more than once.
func anyIDs(rt *rapid.T) model.IDs {
	var ids model.IDs
	for range rapid.IntRange(0, 8).Draw(rt, "runs") {
		first := rapid.OneOf(rapid.Uint32Range(1, 40), rapid.Uint32Range(1, uint32(model.MaxID))).Draw(rt, "first")
		last := min(first+rapid.Uint32Range(0, 6).Draw(rt, "more"), uint32(model.MaxID))
		for n := first; n <= last; n++ {
			ids = append(ids, model.ID(n))
		}
	}
	return ids
}

func TestIDsReadBackAsWritten(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		ids := anyIDs(rt)
		if got, err := model.ParseIDs(ids.String()); err != nil || !cmp.Equal(got, ids) {
			rt.Errorf("%q read as %v, %v; want %v", ids.String(), got, err, []model.ID(ids))
		}
		text, err := json.Marshal(ids)
		if err != nil {
			rt.Fatal(err)
		}
		var got model.IDs
		if err := json.Unmarshal(text, &got); err != nil || !cmp.Equal(got, ids) {
			rt.Errorf("%s read as %v, %v; want %v", text, got, err, []model.ID(ids))
		}
	})
}

func TestIDsAreWrittenAsRanges(t *testing.T) {
	for _, c := range []struct {
		ids  model.IDs
		want string
	}{
		{nil, ""},
		{model.IDs{7}, "7"},
		{model.IDs{7, 8}, "7-8"},
		{model.IDs{12, 13, 14, 51}, "12-14 51"},
		{model.IDs{3, 2, 1}, "3 2 1"},         // the order they went in
		{model.IDs{5, 5}, "5 5"},              // not a range
		{model.IDs{1, 2, 3, 3, 4}, "1-3 3-4"}, // two walks past the shelf
		{model.IDs{999998, 999999}, "999998-999999"},
	} {
		if got := c.ids.String(); got != c.want {
			t.Errorf("%v written as %q, want %q", []model.ID(c.ids), got, c.want)
		}
	}
}

func TestIDsAreReadAsTyped(t *testing.T) {
	for text, want := range map[string]model.IDs{
		"":               nil,
		"  , ":           nil,
		"12-14,20 3":     {12, 13, 14, 20, 3},
		"4\t2":           {4, 2},
		"9-9":            {9},
		"007":            {7},
		"999999":         {999999},
		"999998-999999,": {999998, 999999},
	} {
		if got, err := model.ParseIDs(text); err != nil || !cmp.Equal(got, want) {
			t.Errorf("%q read as %v, %v; want %v", text, got, err, []model.ID(want))
		}
	}
}

func TestIDsRefused(t *testing.T) {
	for text, do := range map[string]string{
		"0":            "1 to 999999",
		"1000000":      "1 to 999999",
		"1-1000000":    "1 to 999999",
		"1-4294967295": "1 to 999999",
		"4294967297":   "1 to 999999", // 1, if cut to 32 bits
		"-3":           "a range is 12-40",
		"5-":           "a range is 12-40",
		"1-2-3":        "a range is 12-40",
		"+5":           "a range is 12-40",
		"1.5":          "a range is 12-40",
		"twelve":       "a range is 12-40",
		"３":            "a range is 12-40", // a full-width digit
		"40-12":        "write 12-40",
		"3 9-8":        "write 8-9",
	} {
		got, err := model.ParseIDs(text)
		p, told := model.AsProblem(err)
		if !told || !strings.Contains(p.Do, do) || got != nil {
			t.Errorf("%q: got %v, %v; want a refusal that says %q", text, got, err, do)
		}
	}
}

func TestIDsInAFileMustBeText(t *testing.T) {
	for _, text := range []string{`[1,2]`, `12`, `"0"`, `"2-1"`} {
		var ids model.IDs
		if err := json.Unmarshal([]byte(text), &ids); err == nil {
			t.Errorf("%s read as %v", text, ids)
		}
	}
}

// A slip such as 1-999999 costs one list that grows, nothing per plant.
func TestAWideRangeStaysCheap(t *testing.T) {
	d := shelved(t)
	allocations := testing.AllocsPerRun(3, func() {
		if ids, err := d.Choose("1-999999"); err != nil || len(ids) != 6 {
			t.Fatalf("1-999999 chose %d rows, %v", len(ids), err)
		}
	})
	if allocations > 100 {
		t.Errorf("1-999999 on a book of six rows took %.0f allocations", allocations)
	}
	refused := testing.AllocsPerRun(3, func() { _, _ = model.ParseIDs("1-4000000000") })
	if refused > 20 {
		t.Errorf("refusing 1-4000000000 took %.0f allocations", refused)
	}
}

func TestHas(t *testing.T) {
	ids := model.IDs{4, 2}
	if !ids.Has(4) || !ids.Has(2) || ids.Has(3) || model.IDs(nil).Has(0) {
		t.Error("the list says it has what it has not, or the other way about")
	}
}

func BenchmarkParseWideRange(b *testing.B) {
	for b.Loop() {
		if _, err := model.ParseIDs("1-999999"); err != nil {
			b.Fatal(err)
		}
	}
}
