package trip_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/model/trip"
	"tubside/tests/household"
	"tubside/ui/show"
)

func TestLongerTripsNeverLeaveAPlantWetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, air := household.Drawn(t), household.DrawnAir(t)
		k, now := estimate.New(h.Book), may(5, 12)
		from := now.Add(time.Duration(rapid.IntRange(0, 100).Draw(t, "leaving")) * time.Hour)
		short := from.Add(time.Duration(rapid.IntRange(0, 1000).Draw(t, "away")) * time.Hour)
		long := short.Add(time.Duration(rapid.IntRange(1, 1000).Draw(t, "longer")) * time.Hour)
		a, b := trip.NewForecast(k, now, from, short, air), trip.NewForecast(k, now, from, long, air)
		for i := range a.Plants {
			x, y := a.Plants[i], b.Plants[i]
			if h.Row(x.ID).State != model.AtHome {
				continue // in the water it gets wetter first
			}
			const rounding = 1e-12
			if y.Return.RWC > x.Return.RWC+rounding || y.Return.Low > x.Return.Low+rounding ||
				y.Return.High > x.Return.High+rounding {
				t.Fatalf("plant %d: %+v after %s, %+v after %s", x.ID, x.Return, short.Sub(from), y.Return,
					long.Sub(from))
			}
			if !x.Lines.HalfGone.IsZero() && y.Lines.HalfGone.IsZero() {
				t.Fatalf("plant %d: half gone %s on the short trip, never on the long one", x.ID, x.Lines.HalfGone)
			}
		}
	})
}

// A trip of no length leaves every plant as it is now, whatever its state.
func TestNoTripChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, air := household.Drawn(t), household.DrawnAir(t)
		k, now := estimate.New(h.Book), may(5, 12)
		away, o := trip.NewForecast(k, now, now, now, air), advice.Look(k, now)
		for _, l := range away.Plants {
			n := o.Need(l.ID)
			if want := (estimate.Stand{RWC: n.RWC, Low: n.Low, High: n.High}); l.Return != want || l.Leaving != n.RWC {
				t.Fatalf("plant %d: %+v, leaving %g, now %+v", l.ID, l.Return, l.Leaving, want)
			}
		}
	})
}

// A last soak is one a plant may have and can dry from: never in bloom or with
// rot, never over its cap, out of the water its hours before all must be dry,
// and it leaves the plant fuller than nothing would.
func TestLastSoaksKeepTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, air := household.Drawn(t), household.DrawnAir(t)
		now := may(5, 12)
		from := now.Add(time.Duration(rapid.IntRange(0, 100).Draw(t, "leaving")) * time.Hour)
		away := trip.NewForecast(estimate.New(h.Book), now, from,
			from.AddDate(0, 0, rapid.IntRange(0, 40).Draw(t, "days")), air)
		for _, l := range away.Plants {
			row := h.Row(l.ID)
			for line, at := range map[float64]time.Time{0.12: l.Lines.Soak, 0.50: l.Lines.HalfGone,
				0.75: l.Lines.Injury} {
				if at.IsZero() != (l.Return.Thirst() < line) ||
					!at.IsZero() && (at.Before(from) || at.After(away.Until)) {
					t.Fatalf("plant %d: crosses %g at %s with %g gone on return", l.ID, line, at, l.Return.Thirst())
				}
			}
			if l.Last == nil {
				continue
			}
			s := l.Last
			caps := map[model.Form]float64{model.Bulbous: 90, model.Fuzzy: 10, model.Tank: 20, model.Pendent: 60}
			limits := map[model.Form]float64{model.Fuzzy: 2}
			switch limit := max(limits[row.Form], 4); {
			case row.State != model.AtHome, !row.Bloom.IsZero(), !row.Rot.IsZero(), s.Band < soak.Dip:
				t.Fatalf("plant %d (%s): %+v", l.ID, row.State, s)
			case caps[row.Form] > 0 && s.To > caps[row.Form], s.From > s.To, s.From < 1:
				t.Fatalf("plant %d (%s): %g to %g minutes", l.ID, row.Form, s.From, s.To)
			case s.InBy.Before(now), s.OutBy.Sub(s.InBy).Minutes() < s.From-1e-6,
				row.Form != model.Fuzzy && away.DryBy.Sub(s.OutBy).Hours() < limit:
				t.Fatalf("plant %d: in %s, out %s, dry by %s", l.ID, s.InBy, s.OutBy, away.DryBy)
			case s.InBy.Hour() < 7, s.OutBy.Hour() > 21:
				t.Fatalf("plant %d: in %s, out %s", l.ID, s.InBy, s.OutBy)
			case s.Return.RWC < l.Return.RWC+0.03:
				t.Fatalf("plant %d: %g after a soak, %g without", l.ID, s.Return.RWC, l.Return.RWC)
			}
		}
	})
}

