package command

import (
	"fmt"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// bookAnswer is what there is to know about the book's file.
type bookAnswer struct {
	Path      string      `json:"path"`
	Bytes     int64       `json:"bytes"`
	Schema    int         `json:"schema"`
	Entries   int         `json:"entries"`
	Struck    int         `json:"struck"`
	Plants    int         `json:"plants"`
	Gone      int         `json:"gone"`
	First     *time.Time  `json:"first"`
	Last      *time.Time  `json:"last"`
	LastEntry *lineAnswer `json:"last_entry"`
	Copies    []string    `json:"copies"`
	Check     string      `json:"check"`
	Needs     string      `json:"needs,omitempty"` // what was kept of them, held against every entry
}

// backupAnswer is a copy that was written.
type backupAnswer struct {
	Backup string `json:"backup"`
}

// lineAnswer is one entry of the book.
type lineAnswer struct {
	Seq    model.Seq  `json:"seq"`
	At     *time.Time `json:"at"`
	Kind   model.Kind `json:"kind"`
	Plants []model.ID `json:"plants"`
	Struck bool       `json:"struck"`
	Text   string     `json:"text"`
}

// usualEntries is how many entries are listed when nobody says: a
// screen.
const usualEntries = 20

func (r *run) bookCommand() *cobra.Command {
	var entries bool
	var backup string
	c := &cobra.Command{
		Use:   "book [--entries [N] | --backup FILE]",
		Short: "where the book is, how many entries it holds, and whether it is sound",
		Long: `Where the book is, how many entries it holds, and whether it is sound.
--entries lists the last entries with their numbers, for: tubside enter strike N

A dated copy is made beside the book at the first start of each day. When the
book is missing or damaged: restore puts a copy back, rescue brings over every
entry that can still be read.`,
		Args:    wants(0, 1, "the only word it takes is a number of entries, after --entries"),
		Example: "  tubside book --entries 50\n  tubside book --backup /media/stick/book.db",
		RunE: func(_ *cobra.Command, args []string) error {
			n, err := entryCount(entries, args)
			switch {
			case err != nil:
				return misread(err)
			case entries:
				return r.look(func(s *store.Store) error { return r.sayEntries(s.Book(), n) })
			case backup != "":
				return r.look(func(s *store.Store) error { return r.backup(s, backup) })
			}
			return r.look(r.sayBook)
		},
	}
	c.Flags().BoolVar(&entries, "entries", false, "list the last N entries (20)")
	c.Flags().StringVar(&backup, "backup", "", "write a checked copy of the book to `file`")
	c.MarkFlagsMutuallyExclusive("entries", "backup")
	c.AddCommand(r.newBook(), r.checkBook(), r.restoreBook(), r.rescueBook(), r.inbox(), r.copiesTo())
	return c
}

func entryCount(entries bool, args []string) (int, error) {
	if len(args) == 0 {
		return usualEntries, nil
	}
	n, err := strconv.Atoi(args[0])
	if !entries || err != nil || n < 1 {
		return 0, fmt.Errorf("book: %q is not a number of entries: write --entries 50", args[0])
	}
	return n, nil
}

func (r *run) backup(s *store.Store, path string) error {
	if err := s.Backup(path); err != nil {
		return err
	}
	if r.json {
		return r.inJSON(backupAnswer{path})
	}
	return r.say("copied the book to %s", show.Safe(path))
}

func (r *run) sayBook(s *store.Store) error {
	report, err := s.Check()
	if err != nil {
		return err
	}
	b := s.Book()
	a := bookAnswer{
		Path: report.Path, Bytes: report.Bytes, Schema: report.Schema, Entries: report.Entries, Struck: report.Struck,
		Plants: report.Plants, Gone: gone(b), First: when(report.First), Last: when(report.Last),
		Copies: append([]string{}, report.Copies...), Check: "sound",
	}
	if lines := lastEntries(b, 1); len(lines) > 0 {
		a.LastEntry = &lines[0]
	}
	if same, there := r.beliefs.Check(b, r.now()); same {
		a.Needs = "kept for a quick start, and the same worked out anew"
	} else if there {
		a.Needs = "kept for a quick start, but wrong: thrown away"
		r.warn("the needs kept for a quick start were wrong; they were thrown away, and are worked out anew from now on")
	}
	if r.json {
		return r.inJSON(a)
	}
	return r.sayBookLines(a)
}

func (r *run) sayBookLines(a bookAnswer) error {
	last := "none"
	if a.LastEntry != nil {
		last = a.LastEntry.line(r.now())
	}
	for _, line := range [][2]string{
		{"book", show.Safe(a.Path)},
		{"size", fmt.Sprintf("%.0f KiB", float64(a.Bytes)/1024)},
		{"entries", fmt.Sprintf("%d, %d undone", a.Entries, a.Struck)},
		{"plants", fmt.Sprintf("%d, %d gone", a.Plants, a.Gone)},
		{"last", last},
		{"copies", show.Count(len(a.Copies), "dated copy", "dated copies") + " beside the book"},
		{"check", a.Check},
		{"needs", a.Needs},
	} {
		if line[1] == "" {
			continue
		}
		if err := r.say("%-8s %s", line[0], line[1]); err != nil {
			return err
		}
	}
	return nil
}

func gone(b *model.Book) (n int) {
	for _, id := range b.IDs() {
		if b.Row(id).State == model.Gone {
			n++
		}
	}
	return n
}

// lastEntries lists the last n entries, the oldest first.
func lastEntries(b *model.Book, n int) []lineAnswer {
	all := b.Entries()
	lines := []lineAnswer{}
	for _, e := range all[max(0, len(all)-n):] {
		lines = append(lines, lineAnswer{e.Seq, when(e.At), e.Fact.Kind(), named(e), b.Struck(e.Seq),
			show.Sentence(e, b)})
	}
	return lines
}

// line is an entry for a person.
func (l *lineAnswer) line(now time.Time) string {
	text := fmt.Sprintf("%d  %s  %s", l.Seq, show.Clock(*l.At, now, time.Local), l.Text)
	if l.Struck {
		return text + " (undone)"
	}
	return text
}

func (r *run) sayEntries(b *model.Book, n int) error {
	lines := lastEntries(b, n)
	if r.json {
		return r.inJSON(lines)
	}
	t := paper.Table{Columns: []paper.Column{{Head: "entry", Right: true}, {Head: "when"}, {Head: "what", Least: 20},
		{}}}
	for _, l := range lines {
		mark := ""
		if l.Struck {
			mark = "struck"
		}
		t.Add(strconv.FormatUint(uint64(l.Seq), 10), show.Clock(*l.At, r.now(), time.Local), l.Text, mark)
	}
	return r.table(&t)
}
