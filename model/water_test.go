package model_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
)

func TestVessels(t *testing.T) {
	d := shelved(t)
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "sink", Litres: 25}})
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "TUB", Litres: 80}})
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "Bucket 2"}, Away: true})
	want := []model.Vessel{{Name: "tub", Litres: 80}, {Name: "bucket 1", Litres: 10}, {Name: "sink", Litres: 25}}
	if diff := cmp.Diff(want, d.Vessels()); diff != "" {
		t.Errorf("the vessels:\n%s", diff)
	}
	if v, ok := d.Vessel(" tub "); !ok || v.Litres != 80 {
		t.Errorf("the tub is %+v, %t", v, ok)
	}
	if _, ok := d.Vessel("bucket 2"); ok {
		t.Error("bucket 2 was put away")
	}
}

// A space typed after a vessel's name makes no second vessel of it, and loses
// none.
func TestVesselNamesWithSpaces(t *testing.T) {
	d := shelved(t)
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "tub ", Litres: 80}})
	if v, _ := d.Vessel("tub"); v.Litres != 80 || v.Name != "tub" || len(d.Vessels()) != 3 {
		t.Errorf("the tub is %+v of %d vessels", v, len(d.Vessels()))
	}
	d.soak(1)
	d.refuses(refusal{&model.VesselSet{Vessel: model.Vessel{Name: " tub"}, Away: true}, nil, "has plants in it",
		"take them out first"})
	d.write(&model.Out{}, 1)
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: " tub"}, Away: true})
	if len(d.Vessels()) != 2 {
		t.Errorf("%d vessels with the tub put away", len(d.Vessels()))
	}
}

func TestVesselsRefused(t *testing.T) {
	d := shelved(t)
	d.soak(1)
	for _, litres := range []float64{0, -5, 1001} {
		d.refuses(refusal{&model.VesselSet{Vessel: model.Vessel{Name: "pond", Litres: litres}}, nil, "pond:",
			"in litres, up to 1000"})
	}
	d.refuses(
		refusal{&model.VesselSet{Vessel: model.Vessel{Litres: 5}}, nil, "without a name", "tub or bucket 1"},
		refusal{&model.VesselSet{Vessel: model.Vessel{Name: "pond"}, Away: true}, nil, `no vessel "pond"`, "the vessels are tub, bucket 1, bucket 2"},
		refusal{&model.VesselSet{Vessel: model.Vessel{Name: "Tub"}, Away: true}, nil, "Tub has plants in it", "take them out first"},
	)
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "tub", Litres: 1000}}) // with plants in it
	d.write(&model.Leave{How: model.Lost, Cause: "rot"}, 1)                    // the last one out
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "Tub"}, Away: true})
}

func TestPullAndPutBack(t *testing.T) {
	d := shelved(t)
	d.write(&model.Pull{}, 3, 1)
	d.write(&model.Pull{}, 2)
	if want := (model.IDs{3, 1, 2}); !cmp.Equal(d.Waiting(), want) {
		t.Errorf("waiting %v, want %v", []model.ID(d.Waiting()), []model.ID(want))
	}
	if d.Row(3).State != model.AtHome {
		t.Errorf("a pulled plant is %s: it has not been wet", d.Row(3).State)
	}
	d.write(&model.PutBack{}, 1)
	if want := (model.IDs{3, 2}); !cmp.Equal(d.Waiting(), want) || d.Row(1).InSession {
		t.Errorf("waiting %v, want %v", []model.ID(d.Waiting()), []model.ID(want))
	}
	d.soak(2)
	d.refuses(
		refusal{&model.Pull{}, model.IDs{3}, "plant 3 (the big one) is already pulled", ""},
		refusal{&model.Pull{}, model.IDs{2}, "plant 2 (bulbosa) is soaking", "at home can be pulled"},
		refusal{&model.PutBack{}, model.IDs{1}, "plant 1 (ionantha) was not pulled", ""},
		refusal{&model.PutBack{}, model.IDs{3, 2}, "plant 2 (bulbosa) was not pulled", ""},
	)
}

