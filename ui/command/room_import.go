package command

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/store/csvfile"
	"tubside/store/logger"
)

// readLog is one logger's file being read in.
type readLog struct {
	*run
	file        string
	opt         logger.Options
	dates, unit string
	dryRun, yes bool
}

func (r *run) importLog() *cobra.Command {
	in := readLog{run: r}
	c := &cobra.Command{
		Use:   "import FILE",
		Short: "read in a logging hygrometer's CSV file, an hour a reading",
		Long: `Read in the file of a logging hygrometer, saved as CSV, whatever its columns are
called. Which of them holds the time, the temperature and the humidity is guessed
and told; a guess that is not plain is not taken before you say so, with --yes or
by naming the columns. Readings are thinned to the mean of each hour; hours that
the book has from a logger already are passed over, so a file that grows can be
read in again. All of it is one entry, and one strike takes it back. - reads
standard input.`,
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
	return in.change(func(s *store.Store) error { return in.take(s, newLog(s.Book(), log)) })
}

func (in *readLog) log() (*logger.Log, error) {
	from := in.env.In
	if in.file != "-" {
		f, err := os.Open(in.file)
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
	var faults csvfile.Faults
	if errors.As(err, &faults) {
		return &fileError{fmt.Errorf("%s: %w", in.name(), err)}
	}
	return &fileError{err}
}
