package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tubside/demo"
	"tubside/model"
	"tubside/store"
)

// demoCommand opens the board on an invented collection, in a book that is
// thrown away unless it is to be kept.
func (r *run) demoCommand() *cobra.Command {
	var opt demo.Options
	var keep string
	c := &cobra.Command{
		Use:     "demo",
		Short:   "look around in an invented collection",
		Long:    "Opens the board on an invented collection with an invented past. Nothing you do\nthere touches your own book.\n\nScenes:\n" + sceneList(),
		Args:    nothing,
		Example: "  tubside demo --scene bench\n  tubside demo --keep demo.db --seed 7",
		RunE:    func(*cobra.Command, []string) error { return r.demo(opt, keep) },
	}
	c.Flags().StringVar(&opt.Scene, "scene", demo.Scenes[0].Name, "the `moment` to begin at")
	c.Flags().Uint64Var(&opt.Seed, "seed", 1, "a `number` that makes the collection")
	c.Flags().StringVar(&keep, "keep", "", "keep the book in this `file`")
	return c
}

func sceneList() string {
	var b strings.Builder
	for _, s := range demo.Scenes {
		fmt.Fprintf(&b, "  %-12s %s\n", s.Name, s.What)
	}
	return b.String()
}

func (r *run) demo(opt demo.Options, keep string) error {
	if keep == "" && !r.onTerminal() {
		return &model.Problem{
			What: "the demo's board needs a terminal",
			Do:   "without one, keep the book: tubside demo --keep demo.db",
		}
	}
	path := keep
	if keep == "" {
		folder, err := os.MkdirTemp("", "tubside-demo-")
		if err != nil {
			return fmt.Errorf("make room for the demo: %w", err)
		}
		defer os.RemoveAll(folder)
		path = filepath.Join(folder, "demo.db")
	} else if _, err := os.Stat(keep); !errors.Is(err, fs.ErrNotExist) {
		return &model.Problem{What: fmt.Sprintf("%s is there already", keep), Do: "name a file that is not there yet"}
	}
	return r.showDemo(path, opt, keep != "")
}

func (r *run) showDemo(path string, opt demo.Options, kept bool) error {
	opt.Now = r.now()
	s, err := store.Open(path, store.Options{Zone: opt.Now.Location(), Begin: true})
	if err != nil {
		return err
	}
	if _, err := demo.Build(s, opt); err != nil {
		err = errors.Join(err, s.Close())
		if kept {
			_ = os.Remove(path) // half a demo is of no use
		}
		return err
	}
	if r.onTerminal() {
		i := slices.IndexFunc(demo.Scenes, func(s demo.Scene) bool { return strings.EqualFold(s.Name, opt.Scene) })
		err = r.showDemoBoard(s, demo.Scenes[max(i, 0)].What)
	}
	err = errors.Join(err, s.Close())
	switch {
	case err == nil && kept:
		fmt.Fprintf(r.env.Out, "the demo is in %s: open it with tubside --book %s\n", path, path)
	case err == nil:
		fmt.Fprintln(r.env.Out, "That was a made-up collection. Start your own logbook with: tubside")
	}
	return err
}
