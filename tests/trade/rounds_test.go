package trade_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

func (c *collection) round(job advice.RoundJob, at time.Time) advice.Round {
	return advice.NewRound(estimate.New(c.book), job, at)
}

// onList is a plant's stop on a list of a round.
func onList(stops []advice.Stop, id model.ID) (advice.Stop, bool) {
	i := slices.IndexFunc(stops, func(s advice.Stop) bool { return s.ID == id })
	if i < 0 {
		return advice.Stop{}, false
	}
	return stops[i], true
}

func wantStop(t *testing.T, c *collection, stops []advice.Stop, id model.ID, why string) {
	t.Helper()
	s, ok := onList(stops, id)
	if !ok {
		t.Errorf("plant %d is not on the list %v", id, stops)
		return
	}
	words := c.words(id, s.Reasons...)
	if !slices.ContainsFunc(words, func(text string) bool { return strings.Contains(text, why) }) {
		t.Errorf("plant %d: no reason says %q: %v", id, why, words)
	}
}

// Common practice, no source: a plant in bloom has no other water, so it is on
// every mist list, whatever its form; once a day is enough. Spent, it goes back
// to soaking by itself.
func TestBloomIsOnEveryMistList(t *testing.T) {
	c := newCollection(t)
	for _, form := range model.Forms {
		id := c.medium(form, model.Intermediate, 1)
		c.enter(today, &model.Bloom{Stage: model.Bud}, id)
		wantStop(t, c, c.round(advice.MistRound, today).Due, id, "not the flower")
		c.enter(today, &model.Bloom{Stage: model.Open}, id)
		wantStop(t, c, c.round(advice.MistRound, today).Due, id, "not the flower")
		c.enter(today, &model.Mist{}, id)
		wantStop(t, c, c.round(advice.MistRound, today.Add(6*time.Hour)).Later, id, "misted 6 h ago")
		wantStop(t, c, c.round(advice.MistRound, today.Add(23*time.Hour)).Due, id, "misted 23 h ago")
		c.enter(today, &model.Bloom{Stage: model.Spent}, id)
		if s, ok := onList(c.round(advice.MistRound, today.AddDate(0, 0, 1)).Due, id); ok {
			t.Errorf("%s, spent two days after its soak, is still misted: %v", form, s.Reasons)
		}
	}
	rosette := c.medium(model.Rosette, model.Mesic, 8)
	c.enter(today, &model.Bloom{Stage: model.Open}, rosette)
	wantBand(t, c.need(rosette), soak.Mist, soak.Mist)
	c.enter(today, &model.Bloom{Stage: model.Spent}, rosette)
	wantBand(t, c.need(rosette), soak.Dip, soak.Overnight)
}

// Common practice, no source: water stays in a throat and in a fuzzy coat; what
// may be rotting is kept dry; what is thirsty wants a soak.
func TestWhoIsNotMisted(t *testing.T) {
	c := newCollection(t)
	bulb := c.medium(model.Bulbous, model.Intermediate, 5)
	wool := c.medium(model.Fuzzy, model.Xeric, 5)
	rotting := c.medium(model.Rosette, model.Xeric, 5)
	c.enter(today, &model.Rot{}, rotting)
	thirsty := c.medium(model.Rosette, model.Mesic, 14)
	pulled := c.medium(model.Rosette, model.Xeric, 5)
	c.enter(today, &model.Pull{}, pulled)
	r := c.round(advice.MistRound, today)
	wantStop(t, c, r.Skipped, bulb, "throat")
	wantStop(t, c, r.Skipped, wool, "coat")
	wantStop(t, c, r.Skipped, rotting, "keep it dry")
	wantStop(t, c, r.Skipped, thirsty, "a soak")
	wantStop(t, c, r.Skipped, pulled, "pulled")
	c.enter(today, &model.Reading{TempC: 21, RH: 20})
	if s, ok := onList(c.round(advice.MistRound, today).Skipped, wool); ok && s.Reasons[0].Code == advice.CoatStaysWet {
		t.Errorf("at 20 %% humidity a fuzzy plant is still left out: %v", s.Reasons)
	}
}

