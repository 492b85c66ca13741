package model_test

import (
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model"
)

func TestSignsAreKeyedAsThreeDigits(t *testing.T) {
	for _, c := range []struct {
		signs model.Signs
		text  string
		disk  string
	}{
		{model.Signs{Curl: 2, Tips: 1, Shift: model.NotSeen}, "21-", `{"curl":2,"tips":1,"shift":null}`},
		{model.LooksFine, "00-", `{"curl":0,"tips":0,"shift":null}`},
		{model.NoSigns, "---", `{"curl":null,"tips":null,"shift":null}`},
		{model.Signs{Curl: 3, Tips: 3, Shift: model.StaysPale}, "333", `{"curl":3,"tips":3,"shift":3}`},
		{model.Signs{Curl: 0, Tips: model.NotSeen, Shift: model.AlreadyDark}, "0-0", `{"curl":0,"tips":null,"shift":0}`},
	} {
		if got := c.signs.String(); got != c.text {
			t.Errorf("%+v keyed as %q, want %q", c.signs, got, c.text)
		}
		if got, err := json.Marshal(c.signs); err != nil || string(got) != c.disk {
			t.Errorf("%+v on disk is %s, %v; want %s", c.signs, got, err, c.disk)
		}
	}
}

func anyGrade() *rapid.Generator[model.Grade] {
	return rapid.Map(rapid.IntRange(int(model.NotSeen), int(model.MaxGrade)),
		func(n int) model.Grade { return model.Grade(n) })
}

func TestSignsReadBackAsWritten(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		g := anyGrade()
		signs := model.Signs{Curl: g.Draw(rt, "curl"), Tips: g.Draw(rt, "tips"), Shift: g.Draw(rt, "shift")}
		text, err := json.Marshal(signs)
		if err != nil {
			rt.Fatal(err)
		}
		got := model.Signs{Curl: 1, Tips: 1, Shift: 1} // what stood there before does not shine through
		if err := json.Unmarshal(text, &got); err != nil || got != signs {
			rt.Errorf("%s read as %v, %v", text, got, err)
		}
		if grade, err := model.ParseGrade(signs.Curl.String()); err != nil || grade != signs.Curl {
			rt.Errorf("%q read as %d, %v", signs.Curl.String(), grade, err)
		}
	})
}

func TestGradesRefused(t *testing.T) {
	for _, text := range []string{"4", "9", "-1", "", "12", "x", " 1", "--", "/"} {
		g, err := model.ParseGrade(text)
		if p, told := model.AsProblem(err); !told || !strings.Contains(p.Do, "0 to 3") || g != model.NotSeen {
			t.Errorf("%q read as grade %d, %v", text, g, err)
		}
	}
	for _, text := range []string{"4", "-1", "1.5", `"1"`, "true"} {
		var g model.Grade
		if err := json.Unmarshal([]byte(text), &g); err == nil {
			t.Errorf("%s on disk read as grade %d", text, g)
		}
	}
}

func TestSignsRefused(t *testing.T) {
	shelved(t).refuses(
		refusal{&model.Look{Signs: model.NoSigns}, model.IDs{1}, "nothing seen", "give curl, tips or shift"},
		refusal{&model.Look{Signs: model.Signs{Curl: 4}}, model.IDs{1}, "grade 4", "0 to 3"},
		refusal{&model.Look{Signs: model.Signs{Tips: 4}}, model.IDs{1}, "grade 4", "0 to 3"},
		refusal{&model.Look{Signs: model.Signs{Shift: -2}}, model.IDs{1}, "grade -2", "0 to 3"},
	)
}

// One sign is enough: a curl seen in passing is worth its line.
func TestOneSignIsEnough(t *testing.T) {
	d := shelved(t)
	for _, s := range []model.Signs{
		{Curl: 0, Tips: model.NotSeen, Shift: model.NotSeen},
		{Curl: model.NotSeen, Tips: 3, Shift: model.NotSeen},
		{Curl: model.NotSeen, Tips: model.NotSeen, Shift: 2},
	} {
		if !s.Seen() {
			t.Errorf("%v counts as not seen", s)
		}
		d.write(&model.Look{Signs: s}, 1)
		if r := d.Row(1); r.Signs != s || !r.SignsAt.Equal(d.at) {
			t.Errorf("row says %v at %v, want %v at %v", r.Signs, r.SignsAt, s, d.at)
		}
	}
	if d.Row(2).Signs != model.NoSigns || !d.Row(2).SignsAt.IsZero() {
		t.Error("signs on one plant came down on another")
	}
}
