package command

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"tubside/model"
)

// reading is what a thermometer and a hygrometer say.
func (r *run) reading() *cobra.Command {
	temp, rh, fan := aTemperature(), aHumidity(), ""
	c := &cobra.Command{
		Use:     "reading --temp 21 --rh 35",
		Short:   "what the thermometer and the hygrometer say",
		Example: `  tubside enter reading --temp 70F --rh 35 --fan low`,
		Args:    nothing,
		RunE: func(*cobra.Command, []string) error {
			if !temp.given || !rh.given {
				return misread(errors.New("enter reading: give --temp and --rh"))
			}
			setting, err := readFan(fan)
			if err != nil {
				return misread(err)
			}
			return r.writeOn(nil, &model.Reading{TempC: temp.value, RH: rh.value, Fan: setting})
		},
	}
	c.Flags().Var(&temp, "temp", "temperature in °C, or 70F")
	c.Flags().Var(&rh, "rh", "relative humidity in %")
	c.Flags().StringVar(&fan, "fan", "", "`off`, low, on or near, if it changed")
	return c
}

// readFan reads a fan setting; none is none.
func readFan(word string) (model.Fan, error) {
	if word == "" {
		return "", nil
	}
	return model.ParseFan(strings.ToLower(strings.TrimSpace(word)))
}

func (r *run) fan() *cobra.Command {
	return &cobra.Command{
		Use:   "fan off|low|on|near",
		Short: "how the fan is set: off, low across the room, on at 2 m, near at 1 m",
		Long: `How the fan is set: off, low across the room, on at 2 m, near at 1 m. Keep a
fan, its cord and its plug where no water can reach them, and out of reach of
wet hands; the local electrical code has the last word.`,
		Args: wants(1, 1, "say off, low, on or near"),
		RunE: func(_ *cobra.Command, args []string) error {
			fan, err := readFan(args[0])
			if err != nil {
				return misread(err)
			}
			return r.writeOn(nil, &model.FanSet{Fan: fan})
		},
	}
}

func (r *run) rule() *cobra.Command {
	return &cobra.Command{
		Use:     "rule NAME VALUE",
		Short:   "change a house rule",
		Long:    "Change a house rule. List them with: tubside rules",
		Example: "  tubside enter rule cap-bulbous 90",
		Args:    wants(2, 2, "name the rule and its value"),
		RunE: func(_ *cobra.Command, args []string) error {
			l, err := model.FindLimit(args[0])
			if err != nil {
				return misread(err)
			}
			value, err := model.ParseLimit(l, args[1])
			if err != nil {
				return misread(err)
			}
			return r.writeOn(nil, &model.RuleSet{Name: model.LimitTable[l].Name, Value: value})
		},
	}
}
