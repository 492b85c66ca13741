package trade_test

import (
	"math"
	"path/filepath"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/model/soak"
	"tubside/store"
)

// invented is the demo at some scene, and what its plants need.
func invented(t *testing.T, scene string, seed uint64) (*model.Book, *advice.Outlook) {
	t.Helper()
	s, err := store.Open(filepath.Join(t.TempDir(), "book"), store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if _, err := demo.Build(s, demo.Options{Scene: scene, Seed: seed, Now: today}); err != nil {
		t.Fatal(err)
	}
	return s.Book(), advice.Look(estimate.New(s.Book()), today)
}

// Home from twelve days away, a collection is not all in one band: at most 55 % of the due are, and three bands hold
// a tenth each. And what is not known of a plant seldom matters: the ends of its range fall in one band or the next.
// Common practice, no source: triage must sort.
func TestHomecomingSortsThePlants(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		b, o := invented(t, "", seed)
		due, bands := 0, map[soak.Band]int{}
		uncapped, certain := 0, 0
		for _, n := range o.Needs {
			row := b.Row(n.ID)
			if row.State != model.AtHome || !n.Band.InWater() {
				continue
			}
			due++
			bands[n.Band]++
			if n.To >= 180 && !n.Signs.Seen() {
				uncapped++
				if bandAt(row, n.Low, n)-bandAt(row, n.High, n) <= 1 {
					certain++
				}
			}
		}
		tenths, fullest := 0, 0
		for _, count := range bands {
			fullest = max(fullest, count)
			if 10*count >= due {
				tenths++
			}
		}
		t.Logf("seed %d: %d due, %v; %d of %d uncapped within a band and the next", seed, due, bands, certain, uncapped)
		if 100*fullest > 55*due || tenths < 3 || 10*certain < 6*uncapped {
			t.Errorf("seed %d: %d due, %v; %d of %d uncapped within a band and the next", seed, due, bands, certain,
				uncapped)
		}
	}
}

// bandAt is the band of a plant if it had so much water left.
func bandAt(row *model.Row, rwc float64, n advice.Need) soak.Band {
	tau := leaf.TauDefault
	if row.Form == model.Wispy {
		tau = leaf.TauWispy
	}
	least := math.Max(leaf.MinutesTo(rwc, 0.96, tau), 10)
	return advice.BandOf(math.Min(least, 0.75*n.To), model.DefaultRules())
}

// Common practice, no source: three or four days after a soak hardly a plant is due again.
func TestThreeDaysAfterASoakHardlyAnyIsDue(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		b, o := invented(t, "quiet", seed)
		all, due := 0, 0
		for _, n := range o.Needs {
			if row := b.Row(n.ID); row.State == model.AtHome && n.DaysSince >= 0 && n.DaysSince <= 4 {
				all++
				if n.Band.InWater() {
					due++
				}
			}
		}
		t.Logf("seed %d: %d of %d due", seed, due, all)
		if all < 300 || 100*due > 2*all {
			t.Errorf("seed %d: %d of %d are due three days after a soak", seed, due, all)
		}
	}
}

// Nothing in the invented collection lives on beyond published injury (Benzing & Dahle 1971).
func TestNobodyLivesBeyondInjury(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		_, o := invented(t, "", seed)
		for _, n := range o.Needs {
			if n.Thirst() >= leaf.LethalFrom {
				t.Errorf("seed %d: plant %d has lost %.0f %%", seed, n.ID, 100*n.Thirst())
			}
		}
	}
}
