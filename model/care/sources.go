package care

import (
	"slices"

	"tubside/model"
)

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

// SourceInfo is what is known of a source of water.
type SourceInfo struct {
	Of      model.Source
	Fitness Fitness // of this water alone, before anything is measured
	What    string  // what to know of it, in a clause
	Origin  string  // who says so
}

// commonPractice marks what growers do and nobody published.
const commonPractice = "common practice, no source"

// SourceTable tells of every source, in the order of [model.Sources].
var SourceTable = []SourceInfo{
	{model.Tap, Fine, "measure its conductivity; hard water leaves a crust", commonPractice},
	{model.RestedTap, Fine, "standing lowers free chlorine, not chloramine", "EPA allows up to 4.0 mg/L of either; no harm to these plants was found published"},
	{model.Filtered, Fine, "a jug filter takes chlorine and some of the lime", commonPractice},
	{model.Rain, Fine, "few minerals; catch it clean, not off copper or zinc", "copper did harm in Vriesea (Vanhoutte, Ceusters & De Proft 2019, Acta Hort. 1242:141)"},
	{model.Well, Fine, "measure its conductivity and hardness", commonPractice},
	{model.Bottled, Fine, "still, low in minerals", commonPractice},
	{model.Rice, Warned, "starch feeds mould: fresh and thin only, rinse after; no trial found", commonPractice},
	{model.Aquarium, Warned, "feeds, and carries life, salt and medicines; never with copper in it", commonPractice},
	{model.Pond, Warned, "surface water is the likeliest to carry rot", "Oregon State Univ., on recycled nursery water"},
	{model.Distilled, Warned, "empty: blend it with tap water, or feed; harm is said, not shown", commonPractice},
	{model.RO, Warned, "empty: blend it with tap water, or feed; orchids are grown with it", "Szyren, Michigan State Univ. and American Orchid Society"},
	{model.Softened, NotAllowed, "sodium in the place of the lime", "over 3 me/L of sodium harms wetted leaves: FAO Irrigation and Drainage Paper 29, table 1"},
	{model.Sea, NotAllowed, "salt dries on the leaves", "FAO Irrigation and Drainage Paper 29, table 1"},
}

// InfoOf is what is known of a source.
func InfoOf(s model.Source) (SourceInfo, bool) {
	i := slices.IndexFunc(SourceTable, func(info SourceInfo) bool { return info.Of == s })
	if i < 0 {
		return SourceInfo{}, false
	}
	return SourceTable[i], true
}

// isEmpty reports a water with nothing in it.
func isEmpty(s model.Source) bool { return s == model.Distilled || s == model.RO }

// judgeSources is what the sources of a filling say of it. Empty water is only
// warned of alone and unfed.
func judgeSources(of []model.Source, fed bool) (Fitness, []Reason) {
	worst, reasons := Fine, []Reason(nil)
	blended := fed || slices.ContainsFunc(of, func(s model.Source) bool { return !isEmpty(s) })
	for _, s := range of {
		info, ok := InfoOf(s)
		if !ok || info.Fitness == Fine || isEmpty(s) && blended {
			continue
		}
		worst = max(worst, info.Fitness)
		reasons = append(reasons, reason(Warning, "%s: %s (%s)", s, info.What, info.Origin))
	}
	return worst, reasons
}
