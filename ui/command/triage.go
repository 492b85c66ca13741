package command

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// needAnswer is what one plant needs now. Water contents are shares of 1.
type needAnswer struct {
	ID        model.ID   `json:"id"`
	Label     string     `json:"label"`
	Shelf     string     `json:"shelf"`
	Spot      string     `json:"spot"`
	Form      model.Form `json:"form"`
	Leaf      model.Leaf `json:"leaf"`
	State     standing   `json:"state"`
	DaysSince *int       `json:"days_since_soak"` // null when nobody knows
	RWC       float64    `json:"rwc"`
	Low       float64    `json:"rwc_low"`
	High      float64    `json:"rwc_high"`
	Band      soak.Band  `json:"band"`
	From      float64    `json:"minutes_from"` // the shortest soak that does it
	To        float64    `json:"minutes_to"`   // the longest it may have
	Again     bool       `json:"again,omitempty"`
	LookFirst bool       `json:"look_first,omitempty"`
	// Signs are as last seen since the last soak; absent when none were.
	Signs   *model.Signs `json:"signs,omitempty"`
	SignsAt *time.Time   `json:"signs_at,omitempty"`
	Reasons []string     `json:"reasons"`
}

// standing is where a plant is, in the words of [show.State]: that of its state,
// or "pulled" where it waits beside the water.
type standing string

func standingOf(b *model.Book, row *model.Row) standing { return standing(show.State(row, b)) }

// triageQuestion says which plants to list, and how.
type triageQuestion struct {
	shelf, order string
	bands        []string
	limit        int
}

func (r *run) triage() *cobra.Command {
	var q triageQuestion
	c := &cobra.Command{
		Use:   "triage [PLANTS...]",
		Short: "what each plant needs now and why, the thirstiest first",
		Long: `What each plant needs now and why, the thirstiest first: all of them, or those
named by number, range, shelf:A, load:3, or by how they stand: bloom, rot, new,
trouble, offsets, fading and so on.`,
		Example: `  tubside triage --band long,deep --order shelf
  tubside triage trouble new --json
  tubside triage --shelf A --limit 20 --json`,
		RunE: func(_ *cobra.Command, words []string) error {
			pick, err := q.read()
			if err != nil {
				return misread(err)
			}
			return r.look(func(s *store.Store) error {
				if err := r.onShelf(s.Book(), q.shelf); err != nil {
					return err
				}
				if pick, err = pick.among(s.Book(), words); err != nil {
					return err
				}
				return r.sayTriage(s.Book(), pick)
			})
		},
	}
	flags := c.Flags()
	flags.StringVar(&q.shelf, "shelf", "", "only plants of this `shelf`")
	flags.StringSliceVar(&q.bands, "band", nil, "only these bands, by name or letter: `long,deep`")
	flags.StringVar(&q.order, "order", "urgency", "`urgency`, shelf or band")
	flags.IntVar(&q.limit, "limit", 0, "at most `N` plants; 0 is all")
	return c
}

// pick is a triage question understood.
type pick struct {
	keep  func(*model.Row, advice.Need) bool
	order func(b *model.Book, x, y advice.Need) int
	limit int
}

func (q *triageQuestion) read() (pick, error) {
	order, ok := orders[strings.ToLower(q.order)]
	if !ok {
		return pick{}, &model.Problem{
			What: fmt.Sprintf("there is no order %q", q.order),
			Do:   "use urgency, shelf or band",
		}
	}
	if q.limit < 0 {
		return pick{}, &model.Problem{
			What: fmt.Sprintf("a limit of %d", q.limit),
			Do:   "give how many plants to list, or 0 for all",
		}
	}
	bands, err := readBands(q.bands)
	keep := func(row *model.Row, n advice.Need) bool {
		return (q.shelf == "" || strings.EqualFold(row.Home.Shelf, q.shelf)) &&
			(len(bands) == 0 || slices.Contains(bands, n.Band))
	}
	return pick{keep, order, q.limit}, err
}

