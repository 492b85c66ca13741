package advice

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/feed"
)

// VesselWater is what stands in a vessel.
type VesselWater struct {
	Vessel   model.Vessel
	Water    *model.Water // nil: empty, or nobody has said
	Age      time.Duration
	Fitness  Fitness
	Reasons  []Reason     // the first is the one to show in a list
	Chlorine ChlorineLeft // of what the tap water had when it was drawn
	EC       float64      // as last measured, dS/m; 0 never
	TempC    float64      // as last measured, °C; 0 never
}

// ChlorineLeft is the share of the tap's chlorine that is still in the water, 0..1.
type ChlorineLeft struct {
	Known     bool // it is tap water, and the house rule says what the waterworks adds
	Low, High float64
}

// Waters is what stands in every vessel at a time.
func Waters(b *model.Book, now time.Time) []VesselWater {
	now = now.In(b.Zone())
	all := make([]VesselWater, 0, len(b.Vessels()))
	for _, v := range b.Vessels() {
		all = append(all, waterIn(b, v, now))
	}
	return all
}

func waterIn(b *model.Book, v model.Vessel, now time.Time) VesselWater {
	w := VesselWater{Vessel: v, Water: b.Water(v.Name)}
	if w.Water == nil {
		w.Reasons = []Reason{because(EmptyOrUnknown)}
		return w
	}
	w.Age = now.Sub(w.Water.At)
	w.measure(b)
	rules := b.Rules()
	w.judgeUse(rules, now)
	fitness, reasons := judgeSources(w.Water.Of, w.Water.Fed != nil)
	w.add(fitness, reasons...)
	w.judgeNumbers(b, now)
	w.judgeChlorine(rules, now)
	if len(w.Reasons) == 0 {
		w.Reasons = []Reason{because(WaterFine)}
	}
	w.Reasons = append(w.Reasons, because(StandingWater))
	return w
}

// add takes a verdict and its reasons; the worst verdict so far stands, and its
// reason first.
func (w *VesselWater) add(f Fitness, reasons ...Reason) {
	if f > w.Fitness {
		w.Fitness = f
		w.Reasons = append(reasons, w.Reasons...)
		return
	}
	w.Reasons = append(w.Reasons, reasons...)
}

// measure finds what was last measured of the water since it was filled.
func (w *VesselWater) measure(b *model.Book) {
	w.EC, w.TempC = w.Water.EC, w.Water.TempC
	for _, s := range b.Samples() {
		if s.Vessel != w.Vessel.Name || s.At.Before(w.Water.At) {
			continue
		}
		if s.EC > 0 {
			w.EC = s.EC
		}
		if s.TempC > 0 {
			w.TempC = s.TempC
		}
	}
}

// keptHours is how long water that plants were in may be kept: not for the next
// day. A choice.
const keptHours = 12

// judgeUse goes by who was in the water, how often, and for how long.
func (w *VesselWater) judgeUse(rules model.Rules, now time.Time) {
	water := w.Water
	used := now.Sub(water.FirstIn).Hours()
	switch {
	case water.Loads == 0:
		return
	case water.Worst == model.Sick:
		w.add(Change, because(SickWasIn))
	case water.Worst == model.Suspect:
		w.add(Change, because(SuspectWasIn))
	case water.Loads >= rules.LoadsToFill(w.Vessel):
		w.add(Change, because(LoadsUsedUp, float64(water.Loads), float64(rules.LoadsToFill(w.Vessel))))
	case used >= keptHours:
		w.add(Change, because(NotAnotherDay, now.Sub(water.FirstIn).Minutes()))
	case used >= rules.HoursToFill(w.Vessel):
		w.add(Change, because(HoursUsedUp, now.Sub(water.FirstIn).Minutes(), rules.HoursToFill(w.Vessel)))
	case water.Worst == model.Newcomer:
		w.add(Warned, because(NewcomerWasIn))
	}
}

// hardWater is the lime from which leaves get a crust, mg/L as CaCO3: extension
// advice on irrigation water, seen only as quoted by others.
const hardWater = 150

// judgeNumbers goes by what was measured of the water or of its sources.
func (w *VesselWater) judgeNumbers(b *model.Book, now time.Time) {
	rules := b.Rules()
	if w.TempC > 0 && w.TempC < rules[model.WaterCold] {
		w.add(Warned, because(TooCold, w.TempC))
	}
	if w.TempC > rules[model.WaterWarm] {
		w.add(Warned, because(TooWarm, w.TempC))
	}
	report := w.report(b)
	findings, err := report.Findings()
	if err != nil {
		return // the book takes no number that cannot be
	}
	for _, f := range findings {
		if w.Water.Fed != nil && (f.What == "conductivity" || f.What == "dissolved solids") {
			continue // the feed itself
		}
		if f.Restriction != feed.None {
			w.add(Warned, about(f.What, because(OverLimit, f.Value, f.Limit)))
		}
	}
	if hard := w.hardness(b); hard > hardWater {
		w.add(Warned, because(HardWater, hard))
	}
}

// report is the water's own conductivity, and the rest as last reported of its
// source, where it has but one.
func (w *VesselWater) report(b *model.Book) feed.Water {
	s := w.ofSource(b)
	report := feed.Water{EC: s.EC, TDS: s.TDS, Sodium: s.Sodium, Chloride: s.Chloride, Boron: s.Boron}
	if w.EC > 0 {
		report.EC = w.EC
	}
	return report
}

