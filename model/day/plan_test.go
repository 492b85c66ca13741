package day_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/tests/household"
	"tubside/ui/show"
)

// planned is a plan that must come about.
func planned(t *testing.T, h household.Home, now time.Time, ask day.Ask) *day.Plan {
	t.Helper()
	p, err := day.NewPlan(context.Background(), h.Keeper(), now, ask)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// texts lists a plan's sentences.
func texts(h household.Home, p *day.Plan) []string {
	var all []string
	for i := range p.Steps {
		all = append(all, show.Step(h.Book, p, &p.Steps[i]))
	}
	return all
}

func TestAThirstyShelfIsPlannedFromTheMorningOn(t *testing.T) {
	h := household.Greens(t, 12)
	p := planned(t, h, may(8, 6), day.Ask{})
	if !p.Ask.From.Equal(may(8, 8)) || !p.Ask.Until.Equal(may(8, 18)) || !p.Ask.DryBy.Equal(may(8, 21)) {
		t.Errorf("hours %v to %v, dry by %v: the house rules say 8, 18 and 21", p.Ask.From, p.Ask.Until, p.Ask.DryBy)
	}
	if p.Count() != 12 || len(p.Left) != 0 {
		t.Fatalf("%d planned, left out %v", p.Count(), p.Left)
	}
	need, _ := advice.NeedOf(estimate.New(h.Book), 1, p.Ask.From)
	for _, l := range p.Loads {
		for _, plant := range l.Plants {
			if minutes := plant.Out.Sub(plant.In).Minutes(); minutes < need.From || minutes > need.To {
				t.Errorf("plant %d soaks %.1f minutes, not %g to %g", plant.ID, minutes, need.From, need.To)
			}
			if plant.Dry.After(p.Ask.DryBy) || plant.Bench != "rack" {
				t.Errorf("plant %d is dry at %v on %q", plant.ID, plant.Dry, plant.Bench)
			}
		}
	}
	if got := texts(h, p)[0]; !strings.HasPrefix(got, "fill ") {
		t.Errorf("the day begins with %q, not with filling", got)
	}
	if last := texts(h, p)[len(p.Steps)-1]; !strings.HasPrefix(last, "empty ") {
		t.Errorf("the day ends with %q, not with emptying: standing water is a danger to children", last)
	}
}

func TestTheStepsSayWhereToStart(t *testing.T) {
	h := household.Greens(t, 12)
	h.Say(may(2, 9), &model.VesselSet{Vessel: model.Vessel{Name: "bucket 1"}, Away: true})
	h.Say(may(2, 9), &model.VesselSet{Vessel: model.Vessel{Name: "bucket 2"}, Away: true})
	want := []string{
		"fill tub (100 L)", "pull 12 plants for tub: A", "put 12 plants into tub, from the tap end on",
		"take out tub: 12 plants, the tap end first", "empty tub at once and rinse it",
	}
	if got := texts(h, planned(t, h, may(8, 6), day.Ask{})); !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestAPlanNeedsAVesselAndHours(t *testing.T) {
	h := household.Greens(t, 1)
	k := estimate.New(h.Book)
	for name, ask := range map[string]day.Ask{
		"ends before it begins": {From: may(8, 12), Until: may(8, 11)},
		"two days":              {From: may(8, 12), Until: may(10, 12)},
		"dry before it begins":  {From: may(8, 12), DryBy: may(8, 11)},
		"all pause":             {From: may(8, 12), Until: may(8, 13), Pauses: []day.Stretch{{From: may(8, 11), Until: may(8, 14)}}},
		"backward pause":        {Pauses: []day.Stretch{{From: may(8, 14), Until: may(8, 13)}}},
	} {
		if _, err := day.NewPlan(context.Background(), k, may(8, 6), ask); err == nil {
			t.Errorf("%s: planned", name)
		} else if _, ok := model.AsProblem(err); !ok {
			t.Errorf("%s: %v does not say what to do", name, err)
		}
	}
	for _, v := range slices.Clone(h.Vessels()) {
		h.Say(may(2, 9), &model.VesselSet{Vessel: v, Away: true})
	}
	if _, err := day.NewPlan(context.Background(), k, may(8, 6), day.Ask{}); err == nil {
		t.Error("planned without a vessel")
	}
}

// Whoever soaks on Saturdays only is proposed nothing for a Sunday, unless she gives hours.
func TestADayWithoutHoursIsNotPlanned(t *testing.T) {
	h := household.Greens(t, 1)
	sunday := may(9, 10)
	for sunday.Weekday() != time.Sunday {
		sunday = sunday.AddDate(0, 0, 1)
	}
	for _, w := range model.Weekdays {
		hours := 0.0
		if w == model.Weekdays[5] {
			hours = 5
		}
		h.Say(may(2, 9), &model.RuleSet{Name: model.LimitTable[w.Limit()].Name, Value: hours})
	}
	if p := planned(t, h, sunday, day.Ask{}); p.Ask.From.Weekday() != time.Saturday {
		t.Errorf("planned from %v on", p.Ask.From)
	}
	if p := planned(t, h, sunday, day.Ask{Until: sunday.Add(4 * time.Hour)}); p.Ask.From.YearDay() != sunday.YearDay() {
		t.Errorf("hours given for the day, and planned from %v on", p.Ask.From)
	}
}

func TestAnEndedContextEndsThePlanning(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	h := household.Greens(t, 3)
	if _, err := day.NewPlan(ctx, estimate.New(h.Book), may(8, 6), day.Ask{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

func TestNoHandsInAPause(t *testing.T) {
	h := household.Greens(t, 30)
	lunch := day.Stretch{From: may(8, 9), Until: may(8, 10)}
	p := planned(t, h, may(8, 6), day.Ask{Pauses: []day.Stretch{lunch}})
	for _, s := range p.Steps {
		if s.Do.Hands() && s.At.Before(lunch.Until) && s.Until.After(lunch.From) {
			t.Errorf("%v at %v, in the pause", s.Do, s.At)
		}
	}
}

func TestALoadInTheWaterStaysAsItIs(t *testing.T) {
	h := household.Greens(t, 12)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 10)}, 1, 2, 3)
	p := planned(t, h, may(8, 9), day.Ask{})
	load, at, ok := p.Placed(2)
	if !ok || p.Loads[load].Load != 2 || p.Loads[load].Vessel != "tub" {
		t.Fatalf("plant 2 is not in load 2 any more: %+v", p.Loads)
	}
	if at.Out.Before(may(8, 10)) || at.Out.After(may(8, 10).Add(5*time.Minute)) {
		t.Errorf("due at 10:00, out at %v", at.Out)
	}
	if p.Count() != 9 {
		t.Errorf("%d planned beside it, not the 9 others", p.Count())
	}
	if _, _, ok := p.Placed(9); !ok {
		t.Error("plant 9 has no place")
	}
}

func TestAnOverdueLoadComesOutFirstAndIsSaidToBeLate(t *testing.T) {
	h := household.Greens(t, 6)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 9)}, 1, 2)
	p := planned(t, h, may(8, 15), day.Ask{})
	if s := p.Steps[0]; s.Do != soak.GetOut && p.Steps[1].Do != soak.GetOut && p.Steps[2].Do != soak.GetOut {
		t.Errorf("the first steps are %v", texts(h, p)[:3])
	}
	if len(p.Late) != 2 || !strings.Contains(show.LeftOut(h.Book, p, p.Late[0]), "longer than it should be") {
		t.Errorf("late: %v", p.Late)
	}
}

