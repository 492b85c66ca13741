package command

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"time"

	"github.com/charmbracelet/x/term"

	"tubside/ui/paper"
	"tubside/ui/show"
)

// inJSON answers with a value, two spaces an indent, keys in the order of the
// struct.
func (r *run) inJSON(v any) error {
	enc := json.NewEncoder(r.env.Out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return unsaid(enc.Encode(v))
}

// outputError is an answer that could not be given.
type outputError struct{ error }

// Unwrap gives what went wrong.
func (o *outputError) Unwrap() error { return o.error }

func unsaid(err error) error {
	if err == nil {
		return nil
	}
	return &outputError{err}
}

// say answers with a line.
func (r *run) say(format string, args ...any) error {
	return r.print(fmt.Sprintf(format+"\n", args...))
}

// table answers with a table as wide as the terminal.
func (r *run) table(t *paper.Table) error { return r.print(t.Text(r.width())) }

// print answers a person.
func (r *run) print(text string) error {
	if r.ascii {
		text = show.ASCII(text)
	}
	_, err := io.WriteString(r.env.Out, text)
	return unsaid(err)
}

// when is a time as JSON gives it: in the grower's zone, to the second; null
// when there is none.
func when(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	local := t.Local().Truncate(time.Second)
	return &local
}

// round keeps the places that mean something.
func round(v float64, places int) float64 {
	scale := math.Pow10(places)
	return math.Round(v*scale)/scale + 0
}

// pipedWidth is what a table takes where there is no terminal to ask.
const pipedWidth = 80

// width is how wide a table may be.
func (r *run) width() int {
	if f, ok := r.env.Out.(*os.File); ok {
		if w, _, err := term.GetSize(f.Fd()); err == nil && w > 0 {
			return w
		}
	}
	return pipedWidth
}