// nextMist is how many days after a mist a plant is due again, in an air.
func nextMist(t *testing.T, leaf model.Leaf, rh float64) float64 {
	c := newCollection(t)
	id := c.medium(model.Rosette, leaf, 5)
	for _, rule := range []string{"soak-from", "rhythm-slow", "rhythm"} { // so that no soak comes in between
		c.enter(today, &model.RuleSet{Name: rule, Value: 40})
	}
	c.enter(today, &model.Reading{TempC: 21, RH: rh})
	c.enter(today, &model.Mist{}, id)
	for h := 0; h < 24*20; h++ {
		if _, due := onList(c.round(advice.MistRound, today.Add(time.Duration(h)*time.Hour)).Due, id); due {
			return float64(h) / 24
		}
	}
	return 20
}

// Common practice, no source: thin green leaves first, and sooner in heated
// winter air.
func TestMistsGoByLeafAndRoom(t *testing.T) {
	mesic, middle, xeric := nextMist(t, model.Mesic, 40), nextMist(t, model.Intermediate, 40), nextMist(t, model.Xeric,
		40)
	if !(mesic < middle && middle < xeric) {
		t.Errorf("mesic after %.1f days, intermediate %.1f, xeric %.1f", mesic, middle, xeric)
	}
	if mesic < 1.5 || mesic > 2 {
		t.Errorf("mesic after %.1f days, want every other day (newspaper column, Pantagraph, 31 Dec 2021)", mesic)
	}
	if dry, damp := nextMist(t, model.Intermediate, 20), nextMist(t, model.Intermediate,
		60); !(dry < middle && middle < damp) {
		t.Errorf("at 20 %% after %.1f days, at 40 %% %.1f, at 60 %% %.1f", dry, middle, damp)
	}
}

// Common practice, no source: the wound of an offset dries first; until then
// mist only.
func TestAnOffsetJustSeparatedIsMistedOnly(t *testing.T) {
	c := newCollection(t)
	mother := c.medium(model.Rosette, model.Mesic, 9)
	pup := c.book.Row(mother).AsOffset(c.book.NextID())
	c.enter(today, &model.Split{New: pup, Offset: true}, mother)
	n := c.need(pup.ID)
	wantBand(t, n, soak.Mist, soak.Mist)
	wantSays(t, c, n, "no soak until the wound is dry")
	wantStop(t, c, c.round(advice.MistRound, today).Due, pup.ID, "wound")
	later, _ := advice.NeedOf(estimate.New(c.book), pup.ID, today.AddDate(0, 0, 4))
	wantBand(t, later, soak.Dip, soak.Overnight)
}

// Common practice, no source: newcomers weekly, after a trouble or its treatment
// in a week, suspected rot in three days, everybody else once a month.
func TestWhenToLookAgain(t *testing.T) {
	for _, c := range []struct {
		what string
		tell []model.Fact
		days int
	}{
		{"looked over", nil, 30},
		{"suspected rot", []model.Fact{&model.Rot{}}, 3},
		{"scale since", []model.Fact{&model.Trouble{What: model.Scale}}, 7},
		{"treated", []model.Fact{&model.Trouble{What: model.Scale}, &model.Trouble{What: model.Scale, Treatment: "swab"}}, 7},
		{"newcomer", []model.Fact{&model.Quarantine{}}, 7},
		{"is it back", []model.Fact{&model.Trouble{What: model.Mites}, &model.Trouble{What: model.Mites, Over: true}}, 7},
	} {
		book := newCollection(t)
		id := book.medium(model.Rosette, model.Mesic, 5)
		wantStop(t, book, book.round(advice.LookRound, today).Due, id, "never looked over")
		book.enter(today.AddDate(0, 0, -20), &model.LookedOver{}, id)
		if c.tell == nil {
			book.enter(today, &model.LookedOver{}, id)
		}
		for _, f := range c.tell {
			book.enter(today, f, id)
		}
		wantStop(t, book, book.round(advice.LookRound, today.AddDate(0, 0, c.days-1)).Later, id, c.what)
		wantStop(t, book, book.round(advice.LookRound, today.AddDate(0, 0, c.days)).Due, id, c.what)
	}
}

