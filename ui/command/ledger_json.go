package command

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/accounts"
	"tubside/ui/show"
)

// ledgerAnswer is the ledger as JSON. Plants are single plants; shares are of
// 1; days and hours are numbers.
type ledgerAnswer struct {
	From       *time.Time        `json:"from"`
	Until      *time.Time        `json:"until"`
	Whole      flowAnswer        `json:"whole"`
	ByForm     []flowAnswer      `json:"by_form"`
	ByShelf    []flowAnswer      `json:"by_shelf"`
	ByMonth    []flowAnswer      `json:"by_month"`
	Causes     []causeAnswer     `json:"causes"`
	Departures []departureAnswer `json:"departures"`
	Survival   []survivalAnswer  `json:"survival"`
	Rot        rotAnswer         `json:"rot"`
	Intervals  []intervalsAnswer `json:"intervals"`
	Work       workAnswer        `json:"work"`
	Water      waterAnswer       `json:"water"`
	Feeds      []feedAnswer      `json:"feeds"`
}

// flowAnswer is what came and went on one line. Start, and all between it and
// end with what left taken off, is end.
type flowAnswer struct {
	Key       string `json:"key"`
	Start     int    `json:"start"`
	Listed    int    `json:"listed"`
	New       int    `json:"new"`
	Offsets   int    `json:"offsets"`
	Lost      int    `json:"lost"`
	Sold      int    `json:"sold"`
	Given     int    `json:"given"`
	Recounted int    `json:"recounted"`
	Moved     int    `json:"moved"`
	End       int    `json:"end"`
	Rows      int    `json:"rows"`
}

type causeAnswer struct {
	Cause  string             `json:"cause"`
	Plants int                `json:"plants"`
	Rows   int                `json:"rows"`
	ByForm map[model.Form]int `json:"by_form"`
}

type departureAnswer struct {
	At     *time.Time `json:"at"`
	ID     model.ID   `json:"id"`
	Label  string     `json:"label"`
	Plants int        `json:"plants"`
	How    string     `json:"how"`
	Cause  string     `json:"cause"`
	Note   string     `json:"note"`
}

type survivalAnswer struct {
	Of     accounts.Group `json:"of"`
	Form   model.Form     `json:"form"`
	Rows   int            `json:"rows"`
	Lost   int            `json:"lost"`
	Median *float64       `json:"median_days"` // null: fewer than half were lost
	Steps  []stepAnswer   `json:"steps"`
}

