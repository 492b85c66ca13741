package model_test

import (
	"strings"
	"testing"
	"time"

	"github.com/rickb777/date/v2"
	"pgregory.net/rapid"

	"tubside/model"
)

// Released after the days and two clean looks far enough apart; a trouble in
// between starts the looks anew.
func TestAQuarantine(t *testing.T) {
	d := shelved(t)
	d.write(&model.LookedOver{}, 1) // does not count: it was not apart yet
	d.write(&model.Quarantine{}, 1)
	began := d.at
	release := refusal{&model.Quarantine{Over: true}, model.IDs{1}, "", "early"}
	after := func(days int, what string) {
		t.Helper()
		d.at = began.AddDate(0, 0, days)
		release.what = what
		d.refuses(release)
	}
	after(20, "quarantine until 23 May 2026; two clean looks at least 10 days apart")
	d.write(&model.LookedOver{}, 1)
	after(25, "not ready for release: two clean looks")
	d.write(&model.Trouble{What: model.Scale}, 1)
	d.write(&model.LookedOver{}, 1)
	after(36, "it has trouble on record")
	d.write(&model.Trouble{What: model.Scale, Over: true}, 1)
	d.write(&model.LookedOver{}, 1)
	after(45, "two clean looks")
	d.write(&model.LookedOver{}, 1)
	after(46, "two clean looks")                   // nine days apart
	d.at = began.AddDate(0, 0, 46).Add(-time.Hour) // ten days, if not ten times 24 hours
	d.write(&model.LookedOver{}, 1)
	d.write(&model.Quarantine{Over: true}, 1)
	if r := d.Row(1); !r.Quarantine.IsZero() || r.Released.IsZero() {
		t.Errorf("quarantine %s, released %s", r.Quarantine, r.Released)
	}
	d.refuses(refusal{&model.Quarantine{Over: true}, model.IDs{2}, "not in quarantine", ""})
	d.write(&model.Quarantine{}, 2)
	d.write(&model.Quarantine{Over: true, Early: true}, 2)
}

// Told with the plant, a quarantine begins that day; a later edit of something
// else does not begin it again.
func TestAQuarantineToldWithThePlant(t *testing.T) {
	d := blank(t)
	p := model.Plant{ID: 1, Count: 1, NewOn: date.NewAt(soakDay)}
	d.write(&model.Add{Plants: []model.Plant{p}})
	if d.Row(1).Quarantine.IsZero() {
		t.Fatal("not in quarantine")
	}
	d.write(&model.Quarantine{Over: true, Early: true}, 1)
	p.Note = "from the spring fair"
	d.write(&model.Edit{Plants: []model.Plant{p}})
	p.NewOn -= 5
	d.write(&model.Edit{Plants: []model.Plant{p}})
	if !d.Row(1).Quarantine.IsZero() {
		t.Error("an edit put it back into quarantine")
	}
	p.NewOn += 30
	d.write(&model.Edit{Plants: []model.Plant{p}})
	if d.Row(1).Quarantine.IsZero() {
		t.Error("a new quarantine was not taken in")
	}
}

// Company in the water, cleanest first: sick whoever has something that spreads,
// rot among it; suspect for a while after it is cleared.
func TestHealth(t *testing.T) {
	d := shelved(t)
	want := func(id model.ID, at time.Time, h model.Health) {
		t.Helper()
		if got := d.Health(d.Row(id), at); got != h {
			t.Errorf("plant %d is %s, want %s", id, got, h)
		}
	}
	d.write(&model.Trouble{What: model.Sun}, 1) // does not spread
	want(1, d.at, model.Sound)
	d.write(&model.Trouble{What: model.Sun, Over: true}, 1)
	want(1, d.at, model.Sound)
	d.write(&model.Quarantine{}, 2)
	want(2, d.at, model.Newcomer)
	d.write(&model.Rot{}, 3)
	want(3, d.at, model.Sick)
	d.write(&model.Rot{Over: true}, 3)
	want(3, d.at.AddDate(0, 0, 9), model.Suspect)
	want(3, d.at.AddDate(0, 0, 10), model.Sound)
	d.write(&model.Trouble{What: model.Mealybug}, 2)
	want(2, d.at, model.Sick)
	d.write(&model.Trouble{What: model.Mealybug, Over: true}, 2)
	want(2, d.at, model.Suspect)
	want(2, d.at.AddDate(0, 0, 11), model.Newcomer)
	d.write(&model.Rot{Over: true}, 6) // never suspected
	want(6, d.at, model.Sound)
}

