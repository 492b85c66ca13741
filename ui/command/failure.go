// What goes wrong is told on standard error, never on standard output: one
// line "tubside: ..." in lower case without a full stop, and under it, two
// spaces in, what the person can do. Faults of an input file come one a line.
// Nothing is told twice, and nothing is asked.

package command

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"tubside/model"
	"tubside/store"
	"tubside/ui/show"
)

// The exit codes.
const (
	done        = 0
	failed      = 1
	wrongUsage  = 2
	bookInUse   = 3
	badInput    = 4
	bookDamaged = 5
	unconfirmed = 6
)

// usageError is a command line that cannot be understood.
type usageError struct{ error }

// Unwrap gives what was not understood.
func (u *usageError) Unwrap() error { return u.error }

// misread marks an error in a command's words that only the command could find.
func misread(err error) error {
	if err == nil {
		return nil
	}
	return &usageError{err}
}

// lessThanNothing tells of a number under 0, which is taken for a flag where flags may stand.
func lessThanNothing(err error) error {
	var unknown *pflag.NotExistError
	if !errors.As(err, &unknown) {
		return err
	}
	word := "-" + unknown.GetSpecifiedShortnames()
	if _, notANumber := strconv.ParseFloat(word, 64); notANumber != nil {
		return err
	}
	return &model.Problem{What: word + " is less than nothing",
		Do: "give a number from 0 up; a sign you did not look at is written -"}
}

// exitCode sorts an error by its kind.
func exitCode(err error) int {
	var usage *usageError
	var file *fileError
	switch {
	case err == nil:
		return done
	case errors.As(err, &usage):
		return wrongUsage
	case errors.Is(err, store.ErrInUse):
		return bookInUse
	case errors.As(err, &file):
		return badInput
	case errors.Is(err, store.ErrDamaged), errors.Is(err, store.ErrForeign):
		return bookDamaged
	case errors.Is(err, store.ErrUnconfirmed):
		return unconfirmed
	}
	return failed
}

// tell says an error to a person.
func tell(w io.Writer, err error) {
	if err == nil {
		return
	}
	what, do := err.Error(), ""
	if p, ok := model.AsProblem(err); ok {
		do = p.Do
		what = strings.TrimSuffix(what, "; "+do)
		if do += "; " + p.Shell; p.Shell == "" || p.Do == "" {
			do = p.Do + p.Shell
		}
	}
	var usage *usageError
	if do == "" && errors.As(err, &usage) {
		do = "see: tubside --help, or --help after the command"
	}
	fmt.Fprintf(w, "tubside: %s\n", clean(what))
	if do != "" {
		fmt.Fprintf(w, "  %s\n", clean(do))
	}
}

// clean keeps the lines of a message that say something and makes each safe to
// draw.
func clean(text string) string {
	var lines []string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(show.Safe(line)); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n  ")
}
