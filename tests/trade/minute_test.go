package trade_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
	"tubside/ui/show"
)

// answered goes through the one-minute test with a key for each question.
func answered(t *testing.T, keys string) *show.Verdict {
	t.Helper()
	for i, key := range keys {
		for _, a := range show.MinuteTest[i].Answers {
			if a.Key == key && a.Verdict != nil {
				return a.Verdict
			}
		}
	}
	return nil
}

// Common practice, no source: base, centre leaf, smell, side, bath, lens, and
// only then thirst.
func TestTheMinuteTest(t *testing.T) {
	for keys, want := range map[string]struct {
		what string
		fact model.Fact
	}{
		"y":       {"rot", &model.Rot{}},
		"ny":      {"rot", &model.Rot{}},
		"nns":     {"rot", &model.Rot{}},
		"nnf":     {"bacterial rot", &model.Rot{}},
		"nnns":    {"sunburn", &model.Trouble{What: model.Sun}},
		"nnnc":    {"cold", &model.Trouble{What: model.Cold}},
		"nnnny":   {"salt or feed burn", &model.Trouble{What: model.Burn}},
		"nnnnns":  {"scale", &model.Trouble{What: model.Scale}},
		"nnnnnm":  {"mealybug", &model.Trouble{What: model.Mealybug}},
		"nnnnnw":  {"mites", &model.Trouble{What: model.Mites}},
		"nnnnnnr": {"thirst", nil},
		"nnnnnny": {"not thirst", nil},
		"nnnnnnn": {"nothing found", &model.LookedOver{}},
	} {
		v := answered(t, keys)
		if v == nil || v.What != want.what {
			t.Errorf("%s: %+v, want %s", keys, v, want.what)
			continue
		}
		if len(v.Do) == 0 || v.Mark == "" {
			t.Errorf("%s says nothing to do, or not who says so", v.What)
		}
		c := newCollection(t)
		id := c.medium(model.Rosette, model.Mesic, 5)
		if !cmp.Equal(v.Fact, want.fact) {
			t.Errorf("%s enters %+v", v.What, v.Fact)
		}
		if v.Fact != nil {
			c.enter(today, v.Fact, id) // the book takes it as it is
		}
	}
	for i, q := range show.MinuteTest {
		open := false
		keys := map[rune]bool{}
		for _, a := range q.Answers {
			open = open || a.Verdict == nil
			if keys[a.Key] {
				t.Errorf("question %d: key %c twice", i+1, a.Key)
			}
			keys[a.Key] = true
		}
		if last := i == len(show.MinuteTest)-1; open == last {
			t.Errorf("question %d: every answer but the last question's leaves one way on", i+1)
		}
	}
}

// Every trouble has its treatment, with who says so.
func TestEveryTroubleHasItsTreatment(t *testing.T) {
	for _, what := range model.Ailments {
		if tr := show.TreatmentOf(what); len(tr.Steps) == 0 || tr.Origin == "" {
			t.Errorf("%s: %+v", what, tr)
		}
	}
	for i, of := range model.Sources {
		if info := show.Sources[i]; info.Of != of || info.What == "" || info.Origin == "" {
			t.Errorf("%s: %+v", of, info)
		}
	}
}
