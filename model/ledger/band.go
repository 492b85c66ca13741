package ledger

import "math"

// band puts an interval around a share alive, from the standard error of the share's logarithm, on the scale
// log(-log(share)): the log-log band of J. D. Kalbfleisch and R. L. Prentice 1980, The Statistical Analysis of Failure
// Time Data, Wiley (from memory). The plain band, share ± z standard errors, runs over 100 % and under 0 % for the few
// plants of a home; this one stays inside, and keeps its coverage with few losses (Ø. Borgan and K. Liestøl 1990,
// Scand. J. Stat. 17:35-41, from memory).
func band(alive, logError, z float64) (low, high float64) {
	if alive <= 0 || alive >= 1 {
		return alive, alive
	}
	reach := math.Exp(z * logError / -math.Log(alive))
	return math.Pow(alive, reach), math.Pow(alive, 1/reach)
}

// quantile is the number of standard errors to either side that holds the given share of a normal distribution.
func quantile(level float64) float64 { return math.Sqrt2 * math.Erfinv(level) }
