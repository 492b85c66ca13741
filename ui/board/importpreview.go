package board

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/species"
	"tubside/store/table"
	"tubside/ui/show"
)

// takeList shows what a list of plants would bring in, before anything is
// written, and takes it in.
type takeList struct {
	desk   *desk
	path   string
	opt    table.ReadOptions
	fact   *model.Import
	sum    table.Summary
	faults table.Faults
	wide   laidFor // what it was laid out for
	text   scroll
}

// newTakeList reads a list of plants; a file that cannot be read at all is an
// error.
func newTakeList(d *desk, path string) (*takeList, error) {
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		home, _ := os.UserHomeDir()
		path = filepath.Join(home, rest)
	}
	l := &takeList{desk: d, path: path}
	return l, l.read()
}

// listForm asks where the list is.
func listForm(d *desk) *form {
	return newForm(d, "Bring in a list of plants", func(f *form) error {
		l, err := newTakeList(d, f.text(0))
		if err != nil {
			return wrong(0, err)
		}
		d.push(l)
		return nil
	}, newField("file", newestList(), "a spreadsheet saved as CSV; you see what comes in before anything is written"))
}

// read reads the file as it is to be read now, and works out what it would change.
func (l *takeList) read() error {
	f, err := os.Open(l.path)
	if err != nil {
		return &model.Problem{What: "there is no list to read at " + l.path, Do: "give the path of a CSV file"}
	}
	defer f.Close()
	l.fact, l.sum, l.faults = nil, table.Summary{}, nil
	l.opt.Today = date.NewAt(l.desk.now.In(l.desk.book.Zone()))
	sheet, err := table.Read(f, l.opt)
	l.sum.Unused, l.sum.Sums = sheet.Unused, sheet.Sums
	if err == nil {
		l.fact, l.sum, err = table.Plan(l.desk.book, sheet, l.desk.now)
	}
	if err != nil && !errors.As(err, &l.faults) {
		return err
	}
	l.layOut()
	return nil
}

func (l *takeList) lead() string { return "" }

func (l *takeList) groups() []group {
	nothing := func() string {
		switch {
		case len(l.faults) > 0:
			if table.NoName(l.faults) == len(l.faults) {
				return "Nothing is taken while a line names no plant: x leaves those out"
			}
			switch hopeless := slices.ContainsFunc(l.faults, func(f table.Fault) bool { return !table.Answerable(f) }); {
			case hopeless:
				return "Nothing is taken while a cell cannot be read: e leaves those empty"
			case l.asks(table.WhichFirst):
				return "Nothing is taken while days can be read two ways: d day first, m month first"
			}
			return "Nothing is taken while days have no year: t takes the latest such day"
		case !l.sum.Changes():
			return "Everything in the list is already in the book"
		}
		return ""
	}
	cells := func() string {
		if len(l.sum.Left) == 0 && !slices.ContainsFunc(l.faults, func(f table.Fault) bool { return f.Field != "" }) {
			return "Every cell can be read as it is"
		}
		return ""
	}
	hopeless := func() string {
		if l.opt.LeaveEmpty || !slices.ContainsFunc(l.faults, func(f table.Fault) bool { return f.Field != "" && !table.Answerable(f) }) {
			return "No cell is beyond reading"
		}
		return ""
	}
	noYear := func() string {
		if !l.asks(table.WhichYear) {
			return "Every day has its year"
		}
		return ""
	}
	unnamed := func() string {
		if table.NoName(l.faults) == 0 && len(l.sum.Sums) == 0 {
			return "Every line is a plant"
		}
		return ""
	}
	notes := func() string {
		switch {
		case len(l.sum.NoSoak) == 0:
			return "No note says not to soak a plant"
		case l.opt.MistOnly:
			return "They are mist only already"
		}
		return ""
	}
	return []group{{"A list", append([]binding{
		act("enter", "bring it in", l.take).unless(nothing).foot("bring it in"),
		act("e", "leave cells empty that cannot be read, their words go into the note",
			func() { l.opt.LeaveEmpty = true; l.again("Those cells are left empty") }).unless(hopeless).foot("leave those empty"),
		act("t", "days without a year are the latest such day",
			func() { l.opt.Yearless = true; l.again("Days without a year are the latest such day") }).unless(noYear).foot("this year"),
		act("x", "leave out the lines that are no plant",
			func() { l.opt.LeaveOut = true; l.again("Lines that are no plant are left out") }).unless(unnamed).foot("leave those lines out"),
		act("y", "make those mist only whose note says not to soak them",
			func() { l.opt.MistOnly = true; l.again("Those are mist only: never pulled, never planned") }).unless(notes).foot("mist only"),
		act("d", "days are written day first", func() { l.opt.Dates = model.DMY; l.again("Dates are read day first: 3/4 is 3 April") }).unless(cells).foot("day first"),
		act("m", "days are written month first", func() { l.opt.Dates = model.MDY; l.again("Dates are read month first: 3/4 is 4 March") }).unless(cells).foot("month first"),
		act("r", "read the file again, after you have mended it", func() { l.again("Read again") }).foot("read again"),
		act("esc", "cancel, nothing is written", func() { l.desk.drop(l); l.desk.say("Nothing written") }).foot("cancel"),
	}, l.text.keys()...)}}
}

