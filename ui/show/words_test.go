package show_test

import (
	"testing"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/show"
)

func TestSigns(t *testing.T) {
	for _, c := range []struct {
		signs model.Signs
		want  string
	}{
		{model.Signs{Curl: 1, Tips: 1, Shift: model.NotSeen}, "edges lifting, a few brown new tips"},
		{model.Signs{Curl: 3, Tips: 0, Shift: 2}, "rolled shut, no brown new tips, quick, full shift"},
		{model.Signs{Curl: model.NotSeen, Tips: model.NotSeen, Shift: 3}, "stays pale when wet"},
		{model.NoSigns, "not looked at"},
	} {
		if got := show.Signs(c.signs); got != c.want {
			t.Errorf("Signs(%s) = %q, want %q", c.signs, got, c.want)
		}
	}
}

func TestNumbers(t *testing.T) {
	fahrenheit := model.DefaultRules()
	fahrenheit[model.TempUnit] = 1
	capped := model.DefaultRules()
	capped[model.CapBulbous] = 75
	for _, c := range []struct{ got, want string }{
		{show.Temp(21, model.DefaultRules()), "21.0 °C"},
		{show.Temp(21, fahrenheit), "69.8 °F"},
		{show.Temp(-0.02, model.DefaultRules()), "0.0 °C"},
		{show.Percent(0.849), "85 %"},
		{show.Humidity(35.4), "35 %"},
		{show.Deficit(1.616), "1.62 kPa"},
		{show.Count(1, "plant"), "1 plant"},
		{show.Count(0, "plant"), "0 plants"},
		{show.Count(2, "shelf", "shelves"), "2 shelves"},
		{show.Band(soak.Long, 60, 90), "Long, 1 h to 1 h 30"},
		{show.Band(soak.Mist, 0, 0), "Mist"},
		{show.HoldUp(estimate.HeldByPocket), "water at the heart"},
		{show.HoldUp(estimate.HeldByNone), "dry"},
		{show.Rule(model.CapBulbous, capped), "75 min"},
		{show.Rule(model.Notify, model.DefaultRules()), "bell"},
		{show.Form(model.Plant{Form: model.Rosette, Leaf: model.Xeric, Assumed: model.Assumed{Leaf: true}}), "rosette, xeric?"},
		{show.Form(model.Plant{}), "?"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestParseTemp(t *testing.T) {
	for _, c := range []struct {
		text       string
		fahrenheit bool
		want       float64
	}{
		{"21", false, 21}, {"21,5", false, 21.5}, {"21 °C", true, 21}, {"68F", false, 20}, {"68 °f", false, 20}, {"68", true, 20},
	} {
		got, err := show.ParseTemp(c.text, c.fahrenheit)
		if err != nil || got < c.want-1e-9 || got > c.want+1e-9 {
			t.Errorf("ParseTemp(%q, %v) = %g, %v, want %g", c.text, c.fahrenheit, got, err, c.want)
		}
	}
	for _, bad := range []string{"", "warm", "21K", "NaN", "inf", "F"} {
		if _, err := show.ParseTemp(bad, false); err == nil {
			t.Errorf("ParseTemp(%q) was taken", bad)
		}
	}
}

func TestParseQuantity(t *testing.T) {
	for text, want := range map[string]float64{"1.0": 1, "1.0 m/s": 1, "0,5m/s": 0.5, " 2 ": 2} {
		if got, err := show.ParseQuantity(text, "m/s"); err != nil || got != want {
			t.Errorf("ParseQuantity(%q) = %g, %v, want %g", text, got, err, want)
		}
	}
	for _, bad := range []string{"", "m/s", "1 mm", "nan"} {
		if _, err := show.ParseQuantity(bad, "m/s"); err == nil {
			t.Errorf("ParseQuantity(%q) was taken", bad)
		}
	}
}
