// Package sitter makes the sheet that a grower leaves for whoever looks in: one
// page, at most one job, its days, what not to do, and where things are.
package sitter

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/care"
	"tubside/ui/sheet"
	"tubside/ui/show"
)

// Places says where things are in the house. What is empty becomes a line to
// write on.
type Places struct {
	Fan, Bucket, Tray, Water, Fuses, Phone string
}

// Sheet is the page for a sitter during a trip.
func Sheet(b *model.Book, t *care.Trip, job care.Job, where Places) *sheet.Sheet {
	s := &sheet.Sheet{
		Title: "While I am away",
		Under: []string{
			days(t.From, t.Until, b),
			show.Count(len(t.Plants), "air plant") + " live here. They can do without much: too much care kills more of them than none.",
		},
		Foot: "If in doubt, do nothing, and call.",
	}
	if len(job.Plants) == 0 {
		s.Add("Your one job: look, and touch nothing", looking(b, t)...)
	} else {
		s.Add("Your one job: one soak", soaking(b, job)...)
	}
	s.Add("Please do not", doNots)
	s.Add("If a plant looks wrong", sheet.Words(rotWords))
	s.Add("Where things are", sheet.Blanks{
		{What: "Fan and its switch", Text: where.Fan}, {What: "Bucket", Text: where.Bucket}, {What: "Tray", Text: where.Tray},
		{What: "Water", Text: where.Water}, {What: "Fuses", Text: where.Fuses}, {What: "My phone", Text: where.Phone},
	})
	s.Add("Take care", cautions)
	return s
}

// looking is the job when nothing needs water: one look, halfway.
func looking(b *model.Book, t *care.Trip) []sheet.Block {
	half := t.From.Add(t.Until.Sub(t.From) / 2)
	return []sheet.Block{
		sheet.Words("Nothing needs water while I am away. Please look in once, on the day below."),
		sheet.Ticks{
			day(half, b) + ": the room is warm, and neither hot nor cold (12 to 30 °C)",
			"no rain or frost comes in at a window, and nothing drips on the plants",
			"the sun has not moved onto them, and no heater was turned on under them",
		},
	}
}

// soaking is the job when some plants would come to harm.
func soaking(b *model.Book, job care.Job) []sheet.Block {
	var visits sheet.Ticks
	for _, d := range job.Days {
		visits = append(visits, day(d, b))
	}
	return []sheet.Block{
		sheet.Words("On each of these days, in the morning, the plants listed below get one soak. No other plant gets any water."),
		visits,
		sheet.Words("How:"),
		sheet.Points{
			"Fill the bucket with water as warm as the room. Nothing goes into the water.",
			fmt.Sprintf("Put the plants in for %s, by the clock. Stay in the house.", show.Minutes(job.Minutes)),
			"Take them out. Hold each upside down and shake it hard, five times.",
			"Empty the bucket at once and turn it over.",
			fmt.Sprintf("Lay them upside down on the tray, not touching, with the fan on low across them, for at least %s.", show.Minutes(60*job.Hours)),
			"Look into the middle of each with a light. Where water shines, shake again and leave it on the tray, upside down. Where it is dry, hang the plant back in its place.",
		},
		listed(b, job.Plants),
	}
}

// listed is the plants of the job, each with a box.
func listed(b *model.Book, ids model.IDs) *sheet.Table {
	t := &sheet.Table{Tick: true, Columns: []sheet.Column{{Head: "no.", Right: true}, {Head: "plant", Least: 12}, {Head: "its place", Least: 8}}}
	for _, id := range ids {
		row := b.Row(id)
		t.Add(id.String(), row.Title(), show.Home(row.Home))
	}
	return t
}

func days(from, until time.Time, b *model.Book) string { return day(from, b) + " to " + day(until, b) }

func day(t time.Time, b *model.Book) string { return t.In(b.Zone()).Format("Monday 2 January 2006") }
