package estimate_test

import (
	"math"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/tests/household"
)

// weighedThrough takes rosettes 1 and 2 through some fortnights. Rosette 1 is weighed full, then before and after a
// soak of 40 minutes, on a scale that is never off: it has lost a sixth by then and drinks with a time constant of tau
// hours. The day after, both are filled.
func weighedThrough(h household.Home, times int, tau float64) (end time.Time) {
	const thirsty = 1.0 / 6
	weight := func(rwc float64) float64 { return math.Round(10000*leaf.MassShare(rwc)) / 100 }
	soaked := func(in time.Time, minutes int) (dry time.Time) {
		out := in.Add(time.Duration(minutes) * time.Minute)
		h.Say(in, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: out}, 1, 2)
		h.Say(out, &model.Out{Shaken: true}, 1, 2)
		dry = out.Add(5 * time.Hour)
		h.Say(dry, &model.FoundDry{}, 1, 2)
		h.Say(dry, &model.Hung{}, 1, 2)
		return dry
	}
	end = soaked(may(2, 8), 600)
	h.Say(end, &model.Weigh{Grams: 100}, 1)
	for range times {
		at := end.AddDate(0, 0, 13)
		h.Say(at, &model.Weigh{Grams: weight(1 - thirsty)}, 1)
		dry := soaked(at.Add(time.Hour), 40)
		h.Say(dry, &model.Weigh{Grams: weight(leaf.Refilled(1-thirsty, 40, tau))}, 1)
		end = soaked(dry.Add(12*time.Hour), 600)
	}
	return end
}

func uptake(t *testing.T, k *estimate.Keeper, id model.ID) estimate.Multiplier {
	t.Helper()
	m, ok := k.UptakeMultiplier(id)
	if !ok {
		t.Fatalf("no uptake of plant %d", id)
	}
	return m
}

// Weights before and after soaks tell how fast a plant drinks, its kin follow it by a part, and what it is to have
// goes by that.
func TestHowAPlantDrinksIsLearnedFromWeights(t *testing.T) {
	const weeks = 8
	slow, quick := household.Greens(t, 2), household.Greens(t, 2)
	before := uptake(t, estimate.New(slow.Book), 1)
	if before.Own != 0 || math.Abs(before.Median-1) > 0.01 {
		t.Fatalf("before any weight %+v", before)
	}
	end := weighedThrough(slow, weeks, 2*leaf.TauDefault)
	weighedThrough(quick, weeks, leaf.TauDefault/2)
	k := estimate.New(slow.Book)
	own, kin, other := uptake(t, k, 1), uptake(t, k, 2), uptake(t, estimate.New(quick.Book), 1)
	if own.Own != weeks || kin.Own != 0 {
		t.Errorf("soaks weighed: %d and %d", own.Own, kin.Own)
	}
	if !(own.Median > 1.4 && own.High > 2 && kin.Median > 1.05 && kin.Median < own.Median) {
		t.Errorf("twice as slow as others: %+v; kin %+v", own, kin)
	}
	if !(other.Median < 0.8 && other.High < 1) {
		t.Errorf("twice as quick as others: %+v", other)
	}
	if own.High/own.Low >= before.High/before.Low {
		t.Errorf("the range went from %+v to %+v", before, own)
	}
	at := end.AddDate(0, 0, 10)
	o := advice.Look(k, at)
	if slowly, usual := o.Need(1), o.Need(2); slowly.From <= usual.From {
		t.Errorf("the slow one is to have %.0f minutes, its kin %.0f", slowly.From, usual.From)
	}
	trace := k.Trace(1, at, at, 1)
	if math.Abs(trace[0].RWC-o.Need(1).RWC) > 0.005 {
		t.Errorf("the trace ends at %.4f, the need is %.4f", trace[0].RWC, o.Need(1).RWC)
	}
}

// What is not known of how a plant drinks is in the range: more after a dip than after a long soak, and less of it once
// the plant was weighed.
func TestTheRangeKnowsThatPlantsDrinkApart(t *testing.T) {
	width := func(minutes int, weighed bool) float64 {
		h := household.Greens(t, 1)
		h.Say(may(11, 8), &model.Mist{}, 1)
		if weighed {
			h.Say(may(15, 8), &model.Weigh{Grams: 88}, 1)
		}
		out := may(15, 9).Add(time.Duration(minutes) * time.Minute)
		h.Say(may(15, 9), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: out}, 1)
		h.Say(out, &model.Out{Shaken: true}, 1)
		if weighed {
			h.Say(out, &model.Weigh{Grams: 93, Wet: true}, 1)
		}
		h.Say(out.Add(4*time.Hour), &model.FoundDry{}, 1)
		n := h.Need(1, out.Add(5*time.Hour))
		return n.High - n.Low
	}
	dip, long, told := width(20, false), width(480, false), width(20, true)
	if !(dip > 3*long) {
		t.Errorf("a range of %.3f after twenty minutes, of %.3f after eight hours", dip, long)
	}
	if !(told < dip) {
		t.Errorf("a range of %.4f when weighed before and after, of %.4f when not", told, dip)
	}
}
