package command

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/kballard/go-shellquote"
	"github.com/spf13/pflag"

	"tubside/model"
	"tubside/store"
	"tubside/ui/show"
)

// batchWords is the help of `enter --from`.
const batchWords = `
--from takes entries from a file (or - for standard input), a line an entry, as
enter takes them and quoted as a shell would, each with its time where that is
not now. A line that begins with # is a remark. What tubside log prints can be
read back.

  # Saturday, written down beside the tub
  at 2026-03-14T10:12:00Z signs 17 2 1 0
  at 2026-03-14T10:40 soak --vessel tub --minutes 45 12-40
  note 17 --text "pups at the base"

A line with --once KEY is passed over when the book has an entry of that key.

All of them are written or none; with --each those that can be.`

// batchAnswer is what became of a batch.
type batchAnswer struct {
	File    string        `json:"file"`
	Entries int           `json:"entries"`
	First   model.Seq     `json:"first,omitempty"`
	Last    model.Seq     `json:"last,omitempty"`
	Faults  []faultAnswer `json:"faults"`
}

// faultAnswer is a line that could not be taken.
type faultAnswer struct {
	Line int    `json:"line"`
	What string `json:"what"`
}

// longestLine bounds a line of a batch, in bytes: an import of 50,000 plants is
// one entry of some 10 MB.
const longestLine = 64 << 20

// enterFrom writes the entries of a file.
func (r *run) enterFrom(path string, each bool) error {
	lines, err := r.readLines(path)
	if err != nil {
		return &fileError{err}
	}
	return r.change(func(s *store.Store) error {
		t, err := newTyped(s.Book(), r.now())
		if err != nil {
			return err
		}
		for i, line := range lines {
			t.take(i+1, line)
		}
		if len(t.faults) > 0 && !each {
			return r.refuseBatch(path, t.faults)
		}
		wrote, err := s.AppendAll(t.entries, nil)
		if err != nil {
			return err
		}
		return r.wroteBatch(path, wrote, t.faults)
	})
}

// readLines reads the whole of a file before the book is opened: what comes
// down a pipe may take its time.
func (r *run) readLines(path string) (lines []string, err error) {
	from := r.env.In
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		from = f
	}
	scan := bufio.NewScanner(from)
	scan.Buffer(nil, longestLine)
	for scan.Scan() {
		lines = append(lines, scan.Text())
	}
	if err := scan.Err(); err != nil {
		return nil, fmt.Errorf("read %s, line %d: %w", fileName(path), len(lines)+1, err)
	}
	return lines, nil
}

// fileName is what to call a file that may be standard input.
func fileName(path string) string {
	if path == "-" {
		return "standard input"
	}
	return path
}

// lineFault is a line that cannot be taken, and why.
type lineFault struct {
	line int
	err  error
}

// typed is entries as they were typed, one after the other.
type typed struct {
	book    *model.Book // as the lines so far leave it
	now     time.Time   // of a line that says no time
	entries []model.Entry
	faults  []lineFault
}

// newTyped begins on a book, which is not changed.
func newTyped(b *model.Book, now time.Time) (*typed, error) {
	trial, err := model.Replay(slices.Clip(b.Entries()), b.Zone())
	if err != nil {
		return nil, fmt.Errorf("read the book again: %w", err)
	}
	return &typed{book: trial, now: now}, nil
}

// take reads one line: its entry is taken in, or it is a fault. A blank line and
// a remark are neither.
func (t *typed) take(number int, line string) {
	line = strings.TrimSpace(strings.TrimPrefix(line, "\ufeff"))
	if line == "" || strings.HasPrefix(line, "#") {
		return
	}
	e, err := t.entry(line)
	if _, before := t.book.Once(e.Once); err == nil && before {
		return // written before, under this key
	}
	if err == nil {
		e.Seq = 1
		if all := t.book.Entries(); len(all) > 0 {
			e.Seq = all[len(all)-1].Seq + 1
		}
		err = t.book.Check(e)
	}
	if err == nil {
		err = t.book.Apply(e)
	}
	if err != nil {
		t.faults = append(t.faults, lineFault{number, err})
		return
	}
	t.entries = append(t.entries, e)
}

