package model

import "fmt"

// Limits of what a vessel may say of its filling. A choice.
const (
	maxRefill    = 240.0 // minutes
	maxFillLoads = 50
	maxFillHours = 48.0
)

// checkFilling reports what cannot be of a vessel's filling; 0 leaves each to
// the house rules.
func (v Vessel) checkFilling() error {
	switch {
	case !(v.Refill >= 0 && v.Refill <= maxRefill):
		return &Problem{
			What: fmt.Sprintf("%s: %g minutes to refill", v.Name, v.Refill),
			Do:   fmt.Sprintf("give minutes up to %g", maxRefill),
		}
	case v.Loads < 0 || v.Loads > maxFillLoads:
		return &Problem{
			What: fmt.Sprintf("%s: %d loads to a fill", v.Name, v.Loads),
			Do:   fmt.Sprintf("give 1 to %d", maxFillLoads),
		}
	case !(v.Hours >= 0 && v.Hours <= maxFillHours):
		return &Problem{
			What: fmt.Sprintf("%s: water used for %g hours", v.Name, v.Hours),
			Do:   fmt.Sprintf("give hours up to %g", maxFillHours),
		}
	}
	return nil
}

// FillMinutes is how long the tap runs to fill a vessel: as said of it, else by the
// house rule's litres a minute.
func (r Rules) FillMinutes(v Vessel) float64 {
	if v.Refill > 0 {
		return v.Refill
	}
	return v.Litres / r[TapFlow]
}

// LoadsToFill is how many loads one fill of a vessel serves, at least 1.
func (r Rules) LoadsToFill(v Vessel) int {
	if v.Loads > 0 {
		return v.Loads
	}
	return max(1, int(r[FillLoads]))
}

// HoursToFill is how long after its first plant went in a fill of a vessel may
// still take another load, in hours.
func (r Rules) HoursToFill(v Vessel) float64 {
	if v.Hours > 0 {
		return v.Hours
	}
	return r[FillHours]
}
