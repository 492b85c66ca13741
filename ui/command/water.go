package command

import (
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// watersAnswer is the water of the house.
type watersAnswer struct {
	Vessels []vesselAnswer  `json:"vessels"`
	Bottle  bottleAnswer    `json:"bottle"`
	Tonight *reminderAnswer `json:"tonight"` // null when nothing is to be filled
	Sources []originAnswer  `json:"sources"`
	Log     []sampleAnswer  `json:"log"` // newest last
}

type vesselAnswer struct {
	Name     string         `json:"name"`
	Litres   float64        `json:"litres"`
	Of       []model.Source `json:"of"`
	Filled   *time.Time     `json:"filled"` // null when it is empty or nobody has said
	Loads    int            `json:"loads"`
	EC       *float64       `json:"ec_ds_m"`
	Temp     *float64       `json:"temp_c"`
	Chlorine []float64      `json:"chlorine_left"` // share, low and high; empty when not known
	Fed      *model.Mix     `json:"fed"`
	Verdict  advice.Fitness `json:"verdict"`
	Reasons  []string       `json:"reasons"`
}

type bottleAnswer struct {
	Since *time.Time `json:"since"`
	Fed   *model.Mix `json:"fed"`
}

type reminderAnswer struct {
	Vessels []string   `json:"vessels"`
	By      *time.Time `json:"by"`
	Start   *time.Time `json:"start"`
	Reasons []string   `json:"reasons"`
}

type originAnswer struct {
	Of      model.Source   `json:"of"`
	Verdict advice.Fitness `json:"verdict"`
	What    string         `json:"what"`
	Source  string         `json:"source"`
}

type sampleAnswer struct {
	At *time.Time `json:"at"`
	model.Sample
}

// water is what stands in the vessels and what is known of the sources.
func (r *run) water() *cobra.Command {
	var sources bool
	c := &cobra.Command{
		Use:   "water",
		Short: "what stands in each vessel, since when, and whether it will do",
		Long: `What stands in each vessel, since when, how often it was used, and whether it
will do; what to fill tonight; the log of readings; with --sources what is known
of each kind of water.`,
		Args:    nothing,
		Example: "  tubside water\n  tubside water --sources",
		RunE: func(*cobra.Command, []string) error {
			return r.look(func(s *store.Store) error { return r.sayWater(s.Book(), sources) })
		},
	}
	c.Flags().BoolVar(&sources, "sources", false, "what is known of each kind of water")
	return c
}

func (r *run) sayWater(b *model.Book, sources bool) error {
	keeper := r.keeper(b)
	waters := advice.Waters(keeper.Book(), r.now())
	start, plants := day.NextMorning(keeper, r.now())
	tonight, remind := day.FillTonight(keeper.Book(), start, plants, nil, r.now())
	if r.json {
		a := watersAnswer{Bottle: bottleAnswer{when(b.Bottle().At), b.Bottle().Fed}, Vessels: []vesselAnswer{},
			Sources: answerOrigins(), Log: answerLog(b)}
		for _, w := range waters {
			a.Vessels = append(a.Vessels, r.answerVessel(b, w))
		}
		if remind {
			a.Tonight = &reminderAnswer{tonight.Vessels, when(tonight.By), when(tonight.Start), show.Reminder(tonight)}
		}
		return r.inJSON(a)
	}
	var reminder []string
	if remind {
		reminder = show.Reminder(tonight)
	}
	if sources {
		return r.saySources()
	}
	return r.sayVessels(b, waters, reminder)
}

func (r *run) answerVessel(b *model.Book, w advice.VesselWater) vesselAnswer {
	a := vesselAnswer{Name: w.Vessel.Name, Litres: w.Vessel.Litres, Of: []model.Source{}, Chlorine: []float64{},
		Verdict: w.Fitness, Reasons: r.about(b, nil).Reasons(w.Reasons)}
	if w.Water == nil {
		return a
	}
	a.Of = append(a.Of, w.Water.Of...)
	a.Filled, a.Loads, a.Fed = when(w.Water.At), w.Water.Loads, w.Water.Fed
	a.EC, a.Temp = measuredOrNull(w.EC), measuredOrNull(w.TempC)
	if w.Chlorine.Known {
		a.Chlorine = []float64{round(w.Chlorine.Low, 3), round(w.Chlorine.High, 3)}
	}
	return a
}

// measuredOrNull is null for what was not measured.
func measuredOrNull(v float64) *float64 {
	if v == 0 {
		return nil
	}
	return &v
}

func answerOrigins() []originAnswer {
	all := []originAnswer{}
	for _, s := range show.Sources {
		all = append(all, originAnswer{s.Of, advice.FitnessOf(s.Of), s.What, s.Origin})
	}
	return all
}

func answerLog(b *model.Book) []sampleAnswer {
	all := []sampleAnswer{}
	for _, s := range b.Samples() {
		all = append(all, sampleAnswer{when(s.At), s.Sample})
	}
	return all
}

func (r *run) saySources() error {
	t := paper.Table{Wrap: true, Columns: []paper.Column{{Head: "water"}, {Head: "verdict"}, {Head: "what", Least: 20},
		{Head: "source", Least: 16}}}
	for _, s := range show.Sources {
		t.Add(string(s.Of), advice.FitnessOf(s.Of).String(), s.What, s.Origin)
	}
	return r.table(&t)
}

func (r *run) sayVessels(b *model.Book, waters []advice.VesselWater, reminder []string) error {
	t := paper.Table{Wrap: true, Columns: []paper.Column{
		{Head: "vessel"}, {Head: "water", Least: 8}, {Head: "filled"}, {Head: "loads", Right: true}, {Head: "verdict"},
		{Head: "why", Least: 20},
	}}
	for _, w := range waters {
		if w.Water == nil {
			t.Add(w.Vessel.Name, "", "", "", "", r.about(b, nil).First(w.Reasons))
			continue
		}
		reasons := r.about(b, nil).Reasons(w.Reasons)
		if w.Fitness == advice.Fine && len(b.InVessel(w.Vessel.Name)) == 0 { // full, and perhaps forgotten: that first
			slices.Reverse(reasons)
		}
		for i, why := range reasons {
			if i > 0 {
				t.Add("", "", "", "", "", why)
				continue
			}
			t.Add(w.Vessel.Name, model.SourceWords(w.Water.Of), show.Clock(w.Water.At, r.now(), b.Zone()),
				fmt.Sprint(w.Water.Loads), w.Fitness.String(), why)
		}
	}
	if err := r.table(&t); err != nil {
		return err
	}
	for _, text := range reminder {
		if err := r.print(r.headed("To do", text)); err != nil {
			return err
		}
	}
	return r.sayReadings(b)
}

// shownReadings is how many of the newest readings the shell lists: two
// months of weekly ones.
const shownReadings = 8

func (r *run) sayReadings(b *model.Book) error {
	log := b.Samples()
	for _, s := range log[max(0, len(log)-shownReadings):] {
		if err := r.say("%s  %s", show.Date(s.At, b.Zone()),
			show.Sentence(model.NewEntry(s.At, &s.Sample), b)); err != nil {
			return err
		}
	}
	return nil
}
