// Command bands prints what care makes of a fixed set of plants: a line each,
// with its band, the longest soak in minutes, and how many hours it is expected
// to take to dry. The sensitivity report runs it with one guess changed at a
// time.
package main

import (
	"fmt"
	"os"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
)

var today = time.Date(2026, time.January, 18, 9, 0, 0, 0, time.UTC)

// home is the book being written.
type home struct{ *model.Book }

func (h home) say(at time.Time, f model.Fact, ids ...model.ID) {
	e := model.NewEntry(at, f, ids...)
	e.Seq = model.Seq(len(h.Entries()) + 1)
	if err := h.Check(e); err != nil {
		fmt.Fprintf(os.Stderr, "bands: %v\n", err)
		os.Exit(1)
	}
	if err := h.Apply(e); err != nil {
		fmt.Fprintf(os.Stderr, "bands: %v\n", err)
		os.Exit(1)
	}
}

func main() {
	h := home{model.NewBook(time.UTC)}
	h.say(today.AddDate(0, 0, -60), &model.Reading{TempC: 21, RH: 35})
	for _, form := range model.Forms {
		for _, leaf := range model.Leaves {
			for _, size := range []float64{8, 25} {
				h.lines(model.Plant{Form: form, Leaf: leaf, Size: size, Count: 1})
			}
		}
	}
	look := advice.Look(estimate.New(h.Book), today)
	for _, n := range look.Needs {
		hours := 0.0
		if d := look.DryOut(n.ID); d != nil {
			hours = d.Expected.Sub(d.OutAt).Hours()
		}
		fmt.Printf("%v %.0f %.2f\n", n.Band, n.To, hours)
	}
}

// lines brings in one kind of plant: some days after its soak, never looked at,
// seen flat and seen lifting its edges; with a past of eight weeks; of unknown
// past; and just out of the water.
func (h home) lines(p model.Plant) {
	for _, days := range []int{5, 8, 14, 24} {
		for _, curl := range []model.Grade{model.NotSeen, 0, 1} {
			id := h.soaked(p, days)
			if curl != model.NotSeen {
				h.say(today, &model.Look{Signs: model.Signs{Curl: curl, Tips: 0, Shift: model.NotSeen}}, id)
			}
		}
	}
	id := h.soaked(p, 64)
	for week := 8; week > 0; week-- {
		at := today.AddDate(0, 0, -7*week)
		h.say(at, &model.Look{Signs: model.Signs{Curl: model.Grade(week % 2), Tips: 0, Shift: 1}}, id)
		h.soak(id, at)
	}
	p.ID = h.NextID()
	h.say(today.AddDate(0, 0, -1), &model.Add{Plants: []model.Plant{p}})
	id = h.soaked(p, 9)
	h.say(today.Add(-3*time.Hour), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: today.Add(-time.Hour)}, id)
	h.say(today.Add(-time.Hour), &model.Out{Shaken: true}, id)
}

// soaked adds a plant that came out of a two-hour soak some days ago.
func (h home) soaked(p model.Plant, days int) model.ID {
	p.ID = h.NextID()
	at := today.AddDate(0, 0, -days)
	h.say(at.Add(-time.Hour), &model.Add{Plants: []model.Plant{p}})
	h.soak(p.ID, at)
	return p.ID
}

func (h home) soak(id model.ID, at time.Time) {
	h.say(at, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: at.Add(2 * time.Hour)}, id)
	h.say(at.Add(2*time.Hour), &model.Out{Shaken: true}, id)
	h.say(at.Add(6*time.Hour), &model.FoundDry{}, id)
	h.say(at.Add(6*time.Hour), &model.Hung{}, id)
}
