package command

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/advice"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// sheetQuestion says which sheet to write.
type sheetQuestion struct {
	kind, file, shelf string
	plants            []string
	pages, force      bool
}

// sheetAnswer is what was written.
type sheetAnswer struct {
	File  string `json:"file"`
	Sheet string `json:"sheet"`
}

// sheet writes a sheet to walk with.
func (r *run) sheet() *cobra.Command {
	var q sheetQuestion
	c := &cobra.Command{
		Use:   "sheet triage|check|rehang|weigh FILE [PLANTS...]",
		Short: "a sheet to walk with: triage with boxes, what is ready to check, what to hang back",
		Long: `A sheet to print or to carry on a phone, as plain text (FILE.txt) or as a page
that needs nothing beside itself (FILE.html):

  triage  the plants in walking order, what each is expected to need, and boxes
          for bloom, rot, curl, tips, shift and pull; all, or the plants named
  check   what is probably dry and nobody has felt yet
  rehang  what is dry, shelf by shelf
  weigh   the ten that are weighed, with boxes for grams`,
		Example: "  tubside sheet triage saturday.html --shelf A\n  tubside sheet rehang hang.txt",
		Args:    wants(2, many, "say which sheet, triage, check, rehang or weigh, and the file to write"),
		RunE: func(_ *cobra.Command, args []string) error {
			q.kind, q.file, q.plants = strings.ToLower(args[0]), args[1], args[2:]
			if err := q.check(); err != nil {
				return misread(err)
			}
			return r.look(func(s *store.Store) error { return r.saySheet(s.Book(), &q) })
		},
	}
	c.Flags().StringVar(&q.shelf, "shelf", "", "triage: only plants of this `shelf`")
	c.Flags().BoolVar(&q.pages, "pages", false, "triage: each shelf on a page of its own")
	c.Flags().BoolVar(&q.force, "force", false, "replace the file if there is one")
	return c
}

func (q *sheetQuestion) check() error {
	switch {
	case !slices.Contains([]string{"triage", "check", "rehang", "weigh"}, q.kind):
		return &model.Problem{What: fmt.Sprintf("there is no sheet %q", q.kind), Do: "say triage, check, rehang or weigh"}
	case q.kind != "triage" && (len(q.plants) > 0 || q.shelf != "" || q.pages):
		return &model.Problem{What: "plants, --shelf and --pages are for triage", Do: "leave them out"}
	case q.shelf != "" && len(q.plants) > 0:
		return &model.Problem{What: "plants named, and --shelf", Do: "give one of them"}
	}
	return nil
}

func (r *run) saySheet(b *model.Book, q *sheetQuestion) error {
	k := r.keeper(b)
	outlook := advice.Look(k, r.now())
	var s *paper.Sheet
	switch q.kind {
	case "check":
		s = paper.CheckSheet(b, outlook)
	case "weigh":
		s = paper.ScaleSheet(b, advice.NewRound(k, advice.WeighRound, r.now()))
	case "rehang":
		s = paper.RehangSheet(b, r.now())
	default:
		ids, err := q.choose(b)
		if err != nil {
			return err
		}
		s = paper.TriageSheet(b, outlook, ids, q.pages)
	}
	if err := r.writeSheet(q.file, s, q.force); err != nil || q.file == toStandardOut {
		return err
	}
	if r.json {
		return r.inJSON(sheetAnswer{q.file, q.kind})
	}
	return r.say("the sheet is in %s", show.Safe(q.file))
}

// choose lists the plants of a triage sheet: those named, or all that are here.
func (q *sheetQuestion) choose(b *model.Book) (model.IDs, error) {
	switch {
	case q.shelf != "":
		return b.Choose("shelf:" + q.shelf)
	case len(q.plants) > 0:
		return b.Choose(q.plants...)
	}
	return b.Choose("all")
}

// toStandardOut stands for a file where what is written is printed.
const toStandardOut = "-"

// writeSheet writes a sheet to a file, as the end of its name says, or prints it.
func (r *run) writeSheet(path string, s *paper.Sheet, force bool) error {
	text := ""
	switch ext := strings.ToLower(filepath.Ext(path)); {
	case path == toStandardOut:
		return r.print(s.Text())
	case ext == ".txt":
		if text = s.Text(); r.ascii {
			text = show.ASCII(text)
		}
	case ext == ".html" || ext == ".htm":
		var err error
		if text, err = s.HTML(); err != nil {
			return err
		}
	default:
		return misread(&model.Problem{
			What: fmt.Sprintf("a sheet in %q", path),
			Do:   "let the name end in .txt or .html, or be - to print it here",
		})
	}
	return newFile(path, text, force)
}
