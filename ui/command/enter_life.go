package command

import (
	"errors"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
)

// bloom sets plants in bloom, or says how far the bloom has come.
func (r *run) bloom() *cobra.Command {
	var bud, open, spent, over bool
	c := &cobra.Command{
		Use: "bloom PLANTS...", Short: "in bloom: --bud, --open, --spent, or --over when nothing is left of it", Args: wants(1, many, plantsWanted),
		Long: `In bloom. In bud and open a plant is misted, not soaked; spent or over it goes
back to soaking. Without a flag only "in bloom" is said.`,
		RunE: func(_ *cobra.Command, args []string) error {
			stage := map[bool]model.Stage{bud: model.Bud, open: model.Open, spent: model.Spent}[true]
			return r.writeOn(args, &model.Bloom{Stage: stage, Over: over})
		},
	}
	c.Flags().BoolVar(&bud, "bud", false, "the spike shows, no flower yet")
	c.Flags().BoolVar(&open, "open", false, "the first flower has opened")
	c.Flags().BoolVar(&spent, "spent", false, "the last flower has faded")
	c.Flags().BoolVar(&over, "over", false, "the bloom is over")
	c.MarkFlagsMutuallyExclusive("bud", "open", "spent", "over")
	return c
}

func (r *run) looked() *cobra.Command {
	return r.onPlants("looked", "looked over, base, axils and tips, and nothing found", &model.LookedOver{})
}

// offsets is how many offsets are seen on each plant.
func (r *run) offsets() *cobra.Command {
	count, size := 1, of(0, "", "%")
	c := &cobra.Command{
		Use:     "offsets PLANTS... --count 2 --size 40%",
		Short:   "offsets (pups) seen on each plant, and how big the biggest is",
		Example: "  tubside enter offsets 17 --count 2 --size 35%",
		Args:    wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			return r.writeOn(args, &model.Offsets{Count: count, Share: size.value / 100})
		},
	}
	c.Flags().IntVar(&count, "count", 1, "how many; 0 is none")
	c.Flags().Var(&size, "size", "the biggest, in % of its parent")
	return c
}

// separate takes offsets off a mother as a row of their own.
func (r *run) separate() *cobra.Command {
	var w wording
	c := &cobra.Command{
		Use:   "separate MOTHER",
		Short: "an offset taken off its mother, as a plant of its own",
		Long: `An offset taken off its mother, as a plant of its own that knows its mother. It is
described as she is, but for what a flag names; its size is taken from how big
the offset was seen. Growers take it off at a third to a half of her size and
let the wound dry for some days: until then it is misted only.`,
		Example: `  tubside enter separate 17 --shelf B --spot 4 --label "Fuego 2"`,
		Args:    wants(1, 1, "name the one mother"),
		RunE: func(c *cobra.Command, args []string) error {
			if err := w.onto(&model.Plant{}, c.Flags()); err != nil {
				return misread(err)
			}
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				ids, err := b.Choose(args...)
				if err != nil || len(ids) != 1 {
					return &model.Split{}, ids, err // several: the book says so itself
				}
				pup := b.Row(ids[0]).AsOffset(b.NextID())
				err = w.onto(&pup, c.Flags())
				return &model.Split{New: pup, Offset: true}, ids, err
			})
		},
	}
	w.flags(c.Flags())
	return c
}

func (r *run) fading() *cobra.Command {
	var over bool
	c := &cobra.Command{
		Use: "fading PLANTS...", Short: "a mother that gives out after her bloom, or --over", Args: wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error { return r.writeOn(args, &model.Fading{Over: over}) },
	}
	c.Flags().BoolVar(&over, "over", false, "not fading after all")
	return c
}

// quarantine sets newcomers apart, or releases them.
func (r *run) quarantine() *cobra.Command {
	var over, early bool
	c := &cobra.Command{
		Use:   "quarantine PLANTS...",
		Short: "set apart, as newcomers are, or --over: released",
		Long: `Set apart, as newcomers are: another room, their own water, towel and tools. They
are released with --over after the house rule's days and two clean looks
(see: enter looked); --early releases them before.`,
		Args: wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			if early && !over {
				return misread(errors.New("enter quarantine: --early goes with --over"))
			}
			return r.writeOn(args, &model.Quarantine{Over: over, Early: early})
		},
	}
	c.Flags().BoolVar(&over, "over", false, "released")
	c.Flags().BoolVar(&early, "early", false, "released before its time, and meant so")
	return c
}

// trouble is what is wrong with plants, and what was done about it.
func (r *run) trouble() *cobra.Command {
	var what, treatment string
	var over bool
	c := &cobra.Command{
		Use:   "trouble PLANTS... --what scale",
		Short: "scale, mealybug, mites, burn, cold or sun; what was done; or --over",
		Long: "What is wrong with plants: scale, mealybug, mites, burn, cold or sun. Suspected\nrot is an entry of its own (see: enter rot). Said again it notes the new\ntreatment, and the next look is due some days after.\n\n" +
			wrapped("Treat", pesticideCaution) + "\n" + wrapped("Disinfect", disinfectCaution),
		Example: "  tubside enter trouble 17 --what scale --treatment \"alcohol swab\"\n  tubside enter trouble 17 --what scale --over",
		Args:    wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			ailment, err := model.ParseAilment(what)
			if what == "" {
				err = errors.New("enter trouble: give --what: scale, mealybug, mites, burn, cold or sun")
			}
			if err != nil {
				return misread(err)
			}
			return r.writeOn(args, &model.Trouble{What: ailment, Treatment: treatment, Over: over})
		},
	}
	c.Flags().StringVar(&what, "what", "", "the `trouble`: scale, mealybug, mites, burn, cold, sun")
	c.Flags().StringVar(&treatment, "treatment", "", "what was done about it")
	c.Flags().BoolVar(&over, "over", false, "it is over")
	return c
}
