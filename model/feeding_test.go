package model_test

import (
	"strings"
	"testing"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

var weak = model.Mix{Powder: "orchid 20-10-20", N: 20, PPM: 50}

// A bottle that holds fed water gives no plain mist: it would feed, and nobody
// would know.
func TestTheBottleIsAskedAbout(t *testing.T) {
	d := shelved(t)
	d.write(&model.Mist{}, 1)
	d.write(&model.Bottle{Fed: &weak, Of: model.Rain})
	d.refuses(
		refusal{&model.Mist{}, model.IDs{1}, "the mist bottle has held fed water since 2 May 2026", "enter this as a feed"},
		refusal{&model.Bottle{Fed: &weak, Empty: true}, nil, "an empty bottle", ""},
		refusal{&model.Bottle{Fed: &model.Mix{}}, nil, "without a strength", "ppm"},
		refusal{&model.Bottle{Of: "soup"}, nil, "soup", "words for water"},
	)
	d.write(&model.Feed{How: model.ByMist, Mix: weak}, 1)
	if r := d.Row(1); !r.Fed.Equal(r.Misted) || r.FedHow != model.ByMist || r.FedMix.PPM != 50 {
		t.Errorf("fed %s by %s, misted %s", r.Fed, r.FedHow, r.Misted)
	}
	d.write(&model.Bottle{})
	d.write(&model.Mist{}, 1)
}

func TestFeedsRefused(t *testing.T) {
	d := shelved(t)
	one := model.IDs{1}
	mix := func(m model.Mix) model.Fact { return &model.Feed{How: model.ByDip, Mix: m} }
	d.refuses(
		refusal{&model.Feed{How: "spoon", Mix: weak}, one, "spoon", "mist, dip or bath"},
		refusal{&model.Feed{How: model.ByDip, Mix: weak, Litres: -1}, one, "-1 litres", "1000"},
		refusal{mix(model.Mix{}), one, "without a strength", "ppm"},
		refusal{mix(model.Mix{PPM: 50, N: 48}), one, "48 % nitrogen", "up to 47"},
		refusal{mix(model.Mix{PPM: -5}), one, "-5 ppm", "mg to the litre"},
		refusal{mix(model.Mix{Part: 2}), one, "2 times the label", "a quarter is 0.25"},
		refusal{mix(model.Mix{PPM: 201}), one, "over the house rule's 200", "thin it"},
		refusal{mix(model.Mix{PPM: 50, Powder: strings.Repeat("x", model.MaxText+1)}), one, "2000 characters", "shorten"},
		refusal{mix(weak), model.IDs{9}, "no plant 9", ""},
	)
	d.write(mix(model.Mix{PPM: 201, Over: true}), 1)
	d.write(mix(model.Mix{Part: 0.25}), 2)
	d.write(&model.RuleSet{Name: "feed-warn", Value: 40})
	d.write(&model.RuleSet{Name: "feed-refuse", Value: 40})
	d.refuses(refusal{mix(weak), one, "over the house rule's 40", "thin it"})
}

// A load in fed water feeds its plants; what was said of the load stands before
// what the vessel was filled with.
func TestALoadInFedWaterFeeds(t *testing.T) {
	d := shelved(t)
	d.write(&model.Fill{Vessel: "tub", Fed: &weak})
	load := d.soak(1, 2)
	if r := d.Row(2); r.FedHow != model.ByBath || r.FedMix.PPM != 50 || d.Load(load).Fed == nil {
		t.Errorf("fed %q with %v", r.FedHow, r.FedMix)
	}
	strong := model.Mix{PPM: 100}
	d.write(&model.Soak{Load: d.NextLoad(), Vessel: "bucket 1", Due: d.at.Add(time.Hour), Fed: &strong}, 3)
	if r := d.Row(3); r.FedMix.PPM != 100 || d.Water("bucket 1").Fed.PPM != 100 {
		t.Errorf("fed with %v", r.FedMix)
	}
	d.write(&model.Soak{Load: d.NextLoad(), Vessel: "tub", Due: d.at.Add(time.Hour), Fed: &strong}, 6)
	if d.Row(6).FedMix.PPM != 100 {
		t.Errorf("what the tub was filled with stood before what was said: %v", d.Row(6).FedMix)
	}
	d.write(&model.Soak{Load: d.NextLoad(), Vessel: "bucket 2", Due: d.at.Add(time.Hour)}, 4)
	if !d.Row(4).Fed.IsZero() {
		t.Error("plain water fed")
	}
}

// The water knows how many loads it served, since when, and the worst company
// that was in it.
func TestWaterRemembersItsCompany(t *testing.T) {
	d := shelved(t)
	d.write(&model.Fill{Vessel: "TUB", Of: []model.Source{model.Rain}})
	if w := d.Water("tub"); w.Vessel != "tub" || w.Loads != 0 || !w.FirstIn.IsZero() {
		t.Errorf("fresh water %+v", w)
	}
	d.soak(1)
	first := d.at
	d.refuses(
		refusal{&model.Fill{Vessel: "tub"}, nil, "tub has load 1 in it", "take the plants out"},
		refusal{&model.Drain{Vessel: "tub"}, nil, "tub has load 1 in it", "take the plants out"},
		refusal{&model.Fill{Vessel: "sink"}, nil, "no vessel \"sink\"", "tub"},
	)
	d.write(&model.Quarantine{}, 2)
	d.soak(2)
	if w := d.Water("tub"); w.Loads != 2 || !w.FirstIn.Equal(first) || w.Worst != model.Newcomer {
		t.Errorf("after a newcomer %+v", w)
	}
	d.write(&model.Trouble{What: model.Mites}, 3)
	d.soak(3)
	d.soak(4)
	if w := d.Water("tub"); w.Worst != model.Sick {
		t.Errorf("after a sick plant and a sound one: %s", w.Worst)
	}
	d.write(&model.Out{}, 1, 2, 3, 4)
	d.write(&model.Drain{Vessel: "tub"})
	if d.Water("tub") != nil {
		t.Error("an empty tub holds water")
	}
}

// Salt stays on the leaves: FAO Irrigation and Drainage Paper 29, table 1.
func TestSaltWaterIsRefused(t *testing.T) {
	d := shelved(t)
	d.refuses(
		refusal{&model.Fill{Vessel: "tub", Of: []model.Source{model.Sea}}, nil, "sea water", "rain"},
		refusal{&model.Fill{Vessel: "tub", Of: []model.Source{model.Rain, model.Softened}}, nil, "softened", "before the softener"},
		refusal{&model.Mist{Of: model.Softened}, model.IDs{1}, "softened", "rain"},
		refusal{&model.Fill{Vessel: "tub", Stood: -1}, nil, "-1 hours", "hours"},
		refusal{&model.Fill{Vessel: "tub", EC: 350}, nil, "350 dS/m", "1 mS/cm"},
		refusal{&model.Fill{Vessel: "tub", TempC: 70}, nil, "70 °C", "unit"},
		refusal{&model.Sample{EC: 1}, nil, "no water", "vessel or the source"},
		refusal{&model.Sample{Of: model.Tap}, nil, "nothing measured", "conductivity"},
		refusal{&model.Sample{Of: model.Tap, Sodium: -1}, nil, "sodium of -1", "unit"},
		refusal{&model.Sample{Vessel: "sink", EC: 1}, nil, "no vessel", "tub"},
		refusal{&model.Sample{Of: "soup", EC: 1}, nil, "soup", "words for water"},
	)
	d.write(&model.Sample{Of: model.Softened, Sodium: 120}) // it may be measured
}

// A feed told with the plant stands until a later one is known.
func TestAFeedToldWithThePlant(t *testing.T) {
	d := shelved(t)
	d.write(&model.Feed{How: model.ByDip, Mix: weak}, 1)
	fed := d.at
	for _, told := range []struct {
		on   date.Date
		want time.Time
	}{{date.NewAt(soakDay) - 1, fed}, {date.NewAt(soakDay) + 3, model.NoonOf(date.NewAt(soakDay)+3, time.UTC)}} {
		d.at = d.at.AddDate(0, 0, 4)
		d.write(&model.Edit{Plants: []model.Plant{{ID: 1, Count: 1, FedOn: told.on}}})
		if got := d.Row(1).Fed; !got.Equal(told.want) {
			t.Errorf("told %s: fed %s, want %s", told.on, got, told.want)
		}
	}
	if r := d.Row(1); r.FedHow != "" || r.FedMix != nil {
		t.Errorf("told by the day alone, fed by %q with %v", r.FedHow, r.FedMix)
	}
}