func TestASoakFromShelfToShelf(t *testing.T) {
	d := shelved(t)
	d.write(&model.Pull{}, 1, 2)
	load := d.soak(2, 1, 3) // 3 straight off the shelf
	in := d.at
	want := model.Load{ID: 1, Vessel: "tub", Plants: model.IDs{2, 1, 3}, In: in, Due: in.Add(30 * time.Minute), Left: 3}
	if diff := cmp.Diff(want, *d.Load(load)); diff != "" {
		t.Errorf("the load:\n%s", diff)
	}
	if got := d.Load(load).Minutes(); got != 30 {
		t.Errorf("meant for %g minutes, want 30", got)
	}
	if len(d.Waiting()) != 0 || d.NextLoad() != 2 {
		t.Errorf("waiting %v, next load %d", d.Waiting(), d.NextLoad())
	}
	if r := d.Row(3); r.State != model.Soaking || r.Load != 1 || !r.In.Equal(in) || !r.Since.Equal(in) ||
		!r.LastSoak().Equal(in) {
		t.Errorf("in the water: %+v", r)
	}

	d.at = in.Add(24 * time.Minute)
	d.write(&model.Out{Shaken: true, Inverted: true}, 1, 3)
	if r := d.Row(3); r.State != model.Drying || !r.Out.Equal(d.at) || r.Minutes != 25 || !r.Shaken || !r.Inverted {
		t.Errorf("out: %+v", r)
	}
	if left := d.Load(load).Left; left != 1 || !cmp.Equal(d.StillIn(d.Load(load)), model.IDs{2}) {
		t.Errorf("%d left, and %v", left, d.StillIn(d.Load(load)))
	}
	d.write(&model.Out{}, 2)
	if r := d.Row(2); r.Minutes != 26 || r.Shaken || r.Inverted {
		t.Errorf("out, not shaken: %+v", r)
	}
	if d.Load(load).Left != 0 || len(d.OpenLoads()) != 0 {
		t.Error("the load is all out, and still open")
	}
}

// What was damp after the last soak says nothing of this one.
func TestANewSoakBeginsAnew(t *testing.T) {
	d := shelved(t)
	d.soak(1)
	d.write(&model.Out{}, 1)
	d.write(&model.Damp{}, 1)
	d.write(&model.FoundDry{}, 1)
	second := d.soak(1) // dry, and straight back in
	d.write(&model.Out{}, 1)
	if r := d.Row(1); !r.DampAt.IsZero() || r.Load != second || r.State != model.Drying {
		t.Errorf("after the second soak: %+v", r)
	}
	if d.Load(1).Left != 0 || d.Load(second).Left != 0 {
		t.Error("a load keeps a plant that came out")
	}
}

func TestSoaksRefused(t *testing.T) {
	d := shelved(t)
	d.soak(1, 2)
	d.write(&model.Out{}, 2)
	due := d.at.Add(time.Hour)
	d.refuses(
		refusal{&model.Soak{Load: 2, Vessel: "tub", Due: due}, model.IDs{1}, "plant 1 (ionantha) is soaking", "at home, or dry"},
		refusal{&model.Soak{Load: 2, Vessel: "tub", Due: due}, model.IDs{2}, "plant 2 (bulbosa) is drying", "at home, or dry"},
		refusal{&model.Soak{Load: 2, Vessel: "pond", Due: due}, model.IDs{3}, `no vessel "pond"`, "the vessels are tub, bucket 1, bucket 2"},
		refusal{&model.Soak{Load: 2, Vessel: "tub", Due: d.at}, model.IDs{3}, "a soak of 0 min", "up to 24 hours"},
		refusal{&model.Soak{Load: 2, Vessel: "tub", Due: d.at.Add(-time.Minute)}, model.IDs{3}, "a soak of -1 min", "up to 24 hours"},
		refusal{&model.Soak{Load: 2, Vessel: "tub", Due: d.at.Add(model.MaxSoak + time.Second)}, model.IDs{3}, "a soak of 25 h", "up to 24 hours"},
		refusal{&model.Soak{Load: 1, Vessel: "tub", Due: due}, model.IDs{3}, "load 1 was used before", "the next load is 2"},
		refusal{&model.Soak{Vessel: "tub", Due: due}, model.IDs{3}, "load 0 was used before", "the next load is 2"},
		refusal{&model.Out{}, model.IDs{3}, "plant 3 (the big one) is home", "in the water comes out"},
		refusal{&model.Out{}, model.IDs{1, 2}, "plant 2 (bulbosa) is drying", "in the water comes out"},
		refusal{&model.Out{Bench: "attic"}, model.IDs{3}, `there is no drying place "attic"`, "they are rack"},
	)
	d.write(&model.Soak{Load: 2, Vessel: "Bucket 1", Due: d.at.Add(time.Minute).Add(model.MaxSoak)}, 3)
	if got := d.Load(2).Vessel; got != "bucket 1" {
		t.Errorf("the load is in %q", got)
	}
}