func TestWhatDriesTakesItsPlace(t *testing.T) {
	h := household.Greens(t, 12)
	h.Say(may(2, 9), &model.BenchSet{Bench: model.Bench{Name: "rack", Room: 0.1}}) // room for 5 of 15 cm
	h.Say(may(2, 9), &model.RuleSet{Name: "load-plants", Value: 1})
	h.Say(may(7, 20), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(7, 21)}, 1, 2, 3)
	h.Say(may(8, 8), &model.Out{}, 1, 2, 3) // not shaken: wet until the evening
	p := planned(t, h, may(8, 9), day.Ask{})
	dry := time.Time{}
	for _, id := range []model.ID{1, 2, 3} {
		if d := advice.Look(estimate.New(h.Book), may(8, 9)).DryOut(id); d.High.After(dry) {
			dry = d.High
		}
	}
	lying := func(at time.Time) (n int) {
		for _, l := range p.Loads {
			for _, plant := range l.Plants {
				if !plant.Out.After(at) && plant.Dry.After(at) {
					n++
				}
			}
		}
		return n
	}
	most := 0
	for at := may(8, 9); at.Before(dry); at = at.Add(time.Minute) {
		most = max(most, lying(at))
	}
	if most != 2 {
		t.Errorf("%d lie beside the three that dry until %v, with room for 2", most, dry)
	}
}

