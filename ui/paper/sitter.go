package paper

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/trip"
	"tubside/ui/show"
)

// Places says where things are in the house. What is empty becomes a line to
// write on.
type Places struct {
	Fan, Bucket, Tray, Water, Fuses, Phone string
}

// SitterSheet is the page for a sitter during a trip.
func SitterSheet(b *model.Book, t *trip.Forecast, job trip.Job, where Places) *Sheet {
	s := &Sheet{
		Title: "While I am away",
		Under: []string{
			days(t.From, t.Until, b),
			show.Count(len(t.Plants), "air plant") +
				" live here. They can do without much: too much care kills more of them than none.",
		},
		Foot:    "If in doubt, do nothing, and call.",
		OnePage: true,
	}
	if len(job.Plants) == 0 {
		s.Add("Your one job: look, and touch nothing", looking(b, t)...)
	} else {
		s.Add("Your one job: one soak", soaking(b, job)...)
	}
	s.Add("Please do not", doNots)
	s.Add("If a plant looks wrong", Words(rotWords))
	s.Add("Where things are", Blanks{
		{What: "Fan and its switch", Text: where.Fan}, {What: "Bucket", Text: where.Bucket},
		{What: "Tray", Text: where.Tray},
		{What: "Water", Text: where.Water}, {What: "Fuses", Text: where.Fuses}, {What: "My phone", Text: where.Phone},
	})
	s.Add("Take care", cautions)
	return s
}

// looking is the job when nothing needs water: one look, halfway.
func looking(b *model.Book, t *trip.Forecast) []Block {
	half := t.From.Add(t.Until.Sub(t.From) / 2)
	return []Block{
		Words("Nothing needs water while I am away. Please look in once, on the day below."),
		Ticks{
			dayLine(half, b) + ": the room is warm, and neither hot nor cold (12 to 30 °C)",
			"no rain or frost comes in at a window, and nothing drips on the plants",
			"the sun has not moved onto them, and no heater was turned on under them",
		},
	}
}

// soaking is the job when some plants would come to harm.
func soaking(b *model.Book, job trip.Job) []Block {
	var visits Ticks
	for _, d := range job.Days {
		visits = append(visits, dayLine(d, b))
	}
	return []Block{
		Words("On each of these days, in the morning, the plants listed below get one soak. No other plant gets any water."),
		visits,
		Words("How:"),
		Points{
			"Fill the bucket with water as warm as the room. Nothing goes into the water.",
			fmt.Sprintf("Put the plants in for %s, by the clock. Stay in the house.", show.Minutes(job.Minutes)),
			"Take them out. Hold each upside down and shake it hard, five times.",
			"Empty the bucket at once and turn it over.",
			fmt.Sprintf("Lay them upside down on the tray, not touching, with the fan on low across them, for at least %s.", show.Minutes(60*job.Hours)),
			"Look into the middle of each with a light. Where water shines, shake again and leave it on the tray, upside down. Where it is dry, hang the plant back in its place.",
		},
		sitterPlants(b, job.Plants),
	}
}

// sitterPlants is the plants of the job, each with a box.
func sitterPlants(b *model.Book, ids model.IDs) *Table {
	t := &Table{Tick: true, Columns: []Column{{Head: "no.", Right: true}, {Head: "plant", Least: 12},
		{Head: "its place", Least: 8}}}
	for _, id := range ids {
		row := b.Row(id)
		t.Add(id.String(), row.Title(), show.Home(row.Home))
	}
	return t
}

func days(from, until time.Time, b *model.Book) string {
	return dayLine(from, b) + " to " + dayLine(until, b)
}

func dayLine(t time.Time, b *model.Book) string {
	return t.In(b.Zone()).Format("Monday 2 January 2006")
}

// doNots is growers' habit: what well-meant help kills plants with.
var doNots = Points{
	"water or mist anything that is not on this page",
	"leave a plant in water for longer, or overnight",
	"hang a plant back while its middle is wet",
	"feed, spray, wipe or trim",
	"move plants into the sun, over a heater, or into a box or bag",
	"use water from a softener, from the sea, or with anything in it",
}

// rotWords is common practice, no source.
const rotWords = "A soft, dark base, a sour smell, or a leaf that comes out of the middle at a light pull means rot. Put that plant by itself in a dry, airy place, give it no water, and tell me. Curled leaves and brown tips only mean thirst, and can wait."

// cautions are the usual ones, with who says so. They do not replace the rules
// of the place.
var cautions = Cautions{
	{
		Text:   "Never leave a filled bucket or tub, not for a minute, where there is a child or a pet. A child drowns in seconds, in inches of water.",
		Source: "US Consumer Product Safety Commission, 2007 and 2012",
	},
	{
		Text:   "Keep the fan, its cord and its plug 1.5 m (5 ft) or more from any water. Dry your hands first. If it falls into water, do not reach for it: switch off at the fuses.",
		Source: "Safe Electricity",
	},
	{
		Text:   "Wipe up drips at once: most injuries in bathrooms are falls.",
		Source: "MMWR 2011;60(22):729-733",
	},
	{Text: "A full bucket is heavy: fill it half, twice. For fans near water follow your local electrical code, and ask a qualified electrician."},
}
