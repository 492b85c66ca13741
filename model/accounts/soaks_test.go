package accounts_test

import (
	"math"
	"testing"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/accounts"
)

// An old plant is watched from the day it came into the book: had it been lost
// before, it would not be there. A new one is watched from the day it came.
func TestWhenTheWatchBegins(t *testing.T) {
	h := newHome(t)
	h.wait(50 * day)
	old, fresh := plant(1, model.Rosette, "A"), plant(2, model.Rosette, "A")
	old.Acquired, fresh.Acquired = date.NewAt(h.now)-1000, date.NewAt(h.now)-5
	h.tell(&model.Add{Plants: []model.Plant{old, fresh, plant(3, model.Tank, "A"), plant(4, model.Tank, "A")}})
	h.wait(20*day + 2*time.Hour) // noon
	h.tell(&model.Leave{How: model.Lost, Cause: "drought"}, 1, 2)
	h.tell(&model.Leave{How: model.Sold}, 3)
	all := h.ledger(newYear, h.now.Add(10*day)).Survival
	if len(all) != 4 || all[0].Rows != 4 || all[0].Lost != 2 || all[1].Of != accounts.Newcomers || all[1].Rows != 3 {
		t.Fatalf("%+v", all)
	}
	var days []float64
	for _, s := range all[0].Curve {
		days = append(days, math.Round(s.Days*100)/100)
	}
	want := []float64{20.08, 25, 30.08} // the old one and the one sold, the new one, the one still there
	if len(days) != 3 || days[0] != want[0] || days[1] != want[1] || days[2] != want[2] {
		t.Errorf("steps at %v days, want %v", days, want)
	}
	if s := all[3]; s.Form != model.Tank || s.Lost != 0 || s.Median.Reached() {
		t.Errorf("the tank plants: %+v", s)
	}
}

// Whoever went after the period was alive at its end.
func TestALaterLossIsNotYetOne(t *testing.T) {
	h := newHome(t)
	h.tell(&model.Add{Plants: []model.Plant{plant(1, model.Rosette, "A")}})
	h.wait(60 * day)
	h.tell(&model.Leave{How: model.Lost, Cause: "cold"}, 1)
	l := h.ledger(newYear, newYear.AddDate(0, 1, 0))
	if l.Survival[0].Lost != 0 || l.Whole.Lost != 0 || l.Whole.Closing != 1 {
		t.Errorf("%+v %+v", l.Survival[0], l.Whole)
	}
}

func TestRotAfterASoak(t *testing.T) {
	h := newHome(t)
	h.tell(&model.Add{Plants: []model.Plant{
		plant(1, model.Bulbous, "A"), plant(2, model.Bulbous, "A"), plant(3, model.Rosette, "A"),
		plant(4, model.Rosette, "A"), plant(5, "", "A"),
	}})
	h.bathe(120, 5, 1, 2, 3, 4, 5)
	h.wait(6 * day)
	h.tell(&model.Rot{}, 1, 3)
	h.tell(&model.Rot{Over: true}, 3)
	h.tell(&model.Leave{How: model.Sold}, 5) // nobody will know
	h.wait(4 * day)
	h.tell(&model.Leave{How: model.Lost, Cause: "rot"}, 1)
	h.tell(&model.Leave{How: model.Lost, Cause: "rot"}, 2) // nobody suspected it
	h.wait(10 * day)
	h.bathe(15, 0, 3, 4) // too lately to know
	r := h.ledger(newYear, h.now.Add(5*day)).Rot
	if r.Cases != 3 || r.Sound != 1 || r.Lost != 2 || r.Soaks != 4 || r.After != 3 || r.Open != 3 {
		t.Errorf("%+v", r)
	}
	if b := r.ByMinutes[2]; b.From != 60 || b.To != 180 || b.Soaks != 4 || b.Rot != 3 {
		t.Errorf("by minutes %+v", r.ByMinutes)
	}
	if b := r.ByDrying[2]; b.From != 4 || b.To != 6 || b.Soaks != 4 || b.Rot != 3 {
		t.Errorf("by drying %+v", r.ByDrying)
	}
	if f := r.ByForm; len(f) != 2 || f[0].Key != "rosette" || f[0].Rot != 1 || f[1].Soaks != 2 || f[1].Rot != 2 {
		t.Errorf("by form %+v", r.ByForm)
	}
}

// What was suspected when it went in teaches nothing about the soak, and what
// shows after two weeks is not put beside it.
func TestWhatIsNotPutBesideTheSoak(t *testing.T) {
	h := newHome(t)
	h.tell(&model.Add{Plants: []model.Plant{plant(1, model.Rosette, "A"), plant(2, model.Rosette, "A")}})
	h.tell(&model.Rot{}, 1)
	h.bathe(30, 0, 1, 2)
	h.wait(15 * day)
	h.tell(&model.Rot{}, 2)
	r := h.ledger(newYear, h.now.Add(day)).Rot
	if r.Soaks != 1 || r.After != 0 || r.Open != 1 || r.Cases != 2 {
		t.Errorf("%+v", r)
	}
	if unseen := r.ByDrying[len(r.ByDrying)-1]; !unseen.Unseen || unseen.Soaks != 1 {
		t.Errorf("%+v", r.ByDrying)
	}
}

