package air

// wetBulbHalvings narrows the search to well under a millionth of a degree for any valid air.
const wetBulbHalvings = 40

// WetBulb returns the temperature of a wet, well-ventilated thermometer, degC: the temperature at which the
// psychrometric balance of ASHRAE Handbook-Fundamentals 2017, ch. 1, eq. 33 holds, found by halving between dew point
// and air temperature. The bulb is covered by water at every temperature; below 0 degC an iced bulb would read a little
// higher. It is minus infinity at RH 0, which Valid refuses.
func (a Air) WetBulb() float64 {
	low, high := a.DewPoint(), a.TempC
	held := humidityRatio(a.Vapour(), a.Pa())
	for range wetBulbHalvings {
		middle := (low + high) / 2
		if a.ratioAtWetBulb(middle) < held {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// ratioAtWetBulb is the humidity ratio that air at a.TempC must have for a wet bulb at bulbC: ASHRAE
// Handbook-Fundamentals 2017, ch. 1, eq. 33 (kJ/kg and kJ/(kg K)).
func (a Air) ratioAtWetBulb(bulbC float64) float64 {
	saturated := humidityRatio(Saturation(bulbC), a.Pa())
	return ((2501-2.326*bulbC)*saturated - 1.006*(a.TempC-bulbC)) / (2501 + 1.86*a.TempC - 4.186*bulbC)
}

// humidityRatio is kg of vapour to a kg of dry air: ASHRAE Handbook-Fundamentals 2017, ch. 1, eq. 20.
func humidityRatio(vapour, pressure float64) float64 {
	return massRatio * vapour / (pressure - vapour)
}