// The load due first calls first; of two due at once, the one that went in
// first.
func TestOpenLoadsInTheOrderDue(t *testing.T) {
	d := shelved(t)
	in := func(vessel string, minutes time.Duration, id model.ID) {
		d.write(&model.Soak{Load: d.NextLoad(), Vessel: vessel, Due: soakDay.Add(minutes * time.Minute)}, id)
	}
	in("tub", 60, 1)
	in("bucket 1", 20, 2)
	in("tub", 20, 3)
	in("bucket 2", 40, 4)
	var got []model.LoadID
	for _, l := range d.OpenLoads() {
		got = append(got, l.ID)
	}
	if want := []model.LoadID{2, 3, 4, 1}; !cmp.Equal(got, want) {
		t.Errorf("due in the order %v, want %v", got, want)
	}
	if in := d.InVessel("TUB"); len(in) != 2 || in[0].ID != 3 || in[1].ID != 1 {
		t.Errorf("in the tub: %v", in)
	}
	d.write(&model.Out{}, 3)
	if in := d.InVessel("tub"); len(in) != 1 || in[0].ID != 1 {
		t.Errorf("in the tub, with load 3 out: %v", in)
	}
	if got := d.Load(9); got != nil {
		t.Errorf("there is no load 9, and yet %+v", got)
	}
}

// Water that nobody told of is taken to stand until the session is over; what
// was told of stands until it is drained or filled again, whatever case the
// vessel is typed in.
func TestWaterThatNobodyToldOf(t *testing.T) {
	d := shelved(t)
	d.write(&model.Fill{Vessel: "Bucket 1", Of: []model.Source{model.Rain}})
	d.soak(1)
	if w := d.Water("tub"); w == nil || !w.Assumed || w.Loads != 1 {
		t.Fatalf("in the tub stands %+v", w)
	}
	d.write(&model.Out{}, 1)
	d.write(&model.FoundDry{}, 1)
	d.write(&model.Hung{}, 1)
	d.write(&model.Pull{}, 2)
	if w := d.Water("tub"); w != nil {
		t.Errorf("the next session, and in the tub still stands %+v", w)
	}
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "BUCKET 1", Litres: 12}})
	if w := d.Water("bucket 1"); w == nil || w.Assumed || len(w.Of) != 1 {
		t.Errorf("in bucket 1 stands %+v", w)
	}
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "bucket 1"}, Away: true})
	d.write(&model.VesselSet{Vessel: model.Vessel{Name: "bucket 1", Litres: 10}})
	if w := d.Water("bucket 1"); w != nil {
		t.Errorf("a new bucket has in it what the old one had: %+v", w)
	}
}

// A soak of last week that is written today is not the plant's last.
func TestASoakWrittenLateIsNotTheLast(t *testing.T) {
	d := shelved(t)
	soaked := func() (out, dry time.Time) {
		d.soak(1)
		d.at = d.at.Add(2 * time.Hour)
		d.write(&model.Out{Shaken: true}, 1)
		out = d.Row(1).Out
		d.at = d.at.Add(2 * time.Hour)
		d.write(&model.FoundDry{}, 1)
		dry = d.Row(1).DryAt
		d.write(&model.Hung{}, 1)
		return out, dry
	}
	out, dry := soaked()
	d.at = d.at.AddDate(0, 0, -7)
	soaked()
	if r := d.Row(1); !r.LastSoak().Equal(out) || !r.DrySince().Equal(dry) {
		t.Errorf("last soaked %v, dry since %v, want %v and %v", r.LastSoak(), r.DrySince(), out, dry)
	}
	d.at = d.at.AddDate(0, 0, 14)
	if out, dry = soaked(); !d.Row(1).LastSoak().Equal(out) || !d.Row(1).DrySince().Equal(dry) {
		t.Errorf("soaked again: last soaked %v, dry since %v, want %v and %v", d.Row(1).LastSoak(), d.Row(1).DrySince(), out, dry)
	}
}
