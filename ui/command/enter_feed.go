package command

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"tubside/model"
	"tubside/model/care"
)

// mixing is what the flags say of fed water.
type mixing struct {
	powder       string
	n, ppm, part quantity
	strong       bool
}

func (m *mixing) flags(f *pflag.FlagSet) {
	m.n, m.ppm, m.part = of(0, "", "%"), of(0, "", "ppm"), of(0, "")
	m.part.units = []string{""}
	f.StringVar(&m.powder, "powder", "", "the `product`, as on its label")
	f.Var(&m.n, "n", "nitrogen in it: the first number of its label, in %")
	f.Var(&m.ppm, "ppm", "strength of the water in ppm (mg/L) of nitrogen")
	f.Var(&m.part, "part", "strength as a part of the label's rate: 0.25 is a quarter")
	f.BoolVar(&m.strong, "strong", false, "stronger than the house rule takes, and meant so")
}

// mix is the fed water as told, or nil when no flag tells of any.
func (m *mixing) mix() *model.Mix {
	if !m.ppm.given && !m.part.given && !m.n.given && m.powder == "" {
		return nil
	}
	return &model.Mix{Powder: m.powder, N: m.n.value, PPM: m.ppm.value, Part: m.part.value, Over: m.strong}
}

const anywayFlag = "fed all the same, whatever speaks against it"

// feedPlants is plants fed outside a load.
func (r *run) feedPlants() *cobra.Command {
	var m mixing
	var by string
	var bottle, anyway bool
	litres := of(0, "", "L", "l", "litres")
	c := &cobra.Command{
		Use:   "feed PLANTS... --by mist|dip|bath --ppm 50 | --bottle",
		Short: "fed; refused where it is too soon, or something speaks against it",
		Long: `Plants were fed: by mist, by a dip, or in a bath that is no load of the book. A
load in fed water feeds its plants by itself (see: enter fill, enter soak).

A plant is not fed twice within its interval, nor in bloom, sick, new, just
separated or in winter light; --anyway writes it all the same.

` + wrapped("Feed", feedCaution),
		Example: "  tubside enter feed shelf:A --bottle\n  tubside enter feed 17 --by dip --ppm 50 --powder \"orchid 20-10-20\" --n 20",
		Args:    wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			fed := m.mix()
			if bottle == (fed != nil) {
				return misread(errors.New("enter feed: give the strength with --ppm or --part, or say --bottle"))
			}
			how, err := model.ParseFeeding(strings.ToLower(by))
			if err != nil {
				return misread(err)
			}
			return r.write(func(b *model.Book, now time.Time) (model.Fact, model.IDs, error) {
				ids, err := mayFeed(b, args, now, anyway)
				if err != nil {
					return nil, nil, err
				}
				fed, err := orBottle(b, fed)
				if err != nil {
					return nil, nil, err
				}
				return &model.Feed{How: how, Mix: *fed, Litres: litres.value}, ids, nil
			})
		},
	}
	c.Flags().StringVar(&by, "by", "mist", "`how`: mist, dip or bath")
	c.Flags().BoolVar(&bottle, "bottle", false, "with what the mist bottle holds")
	c.Flags().BoolVar(&anyway, "anyway", false, anywayFlag)
	c.Flags().Var(&litres, "litres", "how much was mixed, in litres")
	m.flags(c.Flags())
	return c
}

// mayFeed chooses plants, and refuses those that are not to be fed now.
func mayFeed(b *model.Book, words []string, now time.Time, anyway bool) (model.IDs, error) {
	ids, err := b.Choose(words...)
	if err != nil || anyway {
		return ids, err
	}
	return ids, withAnyway(care.New(b).MayFeed(ids, now))
}

// withAnyway names the flag that gets past a refusal.
func withAnyway(err error) error {
	if p, ok := model.AsProblem(err); ok {
		return &model.Problem{What: p.What, Do: p.Do + ": --anyway"}
	}
	return err
}

// orBottle is the mix given, or what the bottle holds.
func orBottle(b *model.Book, fed *model.Mix) (*model.Mix, error) {
	if fed != nil {
		return fed, nil
	}
	if held := b.Bottle().Fed; held != nil {
		return held, nil
	}
	return nil, &model.Problem{What: "the mist bottle is not said to hold fed water", Do: "enter it first: tubside enter bottle fed --ppm 50"}
}

// bottle says what the mist bottle holds from now on.
func (r *run) bottle() *cobra.Command {
	var m mixing
	var water string
	c := &cobra.Command{
		Use:     "bottle plain|fed|empty",
		Short:   "what the mist bottle holds from now on",
		Long:    "What the mist bottle holds from now on. While it holds fed water no plain misting\nis written, so that nothing is fed by mistake.\n\n" + wrapped("Feed", feedCaution),
		Example: "  tubside enter bottle fed --ppm 50 --powder \"orchid 20-10-20\"\n  tubside enter bottle plain --water rain",
		Args:    wants(1, 1, "say plain, fed or empty"),
		RunE: func(_ *cobra.Command, args []string) error {
			of, err := model.ParseSource(water)
			if err != nil {
				return misread(err)
			}
			f := &model.Bottle{Fed: m.mix(), Of: of}
			switch word := strings.ToLower(args[0]); {
			case word == "empty":
				f.Empty = true
			case word == "fed" && f.Fed == nil:
				return misread(errors.New("enter bottle: give the strength with --ppm or --part"))
			case word == "plain" && f.Fed != nil:
				return misread(errors.New("enter bottle: plain water has no strength; say fed"))
			case word != "plain" && word != "fed":
				return misread(fmt.Errorf("enter bottle: %q: say plain, fed or empty", args[0]))
			}
			return r.writeOn(nil, f)
		},
	}
	c.Flags().StringVar(&water, "water", "", "the `water`: "+sourceWords)
	m.flags(c.Flags())
	return c
}
