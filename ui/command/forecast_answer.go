package command

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/model/trip"
	"tubside/ui/paper"
	"tubside/ui/show"

	"github.com/charmbracelet/x/ansi"
)

// sayTripLines says a trip to a person: what it comes to, then plant by plant.
func (r *run) sayTripLines(b *model.Book, trip *trip.Forecast, job trip.Job, left []trip.Left, q tripQuestion, wrote *model.Entry) error {
	var lines []string
	if wrote != nil {
		lines = append(lines, fmt.Sprintf("wrote %d: %s", wrote.Seq, show.Sentence(*wrote, b)))
	}
	lines = append(lines, show.Trip(b, trip)...)
	lines = append(lines, jobWords(job, b))
	if q.sitter != "" {
		lines = append(lines, "wrote the sitter's sheet to "+show.Safe(q.sitter))
	}
	for _, line := range lines {
		if err := r.wrap(line); err != nil {
			return err
		}
	}
	if err := r.say(""); err != nil {
		return err
	}
	return r.table(leftTable(b, left))
}

func jobWords(job trip.Job, b *model.Book) string {
	if len(job.Plants) == 0 && job.Left == 0 {
		return "for a sitter: nothing to water; a look halfway is enough"
	}
	var parts []string
	if len(job.Plants) > 0 {
		days := make([]string, len(job.Days))
		for i, d := range job.Days {
			days[i] = d.In(b.Zone()).Format("2 Jan")
		}
		parts = append(parts, fmt.Sprintf("one soak of %s for %s, on %s", show.Count(len(job.Plants), "plant"),
			show.Minutes(job.Minutes), strings.Join(days, ", ")))
	}
	if job.Left > 0 {
		parts = append(parts, fmt.Sprintf("%s may come to harm and are not for a sitter: too many, too soon, or plants that hold water", show.Count(job.Left, "plant")))
	}
	return "for a sitter: " + strings.Join(parts, "; ")
}

// wrap says a sentence on as many lines as it needs. Days such as 2026-01-31
// stay whole: hyphens are kept from the library, which breaks lines after them.
func (r *run) wrap(text string) error {
	const hyphen, kept = "-", "\u2011"
	lines := ansi.Wordwrap(strings.ReplaceAll(show.Line(text), hyphen, kept), r.width()-2, "")
	return r.say("%s", strings.NewReplacer(kept, hyphen, "\n", "\n  ").Replace(lines))
}

func leftTable(b *model.Book, left []trip.Left) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{
		{Head: "id", Right: true}, {Head: "plant", Least: 10}, {Head: "home", Least: 8},
		{Head: "gone", Right: true}, {Head: "meanwhile"}, {Head: "before you go", Least: 31},
	}}
	for _, l := range left {
		row := b.Row(l.ID)
		t.Add(l.ID.String(), row.Title(), row.Home.String(), show.Percent(l.Return.Thirst()), crossed(l.Lines, b),
			beforeYouGo(l, b))
	}
	return t
}

// crossed is the worst that comes to a plant left alone, and the day.
func crossed(l trip.Lines, b *model.Book) string {
	for _, line := range []struct {
		at   time.Time
		name string
	}{{l.Injury, "harm"}, {l.HalfGone, "half"}, {l.Soak, "soak"}} {
		if !line.at.IsZero() {
			return line.name + " " + line.at.In(b.Zone()).Format("2 Jan")
		}
	}
	return ""
}

// beforeYouGo is what to do with a plant before leaving: how long to soak it, and
// when it must be out by.
func beforeYouGo(l trip.Left, b *model.Book) string {
	if s := l.Last; s != nil {
		return fmt.Sprintf("%s, out %s", show.Soak(s.From, s.To), s.OutBy.In(b.Zone()).Format("Mon 15:04"))
	}
	if _, do := show.LeftAlone(b, &l); len(do) > 0 {
		return do[0]
	}
	return ""
}

// tripAnswer is a trip. Water contents are shares of 1.
type tripAnswer struct {
	Seq     *model.Seq   `json:"seq"` // of the entry; null when nothing was written
	Now     *time.Time   `json:"now"`
	From    *time.Time   `json:"from"`
	Until   *time.Time   `json:"until"`
	DryBy   *time.Time   `json:"dry_by"`
	Air     tripAir      `json:"air"`
	Summary []string     `json:"summary"`
	Sitter  sitterAnswer `json:"sitter"`
	Plants  []leftAnswer `json:"plants"`
}

