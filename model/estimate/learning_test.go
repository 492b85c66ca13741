package estimate_test

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/tests/household"
	"tubside/ui/show"
)

var (
	flat    = model.Signs{Curl: 0, Tips: 0, Shift: model.NotSeen}
	curled  = model.Signs{Curl: 2, Tips: 0, Shift: model.NotSeen}
	lifting = model.Signs{Curl: 1, Tips: 0, Shift: model.NotSeen}
)

func pace(t *testing.T, k *estimate.Keeper, id model.ID) estimate.Multiplier {
	t.Helper()
	p, ok := k.LossMultiplier(id)
	if !ok {
		t.Fatalf("no pace of plant %d", id)
	}
	return p
}

// weeks soaks all plants weekly and looks at one before each soak.
func weeks(h household.Home, n int, looked model.ID, signs model.Signs, all ...model.ID) {
	for w := 1; w <= n; w++ {
		morning := may(1+7*w, 8)
		h.Say(morning, &model.Look{Signs: signs}, looked)
		h.Soaked(morning.Add(10*time.Hour), 240, all...)
	}
}

// A plant seen thirsty before every soak loses water faster than its kin, and
// they are believed a little faster too.
func TestAPaceIsLearnedAndLent(t *testing.T) {
	h := household.Greens(t, 3)
	before := pace(t, estimate.New(h.Book), 2)
	weeks(h, 5, 1, curled, 1, 2, 3)
	k := estimate.New(h.Book)
	own, kin := pace(t, k, 1), pace(t, k, 2)
	if own.Own != 5 || kin.Own != 0 {
		t.Errorf("soaks of its own: %d and %d", own.Own, kin.Own)
	}
	if !(own.Low > kin.Median && kin.Median > 1.1*before.Median) {
		t.Errorf("its own %.2f (%.2f to %.2f), its kin %.2f, before %.2f", own.Median, own.Low, own.High, kin.Median,
			before.Median)
	}
	if own.High/own.Low >= kin.High/kin.Low {
		t.Errorf("its range %.2f to %.2f is no narrower than %.2f to %.2f", own.Low, own.High, kin.Low, kin.High)
	}
	if n := h.Need(1, may(40, 8)); !h.Says(n, "5 soaks of its own") {
		t.Errorf("where the pace was learned is not said: %v", n.Reasons)
	}
}

// A look corrected within hours counts once; another the day after counts as well.
func TestASecondLookSoonCorrectsTheFirst(t *testing.T) {
	at := may(9, 8)
	wrong := household.Greens(t, 1)
	wrong.Say(at, &model.Look{Signs: curled}, 1)
	wrong.Say(at.Add(time.Hour), &model.Look{Signs: flat}, 1)
	right := household.Greens(t, 1)
	right.Say(at.Add(time.Hour), &model.Look{Signs: flat}, 1)
	if a, b := pace(t, estimate.New(wrong.Book), 1), pace(t, estimate.New(right.Book), 1); a.Median != b.Median {
		t.Errorf("corrected %.4f, right at once %.4f", a.Median, b.Median)
	}
	right.Say(at.AddDate(0, 0, 1), &model.Look{Signs: flat}, 1)
	if a, b := pace(t, estimate.New(wrong.Book), 1), pace(t, estimate.New(right.Book), 1); b.Median >= a.Median {
		t.Errorf("flat once %.4f, flat on two days %.4f", a.Median, b.Median)
	}
}

// Thirsty right after two soaks in a row is not thirst (common practice, no
// source): the pace stays, and the plant is to be looked at before it is soaked
// again.
func TestThirstyTwiceRightAfterASoakIsToBeLookedAt(t *testing.T) {
	h := household.Greens(t, 2)
	h.Say(may(2, 12), &model.Look{Signs: curled}, 1)
	if n := h.Need(1, may(2, 13)); h.Says(n, "two soaks in a row") {
		t.Error("once may be a slip")
	}
	h.Soaked(may(8, 18), 240, 1, 2)
	h.Say(may(9, 12), &model.Look{Signs: curled}, 1)
	n := h.Need(1, may(9, 13))
	if !n.LookFirst || n.Reasons[0].Kind() != advice.Warning || !h.Says(n, "soft or loose means rot") {
		t.Errorf("look first %t, %v", n.LookFirst, n.Reasons)
	}
	k := estimate.New(h.Book)
	if a, b := pace(t, k, 1), pace(t, k, 2); a.Median != b.Median {
		t.Errorf("the pace moved to %.3f, its kin %.3f", a.Median, b.Median)
	}
	h.Soaked(may(15, 18), 240, 1, 2)
	h.Say(may(16, 12), &model.Look{Signs: flat}, 1)
	if n := h.Need(1, may(16, 13)); n.LookFirst {
		t.Error("flat after the soak, and still to be looked at")
	}
}

