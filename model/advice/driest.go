package advice

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// What the program claims to have earned. A choice.
const (
	driestShare = 12   // the driest are one plant in so many
	foundShare  = 0.85 // of them that the first to look at should hold, as expected
	earnedWeeks = 3    // before which nothing is claimed
	earnedSoaks = 3    // of its own a plant has, to be known
)

// Earned is what the estimates can be trusted with, by what they rest on.
type Driest struct {
	Weeks  int       // since the first look at a plant
	Known  int       // plants with a few soaks of their own, looked at before
	Plants int       // plants not gone
	Driest int       // how many count as the driest
	First  model.IDs // whom to look at first, the driest first, to find most of those
	Earned bool      // watched for long enough to be said
}

// WhomFirst says whom to look at first and what that rests on: so many that, by
// what is believed of each plant, 85 % of the driest are expected among them.
func DriestOf(k *estimate.Keeper, now time.Time) Driest {
	e := Driest{Weeks: int(now.Sub(firstLook(k.Book(), now)).Hours() / (7 * 24))}
	var plants []ranked
	for _, id := range k.Book().IDs() {
		row := k.Book().Row(id)
		if row.State == model.Gone {
			continue
		}
		e.Plants++
		if k.SoaksLearned(id) >= earnedSoaks {
			e.Known++
		}
		if row.State == model.AtHome {
			plants = append(plants, rank(k, id, now))
		}
	}
	e.Driest = max(e.Plants/driestShare, 1)
	e.First = first(plants, e.Driest)
	e.Earned = e.Weeks >= earnedWeeks && 2*e.Known >= e.Plants && len(e.First) > 0
	return e
}

// firstLook is when a plant was first looked at; now when none ever was.
func firstLook(b *model.Book, now time.Time) time.Time {
	for _, e := range b.Entries() {
		if _, look := e.Fact.(*model.Look); look && !b.Struck(e.Seq) {
			return e.At
		}
	}
	return now
}

// ranked is one plant on its way to a place among the driest.
type ranked struct {
	id     model.ID
	thirst float64       // mean
	points estimate.Grid // thirst at each pace
	shares estimate.Grid
}

func rank(k *estimate.Keeper, id model.ID, now time.Time) ranked {
	r := ranked{id: id, shares: estimate.Grid(*k.LossMass(id))}
	k.RWC(id, now, &r.points)
	for i, rwc := range r.points {
		r.points[i] = 1 - rwc
		r.thirst += r.shares[i] * r.points[i]
	}
	return r
}

// beyond is the chance that a plant is thirstier than a line. A point's share is
// spread evenly over its cell, so that a line moved a little changes it a little.
func (r *ranked) beyond(line float64) float64 {
	sum, last := 0.0, len(r.points)-1
	for i, share := range r.shares {
		low, high := (r.points[max(i-1, 0)]+r.points[i])/2, (r.points[i]+r.points[min(i+1, last)])/2
		switch {
		case line < low:
			sum += share
		case line < high:
			sum += share * (high - line) / (high - low)
		}
	}
	return sum
}

// first is as many of the thirstiest as hold most of the driest n. The line
// above which a plant counts as one of those is where n are expected above it.
func first(plants []ranked, n int) model.IDs {
	n = min(n, len(plants))
	if n == 0 {
		return nil
	}
	low, high := 0.0, 1.0
	for high-low > 1e-3 {
		line, above := (low+high)/2, 0.0
		for i := range plants {
			above += plants[i].beyond(line)
		}
		if above > float64(n) {
			low = line
		} else {
			high = line
		}
	}
	slices.SortStableFunc(plants, func(a, b ranked) int { return cmp.Compare(b.thirst, a.thirst) })
	var ids model.IDs
	found := 0.0
	for i := 0; i < len(plants) && found < foundShare*float64(n); i++ {
		found += math.Max(plants[i].beyond(high), 1e-9)
		ids = append(ids, plants[i].id)
	}
	return ids
}
