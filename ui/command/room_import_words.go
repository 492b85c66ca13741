package command

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/store/logger"
	"tubside/ui/show"
)

// logAnswer is what reading in a logger's file did, or would do.
type logAnswer struct {
	File    string         `json:"file"`
	DryRun  bool           `json:"dry_run"`
	Seq     *model.Seq     `json:"seq"` // null when nothing was written
	Rows    int            `json:"rows"`
	Skipped int            `json:"skipped"`
	Hours   int            `json:"hours"`
	Known   int            `json:"known"` // hours the book had already
	First   *time.Time     `json:"first"`
	Last    *time.Time     `json:"last"`
	Time    string         `json:"time"`
	Clock   string         `json:"clock"`
	Temp    string         `json:"temp"`
	RH      string         `json:"rh"`
	Unit    logger.Unit    `json:"unit"`
	Dates   model.DayOrder `json:"dates"`
	Columns []string       `json:"columns"`
	Doubts  []string       `json:"doubts"`
}

// doubtful says what must be confirmed.
func (in *readLog) doubtful(log *logger.Log) error {
	return &model.Problem{
		What: fmt.Sprintf("%s: %s; %s", in.name(), guessWords(log.Guess), strings.Join(log.Doubts, "; ")),
		Do:   "if that is right say it again with --yes, else name the columns with --time, --temp and --rh",
	}
}

// guessWords says how a file was understood.
func guessWords(g logger.Guess) string {
	time := fmt.Sprintf("time in %q", g.Time)
	if g.Clock != "" {
		time = fmt.Sprintf("time in %q and %q", g.Time, g.Clock)
	}
	return fmt.Sprintf("%s, temperature in %q (%s), humidity in %q", time, g.Temp, g.Unit, g.RH)
}

// told says what was done.
func (in *readLog) told(seq *model.Seq, l logged) error {
	if in.json {
		return in.inJSON(logAnswer{
			File: in.file, DryRun: in.dryRun, Seq: seq, Rows: l.Rows, Skipped: l.Skipped, Hours: len(l.hours), Known: len(l.hours) - len(l.fresh),
			First: when(l.hours[0].At), Last: when(l.hours[len(l.hours)-1].At), Time: l.Time, Clock: l.Clock, Temp: l.Temp, RH: l.RH,
			Unit: l.Unit, Dates: l.Dates, Columns: l.Columns, Doubts: listed(l.Doubts),
		})
	}
	for _, line := range in.lines(seq, l) {
		if err := in.wrap(line); err != nil {
			return err
		}
	}
	return nil
}

// lines is what was done in sentences.
func (in *readLog) lines(seq *model.Seq, l logged) []string {
	what := show.Count(len(l.fresh), "hour")
	switch {
	case in.dryRun:
		what = "would write " + what
	case seq == nil:
		what = "nothing new"
	default:
		what = fmt.Sprintf("wrote %d: %s", *seq, what)
	}
	if n := len(l.hours) - len(l.fresh); n > 0 {
		what += fmt.Sprintf(", %d known already", n)
	}
	what += fmt.Sprintf("; %s has %s from %s to %s", show.Safe(in.name()), show.Count(len(l.Samples), "reading"),
		show.Day(l.hours[0].At, time.Local), show.Day(l.hours[len(l.hours)-1].At, time.Local))
	lines := []string{what, guessWords(l.Guess)}
	for _, doubt := range l.Doubts {
		lines = append(lines, "look at this: "+doubt)
	}
	if l.Skipped > 0 {
		lines = append(lines, fmt.Sprintf("%s passed over without a usable reading; %s", show.Count(l.Skipped, "row"), l.First))
	}
	return lines
}
