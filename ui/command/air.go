package command

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/drying"
	"tubside/ui/show"
)

// airAnswer is what the air does to a wet leaf. Pressures in kPa, temperatures
// in °C.
type airAnswer struct {
	Saturation  float64 `json:"saturation_kpa"`
	Vapour      float64 `json:"vapour_kpa"`
	Deficit     float64 `json:"deficit_kpa"`
	DewPoint    float64 `json:"dew_point_c"`
	WetBulb     float64 `json:"wet_bulb_c"`
	WetLeaf     float64 `json:"wet_leaf_c"`
	Evaporation float64 `json:"evaporation_g_m2_h"`
}

// airQuestion is the air and the leaf as given.
type airQuestion struct{ temp, rh, speed, leaf, absorbed, altitude quantity }

// air answers for any air, without a book.
func (r *run) air() *cobra.Command {
	q := airQuestion{
		temp: aTemperature(), rh: aHumidity(), speed: of(drying.On, "1.0", "m/s"),
		leaf: of(1000*drying.TypicalLeafWidthM, "10", "mm"), absorbed: of(0, "0", "W/m2", "W/m²"),
		altitude: of(0, "0", "m"),
	}
	c := &cobra.Command{
		Use:   "air --temp 21 --rh 35",
		Short: "how thirsty the air is, and what it does to a wet leaf",
		Long: `How thirsty the air is, and what it does to a wet leaf: one face wet, the other
dry, both exchanging heat. Numbers may carry their unit: --speed "1.0 m/s".`,
		Args:    nothing,
		Example: "  tubside air --temp 21 --rh 35\n  tubside air --temp 70F --rh 40 --speed 0.5 --json",
		RunE: func(*cobra.Command, []string) error {
			if !q.temp.given || !q.rh.given {
				return misread(errors.New("air: give --temp and --rh"))
			}
			a, err := q.answer()
			if err != nil {
				return misread(err)
			}
			return r.sayAir(a)
		},
	}
	flags := c.Flags()
	flags.Var(&q.temp, "temp", "air temperature in °C, or 70F")
	flags.Var(&q.rh, "rh", "relative humidity in %")
	flags.Var(&q.speed, "speed", "air speed at the leaf in m/s")
	flags.Var(&q.leaf, "leaf", "leaf width in mm")
	flags.Var(&q.absorbed, "absorbed", "sunlight the leaf takes up in W/m2")
	flags.Var(&q.altitude, "altitude", "metres above the sea")
	return c
}

// inPercent asks back where a humidity looks like a share of 1.
func inPercent(rh float64) error {
	if rh > 0 && rh < 1 {
		return &model.Problem{
			What: fmt.Sprintf("a humidity of %g %%", rh),
			Do:   fmt.Sprintf("give it in percent: %g, perhaps", 100*rh),
		}
	}
	return nil
}

func (q *airQuestion) answer() (airAnswer, error) {
	if err := inPercent(q.rh.value); err != nil {
		return airAnswer{}, err
	}
	if !(q.altitude.value >= air.MinAltitude && q.altitude.value <= air.MaxAltitude) {
		return airAnswer{}, &model.Problem{
			What: fmt.Sprintf("an altitude of %g m", q.altitude.value),
			Do:   fmt.Sprintf("give one from %.0f to %.0f m", air.MinAltitude, air.MaxAltitude),
		}
	}
	a := air.Air{TempC: q.temp.value, RH: q.rh.value / 100, Pressure: air.StandardPressure}
	if q.altitude.given && q.altitude.value != 0 {
		a.Pressure = air.PressureAt(q.altitude.value)
	}
	stream := drying.Stream{Air: a, Speed: q.speed.value}
	leaf := drying.Leaf{WidthM: q.leaf.value / 1000, Shelter: 1, WetFaces: 1, HeatFaces: 2, Absorbed: q.absorbed.value}
	if err := errors.Join(stream.Valid(), leaf.Valid()); err != nil {
		return airAnswer{}, err
	}
	wet := leaf.In(stream)
	return airAnswer{
		Saturation:  round(air.Saturation(a.TempC)/1000, 4),
		Vapour:      round(a.Vapour()/1000, 4),
		Deficit:     round(a.Deficit()/1000, 4),
		DewPoint:    round(a.DewPoint(), 3),
		WetBulb:     round(a.WetBulb(), 3),
		WetLeaf:     round(wet.TempC, 3),
		Evaporation: round(wet.GramsPerHour(), 2),
	}, nil
}

func (r *run) sayAir(a airAnswer) error {
	if r.json {
		return r.inJSON(a)
	}
	for _, line := range [][2]string{
		{"saturation", show.Deficit(a.Saturation)},
		{"vapour", show.Deficit(a.Vapour)},
		{"dry air", show.Deficit(a.Deficit)},
		{"dew point", fmt.Sprintf("%.1f °C", a.DewPoint)},
		{"wet bulb", fmt.Sprintf("%.1f °C", a.WetBulb)},
		{"wet leaf", fmt.Sprintf("%.1f °C", a.WetLeaf)},
		{"evaporation", fmt.Sprintf("%.0f g/m² an hour", a.Evaporation)},
	} {
		if err := r.say("%-12s %s", line[0], line[1]); err != nil {
			return err
		}
	}
	return nil
}