func TestTooLittleTimeToDryLeavesPlantsOutAndSaysWhatHelps(t *testing.T) {
	h := household.Greens(t, 4)
	p := planned(t, h, may(8, 6), day.Ask{From: may(8, 15), Until: may(8, 18), DryBy: may(8, 18)})
	if p.Count() != 0 || len(p.Left) != 4 {
		t.Fatalf("%d planned, left out %v", p.Count(), p.Left)
	}
	why, help := show.WhyLeftOut(h.Book, p, p.Left[0])
	if !strings.Contains(why, "18:00") || !strings.HasPrefix(help[0], "start ") || !strings.HasSuffix(help[0], " earlier") {
		t.Errorf("%q, help %q", why, help)
	}
}

func TestAFanDriesFaster(t *testing.T) {
	h := household.Greens(t, 2)
	still := planned(t, h, may(8, 6), day.Ask{})
	h.Say(may(2, 9), &model.BenchSet{Bench: model.Bench{Name: "rack", Room: 2, Fan: model.FanNear}})
	near := planned(t, h, may(8, 6), day.Ask{})
	h.Say(may(2, 9), &model.BenchSet{Bench: model.Bench{Name: "rack", Room: 2, Factor: 2}})
	slow := planned(t, h, may(8, 6), day.Ask{})
	if !near.AllDry.Before(still.AllDry) || !slow.AllDry.After(still.AllDry) {
		t.Errorf("dry at %v, with a fan at 1 m %v, on a bench that takes twice as long %v", still.AllDry, near.AllDry, slow.AllDry)
	}
}

func TestNamedPlantsThatAreNotDueAreSaidSo(t *testing.T) {
	h := household.Greens(t, 4)
	h.Say(may(7, 9), &model.Bloom{}, 2)
	p := planned(t, h, may(8, 6), day.Ask{Plants: model.IDs{1, 2}})
	if p.Count() != 1 || len(p.Left) != 1 || p.Left[0].ID != 2 || !strings.Contains(show.LeftOut(h.Book, p, p.Left[0]), "in bloom") {
		t.Errorf("%d planned, left out %v", p.Count(), p.Left)
	}
	if p := planned(t, h, may(8, 6), day.Ask{Turn: model.IDs{1, 2}}); p.Count() != 1 || len(p.Left) != 0 {
		t.Errorf("of a turn %d planned, left out %v", p.Count(), p.Left)
	}
	if p := planned(t, h, may(8, 6), day.Ask{Shelf: "b"}); p.Count() != 0 {
		t.Errorf("%d planned of a shelf that has none", p.Count())
	}
	if p := planned(t, h, may(8, 6), day.Ask{Bands: []soak.Band{soak.Dip}}); p.Count() != 0 {
		t.Errorf("%d planned to dip", p.Count())
	}
}