// A mark of dry that was taken back by a damp one is not one.
func TestDampAfterAll(t *testing.T) {
	h := newHome(t)
	h.tell(&model.Add{Plants: []model.Plant{plant(1, model.Rosette, "A")}})
	h.tell(&model.Soak{Load: 1, Vessel: "tub", Due: h.now.Add(time.Hour)}, 1)
	h.wait(time.Hour)
	h.tell(&model.Out{}, 1)
	h.wait(time.Hour)
	h.tell(&model.FoundDry{}, 1)
	h.wait(time.Hour)
	h.tell(&model.Damp{}, 1)
	if r := h.ledger(newYear, nextNew).Rot; !r.ByDrying[5].Unseen || r.ByDrying[5].Soaks != 1 {
		t.Errorf("damp after all: %+v", r.ByDrying)
	}
	h.wait(6 * time.Hour)
	h.tell(&model.FoundDry{}, 1)
	r := h.ledger(newYear, nextNew).Rot
	if r.ByDrying[3].Soaks != 1 {
		t.Errorf("%+v", r.ByDrying)
	}
	if b := r.ByMinutes[1]; b.To != 60 || b.Soaks != 1 { // an hour is still Short
		t.Errorf("%+v", r.ByMinutes)
	}
}

// Weekly soaks, once a day late, once skipped, once doubled.
func TestIntervalsKept(t *testing.T) {
	h := newHome(t)
	h.tell(&model.Add{Plants: []model.Plant{plant(1, model.Rosette, "A")}})
	for _, days := range []int{7, 7, 7, 7, 8, 14, 2, 7, 7} {
		h.bathe(30, 3.5, 1)
		h.wait(time.Duration(days)*day - 4*time.Hour)
	}
	h.bathe(30, 3.5, 1)
	h.wait(10 * day)
	all := h.ledger(newYear, h.now).Intervals
	i := all[0]
	if i.Count != 9 || i.Kept != 7 || i.Later != 1 || i.Sooner != 1 || i.Rushed != 1 || i.Due != 1 ||
		math.Abs(i.Median-6.98) > 0.01 {
		t.Errorf("%+v", i)
	}
	if len(all) != 2 || all[1].Form != model.Rosette || all[1].Count != 9 {
		t.Errorf("%+v", all)
	}
	h.tell(&model.Leave{How: model.Given}, 1)
	if i := h.ledger(newYear, h.now.Add(day)).Intervals[0]; i.Due != 0 {
		t.Errorf("a plant given away is due: %+v", i)
	}
}

// A plant soaked twice so far is held to the rhythm of the house; and a ledger
// of last month knows nothing of this one.
func TestWhoseRhythm(t *testing.T) {
	h := newHome(t)
	h.tell(&model.Add{Plants: []model.Plant{plant(1, "", "A"), plant(2, "", "A")}})
	h.bathe(30, 3.5, 1, 2)
	for range 5 {
		h.wait(7*day - 4*time.Hour)
		h.bathe(30, 3.5, 1)
	}
	then := h.now.Add(time.Hour)
	h.bathe(30, 3.5, 2)
	if i := h.ledger(newYear, h.now).Intervals[0]; i.Count != 6 || i.Kept != 5 || i.Later != 1 {
		t.Errorf("%+v", i)
	}
	h.wait(day)
	h.bathe(30, 3.5, 1, 2)
	if i := h.ledger(newYear, then.Add(-2*time.Hour)).Intervals[0]; i.Count != 5 || i.Due != 1 {
		t.Errorf("before its late soak: %+v", i)
	}
}

func TestWhatItTook(t *testing.T) {
	h := newHome(t)
	tray := plant(2, model.Wispy, "A")
	tray.Count = 12
	h.tell(&model.Add{Plants: []model.Plant{plant(1, model.Rosette, "A"), tray, plant(3, model.Rosette, "A")}})
	h.tell(&model.Soak{Load: 1, Vessel: "tub", Due: h.now.Add(time.Hour)}, 1)
	h.tell(&model.Soak{Load: 2, Vessel: "tub", Due: h.now.Add(time.Hour)}, 2) // into the same water
	h.tell(&model.Soak{Load: 3, Vessel: "bucket 1", Due: h.now.Add(time.Hour)}, 3)
	h.wait(time.Hour)
	h.tell(&model.Out{}, 1, 2, 3)
	h.tell(&model.Mist{}, 1, 2)
	w := h.ledger(newYear, nextNew).Work
	// Pulled 10 s, in 15 s, out 12 s, laid down 8 s, hung 15 s by the house rules: a minute. A tray takes half as
	// long again at the water, 23 s and 18 s.
	want := 60 + (10 + 23 + 18 + 8 + 15) + 60.0
	if w.SoakDays != 1 || w.Loads != 3 || w.Soaks != 3 || w.Mists != 2 || math.Abs(w.Hours*3600-want) > 1e-6 {
		t.Errorf("%+v", w)
	}
	l := h.ledger(nextNew, nextNew.AddDate(1, 0, 0))
	if l.Work != (accounts.Work{}) || l.Water.Fills != 0 || len(l.Feeds) != 0 {
		t.Errorf("the year after: %+v %+v %+v", l.Work, l.Water, l.Feeds)
	}
}

