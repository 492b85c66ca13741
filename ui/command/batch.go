package command

import (
	"bufio"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/kballard/go-shellquote"
	"github.com/spf13/pflag"

	"tubside/model"
	"tubside/model/day"
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
  11:05 out load:3

A line may begin with an hour alone, as it is written down beside the tub. All
hours of a file are of one day: today, or yesterday where all of them, and more
than one, are still to come. The answer says which. An hour to come beside others
is a slip, and nothing is written. For any other day give --day 2026-03-14, or
write at 2026-03-14T11:05.

A line with --once KEY is passed over when the book has an entry of that key.

All of them are written or none; with --each those that can be.`

// batchAnswer is what became of a batch.
type batchAnswer struct {
	File    string        `json:"file"`
	Entries int           `json:"entries"`
	Left    bool          `json:"left,omitempty"` // the book is in use: they wait to be taken in
	First   model.Seq     `json:"first,omitempty"`
	Last    model.Seq     `json:"last,omitempty"`
	Day     string        `json:"day,omitempty"` // of the hours in it, where there are any
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
func (r *run) enterFrom(path, on string, each bool) error {
	given, err := givenDay(on, r.now())
	if err != nil {
		return misread(err)
	}
	lines, err := r.readLines(path)
	if err != nil {
		return &fileError{err}
	}
	var faults []lineFault
	var hoursOf string // the day of the hours in it
	made := func(b *model.Book) (store.Left, error) {
		t := newTyped(b, r.now())
		t.day = cmp.Or(given, dayOfHours(lines, r.now()))
		for i, line := range lines {
			t.take(i+1, line)
		}
		if t.hours {
			hoursOf = show.Date(t.day, t.day.Location())
		}
		if faults = t.faults; len(faults) > 0 && !each {
			return store.Left{}, r.refuseBatch(path, faults)
		}
		return store.Left{Entries: t.entries, From: batchName(path), Lines: t.lines}, nil
	}
	err = r.with(store.Options{Wait: r.patience()}, func(s *store.Store) error {
		l, err := made(s.Book())
		if err != nil {
			return err
		}
		if settled, err := r.settle(s, l.Entries...); err != nil {
			return err
		} else if settled {
			if l, err = made(s.Book()); err != nil {
				return err
			}
		}
		wrote, err := s.AppendAll(l.Entries, nil)
		if err != nil {
			return err
		}
		return r.tookBatch(batchAnswer{File: path, Day: hoursOf}, wrote, faults)
	})
	if errors.Is(err, store.ErrInUse) {
		return r.leave(err, made, func(l store.Left, _ *model.Book) error {
			return r.tookBatch(batchAnswer{File: path, Left: true, Day: hoursOf}, l.Entries, faults)
		})
	}
	return err
}

// readLines reads the whole of a file before the book is opened: what comes
// down a pipe may take its time.
func (r *run) readLines(path string) (lines []string, err error) {
	from := r.env.In
	if path != "-" {
		f, err := openFile(path)
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

// batchName is what the inbox calls a file.
func batchName(path string) string { return filepath.Base(fileName(path)) }

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
	day     time.Time   // of a line that says an hour alone; the zero time: that of now
	hours   bool        // there is such a line
	entries []model.Entry
	lines   []int // where each of them stood
	faults  []lineFault
}

// newTyped begins on a book, which is not changed.
func newTyped(b *model.Book, now time.Time) *typed { return &typed{book: b.Copy(), now: now} }

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
		e.Seq = t.book.NextSeq()
		err = t.book.Check(e)
	}
	if err == nil {
		err = t.book.Apply(e)
	}
	if err != nil {
		t.faults = append(t.faults, lineFault{number, err})
		return
	}
	t.entries, t.lines = append(t.entries, e), append(t.lines, number)
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
	if hour, rest := leadingHour(words); hour != "" {
		at, err := day.ReadHour(hour, cmp.Or(t.day, t.now), time.Time{})
		if err != nil {
			return e, err
		}
		if at.Sub(t.now) > clocksDiffer {
			return e, hourToCome(hour, t.now)
		}
		at = model.Earlier(at, t.now)
		t.hours, words = true, slices.Concat([]string{"at", at.Format(time.RFC3339)}, rest)
	}
	in, err := typedLine(words, t.now)
	if err != nil {
		return e, err
	}
	e, err = in.entry(t.book)
	e.Once = in.text("once")
	return e, err
}

// anHour is a time without its day.
var anHour = regexp.MustCompile(`^\d{1,2}[:.]\d{2}$`)

// leadingHour is the hour alone that a line begins with, with or without the word at, and
// what comes after it; "" for none.
func leadingHour(words []string) (hour string, rest []string) {
	if len(words) > 1 && words[0] == "at" {
		words = words[1:]
	}
	if len(words) == 0 || !anHour.MatchString(words[0]) {
		return "", nil
	}
	return words[0], words[1:]
}

// clocksDiffer is by how much the clock of whoever writes an hour down may be ahead. A guess.
const clocksDiffer = 2 * time.Minute

// dayOfHours is the day that the hours of a file are of: today, or yesterday where all of
// them, and more than one, are still to come.
func dayOfHours(lines []string, now time.Time) time.Time {
	hours := 0
	for _, line := range lines {
		hour, _ := leadingHour(strings.Fields(line))
		at, err := day.ReadHour(hour, now, time.Time{})
		if hour == "" || err != nil {
			continue
		}
		if at.Sub(now) <= clocksDiffer {
			return now
		}
		hours++
	}
	if hours > 1 {
		return now.AddDate(0, 0, -1)
	}
	return now
}

// hourToCome refuses an hour of today that is still to come.
func hourToCome(hour string, now time.Time) error {
	return &model.Problem{
		What: fmt.Sprintf("the hour %s is still to come, at %s", hour, now.Format("15:04")),
		Do:   "mend it; if the hours are yesterday's, say so with " + dayFlag(now.AddDate(0, 0, -1)),
	}
}

// dayFlag is how the day of a file's hours is typed.
func dayFlag(on time.Time) string { return "--day " + on.Format(time.DateOnly) }

// givenDay is the day that the grower says the hours of a file are of; the zero time for none.
func givenDay(text string, now time.Time) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	d, err := model.ParseDay(text, model.ISO)
	noon := model.NoonOf(d, now.Location())
	if err != nil || noon.After(model.AtHour(now, 12)) {
		return time.Time{}, &model.Problem{What: fmt.Sprintf("--day: %q is not a day up to today", text), Do: "write " + dayFlag(now)}
	}
	return noon, nil
}

// typedLine finds what an entry's words say: when, which act, and its flags.
func typedLine(words []string, now time.Time) (*said, error) {
	in := &said{now: now}
	if words[0] == "at" {
		if len(words) < 3 {
			return nil, errors.New("say when, and then what: at 2026-03-14T10:12:00Z signs 17 2 1 0, or 10:12 signs 17 2 1 0")
		}
		at, err := dayOrTime(words[1], now.Location())
		if err != nil {
			return nil, err
		}
		in.now, in.past, words = at.In(now.Location()), true, words[2:]
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

// tookBatch says what was written or left, and which lines were not.
func (r *run) tookBatch(a batchAnswer, took []model.Entry, faults []lineFault) error {
	a.Entries, a.Faults = len(took), []faultAnswer{}
	if len(took) > 0 && !a.Left {
		a.First, a.Last = took[0].Seq, took[len(took)-1].Seq
	}
	for _, f := range faults {
		a.Faults = append(a.Faults, faultAnswer{f.line, f.err.Error()})
	}
	err := r.sayBatch(a)
	if len(faults) > 0 {
		err = errors.Join(err, &fileError{fmt.Errorf("%s was not taken whole, %s left out:\n%s",
			fileName(a.File), show.Count(len(faults), "line"), faultLines(faults))})
	}
	return err
}

func (r *run) sayBatch(a batchAnswer) error {
	what := show.Count(a.Entries, "entry", "entries") + " from " + show.Safe(fileName(a.File))
	if a.Day != "" {
		what += ", its hours of " + a.Day
	}
	switch {
	case r.json:
		return r.inJSON(a)
	case a.Left:
		return r.say("the book is in use: left for it to take in: %s", what)
	}
	return r.say("wrote %s", what)
}
