package model_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

func TestFormsInGrowersWords(t *testing.T) {
	for text, want := range map[string]model.Form{
		"": "", "  ": "", "Rosette": model.Rosette, "r": model.Rosette, "bul": model.Bulbous, "pseudobulbous": model.Bulbous, "bulb": model.Bulbous,
		"wispy": model.Wispy, "thin": model.Wispy, "thin-leaved": model.Wispy, "grassy": model.Wispy,
		"caulescent": model.Stemmed, "stem": model.Stemmed, "stemmed": model.Stemmed,
		"f": model.Fuzzy, " TANK ": model.Tank, "pendent": model.Pendent, "pendant": model.Pendent, "hanging": model.Pendent,
	} {
		if got, err := model.ParseForm(text); err != nil || got != want {
			t.Errorf("%q read as form %q, %v; want %q", text, got, err, want)
		}
	}
	_, err := model.ParseForm("cactus")
	p, told := model.AsProblem(err)
	if !told || !strings.Contains(p.What, `"cactus"`) {
		t.Fatalf("a cactus: %v", err)
	}
	for _, f := range model.Forms {
		if !strings.Contains(p.Do, string(f)) {
			t.Errorf("told to %q, which leaves out %s", p.Do, f)
		}
		if got, err := model.ParseForm(string(f)); err != nil || got != f {
			t.Errorf("%q, from our own list, read as %q, %v", f, got, err)
		}
	}
}

func TestLeavesInGrowersWords(t *testing.T) {
	for text, want := range map[string]model.Leaf{"": "", "M": model.Mesic, "inter": model.Intermediate,
		" xeric": model.Xeric} {
		if got, err := model.ParseLeaf(text); err != nil || got != want {
			t.Errorf("%q read as leaf %q, %v; want %q", text, got, err, want)
		}
	}
	if _, err := model.ParseLeaf("mesicc"); err == nil ||
		!strings.Contains(err.Error(), "use mesic, intermediate, xeric") {
		t.Errorf("a slip of the key: %v", err)
	}
}

func TestFansInWords(t *testing.T) {
	for _, want := range model.Fans {
		if got, err := model.ParseFan(string(want)); err != nil || got != want {
			t.Errorf("fan %q read as %q, %v", want, got, err)
		}
	}
	for _, text := range []string{"o", "", "storm"} { // o is off or on
		if got, err := model.ParseFan(text); err == nil || !strings.Contains(err.Error(), "use off, low, on, near") {
			t.Errorf("fan %q read as %q, %v", text, got, err)
		}
	}
}

func TestWhatAPlantIsCalled(t *testing.T) {
	for _, c := range []struct {
		plant model.Plant
		want  string
	}{
		{model.Plant{ID: 7, Label: "gift", Name: "ionantha", Now: "ionantha var. stricta"}, "gift"},
		{model.Plant{ID: 7, Name: "ionantha"}, "ionantha"},
		{model.Plant{ID: 7}, "#7"},
	} {
		if got := c.plant.Title(); got != c.want {
			t.Errorf("%+v is called %q, want %q", c.plant, got, c.want)
		}
	}
	for home, want := range map[model.Home]string{{Shelf: "A", Spot: "12"}: "A 12", {Shelf: "A"}: "A",
		{Spot: "window"}: "window", {}: ""} {
		if got := home.String(); got != want {
			t.Errorf("home %+v is written %q, want %q", home, got, want)
		}
	}
	for _, a := range []model.Assumed{{Form: true}, {Leaf: true}, {Size: true}} {
		if !a.Any() {
			t.Errorf("%+v says that nothing was assumed", a)
		}
	}
	if (model.Assumed{}).Any() {
		t.Error("something was assumed of nothing")
	}
}