// tripAir is the air a forecast was made with.
type tripAir struct {
	TempC   float64            `json:"temp_c"`
	RH      float64            `json:"rh"`
	Deficit float64            `json:"deficit_kpa"`
	Source  estimate.AirSource `json:"source"`
	Days    int                `json:"days_read"`
}

// sitterAnswer is what to ask of a sitter; no plants, nothing.
type sitterAnswer struct {
	Plants  []model.ID   `json:"plants"`
	Left    int          `json:"left"` // plants in need that are not for a sitter
	Minutes float64      `json:"minutes"`
	Hours   float64      `json:"drying_hours"`
	Days    []*time.Time `json:"days"`
}

// leftAnswer is one plant left alone.
type leftAnswer struct {
	ID       model.ID        `json:"id"`
	Label    string          `json:"label"`
	Shelf    string          `json:"shelf"`
	Spot     string          `json:"spot"`
	Leaving  float64         `json:"rwc_leaving"`
	RWC      float64         `json:"rwc_return"`
	Low      float64         `json:"rwc_low"`
	High     float64         `json:"rwc_high"`
	Soak     *time.Time      `json:"soak_line_at"`
	HalfGone *time.Time      `json:"half_gone_at"`
	Injury   *time.Time      `json:"injury_at"`
	Last     *lastSoakAnswer `json:"last_soak"` // null: none
	StillWet bool            `json:"still_wet"`
	Move     bool            `json:"move"`
	Reasons  []string        `json:"reasons"`
}

// lastSoakAnswer is a soak before leaving, and the plant on return after it.
type lastSoakAnswer struct {
	Band     soak.Band  `json:"band"`
	From     float64    `json:"minutes_from"`
	To       float64    `json:"minutes_to"`
	InBy     *time.Time `json:"in_by"`
	OutBy    *time.Time `json:"out_by"`
	RWC      float64    `json:"rwc_return"`
	Low      float64    `json:"rwc_low"`
	High     float64    `json:"rwc_high"`
	HalfGone *time.Time `json:"half_gone_at"`
	Injury   *time.Time `json:"injury_at"`
}

func answerTrip(b *model.Book, t *trip.Forecast, job trip.Job, left []trip.Left, wrote *model.Entry) tripAnswer {
	a := tripAnswer{
		Now: when(t.Now), From: when(t.From), Until: when(t.Until), DryBy: when(t.DryBy),
		Air:     tripAir{round(t.Air.TempC, 2), round(t.Air.RH, 1), round(t.Air.Deficit, 4), t.Air.Source, t.Air.Days},
		Summary: show.Trip(b, t),
		Sitter: sitterAnswer{Plants: append([]model.ID{}, job.Plants...), Left: job.Left, Minutes: job.Minutes,
			Hours: job.Hours, Days: []*time.Time{}},
		Plants: []leftAnswer{},
	}
	if wrote != nil {
		a.Seq = &wrote.Seq
	}
	for _, d := range job.Days {
		a.Sitter.Days = append(a.Sitter.Days, when(d))
	}
	for _, l := range left {
		a.Plants = append(a.Plants, answerLeft(b, l))
	}
	return a
}

func answerLeft(b *model.Book, l trip.Left) leftAnswer {
	row := b.Row(l.ID)
	onReturn, do := show.LeftAlone(b, &l)
	a := leftAnswer{
		ID: l.ID, Label: label(row), Shelf: row.Home.Shelf, Spot: row.Home.Spot, Leaving: round(l.Leaving, 4),
		RWC: round(l.Return.RWC, 4), Low: round(l.Return.Low, 4), High: round(l.Return.High, 4),
		Soak: when(l.Lines.Soak), HalfGone: when(l.Lines.HalfGone), Injury: when(l.Lines.Injury),
		StillWet: l.StillWet, Move: l.Move != trip.Stay, Reasons: append([]string{onReturn}, do...),
	}
	if s := l.Last; s != nil {
		a.Last = &lastSoakAnswer{
			Band: s.Band, From: round(s.From, 1), To: round(s.To, 1), InBy: when(s.InBy), OutBy: when(s.OutBy),
			RWC: round(s.Return.RWC, 4), Low: round(s.Return.Low, 4), High: round(s.Return.High, 4),
			HalfGone: when(s.Lines.HalfGone), Injury: when(s.Lines.Injury),
		}
	}
	return a
}
