package command

import (
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/care"
)

func (r *run) pull() *cobra.Command {
	return r.onPlants("pull", "taken off the shelf, waiting beside the water", &model.Pull{})
}

func (r *run) putBack() *cobra.Command {
	return r.onPlants("putback", "pulled and hung back without a soak", &model.PutBack{})
}

func (r *run) damp() *cobra.Command {
	return r.onPlants("damp", "looked at and still damp at the heart", &model.Damp{})
}

func (r *run) dry() *cobra.Command {
	return r.onPlants("dry", "looked at and dry to the heart", &model.FoundDry{})
}

func (r *run) hung() *cobra.Command {
	return r.onPlants("hung", "hung back home, dry", &model.Hung{})
}

// soak puts plants into a vessel, for as long as they need or as long as given.
func (r *run) soak() *cobra.Command {
	var m mixing
	var anyway bool
	vessel, minutes := "", of(0, "", "min", "minutes")
	c := &cobra.Command{
		Use:   "soak --vessel tub PLANTS...",
		Short: "into the water, in the order named",
		Long: `Plants go into the water, in the order named. Without --minutes they soak as
long as the one that needs most, but no longer than any of them may. In water
that was filled as fed (see: enter fill), or with a strength, they are fed.

Never leave a child or a pet alone with a filled tub, keep lamps, fans and cords
away from it, and wipe up what spills.`,
		Example: "  tubside enter soak --vessel tub 12-40 51",
		Args:    wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			if vessel == "" {
				return misread(errors.New("enter soak: give --vessel"))
			}
			return r.write(func(b *model.Book, now time.Time) (model.Fact, model.IDs, error) {
				ids, err := b.Choose(args...)
				if err != nil {
					return nil, nil, err
				}
				soak := &model.Soak{Load: b.NextLoad(), Vessel: vesselName(b, vessel), Fed: m.mix()}
				if feeds(b, soak) && !anyway {
					if err := care.New(b).MayFeed(ids, now); err != nil {
						return nil, nil, withAnyway(err)
					}
				}
				length, err := soakLength(b, ids, now, minutes)
				soak.Due = now.Add(length).Truncate(time.Second)
				return soak, ids, err
			})
		},
	}
	c.Flags().StringVar(&vessel, "vessel", "", "`name` of the tub or bucket")
	c.Flags().Var(&minutes, "minutes", "how long; without it, as long as the plants need")
	c.Flags().BoolVar(&anyway, "anyway", false, anywayFlag)
	m.flags(c.Flags())
	return c
}

// feeds reports whether a load goes into fed water.
func feeds(b *model.Book, soak *model.Soak) bool {
	water := b.Water(soak.Vessel)
	return soak.Fed != nil || water != nil && water.Fed != nil
}

// vesselName is a vessel's name as the book writes it.
func vesselName(b *model.Book, name string) string {
	if v, ok := b.Vessel(name); ok {
		return v.Name
	}
	return name
}

// soakLength is how long a load soaks: as given, or the longest of the plants'
// least times, cut to the shortest of their longest ones.
func soakLength(b *model.Book, ids model.IDs, now time.Time, given quantity) (time.Duration, error) {
	if given.given {
		return time.Duration(given.value * float64(time.Minute)), nil
	}
	keeper := care.New(b)
	from, to := 0.0, math.Inf(1)
	for _, id := range ids {
		need, ok := keeper.Need(id, now)
		if !ok {
			continue // gone: the book says so itself
		}
		if need.To <= 0 {
			return 0, noSoak(b.Row(id), need)
		}
		from, to = math.Max(from, need.From), math.Min(to, need.To)
	}
	minutes := math.Min(from, to)
	return time.Duration(math.Ceil(minutes)) * time.Minute, nil
}

// noSoak says why a plant has no time of its own.
func noSoak(row *model.Row, need care.Need) error {
	return &model.Problem{
		What: fmt.Sprintf("plant %d (%s) is not to soak now (%s: %s)", row.ID, row.Title(), need.Band, firstReason(need.Reasons)),
		Do:   "leave it out, or say how long with --minutes",
	}
}

// out takes plants out of the water.
func (r *run) out() *cobra.Command {
	var notShaken, upright, inverted bool
	c := &cobra.Command{
		Use:   "out PLANTS...",
		Short: "out of the water, to dry",
		Long: `Plants come out of the water, in the order named, shaken. When every plant
named is bulbous they are taken to lie upside down, else upright: name bulbous
plants by themselves, or say --inverted.`,
		Example: "  tubside enter out load:3\n  tubside enter out 12-20 --not-shaken --inverted",
		Args:    wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				ids, err := b.Choose(args...)
				down := inverted || !upright && allBulbous(b, ids)
				return &model.Out{Shaken: !notShaken, Inverted: down}, ids, err
			})
		},
	}
	c.Flags().BoolVar(&notShaken, "not-shaken", false, "they were not shaken")
	c.Flags().BoolVar(&upright, "upright", false, "they stand upright")
	c.Flags().BoolVar(&inverted, "inverted", false, "they lie upside down")
	c.MarkFlagsMutuallyExclusive("upright", "inverted")
	return c
}

// allBulbous reports whether every plant is bulbous. In a mixed lot upright is
// the safer guess: it makes the board wait longer before calling a plant dry.
func allBulbous(b *model.Book, ids model.IDs) bool {
	for _, id := range ids {
		if row := b.Row(id); row == nil || row.Form != model.Bulbous {
			return false
		}
	}
	return len(ids) > 0
}
