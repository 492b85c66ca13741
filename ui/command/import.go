package command

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tubside/model"
	"tubside/model/species"
	"tubside/store"
	"tubside/store/table"
	"tubside/ui/show"

	"github.com/charmbracelet/x/term"
	"github.com/rickb777/date/v2"
	"github.com/spf13/cobra"
)

// importAnswer is what an import did, or would do.
type importAnswer struct {
	File        string     `json:"file"`
	DryRun      bool       `json:"dry_run"`
	Left        bool       `json:"left,omitempty"` // the book is in use: it waits to be taken in
	Seq         *model.Seq `json:"seq"`            // null when nothing was written
	Rows        int        `json:"rows"`
	Added       int        `json:"added"`
	Changed     int        `json:"changed"`
	Unchanged   int        `json:"unchanged"`
	Gone        int        `json:"gone"` // rows of plants that left, passed over
	BloomOn     int        `json:"bloom_on"`
	BloomOff    int        `json:"bloom_off"`
	RotOn       int        `json:"rot_on"`
	RotOff      int        `json:"rot_off"`
	Troubles    int        `json:"troubles"`
	Offsets     int        `json:"offsets"`
	FadingOn    int        `json:"fading_on"`
	FadingOff   int        `json:"fading_off"`
	AssumedForm int        `json:"assumed_form"`
	AssumedLeaf int        `json:"assumed_leaf"`
	AssumedSize int        `json:"assumed_size"`
	Unknown     []string   `json:"unknown"`
	Ignored     []string   `json:"ignored"`
	LeftEmpty   []string   `json:"left_empty"`
	Sums        []string   `json:"sums"`     // lines that look like a sum, taken for a plant
	LeftOut     []string   `json:"left_out"` // lines of which no plant was taken
	NoSoak      []string   `json:"no_soak"`  // plants whose note says not to soak them
	Warnings    []string   `json:"warnings"`
}

// fileError is an input file that cannot be taken.
type fileError struct{ error }

// Unwrap gives what is wrong with the file.
func (f *fileError) Unwrap() error { return f.error }

// takeIn is one import being carried out.
type takeIn struct {
	*run
	file, dates      string
	dryRun, template bool
	leaveEmpty       bool
	mistOnly         bool
	yearless         bool
	leaveOut         bool
	left             bool         // for whoever has the book
	text             bytes.Buffer // of the file, as it came
	unused           []string     // its columns that mean nothing to us
}

func (r *run) importFile() *cobra.Command {
	in := takeIn{run: r}
	c := &cobra.Command{
		Use:   "import FILE",
		Short: "bring in a spreadsheet saved as CSV, all of it or nothing",
		Long: `Bring in a spreadsheet saved as CSV, all of it or nothing. Columns may come in
any order and under many names; what is missing of form, leaf and size is filled
in from the species list and marked as assumed. The same file twice changes
nothing. - reads standard input.`,
		Example: "  tubside import --template > plants.csv\n  tubside import --dry-run plants.csv",
		Args:    wants(0, 1, "name one file, or - for standard input"),
		RunE: func(_ *cobra.Command, args []string) error {
			if in.template {
				return table.Template(r.env.Out)
			}
			if len(args) == 0 {
				return misread(errors.New("import: name one file, or - for standard input"))
			}
			in.file = args[0]
			return in.read()
		},
	}
	c.Flags().BoolVar(&in.dryRun, "dry-run", false, "say what would change, and change nothing")
	c.Flags().BoolVar(&in.template, "template", false, "print a file to start from")
	c.Flags().BoolVar(&in.leaveEmpty, "leave-empty", false, "leave cells empty that cannot be read, say which, and keep what they say in the note")
	c.Flags().BoolVar(&in.leaveOut, "leave-out", false, "leave out lines that name no plant or look like a sum, and say which")
	c.Flags().BoolVar(&in.yearless, "this-year", false, "days without a year, like 21/11, are the latest such day")
	c.Flags().BoolVar(&in.mistOnly, "mist-only", false, "make those plants mist only whose note says not to soak them")
	c.Flags().StringVar(&in.dates, "dates", "", "how days like 3/4/2026 are written, where the column does not tell: `dmy` or mdy")
	return c
}

