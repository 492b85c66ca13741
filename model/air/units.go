package air

// Celsius returns a Fahrenheit temperature in degC. The scales' relation is exact.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) / 1.8 }

// Fahrenheit returns a temperature in degC in Fahrenheit. The scales' relation is exact.
func Fahrenheit(celsius float64) float64 { return celsius*1.8 + 32 }
