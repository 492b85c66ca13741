package table_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
	"tubside/store/table"
)

func TestHealthComesIn(t *testing.T) {
	b := newBook()
	file := "id,label,suspected rot,pests,pups,giving out\n1,A,yes,Mites; scale,3 (40 %),y\n2,B,no,none,0,no\n3,C,,,2,\n"
	imp, sum := mustPlan(t, b, file)
	want := model.Import{
		Added: imp.Added, RotOn: model.IDs{1}, FadingOn: model.IDs{1},
		TroubleOn: map[model.Ailment]model.IDs{model.Scale: {1}, model.Mites: {1}},
		Offsets:   []model.OffsetsOf{{Plant: 1, Seen: model.Offsets{Count: 3, Share: 0.4}}, {Plant: 3, Seen: model.Offsets{Count: 2}}},
	}
	if diff := cmp.Diff(&want, imp); diff != "" {
		t.Error(diff)
	}
	if sum.RotOn != 1 || sum.FadingOn != 1 || sum.Troubles != 1 || sum.Offsets != 2 {
		t.Errorf("summary %+v", sum)
	}
	tell(t, b, imp)
	if out := export(t, b, table.WriteOptions{}); !strings.Contains(out, ",yes,scale; mites,3 (40 %),yes,") ||
		!strings.Contains(out, ",no,,2,no,") {
		t.Errorf("written as\n%s", out)
	}
	expect(t, "again", bring(t, b, file), counts{unchanged: 3})
}

// An empty cell leaves what the book says; a count alone says less than one with
// a share. Only a word for no takes something back.
func TestHealthIsTakenBackOnlyByAWord(t *testing.T) {
	b := newBook()
	bring(t, b, "id,label,rot,troubles,offsets,fading\n1,A,yes,scale; sun,3 (40 %),yes\n")
	expect(t, "empty", bring(t, b, "id,rot,troubles,offsets,fading\n1,,,,\n"), counts{unchanged: 1})
	expect(t, "less is said", bring(t, b, "id,offsets\n1,3\n"), counts{unchanged: 1})
	expect(t, "one trouble less, a bigger offset", bring(t, b, "id,troubles,offsets\n1,sun,3 (50 %)\n"),
		counts{changed: 1})
	if r := b.Row(1); len(r.Troubles) != 1 || r.Troubles[0].What != model.Sun || r.OffsetShare != 0.5 ||
		r.Rot.IsZero() {
		t.Errorf("after that %+v", r)
	}
	sum := bring(t, b, "id,rot,troubles,offsets,fading\n1,no,none,none,no\n")
	expect(t, "sound", sum, counts{changed: 1})
	if r := b.Row(1); !r.Rot.IsZero() || len(r.Troubles) != 0 || r.Offsets != 0 || !r.Fading.IsZero() ||
		sum.RotOff != 1 || sum.FadingOff != 1 {
		t.Errorf("sound: %+v, %+v", r, sum)
	}
}

func TestWhatHealthCannotBeIsAFault(t *testing.T) {
	want := []string{
		`line 2, rot: "maybe" is neither yes nor no; write yes while rot is suspected, else no`,
		`line 3, troubles: "rot" is not one of the troubles; use scale, mealybug, mites, burn, cold, sun or none; rot has a column of its own`,
		`line 4, troubles: "gloom" is not one of the troubles; use scale, mealybug, mites, burn, cold, sun or none; rot has a column of its own`,
		`line 5, offsets: "many" does not count offsets; write how many, up to 100, and how big the biggest is beside its parent: 3 (40 %)`,
		`line 6, offsets: "101" does not count offsets; write how many, up to 100, and how big the biggest is beside its parent: 3 (40 %)`,
		`line 7, offsets: "3 (151 %)" does not count offsets; write how many, up to 100, and how big the biggest is beside its parent: 3 (40 %)`,
		`line 8, fading: "old" is neither yes nor no; write yes while the mother is giving out, else no`,
	}
	got := faultsOf(t, "label,rot,troubles,offsets,fading\nA,maybe,,,\nB,,scale; rot,,\nC,,gloom,,\nD,,,many,\nE,,,101,\nF,,,3 (151 %),\nG,,,,old\n")
	if diff := cmp.Diff(want, strings.Split(got, "\n")); diff != "" {
		t.Error(diff)
	}
	if s, err := table.Read(strings.NewReader("label,offsets\nA,100 (150 %)\n"), table.ReadOptions{}); err != nil {
		t.Error(err)
	} else if _, _, err := table.Plan(newBook(), s, sunday); err != nil {
		t.Errorf("the book refuses the most a file may say: %v", err)
	}
}
