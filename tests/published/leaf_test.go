package published_test

import (
	"math"
	"testing"

	"tubside/model/leaf"
	"tubside/model/species"
)

// A plant's water against what has been published. Most of what could be read are abstracts; where a value also set
// one of our constants the check says so, since it then shows only that the equations still give back what they were
// made from.

// leafAfter is the RWC of a full plant after some days of constant air.
func leafAfter(days, k, deficitKPa float64) float64 {
	return leaf.Remaining(1, k, leaf.Dose(0, days, deficitKPa))
}

// ionantha is what the species list has for T. ionantha.
func ionantha(t *testing.T) species.Entry {
	t.Helper()
	e, ok := species.Find("Tillandsia ionantha")
	if !ok || e.Loss == 0 {
		t.Fatalf("T. ionantha is not on the list as measured: %+v", e)
	}
	return e
}

func leafNear(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.4g, want %.4g within %g", what, got, want, within)
	}
}

// Nowak & Martin 1997, Int. J. Plant Sci. 158, abstract: T. ionantha, 20 days without water, RWC down by 17 %. It set
// the rate of the list. The chamber's air could not be read: 0.83 must come out of the air of homes, 21 degC and 40
// to 50 %.
func TestTwentyDaysOfDrought(t *testing.T) {
	dry, damp := leafAfter(20, ionantha(t).Loss, 1.49), leafAfter(20, ionantha(t).Loss, 1.24)
	if dry > 0.83 || damp < 0.83 {
		t.Errorf("20 d leave %.3f at 40 %%, %.3f at 50 %%: 0.83 should lie between", dry, damp)
	}
}

// Ohrui et al. 2007, Planta 227:47, doi 10.1007/s00425-007-0593-0: T. ionantha soaked for 3 h took up 30-40 % of its
// fresh mass. The 3 h set TauDefault; the amount did not. That the plants went in at RWC 0.65-0.70 is a guess, and so
// is DryMatter.
func TestThreeHourSoak(t *testing.T) {
	for _, r0 := range []float64{0.65, 0.70} {
		gain := leaf.MassShare(leaf.Refilled(r0, 180, leaf.TauDefault))/leaf.MassShare(r0) - 1
		if gain < 0.30 || gain > 0.40 {
			t.Errorf("from RWC %v: gained %.4f of the fresh mass, want 0.30 to 0.40", r0, gain)
		}
		filled := (leaf.Refilled(r0, 180, leaf.TauDefault) - r0) / (1 - r0)
		leafNear(t, "share of the lack filled in 3 h", filled, 0.95, 0.005)
	}
}

// Ohrui et al. 2007: uptake comes in two parts, by capillarity within 1 min and into the tissue over 3 h. Ours is the
// second alone: the first minute must put next to nothing into the leaf, and the filling must go on through all three
// hours.
func TestUptakeIsTheSlowPart(t *testing.T) {
	share := func(minutes float64) float64 { return (leaf.Refilled(0.65, minutes, leaf.TauDefault) - 0.65) / 0.35 }
	if got := share(1); got > 0.02 {
		t.Errorf("the first minute filled %.3f of the lack, want under 0.02", got)
	}
	if got := share(120); got > 0.90 {
		t.Errorf("two hours filled %.3f of the lack: the third would not be needed", got)
	}
}

// Ohrui et al. 2007: T. ionantha survives 6 months or more without water. Injury is irreversible at a thirst of
// 0.75-0.80 (Benzing & Dahle 1971, Am. Midl. Nat. 85, doi 10.2307/2423907). In the air in which 20 days took 17 %
// (Nowak & Martin 1997), whatever it was, 182 days must leave the plant alive: the three papers together.
func TestSixMonthsWithoutWater(t *testing.T) {
	const sixMonths = 182
	lost := -math.Log(0.83) / 20 // a day, of what is there
	if thirst := 1 - leaf.Remaining(1, lost, sixMonths); thirst > leaf.LethalTo {
		t.Errorf("thirst %.3f after 6 months, over %v", thirst, leaf.LethalTo)
	}
	if thirst := 1 - leafAfter(sixMonths, ionantha(t).Loss, 0.995); thirst > leaf.LethalTo {
		t.Errorf("thirst %.3f after 6 months at 21 degC and 60 %%, over %v", thirst, leaf.LethalTo)
	}
}

