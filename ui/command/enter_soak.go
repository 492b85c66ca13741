package command

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/show"
)

// soakActs is the way of a plant through a soak day.
var soakActs = []act{
	says("pull", "taken off the shelf, waiting beside the water", &model.Pull{}, "pull 12-40", "pull shelf:A"),
	says("putback", "pulled and hung back without a soak", &model.PutBack{}, "putback 17", "putback pulled"),
	{
		word: "soak", takes: "--vessel tub PLANTS...", words: plantsNamed,
		short: "into the water, in the order named",
		long: `Plants go into the water, in the order named. Without --minutes they soak as
long as the day's agreed plan has it, or else as the one that needs most, but no
longer than any of them may. In water
that was filled as fed (see: enter fill), or with a strength, they are fed.

The load's clock runs from when you enter it, so enter it as the first plant goes
in. If you enter it later, say when that was: --now 2026-01-31T09:46:00Z. Else all
soak for longer than they should.

Never leave a child or a pet alone with a filled tub, keep lamps, fans and cords
away from it, and wipe up what spills.`,
		examples: [2]string{"soak --vessel tub 12-40 51", `soak --vessel "bucket 1" --minutes 20 17`},
		flags: append([]flag{
			text("vessel", "`name` of the tub or bucket"),
			amount("minutes", "how long; without it, as long as the plants need", "min", "minutes"),
			number("load", 0, "the load's `number`; without it, the next"),
			yes("anyway", "fed, mist only, over night in the morning, still wet tonight, in a vessel emptied today, or with others than their own kind, all the same"),
		}, mixFlags...),
		fact: func(in *said) (model.Fact, error) {
			if in.text("vessel") == "" {
				return nil, errors.New("enter soak: give --vessel")
			}
			f := &model.Soak{Load: model.LoadID(in.number("load")), Vessel: in.text("vessel"), Fed: in.mix()}
			if in.given("minutes") {
				f.Due = in.now.Add(seconds(in.amount("minutes")))
			}
			return f, nil
		},
		on: intoWater,
	},
	{
		word: "out", takes: "PLANTS...", words: plantsNamed,
		short: "out of the water, to dry",
		long: `Plants come out of the water, in the order named, shaken, and are laid upside
down to dry, or on the side.`,
		examples: [2]string{"out load:3 --bench rack", "out 12-20 --not-shaken --upright"},
		flags: []flag{
			yes("not-shaken", "they were not shaken"),
			yes("upright", "they stand upright"),
			text("bench", "the drying place they are laid on"),
		},
		fact: func(in *said) (model.Fact, error) {
			out := model.TakenOut(!in.yes("not-shaken"))
			out.Inverted, out.Bench = !in.yes("upright"), in.text("bench")
			return out, nil
		},
	},
	{
		word: "laid", takes: "PLANTS... --bench NAME", words: plantsNamed,
		short:    "moved to another drying place",
		examples: [2]string{"laid 12-20 --bench towels", "laid load:3 --bench rack"},
		flags:    []flag{text("bench", "the drying place they are laid on")},
		fact: func(in *said) (model.Fact, error) {
			if in.text("bench") == "" {
				return nil, errors.New("enter laid: give --bench")
			}
			return &model.Laid{Bench: in.text("bench")}, nil
		},
	},
	says("damp", "looked at and still damp at the heart", &model.Damp{}, "damp 17", "damp drying"),
	says("dry", "looked at and dry to the heart", &model.FoundDry{}, "dry 12-40", "dry drying"),
	says("hung", "hung back home, dry", &model.Hung{}, "hung dry", "hung shelf:A"),
	{
		word: "mist", takes: "PLANTS...", words: plantsNamed,
		short:    "misted where they hang, with plain water",
		examples: [2]string{"mist shelf:A", "mist 17 --water rain"},
		flags:    []flag{text("water", "the `water`: "+sourceWords)},
		fact: func(in *said) (model.Fact, error) {
			of, err := model.ParseSource(in.text("water"))
			return &model.Mist{Of: of}, err
		},
	},
}

// seconds is a length in minutes, to the second. What no clock could count is far
// longer than any soak.
func seconds(minutes float64) time.Duration {
	const far = 1e6
	return time.Duration(math.Round(min(max(minutes, -far), far)*60)) * time.Second
}

// intoWater finishes a soak: which load it is, and when it is due.
func intoWater(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
	ids, err := in.plants(b, f)
	if err != nil {
		return nil, err
	}
	into := f.(*model.Soak)
	into.Vessel = vesselName(b, into.Vessel)
	if into.Load == 0 {
		into.Load = b.NextLoad()
	}
	if feeds(b, into) && !in.yes("anyway") {
		if stop, refused := advice.NotToFeed(estimate.New(b), ids, in.now); refused {
			return nil, withAnyway(show.NotFed(b, stop, in.now))
		}
	}
	if err := mistOnly(b, ids); err != nil && !in.yes("anyway") {
		return nil, err
	}
	if into.Due.IsZero() {
		length, planned := in.asPlanned(b, into.Vessel, ids)
		if !planned {
			length, err = soakLength(b, ids, in.now)
		}
		into.Due = in.now.Add(length)
	}
	into.Due = into.Due.Truncate(time.Second)
	if err != nil || in.yes("anyway") {
		return ids, err
	}
	if day.WrongHour(b, into.Due.Sub(in.now).Minutes(), in.now) {
		return nil, overNight(b, into.Due)
	}
	if err := keptApart(b, into.Vessel, ids, in.now); err != nil || in.past {
		return ids, err
	}
	away := func(id model.ID) bool { row := b.Row(id); return row == nil || row.State != model.AtHome }
	if soak := into.Due.Sub(in.now); soak <= 0 || soak > model.MaxSoak || slices.ContainsFunc(ids, away) {
		return ids, nil // the book says so itself
	}
	return ids, cmp.Or(isEmpty(b, into.Vessel, in.now), dryInTime(b, ids, into.Due, in.now))
}

