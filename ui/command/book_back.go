package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/ui/show"
)

// beganAnswer is a new book.
type beganAnswer struct {
	Began string `json:"began"`
}

func (r *run) newBook() *cobra.Command {
	return &cobra.Command{
		Use: "new", Short: "begin a book", Args: nothing,
		Long: `Begin an empty book, where --book says or in your data folder. It keeps the time
zone this machine is set to as the house's.`,
		Example: "  tubside book new\n  tubside book new --book greenhouse.db",
		RunE: func(*cobra.Command, []string) error {
			if _, err := os.Lstat(r.bookPath()); err == nil {
				return &model.Problem{What: r.bookPath() + " is already there", Do: "name another file with --book"}
			}
			return r.first(func(s *store.Store) error {
				if r.json {
					return r.inJSON(beganAnswer{s.Path()})
				}
				return nil // open has said it
			})
		},
	}
}

func (r *run) checkBook() *cobra.Command {
	return &cobra.Command{
		Use: "check", Short: "read the whole book through and say what is wrong, and where", Args: nothing,
		Example: "  tubside book check\n  tubside book check --book old.db --json",
		RunE:    func(*cobra.Command, []string) error { return r.look(r.sayBook) },
	}
}

// restoredAnswer is a book that was put back.
type restoredAnswer struct {
	Book  string `json:"book"`
	From  string `json:"from"`
	Aside string `json:"aside,omitempty"` // where the file that was there is kept
}

func (r *run) restoreBook() *cobra.Command {
	return &cobra.Command{
		Use: "restore [COPY]", Short: "put a copy back, the newest good one when none is named",
		Long: `Put a copy in the book's place: the newest good one beside it, or the file named.
The book that is there now is kept beside it under another name.`,
		Args:    wants(0, 1, "name one copy, or none for the newest"),
		Example: "  tubside book restore\n  tubside book restore book.db.2026-01-30.bak",
		RunE: func(_ *cobra.Command, args []string) error {
			from := ""
			if len(args) > 0 {
				from = args[0]
			}
			return r.restore(from)
		},
	}
}

// restore puts a copy in the book's place; "" is the newest good one.
func (r *run) restore(from string) error {
	if from == "" {
		newest, err := store.NewestCopy(r.bookPath())
		if errors.Is(err, fs.ErrNotExist) {
			return &model.Problem{
				What: "there is no good copy beside " + r.bookPath(),
				Do:   "name a copy that lies elsewhere",
			}
		}
		if err != nil {
			return err
		}
		from = newest.Path
	}
	aside, err := store.Restore(r.bookPath(), from)
	if err != nil {
		return err
	}
	if r.json {
		return r.inJSON(restoredAnswer{r.bookPath(), from, aside})
	}
	if aside != "" {
		if err := r.say("the book that was there is kept as %s", show.Safe(aside)); err != nil {
			return err
		}
	}
	return r.say("put %s back as %s", show.Safe(from), show.Safe(r.bookPath()))
}

// copiesToAnswer is where copies are kept too.
type copiesToAnswer struct {
	Folder string `json:"folder"`         // "" when only beside the book
	Left   bool   `json:"left,omitempty"` // the book is in use: it waits to be taken in
}

func (r *run) copiesTo() *cobra.Command {
	return &cobra.Command{
		Use: "copies [FOLDER]", Short: "a second folder for the daily copies, on another disk",
		Args: wants(0, 1, "name one folder, or off"),
		Long: `Say which folder holds a second set of the daily copies, or name one: a folder on
another disk, so that you lose no book with a disk. off ends it. Without the
disk in place the copy beside the book is made all the same, and a warning says
what is missing.`,
		Example: "  tubside book copies /media/stick/tubside\n  tubside book copies off",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return r.look(func(s *store.Store) error { return r.sayCopiesTo(s.Book()) })
			}
			return r.setCopiesTo(args[0])
		},
	}
}

func (r *run) setCopiesTo(folder string) error {
	fact := &model.CopiesTo{}
	if folder != "off" {
		full, err := filepath.Abs(folder)
		if err != nil {
			return err
		}
		if info, err := os.Stat(full); err != nil || !info.IsDir() {
			return &model.Problem{What: fmt.Sprintf("there is no folder %s", full), Do: "make it first, or say off"}
		}
		fact.Folder = full
	}
	e := model.NewEntry(r.now(), fact)
	err := r.with(store.Options{Wait: r.patience()}, func(s *store.Store) error {
		if _, err := s.Append(e); err != nil {
			return err
		}
		if err := s.KeepCopy(); err != nil {
			r.warn("%v", err)
		}
		return r.sayCopiesTo(s.Book())
	})
	if !errors.Is(err, store.ErrInUse) {
		return err
	}
	return r.leave(err, func(b *model.Book) (store.Left, error) {
		return store.Left{Entries: []model.Entry{e}}, b.Check(e)
	}, func(l store.Left, b *model.Book) error {
		if r.json {
			return r.inJSON(copiesToAnswer{fact.Folder, true})
		}
		return r.leftEntry(l, b)
	})
}

