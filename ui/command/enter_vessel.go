package command

import (
	"errors"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
)

// vesselWords is what the flags say of a vessel.
type vesselWords struct {
	litres, refill, hours quantity
	loads                 int
	fed, plain, away      bool
}

// vessel adds a vessel, changes it, or puts it away.
func (r *run) vessel() *cobra.Command {
	w := vesselWords{litres: of(0, "", "L", "l", "litres"), refill: of(0, "", "min", "minutes"), hours: of(0, "", "h", "hours")}
	c := &cobra.Command{
		Use:   "vessel NAME --litres N | --away",
		Short: "a tub or bucket: how much room it has, what a fill of it serves, or that it is put away",
		Example: `  tubside enter vessel "bucket 3" --litres 12
  tubside enter vessel "bucket 3" --fed`,
		Args: wants(1, many, "name the vessel"),
	}
	said := func() bool { return c.Flags().NFlag() > 0 }
	c.RunE = func(_ *cobra.Command, args []string) error {
		if !said() || w.litres.given && w.away {
			return misread(errors.New("enter vessel: give --litres or --away"))
		}
		name := strings.Join(args, " ")
		return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
			v, ok := b.Vessel(name)
			if !ok {
				v.Name = name
			}
			w.onto(&v)
			return &model.VesselSet{Vessel: v, Away: w.away}, nil, nil
		})
	}
	f := c.Flags()
	f.Var(&w.litres, "litres", "room for plants when filled, in litres")
	f.Var(&w.refill, "refill", "minutes to empty, rinse and fill it; without it, by the house rules")
	f.IntVar(&w.loads, "loads", 0, "`loads` that one fill serves; without it, the house rule")
	f.Var(&w.hours, "hours", "from a fill's first plant in to its last load; without it, the house rule")
	f.BoolVar(&w.fed, "fed", false, "it is for fed water only")
	f.BoolVar(&w.plain, "plain", false, "it is not for fed water any more")
	f.BoolVar(&w.away, "away", false, "it is no longer used")
	c.MarkFlagsMutuallyExclusive("fed", "plain")
	return c
}

// onto changes what the flags name.
func (w *vesselWords) onto(v *model.Vessel) {
	if w.litres.given {
		v.Litres = w.litres.value
	}
	if w.refill.given {
		v.Refill = w.refill.value
	}
	if w.hours.given {
		v.Hours = w.hours.value
	}
	if w.loads != 0 {
		v.Loads = w.loads
	}
	v.Fed = (v.Fed || w.fed) && !w.plain
}

// bench adds a drying place, changes it, or puts it away.
func (r *run) bench() *cobra.Command {
	room, factor, fan, away := of(0, "", "m2", "m²"), of(0, "", "times"), "", false
	c := &cobra.Command{
		Use:   "bench NAME --room 2.4 | --away",
		Short: "a drying place: how much room it has and what moves the air over it, or that it is put away",
		Long: `A drying place: a rack, a tray, a table with towels. Its room is in square
metres to lay plants on, none on top of another. Its fan is off, low, on at 2 m
or near at 1 m; without one it has the room's. Keep a fan, its cord and its plug
where no water can reach them; the local electrical code has the last word.`,
		Example: `  tubside enter bench rack --room 2.4 --fan on
  tubside enter bench towels --room "1.5 m2" --factor 1.3`,
		Args: wants(1, many, "name the drying place"),
	}
	c.RunE = func(_ *cobra.Command, args []string) error {
		if c.Flags().NFlag() == 0 || room.given && away {
			return misread(errors.New("enter bench: give --room or --away"))
		}
		speed, err := readFan(fan)
		if err != nil {
			return misread(err)
		}
		name := strings.Join(args, " ")
		return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
			o, ok := b.Bench(name)
			if !ok {
				o.Name = name
			}
			if room.given {
				o.Room = room.value
			}
			if factor.given {
				o.Factor = factor.value
			}
			if fan != "" {
				o.Fan = speed
			}
			return &model.BenchSet{Bench: o, Away: away}, nil, nil
		})
	}
	c.Flags().Var(&room, "room", "room to lay plants on, in m²")
	c.Flags().StringVar(&fan, "fan", "", "`off`, low, on or near, where it has a fan of its own")
	c.Flags().Var(&factor, "factor", "how many times as long drying takes there; without it, by the fan")
	c.Flags().BoolVar(&away, "away", false, "it is no longer used")
	return c
}

// shelfDay says on which day of the week a shelf is soaked.
func (r *run) shelfDay() *cobra.Command {
	return &cobra.Command{
		Use:     "shelfday SHELF DAY|none",
		Short:   "the day of the week on which a shelf is soaked",
		Example: "  tubside enter shelfday A sat",
		Args:    wants(2, many, "name the shelf and its day"),
		RunE: func(_ *cobra.Command, args []string) error {
			shelf, word := strings.Join(args[:len(args)-1], " "), args[len(args)-1]
			var day model.Weekday
			if !strings.EqualFold(word, "none") {
				var err error
				if day, err = model.ParseWeekday(word); err != nil {
					return misread(err)
				}
			}
			return r.writeOn(nil, &model.ShelfDays{Days: map[string]model.Weekday{shelf: day}})
		},
	}
}