// A weight says far more than a sign: 90 % of the wet weight with a fifth dry matter is RWC 0.875.
func TestAWeightCountsForMoreThanSigns(t *testing.T) {
	h := household.Greens(t, 2)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 16)}, 1, 2)
	h.Say(may(8, 16), &model.Out{Shaken: true}, 1, 2)
	h.Say(may(8, 16), &model.Weigh{Grams: 40, Wet: true}, 1)
	h.Say(may(8, 20), &model.FoundDry{}, 1, 2)
	h.Say(may(8, 20), &model.Hung{}, 1, 2)
	h.Say(may(15, 8), &model.Look{Signs: lifting}, 1, 2)
	h.Say(may(15, 9), &model.Weigh{Grams: 36}, 1)
	weighed, seen := h.Need(1, may(15, 9)), h.Need(2, may(15, 9))
	if want := leaf.RWCFromMassShare(0.9); math.Abs(weighed.RWC-want) > 0.03 {
		t.Errorf("weighed: RWC %.3f, the scale says %.3f", weighed.RWC, want)
	}
	if (weighed.High - weighed.Low) > 0.6*(seen.High-seen.Low) {
		t.Errorf("weighed %.3f to %.3f, only seen %.3f to %.3f", weighed.Low, weighed.High, seen.Low, seen.High)
	}
	if !h.Says(weighed, "weighed 36.0 g") {
		t.Errorf("the weight is not among %v", weighed.Reasons)
	}
}

// A plant always dry sooner than estimated is expected sooner, in a narrower range.
func TestDryMarksTeachHowLongAPlantTakes(t *testing.T) {
	h := household.Greens(t, 2)
	before, _ := estimate.New(h.Book).DryingMultiplier(1)
	for w := 1; w <= 6; w++ {
		morning := may(1+7*w, 8)
		h.Say(morning, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: morning.Add(2 * time.Hour)}, 1, 2)
		h.Say(morning.Add(2*time.Hour), &model.Out{Shaken: true}, 1, 2)
		h.Say(morning.Add(3*time.Hour), &model.Damp{}, 1, 2)
		h.Say(morning.Add(4*time.Hour), &model.FoundDry{}, 1)
		h.Say(morning.Add(9*time.Hour), &model.Damp{}, 2)
		h.Say(morning.Add(11*time.Hour), &model.FoundDry{}, 2)
		h.Say(morning.Add(12*time.Hour), &model.Hung{}, 1, 2)
	}
	k := estimate.New(h.Book)
	quick, _ := k.DryingMultiplier(1)
	slow, _ := k.DryingMultiplier(2)
	if quick.Own != 7 || !(quick.High < slow.Low) || quick.High/quick.Low > 0.8*before.High/before.Low {
		t.Errorf("%d dryings; quick %.2f to %.2f, slow %.2f to %.2f, before %.2f to %.2f",
			quick.Own, quick.Low, quick.High, slow.Low, slow.High, before.Low, before.High)
	}
	h.Say(may(50, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(50, 10)}, 1, 2)
	h.Say(may(50, 10), &model.Out{Shaken: true}, 1, 2)
	o := advice.Look(estimate.New(h.Book), may(50, 10))
	if a, b := o.DryOut(1), o.DryOut(2); !a.High.Before(b.Expected) {
		t.Errorf("quick %s to %s, slow %s to %s", a.Low, a.High, b.Low, b.High)
	}
}

// A plant marked dry too soon and found damp after all took longer than the first mark said.
func TestAMarkTakenBackByADampOne(t *testing.T) {
	median := func(tooSoon bool) float64 {
		h := household.Greens(t, 2)
		h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 10)}, 1, 2)
		h.Say(may(8, 10), &model.Out{Shaken: true}, 1, 2)
		if tooSoon {
			h.Say(may(8, 11), &model.FoundDry{}, 1)
		}
		h.Say(may(8, 15), &model.Damp{}, 1)
		h.Say(may(8, 18), &model.FoundDry{}, 1, 2)
		p, _ := estimate.New(h.Book).DryingMultiplier(1)
		return p.Median
	}
	if once, twice := median(false), median(true); math.Abs(once-twice) > 0.01 || once < 1.1 {
		t.Errorf("damp after five hours: %.3f; marked dry before that: %.3f", once, twice)
	}
}

