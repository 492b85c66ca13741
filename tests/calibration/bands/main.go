// Command bands prints what comes of a fixed home: nine weeks of looks, soaks, weights
// and dry marks, and then a last walk. It prints a line for each plant, with its band
// and its water before that walk and after it, and the hours it is expected to take to
// dry; with -plan a line for a soak day as well. The sensitivity report runs it with
// one guess changed at a time.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"strconv"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
)

var (
	planned = flag.Bool("plan", false, "plan a soak day as well")
	rule    = flag.String("rule", "", "a house rule that is set otherwise, as `name=value`")
)

var today = time.Date(2026, time.January, 18, 9, 0, 0, 0, time.UTC)

// weeks is how long the home has lived.
const weeks = 9

// home is the book being written.
type home struct {
	*model.Book
	lived model.IDs
	seen  []model.Entry // on the last walk
}

func (h *home) say(at time.Time, f model.Fact, ids ...model.ID) {
	e := model.NewEntry(at, f, ids...)
	e.Seq = model.Seq(len(h.Entries()) + 1)
	must(h.Check(e))
	must(h.Apply(e))
}

func must(err error) {
	if err != nil {
		fmt.Fprintf(os.Stderr, "bands: %v\n", err)
		os.Exit(1)
	}
}

func main() {
	flag.Parse()
	h := &home{Book: model.NewBook(time.UTC)}
	if name, value, ok := strings.Cut(*rule, "="); ok {
		v, err := strconv.ParseFloat(value, 64)
		must(err)
		h.say(today.AddDate(0, 0, -7*weeks-3), &model.RuleSet{Name: name, Value: v})
	}
	h.live()
	for _, form := range model.Forms {
		for _, leaf := range model.Leaves {
			for _, size := range []float64{8, 25} {
				h.lines(model.Plant{Form: form, Leaf: leaf, Size: size, Count: 1})
			}
		}
	}
	before := advice.Look(estimate.New(h.Book), today)
	for _, e := range h.seen {
		h.say(e.At, e.Fact, e.Plants...)
	}
	k := estimate.New(h.Book)
	after := advice.Look(k, today)
	for i, n := range after.Needs {
		hours := 0.0
		if d := after.DryOut(n.ID); d != nil {
			hours = d.Expected.Sub(d.OutAt).Hours()
		}
		fmt.Printf("%v %v %.5f %.5f %.2f\n", before.Needs[i].Band, n.Band, n.RWC, n.High-n.Low, hours)
	}
	if *planned {
		plan(k, after)
	}
}

// plan plans a day for those that need a soak, of the plants that have lived here.
func plan(k *estimate.Keeper, o *advice.Outlook) {
	var due model.IDs
	for _, id := range k.Book().IDs() {
		if n := o.Need(id); n != nil && n.From > 0 && len(due) < 90 {
			due = append(due, id)
		}
	}
	p, err := day.NewPlan(context.Background(), k, today,
		day.Ask{From: today, Plants: due, Effort: soak.Effort{Work: 60_000}})
	must(err)
	fmt.Printf("plan %.2f %d %d\n", p.HandsFree.Sub(today).Minutes(), len(p.Loads), len(p.Left))
}

// live is nine weeks in a home of 126 plants on six shelves, each written down in its own way.
func (h *home) live() {
	start := today.AddDate(0, 0, -7*weeks-2)
	var plants []model.Plant
	for i := range 3 * len(model.Forms) * len(model.Leaves) * 2 {
		plants = append(plants, model.Plant{
			ID: model.ID(i + 1), Form: model.Forms[i%len(model.Forms)], Leaf: model.Leaves[i/7%len(model.Leaves)],
			Size: []float64{8, 25}[i/21%2], Count: 1, Home: model.Home{Shelf: string(rune('A' + i%6)), Spot: fmt.Sprint(i)},
		})
		h.lived = append(h.lived, model.ID(i+1))
	}
	h.say(start, &model.Add{Plants: plants})
	for week := range weeks {
		sunday := start.AddDate(0, 0, 7*week)
		if week != 4 {
			h.say(sunday, &model.Reading{TempC: 20 + float64(week%3), RH: float64(35 + week*5%20)})
		}
		h.walk(sunday, week, h.say)
		h.soakDay(sunday.Add(time.Hour), week)
		for i, id := range h.lived {
			if i%8 == 3 {
				h.say(sunday.AddDate(0, 0, 4), &model.Mist{}, id)
			}
		}
	}
	h.walk(today, weeks, func(at time.Time, f model.Fact, ids ...model.ID) {
		h.seen = append(h.seen, model.NewEntry(at, f, ids...))
	})
}