// isEmpty says that a vessel was emptied, where nobody has said that it is filled again.
func isEmpty(b *model.Book, vessel string, now time.Time) error {
	at, is := advice.Emptied(b, vessel, now)
	if !is {
		return nil
	}
	return &model.Problem{
		What: fmt.Sprintf("%s was emptied at %s", vessel, at.In(b.Zone()).Format("15:04")),
		Do:   "say that it is filled again, or that this is meant: --anyway", Shell: "tubside enter fill " + vessel,
	}
}

// dryInTime says who of a load may still be wet when all is to be dry.
func dryInTime(b *model.Book, ids model.IDs, due, now time.Time) error {
	wet := day.NotDry(estimate.New(b), ids, "", due, now)
	if len(wet.Plants) == 0 {
		return nil
	}
	return &model.Problem{
		What: show.StillWet(b, wet, len(ids), now),
		Do:   "soak earlier in the day, or fewer, or say that it is meant: --anyway",
	}
}

// keptApart says who of a load must not share its water: with one another, or with who is
// in the vessel or lay in its water.
func keptApart(b *model.Book, vessel string, ids model.IDs, now time.Time) error {
	best, worst := soak.Sick, soak.Healthy
	for _, id := range ids {
		if row := b.Row(id); row != nil {
			c := advice.CompanyOf(b, row, now)
			best, worst = min(best, c), max(worst, c)
		}
	}
	if best < worst {
		return &model.Problem{
			What: fmt.Sprintf("%s and %s would share one water", show.InCompany(best), show.InCompany(worst)),
			Do:   "put them in one after the other, the healthy first, or say that it is meant: --anyway",
		}
	}
	clash, is := advice.ClashIn(b, vessel, best, now)
	switch {
	case !is:
		return nil
	case clash.Lies:
		return &model.Problem{
			What: fmt.Sprintf("%s still lie in %s, and these are %s", show.InCompany(clash.With), vessel, show.InCompany(best)),
			Do:   "take another vessel, or say that it is meant: --anyway",
		}
	}
	return &model.Problem{
		What: fmt.Sprintf("%s lay in the water of %s", show.InCompany(clash.With), vessel),
		Do:   "empty it first, or say that it is meant: --anyway", Shell: "tubside enter drain " + vessel,
	}
}

// mistOnly says which of some plants its grower never soaks, if there is one.
func mistOnly(b *model.Book, ids model.IDs) error {
	for _, id := range ids {
		if row := b.Row(id); row != nil && row.MistOnly {
			return &model.Problem{
				What: fmt.Sprintf("plant %d (%s) is mist only, you said", id, row.Title()),
				Do:   "leave it out, or say that it is meant: --anyway",
			}
		}
	}
	return nil
}

// overNight says that a soak is one for the night, and how to have it now.
func overNight(b *model.Book, due time.Time) error {
	rules := b.Rules()
	hour := func(l model.Limit) string { return model.AtHour(time.Time{}, rules[l]).Format("15:04") }
	return &model.Problem{
		What: fmt.Sprintf("a soak over night goes in at %s and is out at %s; now it would be out at %s", hour(model.NightIn),
			hour(model.NightOut), due.In(b.Zone()).Format("Mon 15:04")),
		Do: "put it in in the evening, or say that it is meant: --anyway",
	}
}

// feeds reports whether a load goes into fed water.
func feeds(b *model.Book, into *model.Soak) bool {
	water := b.Water(into.Vessel)
	return into.Fed != nil || water != nil && water.Fed != nil
}

// vesselName is a vessel's name as the book writes it.
func vesselName(b *model.Book, name string) string {
	if v, ok := b.Vessel(name); ok {
		return v.Name
	}
	return name
}

// soakLength is how long a load soaks when nobody says: the longest of the
// plants' least times, cut to the shortest of their longest ones.
func soakLength(b *model.Book, ids model.IDs, now time.Time) (time.Duration, error) {
	keeper := estimate.New(b)
	load := advice.AnyLength
	for _, id := range ids {
		need, ok := advice.NeedOf(keeper, id, now)
		if !ok {
			continue // gone: the book says so itself
		}
		window, ok := advice.MayLie(b, need)
		if !ok {
			return 0, noSoak(b, need, now)
		}
		load = load.Meet(window)
	}
	return load.Length(), nil
}

// noSoak says why a plant has no time of its own.
func noSoak(b *model.Book, need advice.Need, now time.Time) error {
	row := b.Row(need.ID)
	return &model.Problem{
		What: fmt.Sprintf("plant %d (%s) is not to soak now (%s: %s)",
			row.ID, row.Title(), need.Band, show.About{Book: b, Row: row, Now: now}.First(need.Reasons)),
		Do: "leave it out, or say how long with --minutes",
	}
}