// read reads the file, then compares it with the book and writes the entry.
func (in *takeIn) read() error {
	order := model.DayOrder(strings.ToLower(in.dates))
	if order != model.ISO && order != model.DMY && order != model.MDY {
		return misread(&model.Problem{What: fmt.Sprintf("--dates %q", in.dates), Do: "say dmy or mdy"})
	}
	sheet, err := in.sheet(order)
	in.unused = sheet.Unused
	if err != nil {
		return in.refused(err)
	}
	if in.dryRun {
		return in.peek(func(b *model.Book) error {
			_, sum, err := table.Plan(b, sheet, in.now())
			if err != nil {
				return in.refused(err)
			}
			return in.told(nil, sum)
		})
	}
	err = in.with(store.Options{Begin: true, Wait: in.patience()}, func(s *store.Store) error { return in.take(s, sheet) })
	if errors.Is(err, store.ErrInUse) {
		return in.leave(sheet)
	}
	return err
}

// leave leaves the sheet for whoever has the book, and says what it would change.
// It is compared again with the book when it is taken in.
func (in *takeIn) leave(sheet table.Sheet) error {
	waiting, err := store.Inbox(in.bookPath())
	if err != nil {
		return err
	}
	return in.look(func(s *store.Store) error {
		_, sum, err := table.Plan(store.Expect(s.Book(), waiting), sheet, in.now())
		if err != nil {
			return in.refused(err)
		}
		if sum.Changes() {
			in.left = true
			err = store.Leave(s.Path(), store.Left{Sheet: &store.Sheet{File: in.name(), At: in.now(),
				Dates: model.DayOrder(strings.ToLower(in.dates)), LeaveEmpty: in.leaveEmpty, MistOnly: in.mistOnly,
				LeaveOut: in.leaveOut, Yearless: in.yearless, Text: in.text.Bytes()}})
		}
		in.sayRefused(waiting, 0)
		if err != nil {
			return err
		}
		return in.told(nil, sum)
	})
}

// take writes what the sheet changes, as one entry.
func (in *takeIn) take(s *store.Store, sheet table.Sheet) error {
	fact, sum, err := table.Plan(s.Book(), sheet, in.now())
	if err != nil {
		return in.refused(err)
	}
	if !sum.Changes() {
		return in.told(nil, sum)
	}
	if err := s.KeepCopy(); err != nil { // to go back to
		in.warn("%v", err)
	}
	fact.File = in.name()
	e, err := s.Append(model.NewEntry(in.now(), fact))
	if err != nil {
		return err
	}
	return in.told(&e.Seq, sum)
}

// sheet reads the file, with a line of progress for a person who waits.
func (in *takeIn) sheet(order model.DayOrder) (table.Sheet, error) {
	from := in.env.In
	if in.file != "-" {
		f, err := openFile(in.file)
		if err != nil {
			return table.Sheet{}, err
		}
		defer f.Close()
		from = f
	}
	progress, end := in.progress()
	defer end()
	return table.Read(io.TeeReader(from, &in.text), table.ReadOptions{Dates: order, Today: date.NewAt(in.now()),
		LeaveEmpty: in.leaveEmpty, MistOnly: in.mistOnly, LeaveOut: in.leaveOut, Yearless: in.yearless, Progress: progress})
}

