package published_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"tubside/model/ledger"
)

// remission is the trial of 6-mercaptopurine against placebo: weeks of remission of 21 pairs of patients, Freireich
// et al. 1963, Blood 21:699-716; Gehan 1965, Biometrika 52:203-223. A minus is a patient still in remission when last
// seen.
var remission = map[string][]float64{
	"6-MP":    {6, 6, 6, -6, 7, -9, 10, -10, -11, 13, 16, -17, -19, -20, 22, 23, -25, -32, -32, -34, -35},
	"placebo": {1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23},
}

func watched(t *testing.T, arm string) ledger.Curve {
	t.Helper()
	var patients []ledger.Observation
	for _, weeks := range remission[arm] {
		patients = append(patients, ledger.Observation{Days: math.Abs(weeks), Lost: weeks > 0})
	}
	curve, err := ledger.Survival(patients, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	return curve
}

// The share in remission and its Greenwood error, as course notes on these data print them from R's package survival;
// the 6-MP arm is also table 4.1 of J. P. Klein and M. L. Moeschberger 2003, Survival Analysis, Springer (from
// memory). Three digits of the share are printed, or four; of the error four.
func TestSurvivalAgainstRemissionTables(t *testing.T) {
	for arm, rows := range map[string][][4]float64{
		"6-MP": {
			{6, 21, 0.857, 0.0764}, {7, 17, 0.807, 0.0869}, {10, 15, 0.753, 0.0963}, {13, 12, 0.690, 0.1068},
			{16, 11, 0.627, 0.1141}, {22, 7, 0.538, 0.1282}, {23, 6, 0.448, 0.1346},
		},
		"placebo": {
			{1, 21, 0.9048, 0.0641}, {2, 19, 0.8095, 0.0857}, {3, 17, 0.7619, 0.0929}, {4, 16, 0.6667, 0.1029},
			{5, 14, 0.5714, 0.1080}, {8, 12, 0.3810, 0.1060}, {11, 8, 0.2857, 0.0986}, {12, 6, 0.1905, 0.0857},
			{15, 4, 0.1429, 0.0764}, {17, 3, 0.0952, 0.0641}, {22, 2, 0.0476, 0.0465},
		},
	} {
		curve := watched(t, arm)
		for _, row := range rows {
			s, _ := curve.At(row[0])
			what := arm + ", week " + strconv.Itoa(int(row[0])) + ": "
			near(t, what+"at risk", float64(s.AtRisk), row[1], 0)
			near(t, what+"in remission", s.Alive, row[2], 0.0005)
			near(t, what+"standard error", s.StdErr, row[3], 0.00005)
		}
	}
}

// Cox and Oakes 1984, Analysis of Survival Data, table 1.1, as lecture notes work it: past week 10 on placebo 8 of
// 21, 0.381, with a standard error of 0.106.
func TestSurvivalAgainstCoxAndOakes(t *testing.T) {
	s, _ := watched(t, "placebo").At(10)
	near(t, "in remission past week 10", s.Alive, 0.381, 0.0005)
	near(t, "standard error", s.StdErr, 0.106, 0.0005)
}

// G. Rodríguez, Princeton, demographic methods: Stata's list for the placebo arm, whose band is the log-log one.
func TestSurvivalBandAgainstStata(t *testing.T) {
	curve := watched(t, "placebo")
	for i, want := range [][2]float64{{0.6700, 0.9753}, {0.5689, 0.9239}} {
		near(t, "low end", curve[i].Low, want[0], 0.00005)
		near(t, "high end", curve[i].High, want[1], 0.00005)
	}
}

// The medians of the two arms, 23 weeks and 8 (Gehan's data; from memory).
func TestSurvivalMedianOfRemission(t *testing.T) {
	near(t, "median on 6-MP", watched(t, "6-MP").Median().Days, 23, 0)
	near(t, "median on placebo", watched(t, "placebo").Median().Days, 8, 0)
}

// Six curves from R's package survival, see survival/aml.R, printed to eight digits. Where R has no number, there is
// no band, or the median is not reached.
func TestSurvivalAgainstR(t *testing.T) {
	rows := curves(t)
	for start := 0; start < len(rows); {
		end := start
		for end < len(rows) && rows[end].set == rows[start].set {
			end++
		}
		compare(t, rows[start:end])
		start = end
	}
}

// printed is one line of the vectors; a number left empty is NaN.
type printed struct {
	set                           string
	days, risk, lost, left        float64
	alive, stdErr, low, high      float64
	median, medianLow, medianHigh float64
}

func compare(t *testing.T, rows []printed) {
	t.Helper()
	curve, err := ledger.Survival(spread(rows), 0.95)
	if err != nil {
		t.Fatal(err)
	}
	if len(curve) != len(rows) {
		t.Fatalf("%s: %d steps, want %d", rows[0].set, len(curve), len(rows))
	}
	for i, want := range rows {
		compareStep(t, curve[i], want)
	}
	m, want := curve.Median(), rows[0]
	reached(t, want.set+": median", m.Days, want.median)
	reached(t, want.set+": median, low end", m.Low, want.medianLow)
	reached(t, want.set+": median, high end", m.High, want.medianHigh)
}

func compareStep(t *testing.T, got ledger.Step, want printed) {
	t.Helper()
	what := want.set + ", day " + strconv.FormatFloat(want.days, 'g', -1, 64) + ": "
	near(t, what+"day", got.Days, want.days, 0)
	near(t, what+"at risk", float64(got.AtRisk), want.risk, 0)
	near(t, what+"alive", got.Alive, want.alive, 1e-8)
	if got.Banded() == math.IsNaN(want.low) {
		t.Errorf("%sband: %+v, R has %v", what, got, want.low)
	}
	if got.Banded() {
		near(t, what+"standard error", got.StdErr, want.stdErr, 1e-8)
		near(t, what+"low end", got.Low, want.low, 1e-8)
		near(t, what+"high end", got.High, want.high, 1e-8)
	}
}

func reached(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.IsNaN(want) {
		want = math.Inf(1)
	}
	if got != want {
		t.Errorf("%s: %v, R has %v", what, got, want)
	}
}

// spread turns counts back into single observations.
func spread(rows []printed) []ledger.Observation {
	var all []ledger.Observation
	for _, row := range rows {
		for range int(row.lost) {
			all = append(all, ledger.Observation{Days: row.days, Lost: true})
		}
		for range int(row.left) {
			all = append(all, ledger.Observation{Days: row.days})
		}
	}
	return all
}

func curves(t *testing.T) []printed {
	t.Helper()
	file, err := os.Open("survival/vectors.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(records) != 232 {
		t.Fatalf("%d lines, want a heading and 231 steps", len(records))
	}
	var rows []printed
	for _, record := range records[1:] {
		rows = append(rows, readStep(t, record))
	}
	return rows
}

func readStep(t *testing.T, record []string) printed {
	t.Helper()
	row := printed{set: record[0]}
	for i, field := range []*float64{&row.days, &row.risk, &row.lost, &row.left, &row.alive, &row.stdErr, &row.low,
		&row.high,
		&row.median, &row.medianLow, &row.medianHigh} {
		*field = math.NaN()
		if text := record[i+1]; text != "" {
			value, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatalf("%s, %s: %v", record[0], text, err)
			}
			*field = value
		}
	}
	return row
}