func TestNewcomersGoAfterTheHealthy(t *testing.T) {
	h := household.Greens(t, 8)
	for _, v := range slices.Clone(h.Vessels()[1:]) {
		h.Say(may(2, 9), &model.VesselSet{Vessel: v, Away: true})
	}
	h.Say(may(2, 9), &model.Quarantine{}, 1, 2)
	h.Say(may(2, 9), &model.Trouble{What: model.Scale}, 3)
	p := planned(t, h, may(8, 6), day.Ask{Until: may(8, 20), DryBy: may(8, 24)})
	order := []soak.Company{}
	for _, l := range p.Loads {
		order = append(order, l.Company)
	}
	if want := []soak.Company{soak.Healthy, soak.Newcomer, soak.Sick}; !slices.Equal(slices.Compact(order), want) {
		t.Errorf("companies in order %v, not %v", order, want)
	}
	sick, _, ok := p.Placed(3)
	if !ok || len(p.Loads[sick].Plants) != 1 {
		t.Fatalf("the sick plant shares its load: %+v", p.Loads)
	}
	if !slices.ContainsFunc(texts(h, p), func(s string) bool { return strings.Contains(s, "disinfect") }) {
		t.Errorf("nothing is disinfected: %q", texts(h, p))
	}
}

func TestALoadForTheNightGoesInInTheEvening(t *testing.T) {
	h := household.Greens(t, 3)
	h.Say(may(7, 9), &model.Look{Signs: model.Signs{Curl: 3, Tips: 3, Shift: model.NotSeen}}, 1, 2, 3)
	h.Say(may(25, 9), &model.Note{Text: "away"})
	now := may(25, 6)
	if n, _ := advice.NeedOf(estimate.New(h.Book), 1, may(25, 8)); n.Band != soak.Overnight {
		t.Fatalf("the plants are to soak %s", n.Band)
	}
	p := planned(t, h, now, day.Ask{})
	if len(p.Loads) != 1 || !p.Loads[0].Night || p.Loads[0].Start.Before(may(25, 20)) || !p.Loads[0].Out.Equal(may(26, 6)) {
		t.Fatalf("loads %+v", p.Loads)
	}
	if !p.DayFree.Equal(may(25, 8)) || p.HandsFree.Before(may(25, 20)) {
		t.Errorf("hands free %v, for the day %v", p.HandsFree, p.DayFree)
	}
	short := planned(t, h, now, day.Ask{From: may(25, 9), Until: may(25, 14)})
	if short.Count() != 3 || short.Loads[0].Start.Before(may(25, 20)) {
		t.Errorf("asked for a morning the load for the night goes in at %v, not in the evening", short.Loads[0].Start)
	}
}

// Two plants that fit into no load and make none of their own are offered one, and who
// takes the offer keeps it as the day goes on.
func TestASmallLoadIsOffered(t *testing.T) {
	h := household.Greens(t, 30)
	var few []model.Plant
	for id := model.ID(101); id <= 102; id++ {
		few = append(few, model.Plant{ID: id, Count: 1, Form: model.Fuzzy, Leaf: model.Xeric, Size: 8})
	}
	h.Say(may(1, 8), &model.Add{Plants: few})
	h.Say(may(8, 7), &model.Look{Signs: model.Signs{Curl: 2, Tips: 1, Shift: model.NotSeen}}, 101, 102)
	now := may(8, 8)
	p := planned(t, h, now, day.Ask{})
	offers := day.Offers(context.Background(), estimate.New(h.Book), now, p)
	i := slices.IndexFunc(offers, func(o day.Offer) bool { return o.What == day.SmallLoads })
	if i < 0 || offers[i].Plan.Count() != 32 || p.Count() != 30 {
		t.Fatalf("%d planned, left out %v, offers %+v", p.Count(), leftWhy(p), offers)
	}
	h.Say(now, offers[i].Plan.Agree(h.Book, now))
	if again := current(t, h, now.Add(time.Minute)); again.Count() != 32 || again.Lost {
		t.Errorf("agreed, %d are planned", again.Count())
	}
}

func leftWhy(p *day.Plan) (whys []string) {
	for _, l := range p.Left {
		if l.Unplaced != nil {
			whys = append(whys, l.ID.String()+": "+l.Unplaced.Why.String())
		}
	}
	return whys
}
