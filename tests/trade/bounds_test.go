package trade_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/model/species"
)

// What stands beneath the growers' table of soak lengths, each sentence a test. Common practice, no source.

// aListed draws a plant of the list and imports it by name alone, soaked so many days ago; unknown under 0.
func aListed(rt *rapid.T) (*collection, model.ID, string) {
	e := rapid.SampledFrom(species.All()).Draw(rt, "species")
	days := rapid.SampledFrom([]int{-1, 3, 7, 10, 13, 20, 40, 90, 200, 400}).Draw(rt, "days")
	rh := rapid.SampledFrom([]float64{20, 40, 60}).Draw(rt, "rh")
	c := &collection{rt, model.NewBook(time.UTC)}
	c.enter(today.AddDate(0, 0, -max(days, 0)-1), &model.Reading{TempC: 21, RH: rh})
	c.enter(today, &model.Reading{TempC: 21, RH: rh})
	sheet := fmt.Sprintf("name,last soak\n%q,%s\n", e.Name, today.AddDate(0, 0, -days).Format(time.DateOnly))
	if days < 0 {
		sheet = fmt.Sprintf("name\n%q\n", e.Name)
	}
	c.importSheet(sheet)
	return c, c.book.IDs()[0], rowOf(e)
}

func anySigns(rt *rapid.T) model.Signs {
	return model.Signs{Curl: grade(rt, 3), Tips: grade(rt, 3), Shift: model.Grade(rapid.IntRange(-1, 3).Draw(rt, "shift"))}
}

// The most that a row of the table gives at all, and the most with nothing seen, minutes.
var mostOf = map[string][2]float64{
	"mesic": {720, 240}, "intermediate": {720, 180}, "wispy": {720, 240}, "xeric": {60, 60}, "bulbous": {90, 30},
	"fuzzy": {10, 10}, "pendent": {60, 60}, "tank": {20, 20},
}

// Whatever is seen and however long ago the soak was: no cap is passed, a load has room, and the night is for what was
// seen rolled shut.
func TestTheCapsAreNeverPassed(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c, id, row := aListed(rt)
		looked := rapid.Bool().Draw(rt, "looked at")
		signs := model.NoSigns
		if looked {
			signs = anySigns(rt)
			c.enter(today, &model.Look{Signs: signs}, id)
		}
		n := c.need(id)
		thirsty := looked && (signs.Curl > 0 || signs.Tips >= 2)
		most := mostOf[row][0]
		switch {
		case !thirsty:
			most = mostOf[row][1]
		case signs.Curl < 2 && signs.Tips < 2 || signs.Curl < 3 && row == "intermediate":
			most = min(most, 240)
		}
		switch {
		case n.To > most:
			rt.Fatalf("%s: to %.0f min, the table has %.0f", row, n.To, most)
		case n.Band.InWater() && n.From > 0.75*n.To:
			rt.Fatalf("%s: at least %.0f of %.0f min: no load has room for it", row, n.From, n.To)
		case n.Band == soak.Overnight && signs.Curl < 3:
			rt.Fatalf("%s: overnight, seen %+v", row, signs)
		case !thirsty && n.Band >= soak.Deep:
			rt.Fatalf("%s: %v, and nothing was seen", row, n.Band)
		case n.DaysSince < 0 && !thirsty && n.Band.InWater() && n.To > 120:
			rt.Fatalf("%s: to %.0f min, and nobody knows the last soak", row, n.To)
		case n.DaysSince < 0 && !looked && !n.LookFirst:
			rt.Fatalf("%s: nobody knows the last soak, and it is not to be looked at first", row)
		case n.Thirst() > 0.70 && !thirsty && (n.To > 120 || !n.LookFirst):
			rt.Fatalf("%s: %.0f %% gone by the numbers alone, to %.0f min, look first %t", row, 100*n.Thirst(), n.To, n.LookFirst)
		}
	})
}

// A look that finds nothing never makes a soak longer, whatever was known before it; and who was just looked at is not
// to be looked at first, unless the look and the numbers are at odds.
func TestALookThatFindsNothingNeverLengthensASoak(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c, id, row := aListed(rt)
		before := c.need(id)
		c.enter(today, &model.Look{Signs: model.LooksFine}, id)
		n := c.need(id)
		if n.From > before.From || n.To > before.To || n.Band > before.Band {
			rt.Fatalf("%s: %v %.0f to %.0f min, before the look %v %.0f to %.0f", row, n.Band, n.From, n.To, before.Band,
				before.From, before.To)
		}
		if n.LookFirst && n.Thirst() < 0.70 && !c.says(n, "look again") {
			rt.Fatalf("%s: to be looked at first, and was: %v", row, c.words(id, n.Reasons...))
		}
	})
}