// entry reads an entry: as the book has it, in JSON, or as it is typed.
func (t *typed) entry(line string) (e model.Entry, err error) {
	if strings.HasPrefix(line, "{") {
		err = json.Unmarshal([]byte(line), &e)
		return e, err
	}
	words, err := shellquote.Split(line)
	if err != nil {
		return e, &model.Problem{What: "a quotation mark without its other half", Do: "quote as a shell does"}
	}
	in, err := typedLine(words, t.now)
	if err != nil {
		return e, err
	}
	f, err := in.act.read(in)
	if err != nil {
		return e, err
	}
	e, err = in.act.entry(in, t.book, f)
	e.Once = in.text("once")
	return e, err
}

// typedLine finds what an entry's words say: when, which act, and its flags.
func typedLine(words []string, now time.Time) (*said, error) {
	in := &said{now: now}
	if words[0] == "at" {
		if len(words) < 3 {
			return nil, errors.New("say when, and then what: at 2026-03-14T10:12:00Z signs 17 2 1 0")
		}
		at, err := dayOrTime(words[1], now.Location())
		if err != nil {
			return nil, err
		}
		in.now, words = at.In(now.Location()), words[2:]
	}
	i := slices.IndexFunc(acts, func(a act) bool { return a.word == words[0] })
	if i < 0 {
		return nil, noAct(words[0])
	}
	in.act = &acts[i]
	in.flags = in.act.flagSet()
	in.flags.String("once", "", "")
	if err := in.flags.Parse(words[1:]); err != nil {
		return nil, fmt.Errorf("enter %s: %w", in.act.word, err)
	}
	in.words = in.flags.Args()
	return in, nil
}

// flagSet is the act's flags, none of them given yet.
func (a *act) flagSet() *pflag.FlagSet {
	flags := pflag.NewFlagSet(a.word, pflag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.Usage = func() {}
	for _, f := range a.flags {
		f.add(flags, f.name)
	}
	return flags
}

// refuseBatch says which lines could not be taken, so that nothing was.
func (r *run) refuseBatch(path string, faults []lineFault) error {
	return &fileError{fmt.Errorf("%s has %s, and nothing was written:\n%s",
		fileName(path), show.Count(len(faults), "fault"), faultLines(faults))}
}

// faultLines lists faults, the first of many.
func faultLines(faults []lineFault) string {
	var b strings.Builder
	for i, f := range faults {
		if i == mostListed {
			fmt.Fprintf(&b, "and %d more\n", len(faults)-i)
			break
		}
		fmt.Fprintf(&b, "line %d: %s\n", f.line, strings.ReplaceAll(f.err.Error(), "\n", "; "))
	}
	return b.String()
}

// wroteBatch says what was written, and which lines were not.
func (r *run) wroteBatch(path string, wrote []model.Entry, faults []lineFault) error {
	a := batchAnswer{File: path, Entries: len(wrote), Faults: []faultAnswer{}}
	if len(wrote) > 0 {
		a.First, a.Last = wrote[0].Seq, wrote[len(wrote)-1].Seq
	}
	for _, f := range faults {
		a.Faults = append(a.Faults, faultAnswer{f.line, f.err.Error()})
	}
	var err error
	if r.json {
		err = r.inJSON(a)
	} else {
		err = r.say("wrote %s from %s", show.Count(len(wrote), "entry", "entries"), show.Safe(fileName(path)))
	}
	if len(faults) > 0 {
		err = errors.Join(err, &fileError{fmt.Errorf("%s was not taken whole, %s left out:\n%s",
			fileName(path), show.Count(len(faults), "line"), faultLines(faults))})
	}
	return err
}
