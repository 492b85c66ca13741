package published_test

import (
	"testing"

	"tubside/model/air"
	"tubside/model/drying"
)

// Schimper 1888, Die epiphytische Vegetation Amerikas: the inner chambers of T. bulbosa hold water that does not fall
// out upside down. So inverting alone changes at most a tenth; only shaking or moving air helps.
func TestABulbIsNotEmptiedByTurningItOver(t *testing.T) {
	s := drying.Stream{Air: air.Air{TempC: 21, RH: 0.5}, Speed: drying.Low}
	hours := func(h drying.Handling) float64 { return drying.Bulbous().Dry(s, h).Hours() }
	for _, shaken := range []bool{false, true} {
		upright, turned := hours(drying.Handling{Shaken: shaken}), hours(drying.Handling{Shaken: shaken,
			Inverted: true})
		if turned < 0.9*upright || turned > upright {
			t.Errorf("shaken %t: %.2f h upright, %.2f h upside down", shaken, upright, turned)
		}
	}
	if shaken := hours(drying.Handling{Shaken: true}); shaken > 0.5*hours(drying.Handling{}) {
		t.Errorf("shaking helps little: %.2f h", shaken)
	}
}

// Pereira-Zaldivar et al. 2025, Funct. Plant Biol. FP25140, abstract: water spreads over the leaves of atmospheric
// species, bulbs among them, and of no tank. A film that spreads wets the leaf to its end.
func TestSilverAndBulbousLeavesWick(t *testing.T) {
	for what, p := range map[string]drying.Plant{"fuzzy": drying.Fuzzy(), "bulbous": drying.Bulbous(),
		"strand": drying.Strand()} {
		if p.FilmPower != 0 {
			t.Errorf("%s: the film breaks up", what)
		}
	}
	if drying.Tank().FilmPower == 0 {
		t.Error("a tank's leaves wick")
	}
}

// Martorell and Ezcurra 2007, Oecologia 152:561 (read off a figure, within 30 %): a minute of fog leaves 0.13 to 0.35
// mm of leaf area on T. plumosa, T. recurvata and T. chaetophylla: a soaked leaf wears no less. Both faces of ours.
func TestASoakedLeafWearsMoreThanFogLeaves(t *testing.T) {
	if film := 2 * drying.Fuzzy().FilmMM; film < 0.13 || film < 0.7*0.35 {
		t.Errorf("a fuzzy leaf wears %.2f mm", film)
	}
}
