package trade_test

import (
	"strings"
	"testing"
	"time"

	"github.com/rickb777/date/v2"
	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// may is a day in the months of feeding.
var may = time.Date(2026, time.May, 10, 9, 0, 0, 0, time.UTC)

var weak = model.Mix{PPM: 50, N: 20}

// Growers' habit: March to October; a trial with T. kautskyi fed monthly except
// in winter (Rev. Bras. Hort. Orn., Jaboticabal 2003-04). South of the equator
// the months run over the new year. Under lamps the light is never low.
func TestFeedingHasItsMonths(t *testing.T) {
	c := newCollection(t)
	id := c.medium(model.Rosette, model.Mesic, 5)
	in := func(month time.Month, due bool) {
		t.Helper()
		if _, ok := onList(c.round(advice.FeedRound, time.Date(2026, month, 15, 9, 0, 0, 0, time.UTC)).Due,
			id); ok != due {
			t.Errorf("%s: due %t, want %t", month, ok, due)
		}
	}
	in(time.February, false)
	in(time.March, true)
	in(time.October, true)
	in(time.November, false)
	wantStop(t, c, c.round(advice.FeedRound, time.Date(2026, time.November, 15, 9, 0, 0, 0, time.UTC)).Later, id,
		"no feed before 1 Mar 2027")
	c.enter(today, &model.RuleSet{Name: "feed-from-month", Value: 9})
	c.enter(today, &model.RuleSet{Name: "feed-to-month", Value: 4})
	in(time.February, true)
	in(time.May, false)
	in(time.September, true)
	c.enter(today, &model.RuleSet{Name: "feed-winter", Value: 2})
	in(time.May, true)
}

// mayFeed is why a plant is not to be fed, "" when it may be.
func (c *collection) mayFeed(id model.ID, now time.Time) string {
	stop, refused := advice.NotToFeed(estimate.New(c.book), model.IDs{id}, now)
	if !refused {
		return ""
	}
	return show.NotFed(c.book, stop, now).Error()
}

// Growers' habit: none in bloom, sick, new or just separated.
func TestWhoIsNotFed(t *testing.T) {
	c := newCollection(t)
	for what, fact := range map[string]model.Fact{
		"in bloom": &model.Bloom{Stage: model.Open}, "suspected rot": &model.Rot{}, "trouble (burn)": &model.Trouble{What: model.Burn},
		"in quarantine": &model.Quarantine{},
	} {
		id := c.medium(model.Rosette, model.Mesic, 5)
		c.enter(may.AddDate(0, 0, -60), fact, id)
		wantStop(t, c, c.round(advice.FeedRound, may).Skipped, id, what)
		if refusal := c.mayFeed(id, may); !strings.Contains(refusal, what) {
			t.Errorf("%s: may be fed: %s", what, refusal)
		}
	}
	bought := c.plant(model.Plant{Count: 1, Acquired: date.NewAt(may) - 29}, 5)
	wantStop(t, c, c.round(advice.FeedRound, may).Skipped, bought, "new: no feed yet")
	wantStop(t, c, c.round(advice.FeedRound, may.AddDate(0, 0, 2)).Due, bought, "no feed on record")
	mother := c.medium(model.Rosette, model.Mesic, 5)
	pup := c.book.Row(mother).AsOffset(c.book.NextID())
	c.enter(may.AddDate(0, 0, -29), &model.Split{New: pup, Offset: true}, mother)
	wantStop(t, c, c.round(advice.FeedRound, may).Skipped, pup.ID, "just separated")
	wantStop(t, c, c.round(advice.FeedRound, may.AddDate(0, 0, 2)).Due, pup.ID, "no feed on record")
	c.enter(may.AddDate(0, 0, -20), &model.Quarantine{}, mother)
	c.enter(may, &model.Quarantine{Over: true, Early: true}, mother)
	wantStop(t, c, c.round(advice.FeedRound, may.AddDate(0, 0, 29)).Skipped, mother, "new")
}

// Never twice: the refusal gives the day. A day of the calendar counts, not 24
// hours; slow growers wait twice as long; half pace in winter doubles it again.
func TestNeverFedTwice(t *testing.T) {
	c := newCollection(t)
	green, silver := c.medium(model.Rosette, model.Mesic, 5), c.medium(model.Rosette, model.Xeric, 5)
	c.enter(may.Add(6*time.Hour), &model.Feed{How: model.ByMist, Mix: weak}, green, silver)
	if refusal := c.mayFeed(green, may.AddDate(0, 0, 29)); !strings.Contains(refusal,
		"fed 10 May by mist, 50 ppm N, again from 9 Jun") {
		t.Errorf("the refusal says %s", refusal)
	}
	if refusal := c.mayFeed(green, may.AddDate(0, 0, 30)); refusal != "" { // in the morning, fed in the afternoon
		t.Errorf("on the day: %s", refusal)
	}
	if c.mayFeed(silver, may.AddDate(0, 0, 59)) == "" || c.mayFeed(silver, may.AddDate(0, 0, 60)) != "" {
		t.Error("a slow grower is not fed every 60 days")
	}
	c.enter(may, &model.RuleSet{Name: "feed-winter", Value: 1})
	c.enter(may, &model.Feed{How: model.ByDip, Mix: weak}, green)
	winter := time.Date(2026, time.December, 1, 9, 0, 0, 0, time.UTC)
	c.enter(winter, &model.Feed{How: model.ByDip, Mix: weak}, green)
	if c.mayFeed(green, winter.AddDate(0, 0, 59)) == "" || c.mayFeed(green, winter.AddDate(0, 0, 60)) != "" {
		t.Error("half pace is not every 60 days")
	}
}

// A bath feeds as much as a spray, and a walk with a fed bottle is asked about
// before its first plant.
func TestFedBathsAndBottlesCount(t *testing.T) {
	c := newCollection(t)
	id := c.medium(model.Rosette, model.Mesic, 7)
	c.enter(may, &model.Soak{Load: c.book.NextLoad(), Vessel: "bucket 1", Due: may.Add(time.Hour), Fed: &weak}, id)
	c.enter(may.Add(time.Hour), &model.Out{Shaken: true}, id)
	c.enter(may.Add(5*time.Hour), &model.FoundDry{}, id)
	c.enter(may.Add(5*time.Hour), &model.Hung{}, id)
	wantStop(t, c, c.round(advice.FeedRound, may.AddDate(0, 0, 7)).Later, id, "fed 10 May by bath, 50 ppm N")
	if asks := c.round(advice.MistRound, may).Asks; len(asks) != 0 {
		t.Errorf("asked about nothing: %v", asks)
	}
	if f := c.round(advice.FeedRound, may).Fact(c.book); f != nil {
		t.Errorf("a feed out of a bottle without feed: %+v", f)
	}
	c.enter(may, &model.Bottle{Fed: &weak})
	asks := c.round(advice.MistRound, may.AddDate(0, 0, 2)).Asks
	if len(asks) != 1 || !strings.Contains(c.words(0, asks...)[0], "has held feed since 10 May") {
		t.Errorf("asked %v", asks)
	}
	if f, ok := c.round(advice.FeedRound, may).Fact(c.book).(*model.Feed); !ok || f.How != model.ByMist || f.PPM != 50 {
		t.Errorf("the bottle feeds %+v", f)
	}
	strong := model.Mix{PPM: 150}
	c.enter(may, &model.Bottle{Fed: &strong})
	if asks := c.round(advice.FeedRound, may).Asks; len(asks) != 1 ||
		!strings.Contains(c.words(0, asks...)[0], "thin it") {
		t.Errorf("150 ppm: %v", asks)
	}
}

// However a plant was fed, it is on no feed list before its interval is over,
// by a calendar of the test's own.
func TestAFedPlantIsOnNoListBeforeItsDay(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := newCollection(rt)
		c.enter(today, &model.RuleSet{Name: "feed-winter", Value: float64(rapid.IntRange(0, 2).Draw(rt, "winter"))})
		interval := rapid.IntRange(1, 90).Draw(rt, "interval")
		c.enter(today, &model.RuleSet{Name: "feed-days", Value: float64(interval)})
		c.enter(today, &model.RuleSet{Name: "feed-days-slow", Value: float64(interval)})
		id := c.plant(anyPlant(rt), 5)
		at := today
		var last int // the day of the last feed, counted from today's
		for range rapid.IntRange(1, 5).Draw(rt, "feeds") {
			at = at.Add(time.Duration(rapid.IntRange(1, 40*24).Draw(rt, "hours")) * time.Hour)
			c.enter(at, &model.Feed{How: rapid.SampledFrom(model.Feedings).Draw(rt, "how"), Mix: weak}, id)
			last = dayNumber(at)
		}
		look := at.Add(time.Duration(rapid.IntRange(0, 100*24).Draw(rt, "later")) * time.Hour)
		_, due := onList(c.round(advice.FeedRound, look).Due, id)
		if passed := dayNumber(look) - last; due && passed < interval {
			rt.Fatalf("due %d days after its feed, the interval is %d", passed, interval)
		}
	})
}

// dayNumber counts days in UTC.
func dayNumber(t time.Time) int { return int(t.Unix() / 86400) }