// Rolled shut never gets less than its column, whatever the sums say, up to its cap.
func TestRolledShutNeverGetsLessThanItsColumn(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c, id, row := aListed(rt)
		signs := anySigns(rt)
		signs.Curl = 3
		c.enter(today, &model.Look{Signs: signs}, id)
		if n, want := c.need(id), howLong[row][rolled]; n.From < want.Least[0] || n.To != want.Most {
			rt.Fatalf("%s: %v %.0f to %.0f min", row, n.Band, n.From, n.To)
		}
	})
}

// In bloom it is misted, whatever is seen; from a deep channel on the leaves go into the water and the flower stays out.
func TestEverySpeciesInBloomIsMisted(t *testing.T) {
	for column := lifting; column <= rolled; column++ {
		c := imported(t, listed(), 13, 40)
		c.enter(today, &model.Bloom{}, c.book.IDs()...)
		c.enter(today, &model.Look{Signs: looks[column]}, c.book.IDs()...)
		for _, n := range advice.Look(estimate.New(c.book), today).Needs {
			if n.Band != soak.Mist || column >= channel && !c.says(n, "flower up and dip only the leaves") {
				t.Errorf("%s, %s: %v, %v", c.book.Row(n.ID).Name, columnWords[column], n.Band, c.words(n.ID, n.Reasons...))
			}
		}
	}
}

// After a trip a dry plant that is capped gets two soaks a day apart rather than one long one.
func TestAfterATripCappedPlantsSoakTwice(t *testing.T) {
	c := imported(t, listed(), 30, 40)
	ids := c.book.IDs()
	c.enter(today.AddDate(0, 0, -28), &model.Trip{From: today.AddDate(0, 0, -28), Until: today.Add(-time.Hour)})
	keeper, twice := estimate.New(c.book), 0
	for i, e := range species.All() {
		n, _ := advice.NeedOf(keeper, ids[i], today)
		switch row := rowOf(e); row {
		case "xeric", "bulbous", "fuzzy", "pendent":
			if twice++; !n.Again || n.To != mostOf[row][1] || !c.says(n, "again tomorrow") {
				t.Errorf("%s (%s): %v to %.0f min, again %t", e.Name, row, n.Band, n.To, n.Again)
			}
		default:
			if n.Again {
				t.Errorf("%s (%s): again", e.Name, row)
			}
		}
	}
	if twice == 0 || strings.TrimSpace(c.book.Row(ids[0]).Name) == "" {
		t.Error("nobody was capped")
	}
}

// What is said of a soak agrees with the soak: minutes that bring a plant back are said of one that goes into the water
// alone, and where it gets less than that, what cuts it is said too.
func TestWhatIsSaidAgreesWithTheSoak(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c, id, row := aListed(rt)
		switch rapid.IntRange(0, 3).Draw(rt, "life") {
		case 0:
			c.enter(today, &model.Bloom{}, id)
		case 1:
			c.enter(today, &model.Rot{}, id)
		}
		if rapid.Bool().Draw(rt, "looked at") {
			c.enter(today, &model.Look{Signs: anySigns(rt)}, id)
		}
		n := c.need(id)
		said := c.words(id, n.Reasons...)
		for _, r := range n.Reasons {
			switch {
			case r.Code != advice.MinutesBack:
			case !n.Band.InWater():
				rt.Fatalf("%s, %v: %v", row, n.Band, said)
			case r.N[0] > n.To && !c.says(n, "at most"):
				rt.Fatalf("%s, %v %.0f to %.0f min, and nothing cuts it: %v", row, n.Band, n.From, n.To, said)
			}
		}
		if wet := c.says(n, "shake hard") || c.says(n, "tip the cup") || c.says(n, "wring"); wet && !n.Band.InWater() ||
			c.says(n, "no soak") && c.says(n, "in water of its own") {
			rt.Fatalf("%s, %v: %v", row, n.Band, said)
		}
		for i, text := range said {
			if text == "" || slices.Contains(said[i+1:], text) {
				rt.Fatalf("%s: nothing said, or twice: %v", row, said)
			}
		}
	})
}
