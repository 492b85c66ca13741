package command

import (
	"errors"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
)

// signs is what was seen on plants: the plants, then a grade each for curl,
// tips and shift.
func (r *run) signs() *cobra.Command {
	var fine bool
	c := &cobra.Command{
		Use:   "signs PLANTS... CURL TIPS SHIFT",
		Short: "what is seen: curl, tips and colour shift, 0 to 3, - for not looked at",
		Long: `What is seen on plants, the same on each: the plants, then three grades, - for
not looked at.

  curl   0 flat, 1 edges lifting, 2 deep channel, 3 rolled shut
  tips   brown new tips: 0 none, 1 a few, 2 many, 3 most
  shift  colour when a drop wets the leaf: 0 already dark, 1 slow or patchy,
         2 quick and full, 3 stays pale

--fine takes no grades: leaves flat, tips clean.`,
		Example: "  tubside enter signs 17 2 1 0\n  tubside enter signs shelf:A --fine",
		Args:    wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			if fine {
				return r.writeOn(args, &model.Look{Signs: model.LooksFine})
			}
			words, signs, err := readSigns(args)
			if err != nil {
				return misread(err)
			}
			return r.writeOn(words, &model.Look{Signs: signs})
		},
	}
	c.Flags().BoolVar(&fine, "fine", false, "leaves flat, tips clean; no grades")
	return c
}

// readSigns takes the grades off the end of the words.
func readSigns(args []string) (plants []string, signs model.Signs, err error) {
	if len(args) < 4 {
		return nil, signs, errors.New("enter signs: name plants, then the grades of curl, tips and shift: 17 2 1 0")
	}
	n := len(args) - 3
	for i, grade := range []*model.Grade{&signs.Curl, &signs.Tips, &signs.Shift} {
		if *grade, err = model.ParseGrade(args[n+i]); err != nil {
			return nil, signs, err
		}
	}
	return args[:n], signs, nil
}

func (r *run) rot() *cobra.Command {
	var over bool
	c := &cobra.Command{
		Use: "rot PLANTS...", Short: "may be rotting, or --over", Args: wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error { return r.writeOn(args, &model.Rot{Over: over}) },
	}
	c.Flags().BoolVar(&over, "over", false, "they turned out sound")
	return c
}

// mist is plain water on the leaves.
func (r *run) mist() *cobra.Command {
	var water string
	c := &cobra.Command{
		Use: "mist PLANTS...", Short: "misted where they hang, with plain water", Args: wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			of, err := model.ParseSource(water)
			if err != nil {
				return misread(err)
			}
			return r.writeOn(args, &model.Mist{Of: of})
		},
	}
	c.Flags().StringVar(&water, "water", "", "the `water`: "+sourceWords)
	return c
}

// note is anything worth writing down, about plants or about the day.
func (r *run) note() *cobra.Command {
	var text string
	c := &cobra.Command{
		Use:   "note [PLANTS...] --text TEXT",
		Short: "anything worth writing down, about plants or about the day",
		Args:  wants(0, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			if text == "" {
				return misread(errors.New("enter note: give --text"))
			}
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				ids, err := b.Choose(args...)
				return &model.Note{Text: text}, ids, err
			})
		},
	}
	c.Flags().StringVar(&text, "text", "", "the `note`")
	return c
}