// The same, and then nobody looked again until the next soak day: it took longer than it was damp.
func TestADampPlantNobodyLooksAtAgain(t *testing.T) {
	h := household.Greens(t, 2)
	before, _ := estimate.New(h.Book).DryingMultiplier(1)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 10)}, 1, 2)
	h.Say(may(8, 10), &model.Out{Shaken: true}, 1, 2)
	h.Say(may(8, 12), &model.FoundDry{}, 1)
	h.Say(may(8, 16), &model.Damp{}, 1)
	h.Say(may(8, 18), &model.FoundDry{}, 2)
	h.Say(may(8, 19), &model.Hung{}, 2)
	h.Soaked(may(15, 18), 120, 2)
	if p, _ := estimate.New(h.Book).DryingMultiplier(1); p.Median < 1.15*before.Median || p.Own != 2 {
		t.Errorf("damp after six hours: %.3f from %d dryings; before %.3f", p.Median, p.Own, before.Median)
	}
}

// What was seen long ago counts for less: after a year a flat leaf says more against an old curl.
func TestOldEvidenceFades(t *testing.T) {
	median := func(gap int) float64 {
		h := household.Greens(t, 1)
		weeks(h, 5, 1, lifting, 1)
		for d := 43; d <= 36+gap; d += 7 {
			h.Soaked(may(d, 18), 240, 1)
		}
		h.Say(may(43+gap, 8), &model.Look{Signs: flat}, 1)
		h.Soaked(may(43+gap, 18), 240, 1)
		return pace(t, estimate.New(h.Book), 1).Median
	}
	if soon, late := median(0), median(364); late > 0.95*soon {
		t.Errorf("flat a week after the curls %.3f, a year after %.3f", soon, late)
	}
}

// A radiator under a shelf shows in the paces on it, and is suggested.
func TestAShelfOverARadiatorIsSuggested(t *testing.T) {
	h := household.New(t)
	var plants []model.Plant
	var hot, cool model.IDs
	for id := model.ID(1); id <= 24; id++ {
		p := model.Plant{ID: id, Count: 1, Form: model.Rosette, Leaf: model.Mesic, Size: 15,
			Home: model.Home{Shelf: "Sill"}}
		if id > 12 {
			p.Home.Shelf = "Bath"
			cool = append(cool, id)
		} else {
			hot = append(hot, id)
		}
		plants = append(plants, p)
	}
	h.Say(may(1, 8), &model.Add{Plants: plants})
	all := append(append(model.IDs{}, hot...), cool...)
	h.Soaked(may(1, 18), 240, all...)
	for w := 1; w <= 5; w++ {
		h.Say(may(1+7*w, 8), &model.Look{Signs: lifting}, hot...)
		h.Say(may(1+7*w, 8), &model.Look{Signs: flat}, cool...)
		h.Soaked(may(1+7*w, 18), 240, all...)
	}
	got := estimate.New(h.Book).Shelves()
	if len(got) != 2 || got[0].Name != "Bath" || got[1].Name != "Sill" || got[1].Plants != 12 {
		t.Fatalf("%+v", got)
	}
	if s := got[1]; !s.Suggest || !(s.Low > 1 && s.Factor > 1.1*got[0].Factor) {
		t.Errorf("the sill: %+v; the bath: %+v", s, got[0])
	}
	h.Say(may(40, 8), &model.Add{Plants: []model.Plant{
		{ID: 25, Count: 1, Form: model.Rosette, Home: model.Home{Shelf: "sill"}}, {ID: 26, Count: 1, Form: model.Rosette, Home: model.Home{Shelf: "Bath"}},
	}})
	k := estimate.New(h.Book)
	if hot, cool := pace(t, k, 25), pace(t, k, 26); hot.Median < 1.1*cool.Median {
		t.Errorf("a newcomer on the sill %.2f, in the bath %.2f", hot.Median, cool.Median)
	}
	before := pace(t, k, 1)
	h.Say(may(40, 9), &model.ShelfSet{Name: "Sill", Factor: 1.4})
	after := pace(t, estimate.New(h.Book), 1)
	if after.Median >= before.Median {
		t.Errorf("with the shelf set the plant's own pace is %.2f, before %.2f", after.Median, before.Median)
	}
	if n := h.Need(1, may(41, 9)); !h.Says(n, "shelf Sill: dries out 1.4 times as fast") {
		t.Errorf("the shelf is not among %v", n.Reasons)
	}
}

