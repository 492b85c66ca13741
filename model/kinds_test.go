package model_test

import (
	"encoding/json"
	"reflect"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rickb777/date/v2"

	"tubside/model"
)

var (
	// fullRow and fullMix say something in every field.
	fullRow = model.Plant{
		ID: 7, Label: "gift", Name: "ionantha", Now: "ionantha var. stricta", Form: model.Rosette, Leaf: model.Mesic,
		Size: 6.5, Count: 3, Home: model.Home{Shelf: "A", Spot: "12"}, Acquired: date.New(2024, time.June, 1),
		SoakedOn: date.New(2026, time.April, 25), FedOn: date.New(2026, time.April, 1),
		NewOn: date.New(2026, time.April, 20), Mother: 2, MistOnly: true, AcquiredTo: model.ToMonth, Note: "from the spring fair", Assumed: model.Assumed{Form: true, Leaf: true, Size: true},
	}
	fullMix = model.Mix{Powder: "20-10-20", N: 20, PPM: 50, Part: 0.25, Over: true}
)

// examples holds one entry's fact of every kind, with something said in every
// field, so that a field which is lost on the way to the disk and back is
// noticed. A new kind, and a new field of an old one, has its place here.
var examples = map[model.Kind]model.Fact{
	"add":    &model.Add{Plants: []model.Plant{fullRow}},
	"back":   &model.Back{},
	"bench":  &model.BenchSet{Bench: model.Bench{Name: "rack", Room: 3.6, Fan: model.FanOn, Factor: 0.8}, Away: true},
	"bloom":  &model.Bloom{Stage: model.Bud, Over: true},
	"bottle": &model.Bottle{Fed: &fullMix, Of: model.Rain, Empty: true},
	"copies": &model.CopiesTo{Folder: "/mnt/stick/tubside"},
	"damp":   &model.Damp{},
	"drain":  &model.Drain{Vessel: "tub"},
	"dry":    &model.FoundDry{},
	"edit":   &model.Edit{Plants: []model.Plant{fullRow}},
	"fading": &model.Fading{Over: true},
	"fan":    &model.FanSet{Fan: model.FanNear},
	"feed":   &model.Feed{How: model.ByDip, Mix: fullMix, Litres: 5},
	"fill":   &model.Fill{Vessel: "tub", Of: []model.Source{model.Rain, model.RestedTap}, Stood: 12, EC: 0.3, TempC: 22, Fed: &fullMix},
	"gone":   &model.Leave{How: model.Lost, Cause: "rot", Note: "heart pulled out brown"},
	"hung":   &model.Hung{},
	"import": &model.Import{File: "shelf.csv", Added: []model.Plant{fullRow}, Changed: []model.Plant{fullRow}, BloomOn: model.IDs{1, 2}, BloomOff: model.IDs{3}, Stages: map[model.Stage]model.IDs{model.Open: {4}},
		RotOn: model.IDs{5}, RotOff: model.IDs{6}, TroubleOn: map[model.Ailment]model.IDs{model.Scale: {7}}, TroubleOff: map[model.Ailment]model.IDs{model.Burn: {8}},
		Offsets: []model.OffsetsOf{{Plant: 9, Seen: model.Offsets{Count: 3, Share: 0.4}}}, FadingOn: model.IDs{10}, FadingOff: model.IDs{11}},
	"laid":    &model.Laid{Bench: "towels"},
	"looked":  &model.LookedOver{},
	"mist":    &model.Mist{Of: model.RO},
	"move":    &model.Move{To: model.Home{Shelf: "B", Spot: "3"}},
	"note":    &model.Note{Text: "window open all day"},
	"swap":    &model.Swap{To: []model.Home{{Shelf: "B", Spot: "3"}, {Shelf: "A", Spot: "12"}}},
	"offsets": &model.Offsets{Count: 3, Share: 0.4},
	"out":     &model.Out{Shaken: true, Inverted: true, Bench: "rack", Took: 600},
	"pull":    &model.Pull{},
	"putback": &model.PutBack{},

	"quarantine": &model.Quarantine{Over: true, Early: true},
	"reading":    &model.Reading{TempC: 21.5, RH: 44, Fan: model.FanLow},
	"readings":   &model.Readings{File: "log.csv", Start: soakDay, Minutes: []int{0, 60}, TempC: []float64{20.5, 21}, RH: []float64{41, 40.5}},
	"plan": &model.Agreed{
		Since: soakDay, From: soakDay, Until: soakDay.Add(8 * time.Hour), DryBy: soakDay.Add(11 * time.Hour),
		Night: true, Feed: true, Small: true, AtOnce: 40, Last: 5, Pauses: []model.Pause{{From: soakDay.Add(3 * time.Hour), Until: soakDay.Add(4 * time.Hour)}},
		Help: []model.Pause{{From: soakDay.Add(time.Hour), Until: soakDay.Add(2 * time.Hour)}},
		Loads: []model.AgreedLoad{{Number: 3, Vessel: "tub", Heap: 1, Night: true, Plants: model.IDs{4, 2}, Least: []int{1800, 1800}, Most: []int{10800, 10800},
			Start: soakDay, Out: soakDay.Add(time.Hour)}},
		Order: []model.AgreedWork{{Do: "in", Load: 1, At: soakDay}, {Do: "out", Load: 1, At: soakDay.Add(time.Hour)}},
		Left:  []model.AgreedLeft{{Plant: 7, Why: "dries too slowly", By: 600, Load: 4, Dropped: soakDay.Add(time.Hour)}},
		Yes:   soakDay, Stop: soakDay.Add(6 * time.Hour),
	},
	"rot":       &model.Rot{Over: true},
	"rule":      &model.RuleSet{Name: "pull-itself", Value: 3, Today: true},
	"shelf":     &model.ShelfSet{Name: "A", Factor: 1.4},
	"shelfdays": &model.ShelfDays{Days: map[string]model.Weekday{"A": "sat"}},
	"signs":     &model.Look{Signs: model.Signs{Curl: 2, Tips: 1, Shift: model.NotSeen}},
	"soak":      &model.Soak{Load: 4, Vessel: "tub", Due: soakDay.Add(time.Hour), Fed: &fullMix, Took: 240},
	"split":     &model.Split{New: fullRow, Offset: true},
	"strike":    &model.Strike{Seq: 12},
	"trip":      &model.Trip{From: soakDay, Until: soakDay.AddDate(0, 0, 12), Note: "the islands"},
	"unread":    &model.Unread{Why: "its checksum is wrong", Was: "{"},
	"trouble":   &model.Trouble{What: model.Scale, Treatment: "wiped off", Over: true},
	"vessel":    &model.VesselSet{Vessel: model.Vessel{Name: "sink", Litres: 25, Refill: 12, Loads: 3, Hours: 2, Fed: true}, Away: true},
	"weighing":  &model.Weighing{Over: true},
	"weight":    &model.Weigh{Grams: 84.5, Wet: true},
	"outside":   &model.Outside{TempC: -5, RH: 80},
	"window":    &model.WindowSet{Window: model.Extractor},
	"water":     &model.Sample{Vessel: "tub", Of: model.Tap, EC: 0.4, TempC: 20, TDS: 200, Hardness: 120, Sodium: 20, Chloride: 30, Boron: 0.1},
}

