// Package command is the shell: every command, with a table for people and
// JSON for scripts.
package command

import (
	"cmp"
	"io"
	"runtime/debug"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/feed"
	"tubside/ui/show"

	"github.com/charmbracelet/x/ansi"
	"github.com/spf13/cobra"
)

// Env is what a command sees of the world.
type Env struct {
	Args     []string // without the program's name
	In       io.Reader
	Out, Err io.Writer
	Clock    func() time.Time
	Getenv   func(string) string
	// Tick is heard every so often, for what goes on until it is stopped.
	Tick func(time.Duration) <-chan time.Time
	// Cache is the folder for what can be worked out again, and State that for what
	// tells of the program itself; "" for none.
	Cache, State string
}

// Main runs one command line and returns its exit code: 0 done, 1 failed, 2
// wrong usage, 3 book in use, 4 bad input file, 5 book damaged, 6 written but not
// confirmed.
func Main(env Env) int {
	r := &run{env: env}
	root := r.root()
	err := r.execute(root)
	if err != nil && !r.began {
		err = &usageError{err}
	}
	tell(env.Err, err)
	return exitCode(err)
}

// root is the whole tree of commands.
func (r *run) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "tubside",
		Short: "the board beside the tub: what to soak, how long, what is drying, where it hangs",
		Long: `tubside keeps the logbook of a collection of air plants: which plants are
thirsty and why, how long each should soak, what is drying and until when, and
where each one hangs. Without a command it opens the board.

Plants are named by number (17), range (12-40), shelf (shelf:A), load (load:3),
or by how they stand: pulled, soaking, drying, dry, bloom, rot, new, trouble,
offsets, fading, all.

Exit codes: 0 done, 1 failed, 2 wrong usage, 3 book in use, 4 bad input file,
5 book damaged, 6 written but not confirmed by the disk. A warning with exit
code 0 means that the entry was written: do not enter it again.`,
		Version:       version(),
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE:          r.board,

		SuggestionsMinimumDistance: 1, // a letter: more makes book of foo
	}
	root.SetArgs(r.env.Args)
	root.SetIn(r.env.In)
	root.SetOut(r.env.Out)
	root.SetErr(r.env.Err)
	flags := root.PersistentFlags()
	flags.StringVar(&r.path, "book", "", "`file` of the book (or TUBSIDE_BOOK)")
	flags.Var(&r.fixed, "now", "a `time` to stand in for the clock, RFC 3339 (or TUBSIDE_NOW)")
	flags.BoolVar(&r.json, "json", false, "answer in JSON")
	flags.BoolVar(&r.ascii, "ascii", false, "use no signs beyond ASCII (or TUBSIDE_ASCII=1)")
	root.Flags().StringVar(&r.plain, "plain", "", "what the board shows as plain lines, for a screen reader: all screens, or one `SCREEN`")
	root.Flags().Lookup("plain").NoOptDefVal = allScreens
	root.AddCommand(
		r.forecast(), r.room(),
		r.triage(), r.drying(), r.air(), r.enter(), r.demoCommand(), r.log(), r.sheet(),
		r.importFile(), r.export(), r.bookCommand(), r.rules(), r.ledger(), r.labels(),
		r.rounds(), r.weighing(), r.water(), r.dose(), r.plan(), r.week(),
	)
	root.AddCommand(r.guide(), r.man())
	r.completions(root)
	r.markBeginning(root)
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return lessThanNothing(err) })
	return root
}

// markBeginning makes every command note that its words were understood, so
// that what goes wrong before that is wrong usage.
func (r *run) markBeginning(c *cobra.Command) {
	for _, sub := range c.Commands() {
		r.markBeginning(sub)
	}
	inner := c.RunE
	if inner == nil {
		return
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		if err := r.readEnv(); err != nil {
			return err
		}
		r.began = true
		return inner(c, args)
	}
}

// The version and the commit of a release, put in by the linker; see .ci/release.
var release, commit string

// version is the release with its commit, as far as they are known: a build by
// hand knows its commit where Go could ask for it.
func version() string {
	name, from := release, commit
	if info, ok := debug.ReadBuildInfo(); ok {
		if v := info.Main.Version; name == "" && v != "(devel)" {
			name = v
		}
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" && from == "" {
				from = s.Value
			}
		}
	}
	if from == "" {
		from = "unknown"
	}
	return cmp.Or(name, "devel") + ", commit " + from[:min(len(from), 12)]
}

// wants says what a command's words should be, and why these are not they.
func wants(low, high int, what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		return arity{low, high, what}.check(strings.TrimPrefix(c.CommandPath(), c.Root().Name()+" "), args)
	}
}

// many is the high end of [wants] without one.
const many = -1

var nothing = wants(0, 0, "it takes flags only")

// The cautions that stand in the help of what can hurt.
const (
	feedCaution      = feed.Caution
	pesticideCaution = show.PesticideCaution
	disinfectCaution = show.DisinfectCaution
)

// wrapped is a caution under its heading, as wide as help is.
func wrapped(head, text string) string { return ansi.Wordwrap(head+": "+text, pipedWidth, "") + "\n" }

// headed is words under their heading, as wide as help is or the terminal, if that is
// narrower.
func (r *run) headed(head, text string) string {
	return ansi.Wordwrap(head+": "+text, min(pipedWidth, r.width()), "") + "\n"
}

// onShelf refuses a shelf that holds no plants: a slip of the keys would answer
// with an empty table, which reads as if nothing were due. No shelf is all. A
// script is answered with an empty list, which it can tell from one with plants.
func (r *run) onShelf(b *model.Book, shelf string) error {
	if shelf == "" || r.json {
		return nil
	}
	_, err := b.Choose("shelf:" + shelf)
	return err
}
