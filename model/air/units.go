package air

// Celsius returns a Fahrenheit temperature in degC. The scales' relation is exact.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) / 1.8 }

// Fahrenheit returns a temperature in degC in Fahrenheit. The scales' relation is exact.
func Fahrenheit(celsius float64) float64 { return celsius*1.8 + 32 }

// Degrees gives a temperature in degC as a home reads it: its value, and the
// sign of the scale.
func Degrees(celsius float64, fahrenheit bool) (value float64, unit string) {
	if fahrenheit {
		return Fahrenheit(celsius), "°F"
	}
	return celsius, "°C"
}
