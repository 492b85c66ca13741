// Package air is the arithmetic of moist room air: how much vapour it holds, how much more it would take, and how cold
// a wet thing gets in it. Temperatures are degC, pressures Pa, relative humidity (RH) a share from 0 to 1, never
// percent.
package air

import (
	"fmt"
	"math"
)

// StandardPressure is the standard atmosphere at sea level, Pa (ICAO standard atmosphere).
const StandardPressure = 101325.0

// The range this package answers for. Saturation is checked against tables from 0 to 50 degC; the rest is margin for a
// cold garage and a hot sunroom.
const (
	MinTempC    = -20.0
	MaxTempC    = 60.0
	MinPressure = 50000.0  // Pa, about 5,500 m, above the highest lasting settlements
	MaxPressure = 110000.0 // Pa, above any sea-level barometer reading
	MinAltitude = -400.0   // m, the shores of the Dead Sea
	MaxAltitude = 5500.0   // m, above the highest lasting settlements
)

const (
	gasConstant    = 8.314462618 // J/(mol K), SI 2019
	molarMassWater = 0.01801528  // kg/mol, ASHRAE Handbook-Fundamentals 2017, ch. 1
	massRatio      = 0.621945    // water to dry air, ASHRAE Handbook-Fundamentals 2017, ch. 1, eq. 20
	zeroCelsius    = 273.15      // K
)

// Air is the air in one place. The zero Pressure means StandardPressure.
type Air struct {
	TempC    float64 // degC, MinTempC to MaxTempC
	RH       float64 // share, above 0 and at most 1
	Pressure float64 // Pa, MinPressure to MaxPressure, or 0 for StandardPressure
}

// Valid returns nil when the air can exist in a home, and otherwise an error that names the reading and its range.
// The methods of Air do not check: call Valid where readings come in.
func (a Air) Valid() error {
	if !between(a.TempC, MinTempC, MaxTempC) {
		return fmt.Errorf("air temperature %.4g °C: give one between %.0f and %.0f °C", a.TempC, MinTempC, MaxTempC)
	}
	if !(a.RH > 0 && a.RH <= 1) {
		return fmt.Errorf("relative humidity %.4g %%: give one above 0 and up to 100 %%", a.RH*100)
	}
	if a.Pressure != 0 && !between(a.Pressure, MinPressure, MaxPressure) {
		return fmt.Errorf("air pressure %.6g Pa: give one between %.0f and %.0f Pa", a.Pressure, MinPressure,
			MaxPressure)
	}
	return nil
}

// between reports low <= x <= high; NaN, a reading that is not there, is between nothing.
func between(x, low, high float64) bool { return x >= low && x <= high }

// Pa returns the air's pressure in Pa, StandardPressure where none was given.
func (a Air) Pa() float64 {
	if a.Pressure == 0 {
		return StandardPressure
	}
	return a.Pressure
}

// Kelvin returns the air's temperature in K.
func (a Air) Kelvin() float64 { return a.TempC + zeroCelsius }

// Vapour returns the partial pressure of the water vapour, Pa.
func (a Air) Vapour() float64 { return a.RH * Saturation(a.TempC) }

// Deficit returns the vapour pressure deficit, Pa: saturation less vapour, how thirsty the air is. It is 0 at RH 1.
func (a Air) Deficit() float64 { return (1 - a.RH) * Saturation(a.TempC) }

// VapourDensity returns the mass of vapour in a cubic metre, kg/m3 (ideal gas).
func (a Air) VapourDensity() float64 {
	return a.Vapour() * molarMassWater / (gasConstant * a.Kelvin())
}

// WithVapourDensity returns the same air holding the given mass of vapour, kg/m3; the inverse of VapourDensity. More
// than saturation gives an RH above 1, and less than nothing one below 0: neither is cut off here.
func (a Air) WithVapourDensity(kgM3 float64) Air {
	vapour := kgM3 * gasConstant * a.Kelvin() / molarMassWater
	a.RH = vapour / Saturation(a.TempC)
	return a
}

// PressureAt returns the usual air pressure at an altitude in m, Pa: FAO-56 (Allen, Pereira, Raes and Smith 1998), eq.
// 7. It is meant for MinAltitude to MaxAltitude.
func PressureAt(altitudeM float64) float64 {
	return 101300 * math.Pow((293-0.0065*altitudeM)/293, 5.26)
}
