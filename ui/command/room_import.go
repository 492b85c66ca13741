package command

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"tubside/model"
	"tubside/store"
	"tubside/store/csvfile"
	"tubside/store/logger"
	"tubside/ui/show"

	"github.com/spf13/cobra"
)

// readLog is one logger's file being read in.
type readLog struct {
	*run
	file        string
	opt         logger.Options
	dates, unit string
	dryRun, yes bool
	left        bool // for whoever has the book
}

func (r *run) importLog() *cobra.Command {
	in := readLog{run: r}
	c := &cobra.Command{
		Use:   "import FILE",
		Short: "read in a logging hygrometer's CSV file, an hour a reading",
		Long: `Read in the file of a logging hygrometer, saved as CSV, whatever its columns are
called. tubside guesses which of them hold the time, the temperature and the
humidity, and tells you; where it is not sure, it waits until you agree with
--yes or name the columns. Readings are averaged over each hour. Hours that the
book already has from a logger are skipped, so you can read a growing file in
again. All of it is one entry, which one strike undoes. - reads standard input.`,
		Example: "  tubside room import --dry-run log.csv\n  tubside room import log.csv --temp \"T1 (°C)\" --rh 4",
		Args:    wants(1, 1, "name one file, or - for standard input"),
		RunE: func(_ *cobra.Command, args []string) error {
			in.file = args[0]
			if err := in.understand(); err != nil {
				return misread(err)
			}
			return in.read()
		},
	}
	f := c.Flags()
	f.BoolVar(&in.dryRun, "dry-run", false, "say what would be read, and change nothing")
	f.BoolVar(&in.yes, "yes", false, "take the guess as it is told")
	f.StringVar(&in.opt.Time, "time", "", "`column` of the time, by name or number")
	f.StringVar(&in.opt.Temp, "temp", "", "`column` of the temperature")
	f.StringVar(&in.opt.RH, "rh", "", "`column` of the relative humidity")
	f.StringVar(&in.dates, "dates", "", "how days like 3/4/2026 are written: `dmy` or mdy")
	f.StringVar(&in.unit, "unit", "", "`unit` of the temperatures: c or f")
	return c
}

// understand reads the words of the flags.
func (in *readLog) understand() error {
	in.opt.Zone = in.now().Location()
	switch in.opt.Dates = model.DayOrder(strings.ToLower(in.dates)); in.opt.Dates {
	case model.ISO, model.DMY, model.MDY:
	default:
		return &model.Problem{What: fmt.Sprintf("--dates %q", in.dates), Do: "say dmy or mdy"}
	}
	switch strings.ToLower(in.unit) {
	case "":
	case "c":
		in.opt.Unit = logger.Celsius
	case "f":
		in.opt.Unit = logger.Fahrenheit
	default:
		return &model.Problem{What: fmt.Sprintf("--unit %q", in.unit), Do: "say c or f"}
	}
	return nil
}

// read reads the file, then writes what is new of it, or only tells.
func (in *readLog) read() error {
	log, err := in.log()
	switch {
	case err != nil:
		return in.refused(err)
	case in.dryRun:
		return in.peek(func(b *model.Book) error { return in.told(nil, newLog(b, log)) })
	case len(log.Doubts) > 0 && !in.yes:
		return in.refused(in.doubtful(log))
	}
	err = in.with(store.Options{Wait: in.patience()}, func(s *store.Store) error {
		return in.take(s, newLog(s.Book(), log))
	})
	if errors.Is(err, store.ErrInUse) {
		return in.leave(err, log)
	}
	return err
}

// leave leaves the hours that are new for whoever has the book.
func (in *readLog) leave(inUse error, log *logger.Log) error {
	return in.run.leave(inUse, func(b *model.Book) (l store.Left, err error) {
		if fresh := newLog(b, log).fresh; len(fresh) > 0 {
			e := model.NewEntry(in.now(), model.NewReadings(in.name(), fresh))
			l.Entries, err = []model.Entry{e}, b.Check(e)
		}
		return l, in.refused(err)
	}, func(l store.Left, b *model.Book) error {
		if in.left = len(l.Entries) > 0; in.left {
			// Told on the book as it is without them.
			return in.look(func(s *store.Store) error { return in.told(nil, newLog(s.Book(), log)) })
		}
		return in.told(nil, newLog(b, log))
	})
}

func (in *readLog) log() (*logger.Log, error) {
	from := in.env.In
	if in.file != "-" {
		f, err := openFile(in.file)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		from = f
	}
	return logger.Read(from, in.opt)
}

// logged is a file beside the book.
type logged struct {
	*logger.Log
	hours, fresh []model.ReadingAt // all, and those the book does not have
}

func newLog(b *model.Book, log *logger.Log) logged {
	hours := logger.Hourly(log.Samples)
	return logged{log, hours, logger.New(b, hours)}
}

// take writes the hours that are new, as one entry.
func (in *readLog) take(s *store.Store, l logged) error {
	if len(l.fresh) == 0 {
		return in.told(nil, l)
	}
	e, err := s.Append(model.NewEntry(in.now(), model.NewReadings(in.name(), l.fresh)))
	if _, refused := model.AsProblem(err); refused {
		return in.refused(err)
	}
	if err != nil {
		return err
	}
	return in.told(&e.Seq, l)
}

func (in *readLog) name() string {
	if in.file == "-" {
		return "standard input"
	}
	return filepath.Base(in.file)
}

func (in *readLog) refused(err error) error {
	if err == nil {
		return nil
	}
	var faults csvfile.Faults
	if errors.As(err, &faults) {
		return &fileError{fmt.Errorf("%s: %w", in.name(), err)}
	}
	return &fileError{err}
}

// logAnswer is what reading in a logger's file did, or would do.
type logAnswer struct {
	File    string         `json:"file"`
	DryRun  bool           `json:"dry_run"`
	Left    bool           `json:"left,omitempty"` // the book is in use: it waits to be taken in
	Seq     *model.Seq     `json:"seq"`            // null when nothing was written
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
			File: in.file, DryRun: in.dryRun, Left: in.left, Seq: seq, Rows: l.Rows, Skipped: l.Skipped, Hours: len(l.hours),
			Known: len(l.hours) - len(l.fresh), First: when(l.hours[0].At), Last: when(l.hours[len(l.hours)-1].At),
			Time: l.Time, Clock: l.Clock, Temp: l.Temp, RH: l.RH, Unit: l.Unit, Dates: l.Dates, Columns: l.Columns,
			Doubts: listed(l.Doubts),
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
	case in.left:
		what = "the book is in use: left for it to take in: " + what
	case seq == nil:
		what = "nothing new"
	default:
		what = fmt.Sprintf("wrote %d: %s", *seq, what)
	}
	if n := len(l.hours) - len(l.fresh); n > 0 {
		what += fmt.Sprintf(", %d known already", n)
	}
	what += fmt.Sprintf("; %s has %s from %s to %s", show.Safe(in.name()), show.Count(len(l.Samples), "reading"),
		show.Date(l.hours[0].At, time.Local), show.Date(l.hours[len(l.hours)-1].At, time.Local))
	lines := []string{what, guessWords(l.Guess)}
	for _, doubt := range l.Doubts {
		lines = append(lines, "look at this: "+doubt)
	}
	if l.Skipped > 0 {
		lines = append(lines, fmt.Sprintf("%s passed over without a usable reading; %s", show.Count(l.Skipped, "row"),
			l.First))
	}
	return lines
}
