package command

import (
	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// calendarFile is where a calendar goes.
type calendarFile struct {
	path  string
	force bool // replace the file if there is one
}

// calendarAnswer is a calendar that was written.
type calendarAnswer struct {
	File   string `json:"file"`
	Events int    `json:"events"`
}

// flags adds the flags of a calendar to a command.
func (f *calendarFile) flags(c *cobra.Command) {
	c.Flags().StringVar(&f.path, "ics", "", "write it as a calendar to this `file`, for a phone; - is standard output")
	c.Flags().BoolVar(&f.force, "force", false, "replace the file if there is one")
}

// writeCalendar writes a calendar to its file.
func (r *run) writeCalendar(f calendarFile, c paper.Calendar) error {
	text, err := c.ICS()
	if err != nil {
		return err
	}
	if f.path == "-" {
		_, err := r.env.Out.Write([]byte(text))
		return err
	}
	if err := newFile(f.path, text, f.force); err != nil {
		return err
	}
	if r.json {
		return r.inJSON(calendarAnswer{f.path, len(c.Events)})
	}
	return r.say("wrote %s to %s", show.Count(len(c.Events), "event"), show.Safe(f.path))
}

// weekCalendar writes the week with its rounds and trips.
func (r *run) weekCalendar(b *model.Book, f calendarFile) error {
	keeper := r.keeper(b)
	var rounds []advice.Round
	for _, job := range advice.RoundJobs {
		rounds = append(rounds, advice.NewRound(keeper, job, r.now()))
	}
	return r.writeCalendar(f, paper.WeekCalendar(b, day.NewWeek(keeper, r.now()), rounds, r.now()))
}