type stepAnswer struct {
	Days   float64 `json:"days"`
	AtRisk int     `json:"at_risk"`
	Lost   int     `json:"lost"`
	Alive  float64 `json:"alive"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
}

type rotAnswer struct {
	Cases     int         `json:"cases"`
	Sound     int         `json:"sound"`
	Lost      int         `json:"lost"`
	Soaks     int         `json:"soaks"`
	Followed  int         `json:"followed"`
	Open      int         `json:"open"`
	ByMinutes []binAnswer `json:"by_minutes"`
	ByDrying  []binAnswer `json:"by_drying_hours"`
	ByForm    []binAnswer `json:"by_form"`
}

type binAnswer struct {
	Form  *string  `json:"form,omitempty"`
	Above *float64 `json:"above,omitempty"`
	UpTo  *float64 `json:"up_to,omitempty"` // none: no end, or nobody looked when there is no above either
	Soaks int      `json:"soaks"`
	Rot   int      `json:"rot"`
}

type intervalsAnswer struct {
	Of     accounts.Group `json:"of"`
	Form   model.Form     `json:"form"`
	Count  int            `json:"count"`
	Median float64        `json:"median_days"`
	Low    float64        `json:"low_days"`
	High   float64        `json:"high_days"`
	Kept   int            `json:"kept"`
	Sooner int            `json:"sooner"`
	Later  int            `json:"later"`
	Rushed int            `json:"rushed"`
	Due    int            `json:"due"`
}

type workAnswer struct {
	SoakDays int     `json:"soak_days"`
	Loads    int     `json:"loads"`
	Soaks    int     `json:"soaks"`
	Hours    float64 `json:"hours"`
	Mists    int     `json:"mists"`
	Looks    int     `json:"looks"`
	Feeds    int     `json:"feeds"`
}

type waterAnswer struct {
	Litres  float64        `json:"litres"`
	Fills   int            `json:"fills"`
	Assumed int            `json:"fills_assumed"`
	Sources []sourceAnswer `json:"sources"`
}

type sourceAnswer struct {
	Source string  `json:"source"`
	Fills  int     `json:"fills"`
	Litres float64 `json:"litres"`
}

type feedAnswer struct {
	Powder   string  `json:"powder"`
	Mixes    int     `json:"mixes"`
	Litres   float64 `json:"litres"`
	Grams    float64 `json:"grams"`
	Nitrogen float64 `json:"nitrogen_g"`
	Unknown  int     `json:"unknown"`
}

func answerLedger(l accounts.Ledger, b *model.Book) ledgerAnswer {
	return ledgerAnswer{
		From: when(l.From), Until: when(l.Until), Whole: answerFlow(accounts.Line{Key: "all", Flow: l.Whole}),
		ByForm: each(l.ByForm, answerFlow), ByShelf: each(l.ByShelf, answerFlow), ByMonth: each(l.ByMonth, answerFlow),
		Causes: each(l.Causes, answerCause), Survival: each(l.Survival, answerSurvival), Rot: answerRot(l.Rot),
		Departures: each(l.Departures, func(d accounts.Departure) departureAnswer {
			return departureAnswer{when(d.At), d.ID, show.Title(b.Row(d.ID).Plant), d.Plants, d.How, d.Cause, d.Note}
		}),
		Intervals: each(l.Intervals, func(i accounts.Intervals) intervalsAnswer {
			return intervalsAnswer{i.Of, i.Form, i.Count, round(i.Median, 2), round(i.Low, 2), round(i.Top, 2), i.Kept,
				i.Sooner, i.Later, i.Rushed, i.Due}
		}),
		Work: workAnswer{l.Work.SoakDays, l.Work.Loads, l.Work.Soaks, round(l.Work.Hours, 2), l.Work.Mists,
			l.Work.Looks, l.Work.Feeds},
		Water: waterAnswer{round(l.Water.Litres, 1), l.Water.Fills, l.Water.Assumed, each(l.Water.Sources, func(u accounts.SourceUse) sourceAnswer {
			return sourceAnswer{u.Source, u.Fills, round(u.Litres, 1)}
		})},
		Feeds: each(l.Feeds, func(f accounts.Feed) feedAnswer {
			return feedAnswer{f.Powder, f.Mixes, round(f.Litres, 1), round(f.Grams, 2), round(f.Nitrogen, 3), f.Unknown}
		}),
	}
}

// each turns a list into another; none is an empty list.
func each[A, B any](all []A, f func(A) B) []B {
	some := make([]B, 0, len(all))
	for _, a := range all {
		some = append(some, f(a))
	}
	return some
}

func answerFlow(l accounts.Line) flowAnswer {
	return flowAnswer{l.Key, l.Opening, l.Listed, l.Came, l.Offsets, l.Lost, l.Sold, l.Given, l.Recounted, l.Moved,
		l.Closing, l.Rows}
}

func answerCause(c accounts.Loss) causeAnswer {
	a := causeAnswer{c.Cause, c.Plants, c.Rows, map[model.Form]int{}}
	for _, f := range c.ByForm {
		a.ByForm[f.Form] = f.Plants
	}
	return a
}

// answerSurvival leaves out the steps at which nobody was lost.
func answerSurvival(s accounts.Survival) survivalAnswer {
	a := survivalAnswer{Of: s.Of, Form: s.Form, Rows: s.Rows, Lost: s.Lost, Steps: []stepAnswer{}}
	if s.Median.Reached() {
		days := round(s.Median.Days, 2)
		a.Median = &days
	}
	for _, step := range s.Curve {
		if step.Lost > 0 {
			a.Steps = append(a.Steps, stepAnswer{round(step.Days, 2), step.AtRisk, step.Lost, round(step.Alive, 4),
				round(step.Low, 4), round(step.High, 4)})
		}
	}
	return a
}

func answerRot(r accounts.Rot) rotAnswer {
	return rotAnswer{
		r.Cases, r.Sound, r.Lost, r.Soaks, r.After, r.Open, each(r.ByMinutes, answerBin), each(r.ByDrying, answerBin),
		each(r.ByForm, func(b accounts.Bin) binAnswer { return binAnswer{Form: &b.Key, Soaks: b.Soaks, Rot: b.Rot} }),
	}
}

func answerBin(b accounts.Bin) binAnswer {
	a := binAnswer{Soaks: b.Soaks, Rot: b.Rot}
	if !b.Unseen {
		a.Above = &b.From
	}
	if !b.Unseen && !math.IsInf(b.To, 1) {
		a.UpTo = &b.To
	}
	return a
}