// progress draws a bar on a terminal; elsewhere it does nothing.
func (in *takeIn) progress() (draw func(done, total int), end func()) {
	f, ok := in.env.Err.(*os.File)
	if !ok || !term.IsTerminal(f.Fd()) {
		return nil, func() {}
	}
	return func(done, total int) {
			const cells = 30
			full := cells * done / max(total, 1)
			fmt.Fprintf(f, "\r[%s%s] %d of %d lines", strings.Repeat("#", full), strings.Repeat(" ", cells-full), done,
				total)
		}, func() {
			fmt.Fprint(f, "\r\x1b[K")
		}
}

// name is what to call the file in the book.
func (in *takeIn) name() string {
	if in.file == "-" {
		return "standard input"
	}
	return filepath.Base(in.file)
}

// refused says that the file was not taken, and why.
func (in *takeIn) refused(err error) error {
	if err == nil {
		return nil
	}
	var faults table.Faults
	if file := (*fileError)(nil); errors.As(err, &file) { // it says so itself
		return err
	}
	if errors.As(err, &faults) {
		words := strings.Join(faults.Grouped(), "\n")
		if len(in.unused) > 0 {
			words = "columns not used: " + someOf(in.unused) + "\n" + words
		}
		if !in.leaveEmpty && slices.ContainsFunc(faults, func(f table.Fault) bool { return f.Field != "" && !table.Answerable(f) }) {
			words += "\nto take the plants and leave cells empty that cannot be read, with what they say in the note: --leave-empty"
		}
		if slices.ContainsFunc(faults, func(f table.Fault) bool { return f.Do == table.WhichFirst }) {
			words += "\nto say which comes first, day or month: --dates dmy or --dates mdy"
		}
		if slices.ContainsFunc(faults, func(f table.Fault) bool { return f.Do == table.WhichYear }) {
			words += "\nto take days without a year for the latest such day: --this-year"
		}
		if table.NoName(faults) > 0 {
			words += "\nto leave out lines that name no plant: --leave-out"
		}
		return &fileError{fmt.Errorf("%s has %s, and nothing was changed:\n%s", in.name(),
			show.Count(faults.Count(), "fault"), words)}
	}
	return &fileError{fmt.Errorf("import %s: %w", in.name(), err)}
}

// told says what was done.
func (in *takeIn) told(seq *model.Seq, sum table.Summary) error {
	if in.json {
		return in.inJSON(importAnswer{
			File: in.file, DryRun: in.dryRun, Left: in.left, Seq: seq, Rows: sum.Rows, Added: sum.Added, Changed: sum.Changed,
			Unchanged: sum.Unchanged, Gone: sum.Gone, BloomOn: sum.BloomOn, BloomOff: sum.BloomOff,
			RotOn: sum.RotOn, RotOff: sum.RotOff, Troubles: sum.Troubles, Offsets: sum.Offsets, FadingOn: sum.FadingOn,
			FadingOff: sum.FadingOff, AssumedForm: sum.AssumedForm, AssumedLeaf: sum.AssumedLeaf,
			AssumedSize: sum.AssumedSize, Unknown: listed(sum.Unknown), Ignored: listed(sum.Ignored),
			LeftEmpty: listed(sum.Left.Lines()), NoSoak: listed(sum.NoSoak.Lines()),
			Sums: listed(sum.Sums.Lines()), LeftOut: listed(sum.Out.Lines()), Warnings: listed(sum.Warnings),
		})
	}
	return in.summary(seq, sum)
}

// listed is a list that JSON writes as [] when it is empty.
func listed(all []string) []string { return append([]string{}, all...) }

// mostListed is how many warnings or names are listed before the rest is
// counted; JSON has all of them.
const mostListed = 20