// Benzing & Dahle 1971: irreversible injury where the water deficit nears 75-80 %; seedlings endure at least 65 %.
// And 20 days of drought, which did T. ionantha no harm (Nowak & Martin 1997), must be far from all of them, for
// every leaf type of ours.
func TestLethalLimits(t *testing.T) {
	leafNear(t, "injury from", leaf.LethalFrom, 0.75, 0)
	leafNear(t, "injury to", leaf.LethalTo, 0.80, 0)
	leafNear(t, "seedlings endured", leaf.SeedlingsEndured, 0.65, 0)
	for _, k := range []float64{leaf.KXeric, leaf.KIntermediate, leaf.KMesic} {
		if thirst := 1 - leafAfter(20, k, 1.40); thirst > leaf.SeedlingsEndured {
			t.Errorf("k %v: thirst %.2f after 20 days, over what seedlings endured", k, thirst)
		}
	}
}

// T. dasyliriifolia (2016, abstract): half the leaves dead after 40 d (9 cm) and 60 d (35 cm): small plants lose
// their water faster by half. The power of size was set from it: circular. The days themselves cannot be held against
// anything, since neither the air nor the sun nor the RWC of a dead leaf could be read.
func TestSmallPlantsDieSooner(t *testing.T) {
	leafNear(t, "ratio", leaf.SizeFactor(9)/leaf.SizeFactor(35), 60.0/40, 0.01)
}

// Kerstiens 1996, J. Exp. Bot. 47:1813, table 1 (as transcribed elsewhere): minimum conductance of detached leaves of
// T. achyrostachys, T. multicaulis and T. polystachia, 0.8, 1.2 and 1.6 x 10^-5 m/s by all-sided area, 0.66 to 1.31
// mmol m-2 s-1 by one side. What a day takes more for each kPa must lie within.
func TestDaysLeakWithinMeasuredConductances(t *testing.T) {
	const (
		molarMass = 0.018015 // kg/mol
		pressure  = 101.325  // kPa
		day       = 12 * 3600.0
	)
	g := (leaf.LostMM(2) - leaf.LostMM(1)) * pressure / (molarMass * day)
	if g < 0.66e-3 || g > 1.31e-3 {
		t.Errorf("conductance by day %.3g mol m-2 s-1, measured 0.66e-3 to 1.31e-3", g)
	}
}

// Lange & Medina 1979, Oecologia 40:357, abstract: T. recurvata shuts its stomata through a night in dry air, and
// loses no more in it than in a damp one. So what drier air takes more, it takes by day: less than in proportion to
// the deficit.
func TestDryAirTakesItsShareByDay(t *testing.T) {
	if ratio := leaf.LostMM(2) / leaf.LostMM(1); ratio >= 2 || ratio <= 1 {
		t.Errorf("twice the deficit takes %.2f times as much", ratio)
	}
}

// Loeschen et al. 1993, Int. J. Plant Sci. 154:100: no water-storing tissue in T. usneoides and T. bergeri, 30 % of
// the leaf in T. schiedeana. Those without must have less water under their leaves.
func TestSilverWithoutStorageIsThin(t *testing.T) {
	for _, name := range []string{"T. usneoides", "T. bergeri"} {
		if e, ok := species.Find(name); !ok || !e.Thin {
			t.Errorf("%s should be on the list as thin: %+v", name, e)
		}
	}
	if e, _ := species.Find("T. schiedeana"); e.Thin {
		t.Error("T. schiedeana has storage tissue")
	}
	if leaf.WaterMM(leaf.KThin) >= leaf.WaterMM(leaf.KXeric)/2 {
		t.Error("thin leaves should hold far less than xeric ones")
	}
}