// among keeps to the plants named; no words keep all.
func (p pick) among(b *model.Book, words []string) (pick, error) {
	if len(words) == 0 {
		return p, nil
	}
	ids, err := b.Choose(words...)
	if err != nil {
		return p, err
	}
	named := make(map[model.ID]bool, len(ids))
	for _, id := range ids {
		named[id] = true
	}
	keep := p.keep
	p.keep = func(row *model.Row, n advice.Need) bool { return named[row.ID] && keep(row, n) }
	return p, nil
}

// readBands reads bands by name or letter, in either case.
func readBands(words []string) ([]soak.Band, error) {
	var bands []soak.Band
	for _, word := range words {
		word = strings.TrimSpace(word)
		i := slices.IndexFunc(soak.Bands, func(b soak.Band) bool {
			return strings.EqualFold(b.String(), word) || strings.EqualFold(b.Letter(), word)
		})
		if i < 0 {
			return nil, &model.Problem{
				What: fmt.Sprintf("there is no band %q", word),
				Do:   "use rest, mist, dip, short, long, deep or overnight",
			}
		}
		bands = append(bands, soak.Bands[i])
	}
	return bands, nil
}

// orders are the ways to sort a triage. Plants off their shelf need nothing for
// now, and come last in all but the walk.
var orders = map[string]func(b *model.Book, x, y advice.Need) int{
	"urgency": advice.Thirstier,
	"shelf":   func(b *model.Book, x, y advice.Need) int { return b.Row(x.ID).WalkCompare(b.Row(y.ID)) },
	"band": func(b *model.Book, x, y advice.Need) int {
		return cmp.Or(cmp.Compare(y.Band, x.Band), advice.Thirstier(b, x, y))
	},
}

// from lists the needs asked for.
func (p pick) from(b *model.Book, o *advice.Outlook) []advice.Need {
	var needs []advice.Need
	for _, n := range o.Needs {
		if p.keep(b.Row(n.ID), n) {
			needs = append(needs, n)
		}
	}
	slices.SortFunc(needs, func(x, y advice.Need) int { return p.order(b, x, y) })
	if p.limit > 0 && len(needs) > p.limit {
		needs = needs[:p.limit]
	}
	return needs
}

func (r *run) sayTriage(b *model.Book, p pick) error {
	needs := p.from(b, advice.Look(r.keeper(b), r.now()))
	if r.json {
		answers := []needAnswer{}
		for _, n := range needs {
			answers = append(answers, r.answerNeed(b, n))
		}
		return r.inJSON(answers)
	}
	t := paper.Table{Columns: []paper.Column{
		{Head: "id", Right: true}, {Head: "plant", Least: 12}, {Head: "home", Least: 6}, {Head: "state"},
		{Head: "thirst", Right: true}, {Head: "soak"}, {Head: "why", Least: 16},
	}}
	for _, n := range needs {
		row := b.Row(n.ID)
		t.Add(n.ID.String(), row.Title(), row.Home.String(), show.State(row, b),
			show.Percent(n.Thirst()), show.Band(n.Band, n.From, n.To), r.about(b, row).First(n.Reasons))
	}
	return r.table(&t)
}

func (r *run) answerNeed(b *model.Book, n advice.Need) needAnswer {
	row := b.Row(n.ID)
	a := needAnswer{
		ID: n.ID, Label: label(row), Shelf: row.Home.Shelf, Spot: row.Home.Spot, Form: row.Form, Leaf: row.Leaf,
		State: standingOf(b, row), RWC: round(n.RWC, 4), Low: round(n.Low, 4), High: round(n.High, 4), Band: n.Band,
		From: round(n.From, 1), To: round(n.To, 1), Again: n.Again, LookFirst: n.LookFirst,
		Reasons: r.about(b, row).Reasons(n.Reasons),
	}
	if n.Signs.Seen() {
		a.Signs, a.SignsAt = &n.Signs, when(n.SignsAt)
	}
	if n.DaysSince >= 0 {
		a.DaysSince = &n.DaysSince
	}
	return a
}

// label is what stands on the tag, or the name where nothing does.
func label(row *model.Row) string { return cmp.Or(row.Label, row.Name) }

// about is what reasons are about; no row, no plant.
func (r *run) about(b *model.Book, row *model.Row) show.About {
	return show.About{Book: b, Row: row, Now: r.now()}
}