// A treatment begins its week anew: it is the young scale that move which can be
// hit (Mizell 1998, UF/IFAS), and they show after it.
func TestATreatmentIsFollowedUp(t *testing.T) {
	c := newCollection(t)
	id := c.medium(model.Rosette, model.Mesic, 5)
	c.enter(today, &model.Trouble{What: model.Scale}, id)
	c.enter(today.AddDate(0, 0, 5), &model.Trouble{What: model.Scale, Treatment: "swab"}, id)
	wantStop(t, c, c.round(advice.LookRound, today.AddDate(0, 0, 11)).Later, id, "treated 23 Jan (swab)")
	wantStop(t, c, c.round(advice.LookRound, today.AddDate(0, 0, 12)).Due, id, "scale since 18 Jan")
}

// San Diego Bromeliad Society, FAQ: a third to a half of the parent.
func TestALookRoundTellsOfReadyOffsets(t *testing.T) {
	c := newCollection(t)
	id := c.medium(model.Rosette, model.Mesic, 5)
	c.enter(today, &model.Offsets{Count: 1, Share: 0.4}, id)
	month := today.AddDate(0, 0, 30)
	wantStop(t, c, c.round(advice.LookRound, month).Due, id, "an offset may be separated")
	c.enter(today, &model.Offsets{Count: 1, Share: 0.5}, id)
	wantStop(t, c, c.round(advice.LookRound, month).Due, id, "an offset is ready")
}

// Every plant not gone stands on exactly one list of a round, and each list is
// in walking order.
func TestARoundLeavesNobodyOut(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := newCollection(rt)
		n := rapid.IntRange(1, 12).Draw(rt, "plants")
		for range n {
			p := anyPlant(rt)
			p.Home = model.Home{Shelf: rapid.SampledFrom([]string{"", "A", "B2", "B10"}).Draw(rt, "shelf"),
				Spot: rapid.SampledFrom([]string{"1", "2", "10"}).Draw(rt, "spot")}
			id := c.plant(p, rapid.Float64Range(0, 15).Draw(rt, "days"))
			for _, f := range rapid.SliceOfN(rapid.SampledFrom([]model.Fact{
				&model.Bloom{Stage: model.Bud}, &model.Rot{}, &model.Quarantine{}, &model.Mist{}, &model.LookedOver{}, &model.Trouble{What: model.Mites},
				&model.Feed{How: model.ByDip, Mix: model.Mix{PPM: 50}}, &model.Leave{How: model.Sold},
			}), 0, 3).Draw(rt, "life") {
				if c.book.Row(id).State != model.Gone {
					c.enter(today, f, id)
				}
			}
		}
		for _, job := range advice.RoundJobs {
			r := c.round(job, today)
			seen := map[model.ID]int{}
			for _, list := range [][]advice.Stop{r.Due, r.Later, r.Skipped} {
				for i, s := range list {
					seen[s.ID]++
					if len(s.Reasons) == 0 || c.words(s.ID, s.Reasons...)[0] == "" {
						rt.Fatalf("%s: plant %d without a reason", job, s.ID)
					}
					if i > 0 && c.book.Row(list[i-1].ID).WalkCompare(c.book.Row(s.ID)) > 0 {
						rt.Fatalf("%s: %d before %d is not how one walks", job, list[i-1].ID, s.ID)
					}
				}
			}
			for _, id := range c.book.IDs() {
				if want := map[bool]int{true: 0, false: 1}[c.book.Row(id).State == model.Gone]; seen[id] != want {
					rt.Fatalf("%s: plant %d stands on %d lists", job, id, seen[id])
				}
			}
		}
	})
}
