package command

import (
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// weighingAnswer is whom to weigh and what weighing has shown.
type weighingAnswer struct {
	Since    *time.Time         `json:"since"` // null when no plants are being weighed
	Until    *time.Time         `json:"until"`
	Ten      []model.ID         `json:"ten"`
	Proposed []proposedAnswer   `json:"proposed"` // whom to weigh, when nobody is
	Weighed  []weighedAnswer    `json:"weighed"`
	Forms    []weighedForm      `json:"forms"`
	Others   int                `json:"others"` // plants that were not weighed
	Changed  []bandChangeAnswer `json:"changed"`
}

type proposedAnswer struct {
	ID    model.ID `json:"id"`
	Label string   `json:"label"`
	Alike int      `json:"alike"` // plants of its form and leaf
	Grams float64  `json:"about_g"`
}

// rangeAnswer is a number as it is believed, and its 80 % range.
type rangeAnswer struct {
	Middle float64 `json:"middle"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
}

type weighedAnswer struct {
	ID           model.ID    `json:"id"`
	Label        string      `json:"label"`
	Weights      int         `json:"weights"`
	LossBefore   rangeAnswer `json:"loss_before"` // share of its water in a day, in the air as it is now
	LossNow      rangeAnswer `json:"loss_now"`
	UptakeBefore rangeAnswer `json:"uptake_before"` // minutes in water until two thirds of what it lacked are back
	UptakeNow    rangeAnswer `json:"uptake_now"`
}

// weighedForm is when the leaves of a form show it, as the share of the water that is gone.
type weighedForm struct {
	Form          model.Form  `json:"form"`
	Plants        int         `json:"plants"`
	LiftsBefore   rangeAnswer `json:"lifts_before"`
	LiftsNow      rangeAnswer `json:"lifts_now"`
	ChannelBefore rangeAnswer `json:"channel_before"`
	ChannelNow    rangeAnswer `json:"channel_now"`
	RollsBefore   rangeAnswer `json:"rolls_before"`
	RollsNow      rangeAnswer `json:"rolls_now"`
}

type bandChangeAnswer struct {
	ID     model.ID `json:"id"`
	Before string   `json:"before"` // the band had nothing been weighed
	Now    string   `json:"now"`
}

// weighing proposes whom to weigh, and says what the scale has shown.
func (r *run) weighing() *cobra.Command {
	var propose bool
	var file string
	var force bool
	c := &cobra.Command{
		Use:   "weighing",
		Short: "ten plants on a kitchen scale for four weeks: whom, and what it has shown",
		Long: `Ten plants on a kitchen scale for four weeks tell how fast this home's plants lose
water and drink, and at what thirst their leaves lift and roll. Once ten are
named (enter weighing), rounds weigh says who is due: before the soak, after it
when dry to the heart, and half way to the next. Without a flag: what was taken
for such plants at first, what is believed now, and whose soak that changes.`,
		Example: "  tubside weighing --propose\n  tubside weighing --sheet weighed.html",
		Args:    wants(0, 0, "give no words, or --propose"),
		RunE: func(*cobra.Command, []string) error {
			return r.look(func(s *store.Store) error {
				k, running := r.keeper(s.Book()), s.Book().Ten(r.now())
				var ten []advice.Weighable
				if running == nil && (propose || r.json) {
					ten = advice.ChooseTen(k, r.now())
				}
				if propose && !r.json && file == "" {
					return r.sayProposed(s.Book(), running, ten)
				}
				page := advice.WhatWeighingShowed(k, r.now())
				switch {
				case file != "":
					return r.writeSheet(file, paper.WeighedSheet(s.Book(), &page), force)
				case r.json:
					return r.inJSON(answerWeighing(s.Book(), &page, ten))
				}
				return r.print(paper.WeighedSheet(s.Book(), &page).Within(r.width()))
			})
		},
	}
	c.Flags().BoolVar(&propose, "propose", false, "whom to weigh, so that they tell most of the house")
	c.Flags().StringVar(&file, "sheet", "", "write it as a sheet to print, `FILE`.txt or FILE.html")
	c.Flags().BoolVar(&force, "force", false, "replace the file if there is one")
	return c
}

// sayProposed lists whom to weigh, and how to say yes.
func (r *run) sayProposed(b *model.Book, running *model.Ten, ten []advice.Weighable) error {
	switch {
	case running != nil:
		return r.say("%s are being weighed until %s; who is due: tubside rounds weigh",
			show.Count(len(running.Plants), "plant"), show.Date(running.Until(), b.Zone()))
	case len(ten) == 0:
		return r.say("nobody to weigh: it takes single plants at home, sound, not in bloom, soaked before, and heavy " +
			"enough for the scale")
	}
	t := paper.Table{Columns: []paper.Column{{Head: "id", Right: true}, {Head: "plant", Least: 12},
		{Head: "home", Least: 6}, {Head: "form"}, {Head: "leaf"}, {Head: "like it", Right: true},
		{Head: "about", Right: true}}}
	words := []string{"tubside enter weighing"}
	for _, w := range ten {
		row := b.Row(w.ID)
		t.Add(w.ID.String(), row.Title(), row.Home.String(), string(row.Form), string(row.Leaf), strconv.Itoa(w.Alike),
			show.Grams(round(w.Grams, 0)))
		words = append(words, w.ID.String())
	}
	if err := r.table(&t); err != nil {
		return err
	}
	return r.say("if these will do: %s", strings.Join(words, " "))
}

func answerWeighing(b *model.Book, p *advice.WeighedPage, ten []advice.Weighable) weighingAnswer {
	a := weighingAnswer{Ten: []model.ID{}, Proposed: []proposedAnswer{}, Weighed: []weighedAnswer{},
		Forms: []weighedForm{}, Others: p.Others, Changed: []bandChangeAnswer{}}
	if p.Ten != nil {
		a.Since, a.Until, a.Ten = when(p.Ten.Since), when(p.Ten.Until()), append(a.Ten, p.Ten.Plants...)
	}
	for _, w := range ten {
		a.Proposed = append(a.Proposed, proposedAnswer{w.ID, label(b.Row(w.ID)), w.Alike, round(w.Grams, 1)})
	}
	for _, w := range p.Plants {
		a.Weighed = append(a.Weighed, weighedAnswer{
			ID: w.ID, Label: label(b.Row(w.ID)), Weights: w.Weighings,
			LossBefore: answerRange(w.LossBefore), LossNow: answerRange(w.LossNow),
			UptakeBefore: answerRange(w.UptakeBefore), UptakeNow: answerRange(w.UptakeNow),
		})
	}
	for _, f := range p.Forms {
		was, now := &f.EdgesBefore, &f.EdgesNow
		a.Forms = append(a.Forms, weighedForm{
			Form: f.Form, Plants: f.Plants,
			LiftsBefore: answerRange(was[0]), LiftsNow: answerRange(now[0]),
			ChannelBefore: answerRange(was[1]), ChannelNow: answerRange(now[1]),
			RollsBefore: answerRange(was[2]), RollsNow: answerRange(now[2]),
		})
	}
	for _, c := range p.Changed {
		a.Changed = append(a.Changed, bandChangeAnswer{c.ID, c.Before.String(), c.Now.String()})
	}
	return a
}

func answerRange(r estimate.Range) rangeAnswer {
	return rangeAnswer{round(r.Median, 4), round(r.Low, 4), round(r.High, 4)}
}
