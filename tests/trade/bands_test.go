// Package trade_test asks the whole of care what a grower would ask, and holds
// the answers against what growers do. These are facts of the trade: common
// practice, no source, unless a check says otherwise.
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
	"tubside/ui/show"
)

var today = time.Date(2026, time.January, 18, 9, 0, 0, 0, time.UTC)

// collection is a book with one reading, 21 °C and 40 %, that stands for its
// whole past.
type collection struct {
	t    rapid.TB
	book *model.Book
}

func newCollection(t rapid.TB) *collection {
	t.Helper()
	c := &collection{t, model.NewBook(time.UTC)}
	c.enter(today.AddDate(0, 0, -20), &model.Reading{TempC: 21, RH: 40})
	return c
}

func (c *collection) enter(at time.Time, f model.Fact, ids ...model.ID) {
	c.t.Helper()
	e := model.NewEntry(at, f, ids...)
	if err := c.book.Check(e); err != nil {
		c.t.Fatalf("%s: %v", f.Kind(), err)
	}
	e.Seq = model.Seq(len(c.book.Entries()) + 1)
	if err := c.book.Apply(e); err != nil {
		c.t.Fatal(err)
	}
}

// medium is a healthy plant of middling size, fully soaked and dried some days
// ago.
func (c *collection) medium(form model.Form, leaf model.Leaf, days float64) model.ID {
	c.t.Helper()
	return c.plant(model.Plant{Form: form, Leaf: leaf, Size: 15, Count: 1}, days)
}

func (c *collection) plant(p model.Plant, days float64) model.ID {
	c.t.Helper()
	p.ID = c.book.NextID()
	out := today.Add(-time.Duration(days * 24 * float64(time.Hour)))
	c.enter(out.Add(-13*time.Hour), &model.Add{Plants: []model.Plant{p}})
	c.enter(out.Add(-12*time.Hour), &model.Soak{Load: c.book.NextLoad(), Vessel: "tub", Due: out}, p.ID)
	c.enter(out, &model.Out{Shaken: true, Inverted: true}, p.ID)
	c.enter(out, &model.FoundDry{}, p.ID)
	c.enter(out, &model.Hung{}, p.ID)
	return p.ID
}

func (c *collection) need(id model.ID) advice.Need {
	c.t.Helper()
	n, ok := advice.NeedOf(estimate.New(c.book), id, today)
	if !ok {
		c.t.Fatalf("no need for plant %d", id)
	}
	return n
}

// words are the sentences that a person reads for some reasons; 0 is no plant.
func (c *collection) words(id model.ID, all ...advice.Reason) []string {
	return show.About{Book: c.book, Row: c.book.Row(id), Now: today}.Reasons(all)
}

func (c *collection) says(n advice.Need, what string) bool {
	return slices.ContainsFunc(c.words(n.ID, n.Reasons...),
		func(text string) bool { return strings.Contains(text, what) })
}

func wantSays(t *testing.T, c *collection, n advice.Need, what string) {
	t.Helper()
	if !c.says(n, what) {
		t.Errorf("no reason says %q: %v", what, c.words(n.ID, n.Reasons...))
	}
}

func wantBand(t *testing.T, n advice.Need, from, to soak.Band) {
	t.Helper()
	if n.Band < from || n.Band > to {
		t.Errorf("band %v (%.0f-%.0f min, RWC %.3f), want %v to %v; %v", n.Band, n.From, n.To, n.RWC, from, to,
			n.Reasons)
	}
}

// Common practice, no source: a green rosette a week after its soak.
func TestWeekOldRosetteSoaksHalfAnHourToThreeHours(t *testing.T) {
	c := newCollection(t)
	n := c.need(c.medium(model.Rosette, model.Mesic, 7))
	wantBand(t, n, soak.Short, soak.Short)
	if n.From < 20 || n.From > 60 || n.To != 180 {
		t.Errorf("%.0f to %.0f minutes, want at least 20 to 60, up to 180", n.From, n.To)
	}
}

// Common practice, no source.
func TestLiftingEdgesAskForTwoToFourHours(t *testing.T) {
	c := newCollection(t)
	id := c.medium(model.Rosette, model.Mesic, 7)
	c.enter(today, &model.Look{Signs: model.Signs{Curl: 1, Tips: 0, Shift: model.NotSeen}}, id)
	n := c.need(id)
	wantBand(t, n, soak.Long, soak.Long)
	if n.From < 120 || n.To != 240 {
		t.Errorf("%.0f to %.0f minutes, want 120 to 240", n.From, n.To)
	}
}

// Common practice, no source.
func TestRolledShutStaysOvernight(t *testing.T) {
	c := newCollection(t)
	id := c.medium(model.Rosette, model.Mesic, 14)
	c.enter(today, &model.Look{Signs: model.Signs{Curl: 3, Tips: 3, Shift: model.NotSeen}}, id)
	wantBand(t, c.need(id), soak.Overnight, soak.Overnight)
}