// walk is a look along the shelves: all is written on three of them, on one what is bad, on one the first few, and on
// one nothing; a fourth of the plants are looked at twice.
func (h *home) walk(at time.Time, week int, say func(time.Time, model.Fact, ...model.ID)) {
	for i, id := range h.lived {
		curl := []model.Grade{0, 0, 1, 0, 1, 2, 0, 0, 1, 3, 0}[(i*7+week*3)%11]
		shift := []model.Grade{model.NotSeen, 1, 2}[(i+week)%3]
		shelf := i % 6
		if shelf == 5 && week%2 == 1 { // somebody waters this one
			curl = 0
		}
		if shelf == 2 && curl == 0 || shelf == 3 && i > 40 || shelf == 4 {
			continue
		}
		look := model.Look{Signs: model.Signs{Curl: curl, Tips: model.Grade(i / 5 % 3), Shift: shift}}
		say(at, &look, id)
		if i%4 == 0 {
			again := look
			again.Signs.Curl = max(0, curl-model.Grade(i/4%2))
			say(at.Add(20*time.Minute), &again, id)
		}
	}
}

// soakDay soaks most of the plants in six loads, and weighs some.
func (h *home) soakDay(at time.Time, week int) {
	for load := range 6 {
		var ids, weighed model.IDs
		for i, id := range h.lived {
			if i%6 != load || (i+week)%7 == 0 {
				continue
			}
			if ids = append(ids, id); i%9 == 0 {
				weighed = append(weighed, id)
			}
		}
		grams := func(id model.ID, share float64, wet bool) *model.Weigh {
			return &model.Weigh{Grams: (20 + float64(id)/3) * share, Wet: wet}
		}
		in := at.Add(time.Duration(load) * 15 * time.Minute)
		for _, id := range weighed {
			h.say(in, grams(id, 0.86-float64(week%3)/50, false), id)
		}
		h.say(in, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: in.Add(2 * time.Hour)}, ids...)
		for _, id := range weighed {
			h.say(in.Add(30*time.Minute), grams(id, 0.93, true), id)
			h.say(in.Add(90*time.Minute), grams(id, 0.97, true), id)
		}
		out := in.Add(time.Duration(90+15*(week%3)) * time.Minute)
		h.say(out, &model.Out{Shaken: true, Inverted: load%2 == 0}, ids...)
		for _, id := range weighed {
			h.say(out, grams(id, 1, true), id)
		}
		h.say(out.Add(150*time.Minute), &model.Damp{}, ids[:len(ids)/2]...)
		h.say(out.Add(time.Duration(200+20*load)*time.Minute), &model.FoundDry{}, ids[:len(ids)/3]...)
		h.say(out.Add(time.Duration(320+30*(week%4))*time.Minute), &model.FoundDry{}, ids[len(ids)/3:]...)
		h.say(out.Add(8*time.Hour), &model.Hung{}, ids...)
	}
}

// lines brings in one kind of plant, each without a past: some days after its soak, never looked at,
// to be seen flat and to be seen lifting its edges; of unknown past; and just out of the water.
func (h *home) lines(p model.Plant) {
	for _, days := range []int{5, 8, 14, 24} {
		for _, curl := range []model.Grade{model.NotSeen, 0, 1} {
			id := h.soaked(p, days)
			if curl != model.NotSeen {
				h.seen = append(h.seen, model.NewEntry(today,
					&model.Look{Signs: model.Signs{Curl: curl, Tips: 0, Shift: model.NotSeen}}, id))
			}
		}
	}
	p.ID = h.NextID()
	h.say(today.AddDate(0, 0, -1), &model.Add{Plants: []model.Plant{p}})
	id := h.soaked(p, 9)
	h.say(today.Add(-3*time.Hour), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: today.Add(-time.Hour)}, id)
	h.say(today.Add(-time.Hour), &model.Out{Shaken: true}, id)
}

// soaked adds a plant that came out of a two-hour soak some days ago.
func (h *home) soaked(p model.Plant, days int) model.ID {
	p.ID = h.NextID()
	at := today.AddDate(0, 0, -days)
	h.say(at.Add(-time.Hour), &model.Add{Plants: []model.Plant{p}})
	h.say(at, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: at.Add(2 * time.Hour)}, p.ID)
	h.say(at.Add(2*time.Hour), &model.Out{Shaken: true}, p.ID)
	h.say(at.Add(6*time.Hour), &model.FoundDry{}, p.ID)
	h.say(at.Add(6*time.Hour), &model.Hung{}, p.ID)
	return p.ID
}
