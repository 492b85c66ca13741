package command

import (
	"errors"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
)

// sourceWords lists the words for water in a flag's help.
const sourceWords = "tap, rested, filtered, rain, well, bottled, rice, aquarium, pond, distilled, ro"

// fill is a vessel filled with fresh water.
func (r *run) fill() *cobra.Command {
	var m mixing
	var water []string
	stood, ec, temp := of(0, "", "h"), aConductivity(), aTemperature()
	c := &cobra.Command{
		Use:   "fill VESSEL --water rain",
		Short: "a vessel filled with fresh water: whence, how long it stood, what was measured",
		Long: `A vessel filled with fresh water. Several waters are a blend: --water ro,tap. With
a strength it is fed water, and what soaks in it is fed.

Sea water and water softened with salt are refused. Never leave a child or a pet
alone with a filled vessel, keep lamps, fans and cords away from it, and wipe up
what spills.`,
		Example: "  tubside enter fill tub --water tap --ec 0.35 --temp 21\n  tubside enter fill bucket 1 --water rain --ppm 50",
		Args:    wants(1, many, "name the vessel"),
		RunE: func(_ *cobra.Command, args []string) error {
			f := &model.Fill{Vessel: strings.Join(args, " "), Stood: stood.value, EC: ec.value, TempC: temp.value, Fed: m.mix()}
			for _, word := range water {
				of, err := model.ParseSource(word)
				if err != nil {
					return misread(err)
				}
				f.Of = append(f.Of, of)
			}
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				f.Vessel = vesselName(b, f.Vessel)
				return f, nil, nil
			})
		},
	}
	c.Flags().StringSliceVar(&water, "water", nil, "the `water`: "+sourceWords+"; several are a blend")
	c.Flags().Var(&stood, "stood", "hours it had stood before")
	c.Flags().Var(&ec, "ec", "conductivity in dS/m (= mS/cm)")
	c.Flags().Var(&temp, "temp", "its temperature in °C, or 70F")
	m.flags(c.Flags())
	return c
}

func aConductivity() quantity { return of(0, "", "dS/m", "mS/cm", "mS") }

// drain is a vessel emptied.
func (r *run) drain() *cobra.Command {
	return &cobra.Command{
		Use: "drain VESSEL", Short: "a vessel emptied: the closing step of a soak day", Args: wants(1, many, "name the vessel"),
		RunE: func(_ *cobra.Command, args []string) error {
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				return &model.Drain{Vessel: vesselName(b, strings.Join(args, " "))}, nil, nil
			})
		},
	}
}

// sample is what a meter or a report says of water.
func (r *run) sample() *cobra.Command {
	var vessel, water string
	ec, temp := aConductivity(), aTemperature()
	tds, hardness, sodium, chloride, boron := milligrams(), milligrams(), milligrams(), milligrams(), milligrams()
	c := &cobra.Command{
		Use:     "water --vessel tub | --of tap",
		Short:   "what a meter or a report says of water",
		Example: "  tubside enter water --of tap --ec 0.42 --hardness 180\n  tubside enter water --vessel tub --ec 0.4 --temp 21",
		Args:    nothing,
		RunE: func(*cobra.Command, []string) error {
			if vessel == "" && water == "" {
				return misread(errors.New("enter water: give --vessel or --of"))
			}
			of, err := model.ParseSource(water)
			if err != nil {
				return misread(err)
			}
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				return &model.Sample{
					Vessel: vesselName(b, vessel), Of: of, EC: ec.value, TempC: temp.value, TDS: tds.value,
					Hardness: hardness.value, Sodium: sodium.value, Chloride: chloride.value, Boron: boron.value,
				}, nil, nil
			})
		},
	}
	c.Flags().StringVar(&vessel, "vessel", "", "the `vessel` it stands in")
	c.Flags().StringVar(&water, "of", "", "the `water` by its source: "+sourceWords+", softened, sea")
	c.Flags().Var(&ec, "ec", "conductivity in dS/m (= mS/cm)")
	c.Flags().Var(&temp, "temp", "temperature in °C, or 70F")
	c.Flags().Var(&tds, "tds", "dissolved solids in mg/L")
	c.Flags().Var(&hardness, "hardness", "in mg/L as CaCO3")
	c.Flags().Var(&sodium, "sodium", "in mg/L")
	c.Flags().Var(&chloride, "chloride", "in mg/L")
	c.Flags().Var(&boron, "boron", "in mg/L")
	return c
}

func milligrams() quantity { return of(0, "", "mg/L", "mg/l", "ppm") }