func TestRowsRefused(t *testing.T) {
	long := strings.Repeat("x", model.MaxText+1)
	for _, c := range []struct {
		name     string
		plant    model.Plant
		what, do string
	}{
		{"no number", model.Plant{Count: 1}, "without a number", "from 1"},
		{"a number past the last", model.Plant{ID: model.MaxID + 1, Count: 1}, "plant number 1000000", "up to 999999"},
		{"none of it", model.Plant{ID: 7}, "plant 7: count 0", "1 to 10000"},
		{"less than none", model.Plant{ID: 7, Count: -3}, "count -3", "1 to 10000"},
		{"a slipped digit", model.Plant{ID: 7, Count: 10001}, "count 10001", "1 to 10000"},
		{"millimetres", model.Plant{ID: 7, Count: 1, Size: 301}, "size 301 cm", "span in cm, up to 300"},
		{"negative", model.Plant{ID: 7, Count: 1, Size: -1}, "size -1 cm", "up to 300"},
		{"no number at all", model.Plant{ID: 7, Count: 1, Size: math.NaN()}, "size NaN cm", "up to 300"},
		{"not a form", model.Plant{ID: 7, Count: 1, Form: "cactus"}, `form "cactus"`, "form words"},
		{"columns swapped", model.Plant{ID: 7, Count: 1, Leaf: "rosette"}, `leaf "rosette"`, "mesic, intermediate or xeric"},
		{"its own mother", model.Plant{ID: 7, Count: 1, Mother: 7}, "plant 7: mother 7", "the plant it was taken off"},
		{"a mother past the last", model.Plant{ID: 7, Count: 1, Mother: model.MaxID + 1}, "mother 1000000", "the plant it was taken off"},
		{"a long note", model.Plant{ID: 7, Count: 1, Note: long}, "more than 2000 characters", "shorten it"},
		{"a long label", model.Plant{ID: 7, Count: 1, Label: long}, "more than 2000 characters", "shorten it"},
		{"a long name", model.Plant{ID: 7, Count: 1, Name: long}, "more than 2000 characters", "shorten it"},
		{"a long name now", model.Plant{ID: 7, Count: 1, Now: long}, "more than 2000 characters", "shorten it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := shelved(t)
			d.refuses(
				refusal{&model.Add{Plants: []model.Plant{{ID: 8, Count: 1}, c.plant}}, nil, c.what, c.do},
				refusal{&model.Edit{Plants: []model.Plant{c.plant}}, nil, c.what, c.do},
				refusal{&model.Import{Added: []model.Plant{c.plant}}, nil, c.what, c.do},
				refusal{&model.Import{Changed: []model.Plant{c.plant}}, nil, c.what, c.do},
			)
			if c.plant.Count == 1 { // else the tray would be told first
				d.refuses(refusal{&model.Split{New: c.plant}, model.IDs{5}, c.what, c.do})
			}
		})
	}
}

// The ends of what a row may hold are inside. Characters are counted as a
// person counts them, not as the disk does.
func TestRowsAtTheEdge(t *testing.T) {
	text := strings.Repeat("ä", model.MaxText)
	d := blank(t)
	d.write(&model.Add{Plants: []model.Plant{
		{ID: 1, Count: model.MaxCount, Size: model.MaxSizeCM, Label: text, Name: text, Now: text, Note: text},
		{ID: model.MaxID, Count: 1},
		{ID: 2, Count: 1, Mother: model.MaxID},
	}})
	d.write(&model.Mist{}, 1, model.MaxID)
	if d.Len() != 3 {
		t.Errorf("%d rows, want 3", d.Len())
	}
}