// Between two shelves a plant loses water at the pace of each while it hung there.
func TestAMoveTakesTheOldShelfsWaterWithIt(t *testing.T) {
	thirst := func(moves ...time.Time) float64 {
		h := household.Greens(t, 1)
		h.Say(may(1, 19), &model.ShelfSet{Name: "A", Factor: 2})
		for _, at := range moves {
			h.Say(at, &model.Move{To: model.Home{Shelf: "B"}}, 1)
		}
		return h.Need(1, may(11, 19)).Thirst()
	}
	stays, halfway, at0 := thirst(), thirst(may(6, 19)), thirst(may(1, 20))
	if !(at0 < halfway && halfway < stays) {
		t.Errorf("moved at once %.3f, halfway %.3f, never %.3f", at0, halfway, stays)
	}
}

// A part split off a tray has the tray's past until then.
func TestATraysPartRemembersTheTray(t *testing.T) {
	h := household.New(t)
	h.Say(may(1, 8), &model.Add{Plants: []model.Plant{{ID: 1, Count: 5, Form: model.Rosette, Leaf: model.Mesic,
		Size: 15}}})
	h.Soaked(may(1, 18), 240, 1)
	h.Say(may(9, 8), &model.Split{New: model.Plant{ID: 2, Count: 1, Form: model.Rosette, Leaf: model.Mesic, Size: 15}},
		1)
	h.Say(may(12, 9), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(12, 11)}, 1)
	k := estimate.New(h.Book)
	if last := k.Trace(2, may(12, 10), may(12, 10), 1); last[0].InWater {
		t.Error("the part is in the water with the tray it left")
	}
	tray, part := k.Trace(1, may(2, 8), may(12, 8), 11), k.Trace(2, may(2, 8), may(12, 8), 11)
	if !reflect.DeepEqual(tray, part) || len(part) != 11 {
		t.Errorf("tray %v\npart %v", tray, part)
	}
	n, _ := advice.NeedOf(k, 2, may(12, 8))
	if last := part[10]; math.Abs(last.RWC-n.RWC) > 1e-9 {
		t.Errorf("trace ends at %.6f, the need is %.6f", last.RWC, n.RWC)
	}
}

// After weeks of looking, the program says what it can be trusted with.
func TestWhatIsEarned(t *testing.T) {
	h := household.Greens(t, 24)
	var all model.IDs
	for id := model.ID(1); id <= 24; id++ {
		all = append(all, id)
	}
	if e := advice.DriestOf(estimate.New(h.Book), may(3, 8)); e.Earned || e.Known != 0 {
		t.Errorf("before any look: %+v", e)
	}
	for w := 1; w <= 8; w++ {
		h.Say(may(1+7*w, 8), &model.Look{Signs: flat}, all[3:]...)
		h.Say(may(1+7*w, 9), &model.Look{Signs: curled}, all[:3]...)
		h.Soaked(may(1+7*w, 18), 240, all...)
	}
	e := advice.DriestOf(estimate.New(h.Book), may(1+7*9, 8))
	if e.Weeks != 8 || e.Known != 24 || e.Driest != 2 || len(e.First) < 2 || len(e.First) > 5 || e.First[0] > 3 {
		t.Errorf("%+v", e)
	}
	if !strings.HasPrefix(show.Driest(e), "Check these ") {
		t.Errorf("%q", show.Driest(e))
	}
}

// What a tray's dryings taught goes with a part split off it, whether or not anybody
// had asked for it by then.
func TestASplitTrayTakesItsDryingsAlong(t *testing.T) {
	h := household.New(t)
	h.Say(may(1, 8), &model.Add{Plants: []model.Plant{{ID: 1, Count: 3, Form: model.Rosette, Leaf: model.Mesic, Size: 15}}})
	for week := range 3 {
		day := 2 + 7*week
		h.Say(may(day, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(day, 9)}, 1)
		h.Say(may(day, 9), &model.Out{Shaken: true}, 1)
		h.Say(may(day, 22), &model.FoundDry{}, 1)
		h.Say(may(day, 23), &model.Hung{}, 1)
	}
	k := estimate.New(h.Book)
	k.DryingMultiplier(1)
	h.Say(may(20, 8), &model.Split{New: model.Plant{ID: 2, Count: 1, Form: model.Rosette, Leaf: model.Mesic, Size: 15}}, 1)
	k.Follow(h.Entries()[len(h.Entries())-1])
	asked, _ := k.DryingMultiplier(2)
	again, _ := estimate.New(h.Book).DryingMultiplier(2)
	if asked != again || asked.Own == 0 {
		t.Errorf("running on %+v, starting again %+v", asked, again)
	}
}