// summary says to a person what an import did, or would do.
func (in *takeIn) summary(seq *model.Seq, sum table.Summary) error {
	var b strings.Builder
	b.WriteString(in.headline(seq, sum) + "\n")
	if len(sum.Unused) > 0 {
		fmt.Fprintf(&b, "  columns not used: %s\n", someOf(sum.Unused))
	}
	if sum.AssumedForm+sum.AssumedLeaf+sum.AssumedSize > 0 {
		fmt.Fprintf(&b, "  assumed from the species list: form of %d, leaf of %d, size of %d\n", sum.AssumedForm,
			sum.AssumedLeaf, sum.AssumedSize)
	}
	if n := sum.BloomOn + sum.BloomOff; n > 0 {
		fmt.Fprintf(&b, "  in bloom: %d; no longer: %d\n", sum.BloomOn, sum.BloomOff)
	}
	b.WriteString(healthWords(sum))
	if sum.Gone > 0 {
		fmt.Fprintf(&b, "  left out, gone: %d\n", sum.Gone)
	}
	if len(sum.Unknown) > 0 {
		fmt.Fprintf(&b, "  not on the species list: %s\n", someOf(species.Unlisted(sum.Unknown)))
	}
	for _, f := range sum.Sums {
		fmt.Fprintf(&b, "  %s; to leave it out: --leave-out\n", show.Safe(f.String()))
	}
	for _, f := range sum.Out {
		fmt.Fprintf(&b, "  left out: %s\n", show.Safe(f.String()))
	}
	if words := sum.NoSoakWords(); words != "" && in.mistOnly {
		fmt.Fprintf(&b, "  mist only: %s\n", show.Safe(words))
	} else if words != "" {
		fmt.Fprintf(&b, "  notes say not to soak these; to make them mist only: --mist-only: %s\n", show.Safe(words))
	}
	if n := len(sum.Left); n > 0 {
		fmt.Fprintf(&b, "  left empty: %s, what they say is in the note\n", show.Count(sum.Left.Count(), "cell"))
		for _, words := range sum.Left.Grouped() {
			fmt.Fprintf(&b, "    %s\n", words)
		}
	}
	for i, w := range sum.Warnings {
		if i == mostListed {
			fmt.Fprintf(&b, "  and %d more: see --json\n", len(sum.Warnings)-i)
			break
		}
		fmt.Fprintf(&b, "  %s\n", show.Safe(w))
	}
	return in.print(in.folded(b.String()))
}

// healthWords says of how many plants the file tells rot, troubles or offsets.
func healthWords(sum table.Summary) string {
	var b strings.Builder
	if sum.RotOn+sum.RotOff > 0 {
		fmt.Fprintf(&b, "  suspected rot: %d; no longer: %d\n", sum.RotOn, sum.RotOff)
	}
	if sum.Troubles > 0 {
		fmt.Fprintf(&b, "  other troubles listed: %d\n", sum.Troubles)
	}
	if sum.Offsets > 0 {
		fmt.Fprintf(&b, "  offsets counted: %d\n", sum.Offsets)
	}
	if sum.FadingOn+sum.FadingOff > 0 {
		fmt.Fprintf(&b, "  fading: %d; no longer: %d\n", sum.FadingOn, sum.FadingOff)
	}
	return b.String()
}

// headline is the first line of a summary.
func (in *takeIn) headline(seq *model.Seq, sum table.Summary) string {
	file := show.Safe(in.name())
	switch {
	case !sum.Changes():
		return fmt.Sprintf("%s: %s, nothing to change", file, show.Count(sum.Rows, "row"))
	case seq == nil:
		text := fmt.Sprintf("%s: %s; would add %d, change %d, leave %d as they are", file, show.Count(sum.Rows, "row"),
			sum.Added, sum.Changed, sum.Unchanged)
		if in.left {
			text = "the book is in use: left for it to take in: " + text
		}
		return text
	}
	return fmt.Sprintf("wrote %d: %s: %s; %d added, %d changed, %d as they were", *seq, file,
		show.Count(sum.Rows, "row"), sum.Added, sum.Changed, sum.Unchanged)
}

func someOf(names []string) string {
	text := show.Safe(strings.Join(names[:min(len(names), mostListed)], ", "))
	if more := len(names) - mostListed; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}