// A trouble keeps its first day, and the last treatment.
func TestTroubles(t *testing.T) {
	d := shelved(t)
	d.write(&model.Trouble{What: model.Scale}, 5)
	found := d.at
	d.write(&model.Trouble{What: model.Burn}, 5)
	d.write(&model.Trouble{What: model.Scale, Treatment: "swab"}, 5)
	got := d.Row(5).Troubles
	if len(got) != 2 || !got[0].Since.Equal(found) || got[0].Treatment != "swab" || got[0].Treated.IsZero() ||
		!got[1].Treated.IsZero() {
		t.Errorf("%+v", got)
	}
	d.write(&model.Split{New: model.Plant{ID: 7, Count: 4}}, 5)
	d.write(&model.Trouble{What: model.Scale, Over: true}, 5)
	if len(d.Row(5).Troubles) != 1 || len(d.Row(7).Troubles) != 2 {
		t.Errorf("cleared on the tray: %+v; on its part: %+v", d.Row(5).Troubles, d.Row(7).Troubles)
	}
	d.refuses(
		refusal{&model.Trouble{What: "rot"}, model.IDs{1}, "an entry of its own", "enter it as rot"},
		refusal{&model.Trouble{What: "gloom"}, model.IDs{1}, "gloom", "scale"},
		refusal{&model.Trouble{What: model.Mites, Over: true}, model.IDs{5}, "no mites on record", ""},
		refusal{&model.Trouble{What: model.Mites, Treatment: strings.Repeat("x", model.MaxText+1)}, model.IDs{5}, "2000", "shorten"},
	)
}

// Whatever is written of the job around the soak, striking it leaves the book as
// it was before, and striking the strike as it was after.
func TestAStrikeTakesTheJobBack(t *testing.T) {
	facts := []model.Fact{
		&model.Mist{Of: model.Rain}, &model.Feed{How: model.ByMist, Mix: weak}, &model.Feed{How: model.ByBath, Mix: model.Mix{Part: 0.25}},
		&model.Bloom{Stage: model.Bud}, &model.Bloom{Stage: model.Open}, &model.Bloom{Stage: model.Spent}, &model.Bloom{Over: true},
		&model.Offsets{Count: 2, Share: 0.4}, &model.Fading{}, &model.Fading{Over: true}, &model.LookedOver{},
		&model.Quarantine{}, &model.Quarantine{Over: true, Early: true}, &model.Rot{}, &model.Rot{Over: true},
		&model.Trouble{What: model.Scale}, &model.Trouble{What: model.Scale, Treatment: "swab"}, &model.Trouble{What: model.Scale, Over: true},
		&model.Bottle{Fed: &weak}, &model.Bottle{}, &model.Fill{Vessel: "tub", Fed: &weak}, &model.Drain{Vessel: "tub"},
		&model.Sample{Vessel: "tub", EC: 0.4}, &model.Sample{Of: model.Tap, Hardness: 200},
	}
	rapid.Check(t, func(rt *rapid.T) {
		d := shelved(rt)
		for range rapid.IntRange(1, 12).Draw(rt, "steps") {
			f := rapid.SampledFrom(facts).Draw(rt, "fact")
			var about model.IDs
			if !aboutTheHouse(f) {
				about = model.IDs{model.ID(rapid.IntRange(1, 6).Draw(rt, "plant"))}
			}
			if d.Check(d.entry(f, about...)) != nil {
				continue // as a mist out of a fed bottle
			}
			before := look(d.Book)
			seq := d.write(f, about...)
			after := look(d.Book)
			strike := d.write(&model.Strike{Seq: seq})
			if diff := before.other(d.Book); diff != "" {
				rt.Fatalf("%s struck, but\n%s", f.Kind(), diff)
			}
			d.write(&model.Strike{Seq: strike})
			if diff := after.other(d.Book); diff != "" {
				rt.Fatalf("%s brought back, but\n%s", f.Kind(), diff)
			}
		}
	})
}

// aboutTheHouse reports a fact that names no plants.

// aboutTheHouse reports a fact that names no plants.
func aboutTheHouse(f model.Fact) bool {
	switch f.(type) {
	case *model.Bottle, *model.Fill, *model.Drain, *model.Sample:
		return true
	}
	return false
}
