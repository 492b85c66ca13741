package command

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/store/table"
	"tubside/ui/show"
)

// exportedAnswer is a file that was written.
type exportedAnswer struct {
	Exported string `json:"exported"`
}

func (r *run) export() *cobra.Command {
	var all, force bool
	c := &cobra.Command{
		Use:   "export [FILE]",
		Short: "the collection as CSV, in the columns that import reads",
		Long: `The collection as CSV, in the columns that import reads, to FILE or to standard
output (none, or -). A file that is already there stays unless --force is given.`,
		Args:    wants(0, 1, "name one file, or - for standard output"),
		Example: "  tubside export plants.csv\n  tubside export --all - > all.csv",
		RunE: func(_ *cobra.Command, args []string) error {
			opt := table.WriteOptions{All: all}
			return r.look(func(s *store.Store) error {
				if len(args) == 0 || args[0] == "-" {
					return table.Write(r.env.Out, s.Book(), opt)
				}
				return r.exportTo(args[0], force, s.Book(), opt)
			})
		},
	}
	c.Flags().BoolVar(&all, "all", false, "plants that are gone too")
	c.Flags().BoolVar(&force, "force", false, "replace the file if there is one")
	return c
}

// exportTo writes a file that is there whole or not at all.
func (r *run) exportTo(path string, force bool, b *model.Book, opt table.WriteOptions) error {
	err := whole(path, force, func(w io.Writer) error { return table.Write(w, b, opt) })
	if err != nil {
		return fmt.Errorf("export to %s: %w", path, err)
	}
	if r.json {
		return r.inJSON(exportedAnswer{path})
	}
	return r.say("exported to %s", show.Safe(path))
}