// asks reports whether there are cells that an answer would make readable.
func (l *takeList) asks(answer string) bool {
	return slices.ContainsFunc(l.faults, func(f table.Fault) bool { return f.Do == answer })
}

// again reads the file anew, and says how it is read now.
func (l *takeList) again(how string) {
	if err := l.read(); err != nil {
		l.desk.complain(err)
		return
	}
	l.desk.say("%s", how)
}

// take writes the list into the book, as one entry.
func (l *takeList) take() {
	l.fact.File = filepath.Base(l.path)
	if l.desk.enter(l.fact) {
		l.desk.drop(l)
	}
}

// layOut breaks the lines for the window.
func (l *takeList) layOut() {
	l.wide = l.desk.laid()
	l.text.set(l.words())
}

// words say what the list would do.
func (l *takeList) words() []string {
	var lines []string
	add := func(paint paint, format string, args ...any) {
		for _, line := range wrap(fmt.Sprintf(format, args...), l.desk.width-6) {
			lines = append(lines, "   "+paint.of(line))
		}
	}
	if len(l.sum.Unused) > 0 {
		add(l.desk.theme.warn, "Columns not used: %s", strings.Join(l.sum.Unused, ", "))
	}
	for _, f := range l.sum.Sums {
		add(l.desk.theme.warn, "%s: x leaves it out", f)
	}
	if n := len(l.faults); n > 0 {
		add(l.desk.theme.alarm, "%s cannot be read, so nothing is taken yet:", show.Count(n, "cell"))
		for _, words := range l.faults.Grouped() {
			add(l.desk.theme.plain, "%s", answerKeys.Replace(words))
		}
		return lines
	}
	add(l.desk.theme.title, "%s: %s", show.Count(l.sum.Rows, "plant"), l.counts())
	if words := l.sum.NoSoakWords(); words != "" && l.opt.MistOnly {
		add(l.desk.theme.plain, "Mist only: %s", words)
	} else if words != "" {
		add(l.desk.theme.warn, "Never soak these, as their notes say? y makes them mist only: %s", words)
	}
	if n := l.sum.AssumedForm + l.sum.AssumedLeaf + l.sum.AssumedSize; n > 0 {
		add(l.desk.theme.plain, "Filled in from the species list: form of %d, leaf of %d, size of %d", l.sum.AssumedForm,
			l.sum.AssumedLeaf, l.sum.AssumedSize)
	}
	if n := len(l.sum.Left); n > 0 {
		add(l.desk.theme.warn, "%s left empty; what they say goes into the note:", show.Count(n, "cell"))
		for _, words := range l.sum.Left.Grouped() {
			add(l.desk.theme.warn, "  %s", words)
		}
	}
	for _, f := range l.sum.Out {
		add(l.desk.theme.warn, "Left out: %s", f)
	}
	if len(l.sum.Unknown) > 0 {
		add(l.desk.theme.plain, "Not on the species list: %s", strings.Join(species.Unlisted(l.sum.Unknown), ", "))
	}
	for _, w := range l.sum.Warnings {
		add(l.desk.theme.warn, "%s", w)
	}
	lines = append(lines, "")
	if l.sum.AssumedForm+l.sum.AssumedLeaf > 0 {
		add(l.desk.theme.quiet, "A word with a ? is not from your list: it comes from the species list")
	}
	home, name := 0, 0
	for _, p := range l.fact.Added {
		home, name = max(home, show.Width(show.Safe(p.Home.String()))), max(name, show.Width(show.Title(p)))
	}
	for _, p := range l.fact.Added {
		line := show.Pad(show.Safe(p.Home.String()), min(home, l.desk.width/4)) + "  " + show.PadName(show.Title(p), min(name, l.desk.width/3)) + "  " + show.Form(p)
		lines = append(lines, "   "+l.desk.theme.quiet.of(show.Fit(line, l.desk.width-6)))
	}
	return lines
}

// answerKeys are the keys that make cells readable.
var answerKeys = strings.NewReplacer(table.WhichYear, "t takes the latest such day", table.WhichFirst, "d day first, m month first")

// counts says how many plants of the list are new, changed, and in the book as they
// stand in it.
func (l *takeList) counts() string {
	var parts []string
	for _, c := range []struct {
		n    int
		what string
	}{{l.sum.Added, "new"}, {l.sum.Changed, "changed"}, {l.sum.Unchanged, "already in the book"}} {
		if c.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", c.n, c.what))
		}
	}
	return strings.Join(parts, ", ")
}

// previewHead is how many lines stand above what the list would do.
const previewHead = 3

func (l *takeList) draw(p *page, height int) {
	if l.wide != l.desk.laid() {
		l.layOut()
	}
	p.line("")
	p.line(l.desk.heading(show.Safe(filepath.Base(l.path)), "nothing is written yet "))
	p.line("")
	l.text.draw(p, l.desk.width, height-previewHead)
}
