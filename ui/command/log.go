package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/ui/show"
)

// logQuestion says which entries to print, and how.
type logQuestion struct {
	since, until string
	kinds        []string
	last         int
	follow       bool

	from, to time.Time
	words    []string // name plants
}

// entryAnswer is one entry, as the book has it and as a person reads it.
type entryAnswer struct {
	Seq    model.Seq       `json:"seq"`
	Struck bool            `json:"struck"`
	V      int             `json:"v"`
	At     time.Time       `json:"at"`
	Kind   model.Kind      `json:"kind"`
	Once   string          `json:"once,omitempty"`
	Plants model.IDs       `json:"plants,omitempty"`
	Fact   json.RawMessage `json:"fact,omitempty"`
	Text   string          `json:"text"`
}

func (r *run) log() *cobra.Command {
	var q logQuestion
	c := &cobra.Command{
		Use:   "log [PLANTS...]",
		Short: "the entries of the book, a line each, as enter --from takes them",
		Long: `The entries of the book, the oldest first, a line each, as enter --from takes
them: the whole log of one book makes another with the same plants. What cannot
be typed stands in JSON, as the book has it; on a terminal in words, where it is
long. A line that begins with # is a remark. With plants, only entries that name one of them.

--json gives each entry as one line of JSON. --follow goes on as the book is
written, beside an open board, until it is stopped.`,
		Example: "  tubside log 17 --since 2026-01-01\n  tubside log > book.txt\n  tubside log --follow --json",
		RunE: func(_ *cobra.Command, args []string) error {
			q.words = args
			if err := q.days(); err != nil {
				return misread(err)
			}
			return r.sayLog(q)
		},
	}
	f := c.Flags()
	f.StringVar(&q.since, "since", "", "the first `day`, 2026-01-31")
	f.StringVar(&q.until, "until", "", "the last `day`")
	f.StringSliceVar(&q.kinds, "kind", nil, "only entries of a `kind`: signs, soak, dry and so on")
	f.IntVar(&q.last, "last", 0, "only the last `N` of them")
	f.BoolVar(&q.follow, "follow", false, "go on as the book is written")
	return c
}

// days reads the period.
func (q *logQuestion) days() (err error) {
	if q.since != "" {
		if q.from, err = midnight(q.since, 0); err != nil {
			return fmt.Errorf("--since: %w", err)
		}
	}
	if q.until != "" {
		if q.to, err = midnight(q.until, 1); err != nil {
			return fmt.Errorf("--until: %w", err)
		}
	}
	if q.last < 0 {
		return errors.New("log: --last takes a number of entries")
	}
	return nil
}

// asked lists the entries asked for, of those after a number.
func (q *logQuestion) asked(b *model.Book, after model.Seq) ([]model.Entry, error) {
	var ids model.IDs
	var err error
	if len(q.words) > 0 {
		if ids, err = b.Choose(q.words...); err != nil {
			return nil, err
		}
	}
	var some []model.Entry
	for _, e := range b.Entries() {
		if e.Seq > after && q.takes(e, ids) {
			some = append(some, e)
		}
	}
	if q.last > 0 && after == 0 {
		some = some[max(0, len(some)-q.last):]
	}
	return some, nil
}

// takes reports whether an entry is one of those asked for.
func (q *logQuestion) takes(e model.Entry, ids model.IDs) bool {
	switch {
	case e.At.Before(q.from), !q.to.IsZero() && !e.At.Before(q.to):
		return false
	case len(q.kinds) > 0 && !slices.Contains(q.kinds, string(e.Fact.Kind())):
		return false
	case ids == nil:
		return true
	}
	return slices.ContainsFunc(named(e), ids.Has)
}

// sayLog prints the entries, and goes on where that is asked.
func (r *run) sayLog(q logQuestion) error {
	last, err := r.sayEntriesAfter(q, 0)
	if err != nil || !q.follow {
		return err
	}
	var seen fs.FileInfo
	settled := false
	for range r.env.Tick(followEvery) {
		info, err := os.Stat(r.bookPath())
		same := err == nil && seen != nil && info.ModTime().Equal(seen.ModTime()) && info.Size() == seen.Size()
		// Two writes may fall into one tick of the file's clock: what was found
		// changed is read once more.
		if !same || !settled {
			if last, err = r.sayEntriesAfter(q, last); err != nil {
				return err
			}
		}
		seen, settled = info, same
	}
	return nil
}

// followEvery is how often a followed book is looked at.
const followEvery = time.Second

// sayEntriesAfter prints the entries after a number and gives the last one's.
func (r *run) sayEntriesAfter(q logQuestion, after model.Seq) (last model.Seq, err error) {
	return last, r.look(func(s *store.Store) error {
		b := s.Book()
		some, err := q.asked(b, after)
		if err != nil {
			return err
		}
		if all := b.Entries(); len(all) > 0 {
			last = all[len(all)-1].Seq
		}
		var text strings.Builder
		width, read := r.terminal()
		if !read {
			width = 0
		}
		for _, e := range some {
			if err := r.logLine(&text, e, b, width); err != nil {
				return err
			}
		}
		if text.Len() > 0 {
			_, err = fmt.Fprint(r.env.Out, text.String())
		}
		return err
	})
}

// logLine writes one entry. On a terminal so many cells wide nobody reads a plan of 20,000
// characters of JSON: what it says in words is enough there; 0 is a file or a pipe, which gets
// the entry whole.
func (r *run) logLine(text *strings.Builder, e model.Entry, b *model.Book, width int) error {
	sentence := show.Sentence(e, b)
	if r.json {
		fact, err := json.Marshal(e.Fact)
		if err != nil {
			return err
		}
		answer, err := json.Marshal(entryAnswer{
			Seq: e.Seq, Struck: b.Struck(e.Seq), V: model.EntryVersion, At: e.At, Kind: e.Fact.Kind(), Once: e.Once,
			Plants: e.Plants, Fact: fact, Text: sentence,
		})
		text.WriteString(plainJSON(answer) + "\n")
		return err
	}
	words, err := line(e)
	inJSON := strings.HasPrefix(words, "{")
	if inJSON && width > 0 && show.Width(words) > width {
		undone := ""
		if b.Struck(e.Seq) {
			undone = " (undone)"
		}
		fmt.Fprintf(text, "# %d%s, at %s: %s\n", e.Seq, undone, e.At.Format(time.RFC3339), sentence)
		return err
	}
	if inJSON {
		fmt.Fprintf(text, "# %d: %s\n", e.Seq, sentence)
	}
	if b.Struck(e.Seq) {
		fmt.Fprintf(text, "# %d is undone:\n", e.Seq)
	}
	text.WriteString(words + "\n")
	return err
}
