package show_test

import (
	"math"
	"testing"

	"tubside/model"
	"tubside/ui/show"
)

func TestSentencesOfTheRestOfTheJob(t *testing.T) {
	mix := model.Mix{Powder: "orchid 20-10-20", PPM: 50}
	for _, c := range []struct {
		fact model.Fact
		ids  model.IDs
		want string
	}{
		{&model.Bloom{}, model.IDs{1}, "Fuego in bloom"},
		{&model.Bloom{Stage: model.Bud}, model.IDs{1}, "Fuego in bud"},
		{&model.Bloom{Stage: model.Open}, model.IDs{1}, "Fuego in bloom"},
		{&model.Bloom{Stage: model.Spent}, model.IDs{1}, "Fuego has spent its bloom"},
		{&model.Bloom{Over: true}, model.IDs{1}, "Fuego no longer in bloom"},
		{&model.Mist{}, model.IDs{2}, "2 misted"},
		{&model.Mist{Of: model.Rain}, model.IDs{2}, "2 misted with rain water"},
		{&model.Feed{How: model.ByMist, Mix: mix}, model.IDs{2, 3}, "2 and 3 fed by mist, 50 ppm N of orchid 20-10-20"},
		{&model.Feed{How: model.ByDip, Mix: model.Mix{Part: 0.25}}, model.IDs{2}, "2 fed by dip, 0.25 of the label's rate"},
		{&model.Offsets{Count: 2, Share: 0.4}, model.IDs{2}, "2: 2 offsets, the biggest 40 % of its parent"},
		{&model.Offsets{Count: 1}, model.IDs{2}, "2: 1 offset"},
		{&model.Fading{}, model.IDs{2}, "2 fading"},
		{&model.Fading{Over: true}, model.IDs{2}, "2 not fading after all"},
		{&model.Quarantine{}, model.IDs{2}, "2 in quarantine"},
		{&model.Quarantine{Over: true}, model.IDs{2}, "2 released from quarantine"},
		{&model.Quarantine{Over: true, Early: true}, model.IDs{2}, "2 released from quarantine, early"},
		{&model.Trouble{What: model.Scale, Treatment: "swab"}, model.IDs{2}, "2: scale (swab)"},
		{&model.Trouble{What: model.Scale, Over: true}, model.IDs{2}, "2: scale is over"},
		{&model.LookedOver{}, model.IDs{2}, "2 looked over, nothing found"},
		{&model.Split{New: model.Plant{ID: 50, Label: "pup", Count: 1, Mother: 1}, Offset: true}, model.IDs{1}, "1 separated off Fuego as pup (50)"},
		{&model.Fill{Vessel: "tub", Of: []model.Source{model.RestedTap}}, nil, "tub filled with tap water that had stood"},
		{&model.Fill{Vessel: "tub", Of: []model.Source{model.RO, model.Tap}, EC: 0.35, TempC: 21}, nil, "tub filled with a blend of ro, tap, 0.35 dS/m, 21 °C"},
		{&model.Fill{Vessel: "tub"}, nil, "tub filled with water"},
		{&model.Fill{Vessel: "bucket 1", Of: []model.Source{model.Rain}, Fed: &mix}, nil, "bucket 1 filled with rain, 50 ppm N of orchid 20-10-20"},
		{&model.Drain{Vessel: "tub"}, nil, "tub emptied"},
		{&model.Sample{Of: model.Tap, EC: 0.4, Hardness: 180}, nil, "water of tap, 0.4 dS/m, hardness 180 mg/L"},
		{&model.Sample{Vessel: "tub", TempC: 20}, nil, "water of tub, 20 °C"},
		{&model.Bottle{}, nil, "mist bottle holds plain water"},
		{&model.Bottle{Fed: &mix, Of: model.Rain}, nil, "mist bottle holds fed rain water, 50 ppm N of orchid 20-10-20"},
		{&model.Bottle{Empty: true}, nil, "mist bottle emptied"},
		{&model.Import{File: "a.csv", Stages: map[model.Stage]model.IDs{model.Bud: {1}, model.Open: {2, 3}}}, nil, "imported a.csv: 0 plants added, bloom marked on 3"},
		{&model.Import{File: "a.csv", RotOn: model.IDs{1}, RotOff: model.IDs{2}, TroubleOn: map[model.Ailment]model.IDs{model.Sun: {1}}, Offsets: make([]model.OffsetsOf, 4), FadingOff: model.IDs{3}}, nil,
			"imported a.csv: 0 plants added, rot marked on 2, troubles marked on 1, offsets marked on 4, fading marked on 1"},
	} {
		if got := show.Sentence(model.NewEntry(noon, c.fact, c.ids...), shelf(t)); got != c.want {
			t.Errorf("%+v\n says %q\n want %q", c.fact, got, c.want)
		}
	}
}

// A US gallon is 231 cubic inches (NIST Handbook 44, appendix C).
func TestVolumes(t *testing.T) {
	for text, want := range map[string]float64{"20": 20, "20 L": 20, "0,5 l": 0.5, "500 mL": 0.5, "1 gal": 3.785411784, "5 gallons": 18.92705892, "2 litres": 2} {
		if got, err := show.ParseVolume(text, false); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%q is %g L, %v; want %g", text, got, err, want)
		}
	}
	for _, text := range []string{"", "gal", "0", "-1 L", "plenty", "NaN", "inf L"} {
		if got, err := show.ParseVolume(text, false); err == nil {
			t.Errorf("%q is %g L", text, got)
		}
	}
}

// Water is shown in the house's unit, and a number alone is read in it where the
// board asks.
func TestVolumesInTheHousesUnit(t *testing.T) {
	rules := model.DefaultRules()
	if got := show.Volume(95, rules); got != "95 L" {
		t.Errorf("95 L is %q", got)
	}
	rules[model.VolumeUnit] = 1
	for litres, want := range map[float64]string{95: "25.1 gal", 3.785411784: "1 gal", 10: "2.6 gal"} {
		if got := show.Volume(litres, rules); got != want {
			t.Errorf("%g L is %q, want %q", litres, got, want)
		}
	}
	if got := show.VolumeOf(10, 95, rules); got != "  3/25 gal" {
		t.Errorf("10 of 95 L is %q", got)
	}
	if got, err := show.ParseVolume("26", true); err != nil || math.Abs(got-26*3.785411784) > 1e-9 {
		t.Errorf("26 alone is %g L, %v", got, err)
	}
}

func TestDoseWords(t *testing.T) {
	for got, want := range map[string]string{
		show.Grams(5): "5.0 g", show.Grams(0.25): "0.25 g", show.Litres(18.927): "18.93 L", show.Litres(20): "20 L",
		show.Spoons(0.96): "1.0 level teaspoons", show.PPM(49.6): "50 ppm",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestBloomWords(t *testing.T) {
	b := shelf(t)
	for _, step := range []struct {
		fact model.Bloom
		want string
	}{{model.Bloom{Stage: model.Bud}, "in bud"}, {model.Bloom{Stage: model.Open}, "in bloom"}, {model.Bloom{Stage: model.Spent}, "spent"}, {model.Bloom{}, "in bloom"}, {model.Bloom{Over: true}, ""}} {
		enter(t, b, &step.fact, 1)
		if got := show.Bloom(b.Row(1)); got != step.want {
			t.Errorf("after %+v: %q, want %q", step.fact, got, step.want)
		}
	}
}