func (r *run) sayCopiesTo(b *model.Book) error {
	folder := b.CopiesTo()
	if r.json {
		return r.inJSON(copiesToAnswer{Folder: folder})
	}
	if folder == "" {
		return r.say("copies are kept beside the book alone")
	}
	return r.say("copies are kept beside the book and in %s", show.Safe(folder))
}

// rescuedAnswer is what was brought out of a damaged book.
type rescuedAnswer struct {
	Book    string       `json:"book"`
	Aside   string       `json:"aside"`
	Entries int          `json:"entries"`
	Lost    []lostAnswer `json:"lost"`
}

type lostAnswer struct {
	Seq model.Seq `json:"seq"`
	Why string    `json:"why"`
	Was string    `json:"was,omitempty"`
}

func (r *run) rescueBook() *cobra.Command {
	return &cobra.Command{
		Use: "rescue", Short: "bring every entry that can still be read out of a damaged book",
		Long: `Bring every entry that can still be read out of a damaged book into a new one in
its place, and say what is missing. The damaged file is kept beside it. A copy
may hold more: compare with tubside book --book COPY before you go on.`,
		Args:    nothing,
		Example: "  tubside book rescue\n  tubside book rescue --book damaged.db",
		RunE: func(*cobra.Command, []string) error {
			out, err := store.Rescue(r.bookPath(), time.Local)
			if err != nil {
				return err
			}
			return r.sayRescued(out)
		},
	}
}

func (r *run) sayRescued(out store.Rescued) error {
	a := rescuedAnswer{r.bookPath(), out.Aside, out.Entries, []lostAnswer{}}
	for _, l := range out.Lost {
		a.Lost = append(a.Lost, lostAnswer{l.Seq, l.Why, l.Was})
	}
	if r.json {
		return r.inJSON(a)
	}
	text := fmt.Sprintf("brought over %d of %s\n", out.Entries-len(out.Lost),
		show.Count(out.Entries, "entry", "entries"))
	for _, l := range out.Lost {
		text += fmt.Sprintf("  lost: entry %d: %s %s\n", l.Seq, l.Why, show.Safe(l.Was))
	}
	return r.print(text + fmt.Sprintf("the damaged book is kept as %s\n", show.Safe(out.Aside)))
}

// offer asks a person at a terminal, once, what to do about a book that is not
// there: put the newest good copy back, or begin one.
func (r *run) offer(missing error) error {
	newest, err := store.NewestCopy(r.bookPath())
	if err == nil {
		if r.asks(orYes, "%s is missing. Its newest good copy has %s, the last of %s. Put it back?", show.Safe(r.bookPath()),
			show.Count(newest.Entries, "entry", "entries"), show.Clock(newest.Last, r.now(), time.Local)) {
			return r.restore(newest.Path)
		}
		return missing
	}
	if !errors.Is(err, fs.ErrNotExist) || store.HasCopies(r.bookPath()) {
		return missing
	}
	if r.asks(orYes, "There is no logbook yet at %s. Start one?", show.Safe(r.bookPath())) {
		return r.first(func(*store.Store) error { return nil })
	}
	return missing
}

// What Enter alone answers to a question.
const (
	orNo  = "[y/N]"
	orYes = "[Y/n]"
)

// asks puts a question that is answered with a line beginning with y or n; Enter
// alone answers as said, the end of what is typed no. It reads no further than that
// line: what is typed after it is the board's.
func (r *run) asks(otherwise, format string, args ...any) bool {
	fmt.Fprintf(r.env.Err, format+" "+otherwise+" ", args...)
	var answer []byte
	for b := make([]byte, 1); ; {
		n, err := r.env.In.Read(b)
		if n == 0 || err != nil {
			return false
		}
		if b[0] == '\n' {
			break
		}
		answer = append(answer, b[0])
	}
	if text := strings.TrimSpace(string(answer)); text != "" {
		return text[0] == 'y' || text[0] == 'Y'
	}
	return otherwise == orYes
}