// The lines are crossed where the forecast says: a trip that ends then comes
// home to a plant on the line, to the hour.
func TestLinesAreCrossedWhenSaid(t *testing.T) {
	h := household.Greens(t, 1)
	k, now, air := estimate.New(h.Book), may(5, 12), estimate.AirGiven(21, 30)
	l := trip.NewForecast(k, now, now, now.AddDate(0, 0, 200), air).Plants[0].Lines
	for name, c := range map[string]struct {
		at   time.Time
		line float64
	}{"soak": {l.Soak, 0.12}, "half": {l.HalfGone, 0.5}, "injury": {l.Injury, 0.75}} {
		before := trip.NewForecast(k, now, now, later(c.at.Add(-time.Hour), now), air).Plants[0].Return.Thirst()
		after := trip.NewForecast(k, now, now, c.at, air).Plants[0].Return.Thirst()
		if c.at.IsZero() || after < c.line || c.at.After(now) && before > c.line {
			t.Errorf("%s: crossed at %s, %.4f an hour before and %.4f then, line %g", name, c.at, before, after, c.line)
		}
	}
	if !l.Soak.Before(l.HalfGone) || !l.HalfGone.Before(l.Injury) {
		t.Errorf("out of order: %+v", l)
	}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// Drier air on a trip never leaves a plant fuller.
func TestDrierAirLeavesPlantsDrier(t *testing.T) {
	h := household.Greens(t, 1)
	k, now := estimate.New(h.Book), may(5, 12)
	last := math.Inf(1)
	for _, rh := range []float64{90, 70, 50, 30, 10} {
		at := trip.NewForecast(k, now, now, now.AddDate(0, 0, 12), estimate.AirGiven(21, rh)).Plants[0].Return
		if at.RWC >= last || at.Low > at.RWC || at.High < at.RWC {
			t.Errorf("at %g %%: %+v, wetter air left %g", rh, at, last)
		}
		last = at.RWC
	}
}

// The evening by which all must be dry: the day before leaving; for one who
// leaves at once or this afternoon, today.
func TestLastEvening(t *testing.T) {
	k := estimate.New(household.Greens(t, 1).Book)
	for _, c := range []struct{ now, from, want time.Time }{
		{may(5, 9), may(5, 9), may(5, 21)},
		{may(5, 9), may(5, 16), may(5, 16)},
		{may(5, 9), may(6, 8), may(5, 21)},
		{may(5, 9), may(9, 8), may(8, 21)},
		{may(5, 9), may(9, 23), may(8, 21)},
	} {
		if got := trip.NewForecast(k, c.now, c.from, c.from.AddDate(0, 0, 7),
			estimate.AirGiven(21, 40)).DryBy; !got.Equal(c.want) {
			t.Errorf("now %s, leaving %s: dry by %s, want %s", c.now, c.from, got, c.want)
		}
	}
}

// Where the air of a trip is taken from: last year's season before last week,
// last week before the house rules; and it keeps the mean deficit.
func TestExpectedAir(t *testing.T) {
	h := household.Greens(t, 1)
	now, from, until := may(5, 12), may(6, 8), may(18, 8)
	expect := func() estimate.ExpectedAir { return estimate.New(h.Book).ExpectAir(now, from, until) }
	if a := expect(); a.Source != estimate.FromRules || a.TempC != 21 || a.RH != 40 ||
		!strings.Contains(show.AirSource(a), "assumed") {
		t.Errorf("an empty book: %+v", a)
	}
	h.Say(may(4, 9), &model.Reading{TempC: 20, RH: 30})
	h.Say(may(4, 18), &model.Reading{TempC: 24, RH: 50})
	a := expect()
	if a.Source != estimate.FromLately || a.Days != 1 || a.TempC != 22 {
		t.Errorf("lately: %+v", a)
	}
	if got, want := estimate.AirGiven(a.TempC, a.RH).Deficit, a.Deficit; math.Abs(got-want) > 1e-9 {
		t.Errorf("the humidity makes %g kPa of %g", got, want)
	}
	for d := range 3 {
		if a := expect(); a.Source != estimate.FromLately {
			t.Errorf("%d days last year: %+v", d, a)
		}
		h.Say(time.Date(2025, 5, 2+d, 9, 0, 0, 0, time.UTC), &model.Reading{TempC: 25, RH: 60})
	}
	if a := expect(); a.Source != estimate.FromLastYear || a.Days != 3 || math.Abs(a.TempC-25) > 1e-9 ||
		math.Abs(a.RH-60) > 1e-9 {
		t.Errorf("last year: %+v", a)
	}
}

// A trip of twelve days for a shelf of greens, and one of four months: what it
// says, and what a sitter is asked for.
func TestTripWordsAndSitter(t *testing.T) {
	h := household.Greens(t, 3)
	h.Say(may(3, 9), &model.Bloom{}, 2)
	h.Say(may(3, 9), &model.Rot{}, 3)
	k, now := estimate.New(h.Book), may(5, 9)
	away := trip.NewForecast(k, now, may(7, 8), may(19, 8), estimate.AirGiven(21, 40))
	words := strings.Join(show.Trip(h.Book, away), "\n")
	for _, want := range []string{
		"12 days away, 7 May to 19 May 2026, in air of 21 °C and 40 % humidity, as you expect it",
		"left alone, 3 of 3 will want a soak", "soak 1 before you go", "on Wed 6 May: ", "all dry by 21:00",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("the words lack %q:\n%s", want, words)
		}
	}
	if j := trip.SitterJob(k, away); len(j.Plants) != 0 || len(j.Days) != 0 {
		t.Errorf("nothing for a sitter in twelve days, but %+v", j)
	}
	long := trip.NewForecast(k, now, may(7, 8), may(7, 8).AddDate(0, 0, 120), estimate.AirGiven(21, 40))
	j := trip.SitterJob(k, long)
	if len(j.Plants) != 1 || j.Plants[0] != 1 || j.Minutes != 30 || j.Hours != 4 || len(j.Days) == 0 {
		t.Fatalf("a sitter for four months: %+v", j)
	}
	if _, lines := long.Plants[0].AtReturn(); !j.Days[0].Before(lines.HalfGone) ||
		j.Days[len(j.Days)-1].After(long.Until.AddDate(0, 0, -2)) {
		t.Errorf("days %v, half gone %s, back %s", j.Days, lines.HalfGone, long.Until)
	}
}