// What nobody entered: a filling serves the house rule's two loads on a day;
// next week it is another, also while a plant still lies out to dry.
func TestWaterUsed(t *testing.T) {
	h := newHome(t)
	h.tell(&model.Add{Plants: []model.Plant{plant(1, "", "A"), plant(2, "", "A"), plant(3, "", "A")}})
	h.bathe(30, 0, 1) // and left lying there
	h.bathe(30, 0, 2) // into the same water
	h.bathe(30, 4, 3) // the house rule says two loads
	h.wait(6 * day)
	h.bathe(30, 4, 3)
	h.tell(&model.FoundDry{}, 1, 2)
	h.tell(&model.Hung{}, 1, 2)
	h.wait(6 * day)
	h.tell(&model.VesselSet{Vessel: model.Vessel{Name: "tub", Litres: 80}})
	h.tell(&model.Fill{Vessel: "Tub", Of: []model.Source{model.Rain}})
	h.bathe(30, 0, 1)
	h.tell(&model.Fill{Vessel: "tub", Of: []model.Source{model.Rain}})
	h.bathe(30, 0, 2)
	w := h.ledger(newYear, nextNew).Water
	if w.Fills != 5 || w.Assumed != 3 || w.Litres != 3*100+80+80 {
		t.Errorf("%+v", w)
	}
	if s := w.Sources; len(s) != 2 || s[0] != (accounts.SourceUse{Source: "water", Fills: 3, Litres: 300}) ||
		s[1].Source != "rain" {
		t.Errorf("%+v", s)
	}
}

// A 20 L bucket at 50 ppm nitrogen of a 20-10-20 takes 5.0 g: ppm = g/L x % N
// x 10, the standard arithmetic of fertiliser labels.
func TestFeedUsed(t *testing.T) {
	h := newHome(t)
	mild := model.Mix{Powder: "20-10-20", N: 20, PPM: 50}
	h.tell(&model.Add{Plants: []model.Plant{plant(1, "", "A"), plant(2, "", "A")}})
	h.tell(&model.VesselSet{Vessel: model.Vessel{Name: "feed", Litres: 20}})
	h.tell(&model.Fill{Vessel: "feed", Fed: &mild})
	for _, id := range []model.ID{1, 2} { // two loads in one mix
		h.tell(&model.Soak{Load: h.b.NextLoad(), Vessel: "feed", Due: h.now.Add(time.Hour), Fed: &mild}, id)
		h.tell(&model.Out{}, id)
	}
	h.tell(&model.Feed{How: model.ByMist, Mix: model.Mix{Powder: "20-10-20", Part: 0.25}}, 1, 2)
	h.tell(&model.Feed{How: model.ByDip, Mix: mild}, 1) // nobody said how much
	l := h.ledger(newYear, nextNew)
	want := accounts.Feed{Powder: "20-10-20", Mixes: 3, Litres: 20, Grams: 5, Nitrogen: 1, Unknown: 2}
	if len(l.Feeds) != 1 || math.Abs(l.Feeds[0].Grams-5) > 1e-9 {
		t.Fatalf("%+v", l.Feeds)
	}
	if l.Feeds[0].Grams = 5; l.Feeds[0] != want {
		t.Errorf("%+v\nwant %+v", l.Feeds[0], want)
	}
	if l.Work.Feeds != 5 || l.Work.Mists != 2 {
		t.Errorf("%+v", l.Work)
	}
	h.tell(&model.FoundDry{}, 1)
	h.tell(&model.Fill{Vessel: "feed"})
	h.tell(&model.Soak{Load: h.b.NextLoad(), Vessel: "feed", Due: h.now.Add(time.Hour), Fed: &mild}, 1)
	if f := h.ledger(newYear, nextNew).Feeds[0]; f.Mixes != 4 || f.Litres != 40 {
		t.Errorf("mixed into water that was plain: %+v", f)
	}
}

// An offset taken off its mother is a plant more; a part split off a tray is
// not, and takes the tray's suspicion along without being a case.
func TestOffsetsAndParts(t *testing.T) {
	h := newHome(t)
	tray := plant(1, model.Wispy, "A")
	tray.Count = 5
	h.tell(&model.Add{Plants: []model.Plant{tray}})
	h.tell(&model.Rot{}, 1)
	h.tell(&model.Split{New: model.Plant{ID: 2, Count: 2}}, 1)
	h.tell(&model.Split{New: model.Plant{ID: 3, Count: 1, Mother: 1}, Offset: true}, 1)
	h.tell(&model.Rot{Over: true}, 2)
	l := h.ledger(newYear, nextNew)
	if f := l.Whole; f.Came != 5 || f.Offsets != 1 || f.Moved != 0 || f.Closing != 6 || f.Rows != 3 {
		t.Errorf("%+v", f)
	}
	if l.Rot.Cases != 1 {
		t.Errorf("%+v", l.Rot)
	}
}
