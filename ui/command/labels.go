package command

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// labelsQuestion says which labels to print, and how.
type labelsQuestion struct {
	shelf, since, size, paper string
	force                     bool
}

// labelsAnswer is what was written.
type labelsAnswer struct {
	File   string `json:"file"`
	Labels int    `json:"labels"`
	Papers int    `json:"papers"`
	Cut    int    `json:"cut"`   // labels with a line that does not fit
	Codes  bool   `json:"codes"` // there is room for a code to scan
}

func (r *run) labels() *cobra.Command {
	var q labelsQuestion
	c := &cobra.Command{
		Use:   "labels FILE.html [PLANTS...]",
		Short: "labels to print: number, home, tag, name as received and what it was renamed to",
		Long: `Labels to print, in walking order: number, home, tag, name as received and what
it was renamed to, and a code to scan. Without plants they are for all. Print the page at 100 %
and cut along the dashes. A scanner that types what it reads types % and the
number, then Enter.`,
		Example: `  tubside labels labels.html --shelf A
  tubside labels new.html --new 2026-01-01 --size 50x20 --paper letter`,
		Args: wants(1, many, "name the file to write"),
		RunE: func(_ *cobra.Command, args []string) error {
			if q.shelf != "" && len(args) > 1 {
				return misread(errors.New("labels: name plants or give --shelf, not both"))
			}
			size, err := paper.ParseSize(q.size)
			if err != nil {
				return misread(fmt.Errorf("--size: %w", err))
			}
			sheet, err := paper.ParsePaper(q.paper)
			if err != nil {
				return misread(fmt.Errorf("--paper: %w", err))
			}
			since, err := q.sinceDay()
			if err != nil {
				return misread(fmt.Errorf("--new: %w", err))
			}
			return r.look(func(s *store.Store) error {
				some, err := q.choose(s.Book(), args[1:], since)
				if err != nil {
					return err
				}
				return r.printLabels(args[0], some, size, sheet, q.force)
			})
		},
	}
	flags := c.Flags()
	flags.StringVar(&q.shelf, "shelf", "", "only plants of this `shelf`")
	flags.StringVar(&q.since, "new", "", "only plants that came into the book since this `day`, 2026-01-31")
	flags.StringVar(&q.size, "size", paper.UsualLabel.String(), "width and height of a label in `mm`")
	flags.StringVar(&q.paper, "paper", "a4", "`a4` or letter")
	flags.BoolVar(&q.force, "force", false, "replace the file if there is one")
	return c
}

func (q *labelsQuestion) sinceDay() (time.Time, error) {
	if q.since == "" {
		return time.Time{}, nil
	}
	return midnight(q.since, 0)
}

// choose lists the labels asked for, in walking order.
func (q *labelsQuestion) choose(b *model.Book, words []string, since time.Time) ([]paper.Label, error) {
	if len(words) == 0 {
		words = []string{"all"}
	}
	if q.shelf != "" {
		words = []string{"shelf:" + q.shelf}
	}
	ids, err := b.Choose(words...)
	if err != nil {
		return nil, err
	}
	came := cameOn(b)
	var some []paper.Label
	for _, id := range b.Walk(ids) {
		if !came[id].Before(since) {
			some = append(some, paper.LabelOf(b.Row(id).Plant))
		}
	}
	if len(some) == 0 {
		return nil, &model.Problem{
			What: "no plants to print labels for",
			Do:   "name other plants, another shelf or an earlier day",
		}
	}
	return some, nil
}

// cameOn is when each plant came into the book.
func cameOn(b *model.Book) map[model.ID]time.Time {
	came := map[model.ID]time.Time{}
	for _, e := range b.Entries() {
		if b.Struck(e.Seq) {
			continue
		}
		var rows []model.Plant
		switch f := e.Fact.(type) {
		case *model.Add:
			rows = f.Plants
		case *model.Import:
			rows = f.Added
		case *model.Split:
			rows = []model.Plant{f.New}
		}
		for _, p := range rows {
			came[p.ID] = e.At
		}
	}
	return came
}

func (r *run) printLabels(path string, some []paper.Label, size, sheet paper.Size, force bool) error {
	p, err := paper.PrintLabels(some, size, sheet)
	if err != nil {
		return err
	}
	if err := newFile(path, p.HTML, force); err != nil {
		return err
	}
	if r.json {
		return r.inJSON(labelsAnswer{path, len(some), p.Papers, p.Cut, p.Codes})
	}
	err = r.say("wrote %s on %s to %s: print at 100 %%, without fitting to the page",
		show.Count(len(some), "label"), show.Count(p.Papers, "sheet"), show.Safe(path))
	if err == nil && !p.Codes {
		err = r.say("  too small for a code to scan: that takes 18 mm of height, and width to spare")
	}
	if err != nil || p.Cut == 0 {
		return err
	}
	return r.say("  %s a line that does not fit: give a wider --size", show.Count(p.Cut, "label has", "labels have"))
}