func TestEveryKindHasAnExample(t *testing.T) {
	for _, kind := range model.Kinds() {
		f := examples[kind]
		switch {
		case f == nil:
			t.Errorf("kind %q has no example", kind)
		case f.Kind() != kind:
			t.Errorf("the example of %q is of kind %q", kind, f.Kind())
		default:
			saysAll(t, string(kind), reflect.ValueOf(f).Elem())
		}
	}
	if len(examples) > len(model.Kinds()) {
		t.Errorf("%d examples of %d kinds", len(examples), len(model.Kinds()))
	}
}

// saysAll holds that an example leaves no field empty, or it would prove nothing
// of that field.
func saysAll(t *testing.T, path string, v reflect.Value) {
	t.Helper()
	switch {
	case v.Kind() == reflect.Pointer && !v.IsNil():
		saysAll(t, path, v.Elem())
	case v.Kind() == reflect.Slice && v.Len() > 0:
		saysAll(t, path, v.Index(v.Len()-1))
	case v.Kind() == reflect.Struct && v.Type() != reflect.TypeFor[time.Time]():
		for i := range v.NumField() {
			saysAll(t, path+"."+v.Type().Field(i).Name, v.Field(i))
		}
	case v.IsZero():
		t.Errorf("the example leaves %s empty", path)
	}
}

// Every kind comes back from the disk as it went there, about plants or about
// none.
func TestEveryKindReadsBackAsWritten(t *testing.T) {
	for kind, f := range examples {
		for _, plants := range []model.IDs{nil, {12, 13, 14, 3}} {
			e := model.NewEntry(soakDay, f, plants...)
			text, err := json.Marshal(e)
			if err != nil {
				t.Fatalf("%s: %v", kind, err)
			}
			var got model.Entry
			if err := json.Unmarshal(text, &got); err != nil {
				t.Fatalf("%s: %v in %s", kind, err, text)
			}
			if diff := cmp.Diff(e, got); diff != "" {
				t.Errorf("%s: from %s\n%s", kind, text, diff)
			}
		}
	}
}

// A kind's empty fact reads back too: what is left out on disk is left out.
func TestEveryKindReadsBackEmpty(t *testing.T) {
	for kind, f := range examples {
		empty := reflect.New(reflect.TypeOf(f).Elem()).Interface().(model.Fact)
		e := model.NewEntry(soakDay, empty, 1)
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatalf("%s: %v", kind, err)
		}
		var got model.Entry
		if err := json.Unmarshal(text, &got); err != nil || !cmp.Equal(e, got) {
			t.Errorf("%s: %s read as %+v, %v", kind, text, got.Fact, err)
		}
	}
}