// Common practice, no source: thin leaves want more water than a rosette.
func TestWispySoaksLongerThanRosette(t *testing.T) {
	c := newCollection(t)
	rosette := c.need(c.medium(model.Rosette, model.Mesic, 7))
	wispy := c.need(c.medium(model.Wispy, model.Mesic, 7))
	if wispy.Band < rosette.Band || wispy.From <= rosette.From {
		t.Errorf("wispy %v %.0f min, rosette %v %.0f min", wispy.Band, wispy.From, rosette.Band, rosette.From)
	}
}

// Common practice, no source: a bulb that fills with water rots.
func TestBulbousIsCappedAndShakenHard(t *testing.T) {
	for _, leaf := range model.Leaves {
		c := newCollection(t)
		id := c.medium(model.Bulbous, leaf, 10)
		n := c.need(id)
		if n.To != 30 {
			t.Errorf("%s: soaks up to %.0f minutes, want 30", leaf, n.To)
		}
		wantSays(t, c, n, "bulbous, no thirst seen: 30 min at most")
		c.enter(today, &model.Look{Signs: model.Signs{Curl: 2, Tips: 0, Shift: model.NotSeen}}, id)
		if n = c.need(id); n.To != 90 {
			t.Errorf("%s, seen thirsty: soaks up to %.0f minutes, want 90", leaf, n.To)
		}
		wantSays(t, c, n, "shake hard, dry upside down")
	}
}

// Common practice, no source.
func TestFuzzyXericIsMistedOrDipped(t *testing.T) {
	c := newCollection(t)
	wantBand(t, c.need(c.medium(model.Fuzzy, model.Xeric, 7)), soak.Mist, soak.Dip)
}

// Common practice, no source: petals collapse when they get wet.
func TestBloomIsMistedWhateverTheSigns(t *testing.T) {
	for _, form := range model.Forms {
		for curl := model.Grade(0); curl <= model.MaxGrade; curl++ {
			c := newCollection(t)
			id := c.medium(form, model.Mesic, 9)
			c.enter(today, &model.Bloom{}, id)
			c.enter(today, &model.Look{Signs: model.Signs{Curl: curl, Tips: 0, Shift: 2}}, id)
			n := c.need(id)
			wantBand(t, n, soak.Mist, soak.Mist)
			wantSays(t, c, n, "in bloom")
			if curl == model.MaxGrade {
				wantSays(t, c, n, "flower up and dip only the leaves")
			}
		}
	}
}

// Common practice, no source.
func TestSuspectedRotIsNotSoaked(t *testing.T) {
	for _, form := range model.Forms {
		c := newCollection(t)
		id := c.medium(form, model.Mesic, 14)
		c.enter(today, &model.Look{Signs: model.Signs{Curl: 3, Tips: 3, Shift: 2}}, id)
		c.enter(today, &model.Rot{}, id)
		n := c.need(id)
		wantBand(t, n, soak.Rest, soak.Rest)
		wantSays(t, c, n, "keep it apart")
	}
}

// Common practice, no source.
func TestTwoDaysAfterASoakAPlantRests(t *testing.T) {
	for _, form := range model.Forms {
		for _, leaf := range model.Leaves {
			for name, look := range map[string]bool{"not looked at": false, "looks fine": true} {
				t.Run(fmt.Sprint(form, leaf, name), func(t *testing.T) {
					c := newCollection(t)
					id := c.medium(form, leaf, 2)
					if look {
						c.enter(today, &model.Look{Signs: model.LooksFine}, id)
					}
					wantBand(t, c.need(id), soak.Rest, soak.Rest)
				})
			}
		}
	}
}

// Common practice, no source: a leaf that will not take up water has another
// trouble than thirst.
func TestStaysPaleDoesNotLengthenTheSoak(t *testing.T) {
	for _, leaf := range model.Leaves {
		c := newCollection(t)
		seen := c.medium(model.Rosette, leaf, 7)
		pale := c.medium(model.Rosette, leaf, 7)
		c.enter(today, &model.Look{Signs: model.LooksFine}, seen)
		c.enter(today, &model.Look{Signs: model.Signs{Curl: 0, Tips: 0, Shift: model.StaysPale}}, pale)
		a, b := c.need(seen), c.need(pale)
		if b.From > a.From || b.To > a.To {
			t.Errorf("%s: pale soaks %.0f-%.0f, otherwise %.0f-%.0f", leaf, b.From, b.To, a.From, a.To)
		}
		wantSays(t, c, b, "look for rot, oil, lime or dead tissue")
	}
}

// Common practice, no source.
func TestAlreadyDarkTheDayAfterIsStillWet(t *testing.T) {
	c := newCollection(t)
	id := c.medium(model.Rosette, model.Mesic, 1)
	c.enter(today, &model.Look{Signs: model.Signs{Curl: 0, Tips: 0, Shift: model.AlreadyDark}}, id)
	n := c.need(id)
	wantBand(t, n, soak.Rest, soak.Rest)
	wantSays(t, c, n, "still wet")
	wantSays(t, c, n, "has not dried since the soak")
}