func (w *VesselWater) hardness(b *model.Book) float64 { return w.ofSource(b).Hardness }

func (w *VesselWater) ofSource(b *model.Book) model.Sample {
	if len(w.Water.Of) != 1 {
		return model.Sample{}
	}
	return SourceSample(b, w.Water.Of[0])
}

// SourceSample is the newest of each number reported of a source. Tap water is
// the same, rested or not.
func SourceSample(b *model.Book, of model.Source) model.Sample {
	same := func(s model.Source) model.Source {
		if s == model.RestedTap {
			return model.Tap
		}
		return s
	}
	newest := model.Sample{Of: of}
	for _, s := range b.Samples() {
		if s.Vessel != "" || same(s.Of) != same(of) {
			continue
		}
		for _, n := range [][2]*float64{
			{&newest.EC, &s.EC}, {&newest.TempC, &s.TempC}, {&newest.TDS, &s.TDS}, {&newest.Hardness, &s.Hardness},
			{&newest.Sodium, &s.Sodium}, {&newest.Chloride, &s.Chloride}, {&newest.Boron, &s.Boron},
		} {
			if *n[1] > 0 {
				*n[0] = *n[1]
			}
		}
	}
	return newest
}

// vesselDepth is how deep the water in a tub or bucket stands, cm. A guess.
const vesselDepth = 25

// judgeChlorine says how much of the tap's disinfectant has left.
func (w *VesselWater) judgeChlorine(rules model.Rules, now time.Time) {
	stood := w.Water.Stood + w.Age.Hours()
	if !FromTap(w.Water.Of) || rules[model.WaterRest] == 0 || w.Water.Loads > 0 {
		return
	}
	rest := because(TapStood, stood)
	switch rules.Treatment() {
	case model.Chlorine:
		low, high := feed.FreeChlorine.Left(stood, vesselDepth)
		w.Chlorine = ChlorineLeft{true, low, high}
		rest = because(ChlorineIsLeft, stood, low, high)
	case model.Chloramine:
		w.Chlorine = ChlorineLeft{true, 1, 1}
		rest = because(Chloramine)
	}
	w.add(Fine, rest)
}

// FromTap reports whether some of the water came from the tap.
func FromTap(of []model.Source) bool {
	for _, s := range of {
		if s == model.Tap || s == model.RestedTap {
			return true
		}
	}
	return false
}

// Fitness is how fit water is for the leaves of air plants.
type Fitness int

// The fitnesses, best first.
const (
	Fine       Fitness = iota
	Warned             // usable, with something to mind
	Change             // was fine; pour it out and fill again
	NotAllowed         // not for these plants
)

var fitnessWords = [...]string{"fine", "warned", "change", "not allowed"}

// String is the fitness's word.
func (f Fitness) String() string { return fitnessWords[f] }

// MarshalText writes the fitness's word.
func (f Fitness) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// sourceFitness is how fit water from a source is by itself, before anything is
// measured; a source that is not here is fine. What is known of each, and who says
// so, is told with its words (see ui/show).
var sourceFitness = map[model.Source]Fitness{
	model.Rice:      Warned,
	model.Aquarium:  Warned,
	model.Pond:      Warned,
	model.Distilled: Warned,
	model.RO:        Warned,
	model.Softened:  NotAllowed,
	model.Sea:       NotAllowed,
}

// FitnessOf is how fit water from a source is by itself.
func FitnessOf(s model.Source) Fitness { return sourceFitness[s] }

// isEmpty reports a water with nothing in it.
func isEmpty(s model.Source) bool { return s == model.Distilled || s == model.RO }

// judgeSources is what the sources of a filling say of it. Empty water is only
// warned of alone and unfed.
func judgeSources(of []model.Source, fed bool) (Fitness, []Reason) {
	worst, reasons := Fine, []Reason(nil)
	blended := fed || slices.ContainsFunc(of, func(s model.Source) bool { return !isEmpty(s) })
	for _, s := range of {
		fitness := FitnessOf(s)
		if fitness == Fine || isEmpty(s) && blended {
			continue
		}
		worst = max(worst, fitness)
		reasons = append(reasons, about(string(s), because(SourceWarns)))
	}
	return worst, reasons
}

// Emptied is when a vessel was emptied, if that was on the day, and nobody has said since
// that it was filled, or put plants into it.
func Emptied(b *model.Book, vessel string, now time.Time) (at time.Time, is bool) {
	if b.Water(vessel) != nil {
		return at, false
	}
	this, _ := b.Vessel(vessel)
	for _, e := range slices.Backward(b.Entries()) {
		if now.Sub(e.At) > 24*time.Hour {
			break
		}
		about := ""
		switch f := e.Fact.(type) {
		case *model.Drain:
			about = f.Vessel
		case *model.Soak:
			about = f.Vessel
		}
		if v, ok := b.Vessel(about); !ok || v.Name != this.Name || b.Struck(e.Seq) || e.At.After(now) {
			continue
		}
		_, is = e.Fact.(*model.Drain)
		return e.At, is && e.At.In(b.Zone()).YearDay() == now.In(b.Zone()).YearDay()
	}
	return at, false
}