// The soak told with a plant counts as one at noon of that day, until a later
// one is known.
func TestASoakToldWithThePlant(t *testing.T) {
	tallinn := zone(t, "Europe/Tallinn")
	d := &diary{model.NewBook(tallinn), t, soakDay}
	told := date.New(2026, time.April, 25)
	d.write(&model.Add{Plants: []model.Plant{{ID: 1, Count: 1, SoakedOn: told, FedOn: told}, {ID: 2, Count: 1}}})
	noon := time.Date(2026, 4, 25, 12, 0, 0, 0, tallinn)
	if r := d.Row(1); !r.LastSoak().Equal(noon) || !r.In.Equal(noon) || r.Minutes != 0 || r.State != model.AtHome {
		t.Errorf("told %v: last soak %v, in %v for %g min, %s", told, r.LastSoak(), r.In, r.Minutes, r.State)
	}
	if fed := d.Row(1).Fed; !fed.Equal(noon) {
		t.Errorf("told that it was fed on %v: %v", told, fed)
	}
	if !d.Row(2).LastSoak().IsZero() || !d.Row(2).DrySince().IsZero() {
		t.Error("a plant of which nobody told a soak has one")
	}

	// The tub knows better than what was told before.
	d.soak(1)
	in := d.at
	if !d.Row(1).LastSoak().Equal(in) {
		t.Errorf("in the water since %v, last soak %v", in, d.Row(1).LastSoak())
	}
	d.write(&model.Edit{Plants: []model.Plant{{ID: 1, Count: 1, SoakedOn: told + 2}}})
	if r := d.Row(1); !r.In.Equal(in) || !r.Out.Equal(noon) {
		t.Errorf("told of an older soak: in %v, out %v", r.In, r.Out)
	}
	d.write(&model.Out{}, 1)
	d.write(&model.Edit{Plants: []model.Plant{{ID: 1, Count: 1, SoakedOn: told + 3}}})
	if r := d.Row(1); !r.LastSoak().Equal(d.at.Add(-time.Minute)) {
		t.Errorf("told of an older soak: %v", r.LastSoak())
	}
	d.at = d.at.AddDate(0, 0, 21)
	d.write(&model.Edit{Plants: []model.Plant{{ID: 1, Count: 1, SoakedOn: told + 20}}})
	if r := d.Row(1); !r.LastSoak().Equal(noon.AddDate(0, 0, 20)) || r.Minutes != 0 {
		t.Errorf("told of a later soak: %v of %g min", r.LastSoak(), r.Minutes)
	}
}

// Told of the day on which it was in the tub from eleven to one, noon is no news.
func TestASoakToldOfTheSameDay(t *testing.T) {
	d := shelved(t)
	d.at = soakDay.Add(2 * time.Hour)
	d.soak(1)
	d.at = soakDay.Add(4 * time.Hour)
	d.write(&model.Out{}, 1)
	d.write(&model.Edit{Plants: []model.Plant{{ID: 1, Count: 1, SoakedOn: date.NewAt(soakDay)}}})
	if r := d.Row(1); r.Minutes != 120 || !r.Out.Equal(d.at.Add(-time.Minute)) {
		t.Errorf("out at %v after %g minutes", r.Out, r.Minutes)
	}
}

// A plant dries out from when it was found dry, or from when it came out if
// nobody looked.
func TestDrySince(t *testing.T) {
	d := shelved(t)
	d.soak(1)
	d.write(&model.Out{}, 1)
	out := d.at
	if got := d.Row(1).DrySince(); !got.Equal(out) {
		t.Errorf("not looked at yet: dry since %v, want %v", got, out)
	}
	d.at = d.at.Add(3 * time.Hour)
	d.write(&model.FoundDry{}, 1)
	dry := d.at
	d.write(&model.Hung{}, 1)
	if got := d.Row(1).DrySince(); !got.Equal(dry) {
		t.Errorf("dry since %v, want %v", got, dry)
	}
	d.soak(1)
	d.write(&model.Out{}, 1)
	if got := d.Row(1).DrySince(); !got.Equal(d.at) {
		t.Errorf("after the next soak: dry since %v, want %v", got, d.at)
	}
}

func TestStatesInWords(t *testing.T) {
	for state, want := range map[model.State]string{
		model.AtHome: "home", model.Soaking: "soaking", model.Drying: "drying", model.Dry: "dry", model.Gone: "gone",
	} {
		if text, err := state.MarshalText(); err != nil || string(text) != want {
			t.Errorf("state %d is written %q, %v; want %q", state, text, err, want)
		}
		if away := state != model.AtHome && state != model.Gone; state.Away() != away {
			t.Errorf("%s counts as away: %t", want, state.Away())
		}
	}
}
