package command

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"time"
	"unicode"
	"unicode/utf16"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/term"

	"tubside/ui/paper"
	"tubside/ui/show"
)

// inJSON answers with a value, two spaces an indent, keys in the order of the
// struct.
func (r *run) inJSON(v any) error {
	var text bytes.Buffer
	enc := json.NewEncoder(&text)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return err
	}
	_, err := io.WriteString(r.env.Out, escaped(text.String()))
	return unsaid(err)
}

// escaped is JSON in which what could steer a terminal is written as an escape: a
// script reads the same, and a person who looks at it is safe.
func escaped(text string) string {
	if strings.IndexFunc(text, steers) < 0 {
		return text
	}
	var b strings.Builder
	for _, c := range text {
		switch {
		case steers(c) && c > 0xFFFF:
			high, low := utf16.EncodeRune(c)
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		case steers(c):
			fmt.Fprintf(&b, `\u%04x`, c)
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

func steers(c rune) bool { return c != '\n' && (unicode.IsControl(c) || unicode.Is(unicode.Cf, c)) }

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
func (r *run) table(t *paper.Table) error { return r.print(r.text(t)) }

// text is a table that fits the terminal. In a pipe it is as wide as it takes:
// what reads it there wants the whole of every cell, a row a line.
func (r *run) text(t *paper.Table) string {
	if w, ok := r.terminal(); ok {
		return t.Text(w)
	}
	return t.Text(math.MaxInt)
}

// folded breaks a sentence that is wider than the terminal; in a pipe it stays one
// line.
func (r *run) folded(text string) string {
	if w, ok := r.terminal(); ok {
		return ansi.Wordwrap(text, w, "")
	}
	return text
}

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

// pipedWidth is what charts and help take where there is no terminal to ask.
const pipedWidth = 80

// width is how wide what is drawn may be.
func (r *run) width() int {
	if w, ok := r.terminal(); ok {
		return w
	}
	return pipedWidth
}

// terminal is how wide the terminal is that answers go to, if they go to one.
func (r *run) terminal() (width int, ok bool) {
	if f, isFile := r.env.Out.(*os.File); isFile {
		if w, _, err := term.GetSize(f.Fd()); err == nil && w > 0 {
			return w, true
		}
	}
	return 0, false
}
