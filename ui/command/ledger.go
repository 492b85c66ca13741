package command

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/accounts"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// ledgerQuestion is the period asked for, and the file to write it to.
type ledgerQuestion struct {
	year        int
	from, until string
	html        string
	force       bool
}

func (r *run) ledger() *cobra.Command {
	var q ledgerQuestion
	c := &cobra.Command{
		Use:   "ledger [--year 2026 | --from DAY --until DAY] [--html FILE]",
		Short: "what came and went and why, how long plants last, what followed a soak, what it took",
		Long: `The account of a period: what came and went by form, shelf, month and cause; how
long plants last; suspected rot set beside soak minutes and drying hours; soak
intervals kept; hours, water and feed. Without a period it is the last twelve
months. --html writes one file with charts that needs nothing beside itself.`,
		Example: `  tubside ledger --year 2026
  tubside ledger --from 2026-03-01 --until 2026-05-31 --html spring.html`,
		Args: nothing,
		RunE: func(*cobra.Command, []string) error {
			p, err := q.period(r.now())
			if err != nil {
				return misread(err)
			}
			return r.look(func(s *store.Store) error { return r.sayLedger(s.Book(), p, q) })
		},
	}
	flags := c.Flags()
	flags.IntVar(&q.year, "year", 0, "a calendar `year`")
	flags.StringVar(&q.from, "from", "", "the first `day`, 2026-01-31")
	flags.StringVar(&q.until, "until", "", "the last `day`; today when not said")
	flags.StringVar(&q.html, "html", "", "write it to `file` as a page with charts")
	flags.BoolVar(&q.force, "force", false, "replace the file if there is one")
	c.MarkFlagsMutuallyExclusive("year", "from")
	c.MarkFlagsMutuallyExclusive("year", "until")
	return c
}

// span is a period: its beginning counts, its end does not.
type span struct{ from, until time.Time }

// period reads the period; it never reaches past now.
func (q *ledgerQuestion) period(now time.Time) (p span, err error) {
	y, m, d := now.Date()
	p = span{time.Date(y-1, m, d, 0, 0, 0, 0, time.Local), now}
	if q.year != 0 {
		if q.year < 1900 || q.year > 9999 {
			return p, &model.Problem{What: fmt.Sprintf("the year %d", q.year), Do: "write it in four digits"}
		}
		p = span{time.Date(q.year, 1, 1, 0, 0, 0, 0, time.Local), time.Date(q.year+1, 1, 1, 0, 0, 0, 0, time.Local)}
	}
	if q.until != "" {
		if p.until, err = midnight(q.until, 1); err != nil {
			return p, fmt.Errorf("--until: %w", err)
		}
		p.from = p.until.AddDate(-1, 0, 0)
	}
	if q.from != "" {
		if p.from, err = midnight(q.from, 0); err != nil {
			return p, fmt.Errorf("--from: %w", err)
		}
	}
	if p.until.After(now) {
		p.until = now
	}
	if !p.from.Before(p.until) {
		return p, &model.Problem{What: "a period that is still to come, or ends before it begins", Do: "check the days"}
	}
	return p, nil
}

// midnight is when a day begins, some days later.
func midnight(text string, later int) (time.Time, error) {
	d, err := model.ParseDay(text, model.ISO)
	if err != nil {
		return time.Time{}, err
	}
	y, m, day := d.Date()
	return time.Date(y, m, day+later, 0, 0, 0, 0, time.Local), nil
}

func (r *run) sayLedger(b *model.Book, p span, q ledgerQuestion) error {
	l, err := accounts.Of(b, p.from, p.until)
	if err != nil {
		return err
	}
	if q.html != "" {
		page, err := paper.YearSheet(l, b).HTML()
		if err != nil {
			return err
		}
		if err := newFile(q.html, page, q.force); err != nil {
			return err
		}
	}
	switch {
	case r.json:
		return r.inJSON(answerLedger(l, b))
	case q.html != "":
		return r.say("wrote the ledger to %s", show.Safe(q.html))
	}
	return r.print(paper.YearSheet(l, b).Within(r.width()))
}
