package command

import (
	"time"

	"tubside/model"
	"tubside/model/care"
	"tubside/model/soak"
)

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
	TempC   float64        `json:"temp_c"`
	RH      float64        `json:"rh"`
	Deficit float64        `json:"deficit_kpa"`
	Source  care.AirSource `json:"source"`
	Days    int            `json:"days_read"`
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

func answerTrip(b *model.Book, t *care.Trip, job care.Job, left []care.Left, wrote *model.Entry) tripAnswer {
	a := tripAnswer{
		Now: when(t.Now), From: when(t.From), Until: when(t.Until), DryBy: when(t.DryBy),
		Air:     tripAir{round(t.Air.TempC, 2), round(t.Air.RH, 1), round(t.Air.Deficit, 4), t.Air.Source, t.Air.Days},
		Summary: t.Words(b),
		Sitter:  sitterAnswer{Plants: append([]model.ID{}, job.Plants...), Left: job.Left, Minutes: job.Minutes, Hours: job.Hours, Days: []*time.Time{}},
		Plants:  []leftAnswer{},
	}
	if wrote != nil {
		a.Seq = &wrote.Seq
	}
	for _, d := range job.Days {
		a.Sitter.Days = append(a.Sitter.Days, when(d))
	}
	for _, l := range left {
		a.Plants = append(a.Plants, answerLeft(b.Row(l.ID), l))
	}
	return a
}

func answerLeft(row *model.Row, l care.Left) leftAnswer {
	a := leftAnswer{
		ID: l.ID, Label: label(row), Shelf: row.Home.Shelf, Spot: row.Home.Spot, Leaving: round(l.Leaving, 4),
		RWC: round(l.Return.RWC, 4), Low: round(l.Return.Low, 4), High: round(l.Return.High, 4),
		Soak: when(l.Lines.Soak), HalfGone: when(l.Lines.HalfGone), Injury: when(l.Lines.Injury),
		StillWet: l.StillWet, Move: l.Move, Reasons: reasons(l.Reasons),
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
