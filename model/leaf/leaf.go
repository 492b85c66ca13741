// Package leaf is a plant's water: losing it between soaks, taking it up in water, and what the grower's signs say
// about it. It knows numbers only. Relative water content (RWC) is the share of the water of a full leaf that it
// still has, 0 to 1: (fresh - dry)/(turgid - dry) in mass. Thirst is 1 - RWC.
package leaf

import "fmt"

// Limits of drying out, as thirst, for T. ionantha: Benzing & Dahle 1971, Am. Midl. Nat. 85(1), abstract. Other
// species are assumed to be alike, which nobody has measured.
const (
	// LethalFrom is where injury begins to be irreversible.
	LethalFrom = 0.75
	// LethalTo is where injury is irreversible.
	LethalTo = 0.80
	// SeedlingsEndured is the thirst that seedlings lived through ("at least").
	SeedlingsEndured = 0.65
)

// DryMatter is the dry mass of a leaf as a share of its mass when full. A guess: a succulent leaf is mostly water.
// Weighing one plant soaked and another oven-dry would replace it.
const DryMatter = 0.20

// MassShare is a plant's mass as a share of its mass when full, at a given RWC (0 to 1): between DryMatter and 1.
func MassShare(rwc float64) float64 { return DryMatter + (1-DryMatter)*held(rwc) }

// RWCFromMassShare is the other way round: the RWC (0 to 1) of a plant that weighs the given share of what it weighed
// fully soaked and blotted. This is what a kitchen scale can say.
func RWCFromMassShare(share float64) float64 { return held((share - DryMatter) / (1 - DryMatter)) }

// RWC is the relative water content from three masses in one unit: as it is, oven-dry, and full. It is not cut to 0
// to 1: a wet film can put it over 1, and the caller may want to see that. It fails where the masses cannot belong to
// one plant.
func RWC(fresh, dry, turgid float64) (float64, error) {
	if !(dry >= 0 && turgid > dry) {
		return 0, fmt.Errorf("relative water content: full mass %v must be above dry mass %v; weigh again", turgid, dry)
	}
	if !(fresh >= dry) {
		return 0, fmt.Errorf("relative water content: fresh mass %v is under dry mass %v; weigh again", fresh, dry)
	}
	return (fresh - dry) / (turgid - dry), nil
}

// held keeps a share of water between 0 and 1.
func held(rwc float64) float64 { return min(max(rwc, 0), 1) }