// Home again: the plants in walking order, what was forecast beside them, and
// looks for rot on day 3 and day 7 at what was soaked since.
func TestHomecoming(t *testing.T) {
	h := household.Greens(t, 3)
	k := estimate.New(h.Book)
	if _, ok := trip.NewHomecoming(k, may(5, 9)); ok {
		t.Error("a homecoming without a trip")
	}
	h.Say(may(5, 9), &model.Trip{From: may(6, 8), Until: may(18, 8)})
	if _, ok := trip.NewHomecoming(estimate.New(h.Book), may(10, 9)); ok {
		t.Error("a homecoming while away")
	}
	forecast := trip.NewForecast(estimate.New(h.Book), may(6, 8), may(6, 8), may(17, 20),
		estimate.New(h.Book).ExpectAir(may(6, 8), may(6, 8), may(17, 20)))
	h.Say(may(17, 20), &model.Back{})
	h.Say(may(18, 8), &model.Look{Signs: model.Signs{Curl: 3, Tips: 2, Shift: model.NotSeen}}, 1)
	h.Soaked(may(18, 20), 180, 2)
	home, ok := trip.NewHomecoming(estimate.New(h.Book), may(18, 21))
	if !ok || home.Day != 1 || fmt.Sprint(home.Order) != "1-3" || len(home.Looks) != 0 {
		t.Fatalf("%+v, %t", home, ok)
	}
	// A sign seen at home does not change what was forecast; a plant soaked
	// since has no forecast to hold it against.
	if got, want := home.Forecast[1], forecast.Plants[0].Return; got != want {
		t.Errorf("forecast %+v, want %+v", got, want)
	}
	if _, ok := home.Forecast[2]; ok || len(home.Forecast) != 2 {
		t.Errorf("forecast of plants %v", home.Forecast)
	}

	looks := func(d int) (due []trip.LookDue) {
		home, _ := trip.NewHomecoming(estimate.New(h.Book), may(d, 12))
		return home.Looks
	}
	if due := looks(19); len(due) != 0 {
		t.Errorf("day 2: %v", due)
	}
	if due := looks(20); len(due) != 1 || due[0].ID != 2 || due[0].Day != 3 {
		t.Errorf("day 3: %v", due)
	}
	h.Say(may(19, 12), &model.LookedOver{}, 1, 2, 3) // too early to count
	round := advice.NewRound(estimate.New(h.Book), advice.LookRound, may(20, 12))
	if len(round.Due) != 1 || round.Due[0].ID != 2 || round.Due[0].Reasons[0].Code != advice.LookAfterTrip {
		t.Errorf("the look round on day 3: %v", round.Due)
	}
	h.Soaked(may(20, 20), 180, 3) // after the look was due: its turn is on day 7
	if due := looks(21); len(due) != 1 || due[0].ID != 2 {
		t.Errorf("day 4: %v", due)
	}
	h.Say(may(21, 9), &model.LookedOver{}, 2)
	if due := looks(23); len(due) != 0 {
		t.Errorf("looked at on day 4: %v", due)
	}
	if due := looks(24); len(due) != 2 || due[0].Day != 7 {
		t.Errorf("day 7: %v", due)
	}
	if _, ok := trip.NewHomecoming(estimate.New(h.Book), may(30, 12)); ok {
		t.Error("the trip is spoken of for ever")
	}
}
