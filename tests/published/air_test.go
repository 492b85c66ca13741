// Package published_test holds the program's numbers against numbers others have published. Each check names its
// source.
package published_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"tubside/model/air"
)

// near fails the test unless got is within the tolerance of want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.6g, published %.6g ± %.2g", what, got, want, tolerance)
	}
}

// CRC Handbook of Chemistry and Physics 1992-93, vapour pressure of water, kPa, to five digits. The entry for 38 degC
// is left out: the copy read has 6.6398, out of line with its neighbours (6.2795 at 37, 6.9969 at 39).
func TestSaturationAgainstCRCHandbook(t *testing.T) {
	for celsius, kPa := range map[float64]float64{
		0: 0.61129, 2: 0.70605, 4: 0.81359, 5: 0.8726, 6: 0.93537, 8: 1.0730, 10: 1.2281, 12: 1.4027, 14: 1.5988,
		15: 1.7056, 16: 1.8185, 18: 2.0644, 20: 2.3388, 21: 2.4877, 22: 2.6447, 23: 2.8104, 24: 2.9850, 25: 3.1690,
		26: 3.3629, 28: 3.7818, 30: 4.2455, 32: 4.7578, 35: 5.6267, 40: 7.3814,
	} {
		near(t, "saturation, kPa", air.Saturation(celsius)/1000, kPa, 0.0003*kPa)
	}
}

// Triple point: A. Wexler 1976, J. Res. Natl. Bur. Stand. 80A, doi 10.6028/jres.080A.071: 611.657 Pa at 0.01 degC.
// ASHRAE Handbook-Fundamentals 2017, ch. 1, table 3: 872.6 Pa at 5, 3169.7 at 25, 12351.3 at 50 degC.
func TestSaturationAgainstTriplePointAndASHRAE(t *testing.T) {
	for celsius, pascal := range map[float64]float64{0.01: 611.657, 5: 872.6, 25: 3169.7, 50: 12351.3} {
		near(t, "saturation, Pa", air.Saturation(celsius), pascal, 0.0005*pascal)
	}
}

// FAO-56: Allen, Pereira, Raes and Smith 1998, FAO Irrigation and Drainage Paper 56. Its saturation pressure (eq. 11)
// is Tetens', which parts from ours by up to 0.1 %; that and half of the last printed digit is the tolerance.
func TestAgainstFAO56Examples(t *testing.T) {
	kPa := func(celsius float64) float64 { return air.Saturation(celsius) / 1000 }
	vapour := func(celsius, rh float64) float64 { return air.Air{TempC: celsius, RH: rh}.Vapour() / 1000 }
	deficit := func(celsius, rh float64) float64 { return air.Air{TempC: celsius, RH: rh}.Deficit() / 1000 }
	slope := func(celsius float64) float64 { return (kPa(celsius+0.01) - kPa(celsius-0.01)) / 0.02 }
	for _, c := range []struct {
		what              string
		got, want, digits float64
	}{
		{"example 3, p. 69: saturation at 24.5 °C", kPa(24.5), 3.075, 0.0005},
		{"example 3, p. 69: saturation at 15 °C", kPa(15), 1.705, 0.0005},
		{"example 3, p. 69: mean saturation", (kPa(24.5) + kPa(15)) / 2, 2.39, 0.005},
		{"example 5, p. 72: saturation at 18 °C", kPa(18), 2.064, 0.0005},
		{"example 5, p. 72: saturation at 25 °C", kPa(25), 3.168, 0.0005},
		{"example 5, p. 72: vapour pressure", (vapour(18, 0.82) + vapour(25, 0.54)) / 2, 1.70, 0.005},
		{"example 5, p. 72: vapour pressure from the high RH alone", vapour(18, 0.82), 1.69, 0.005},
		{"example 5, p. 72: deficit (from memory)", (deficit(18, 0.82) + deficit(25, 0.54)) / 2, 0.91, 0.005},
		{"example 17, p. 111: slope at 30.2 °C", slope(30.2), 0.246, 0.0005},
		{"example 18, p. 113: slope at 16.9 °C", slope(16.9), 0.122, 0.0005},
		{"example 18, p. 113: mean saturation", (kPa(21.5) + kPa(12.3)) / 2, 1.997, 0.0005},
		{"example 18, p. 113: vapour pressure", (vapour(12.3, 0.84) + vapour(21.5, 0.63)) / 2, 1.409, 0.0005},
		{"example 20, p. 121: vapour pressure at a dew point of 14.8 °C", kPa(14.8), 1.68, 0.005},
		{"example 18, p. 113: psychrometric constant at 100 m", 0.665e-3 * air.PressureAt(100) / 1000, 0.0666, 0.00005},
		{"example 2: pressure at 1800 m (from memory)", air.PressureAt(1800) / 1000, 81.8, 0.05},
	} {
		near(t, c.what, c.got, c.want, 0.001*c.want+c.digits)
	}
}

// FAO-56 example 20 backwards: air with 1.68 kPa of vapour has its dew point at 14.8 °C; the third digit is worth
// 0.05 K.
func TestDewPointAgainstFAO56(t *testing.T) {
	a := air.Air{TempC: 26, RH: 1680 / air.Saturation(26)}
	near(t, "dew point", a.DewPoint(), 14.8, 0.05)
}

// R. Stull 2011, J. Appl. Meteorol. Climatol. 50:2267-2269: 13.7 °C at 20 °C and 50 % (from memory), by a formula
// fitted to a balance of his own; he gives its mean error as 0.28 K (from memory).
func TestWetBulbAgainstStull(t *testing.T) {
	near(t, "wet bulb", air.Air{TempC: 20, RH: 0.5}.WetBulb(), 13.7, 0.28)
}

// ASHRAE Handbook-Fundamentals 2017, ch. 1, example 1, read from its chart: 40 °C dry, 20 °C wet bulb at 101325 Pa
// has 6.5 g of vapour to a kg of dry air and an RH of 14 %. Half of the last digit of 6.5 g is worth 0.12 K of wet
// bulb. Its dew point of 7 °C is left out: by the book's own equations 7 °C goes with 6.2 g.
func TestWetBulbAgainstASHRAEExample(t *testing.T) {
	const ratio = 0.0065
	vapour := air.StandardPressure * ratio / (0.621945 + ratio)
	a := air.Air{TempC: 40, RH: vapour / air.Saturation(40)}
	near(t, "wet bulb", a.WetBulb(), 20, 0.12)
	near(t, "RH", a.RH, 0.14, 0.005)
}

// PsychroLib's own tests: 7 °C, 61 %, 100000 Pa has its wet bulb at 3.92667 °C, to 0.1 %.
func TestWetBulbAgainstPsychroLibTest(t *testing.T) {
	near(t, "wet bulb", air.Air{TempC: 7, RH: 0.61, Pressure: 100000}.WetBulb(), 3.92667, 0.001*3.92667)
}

// 200 points from PsychroLib 1.1.1 (ASHRAE Handbook-Fundamentals 2017, ch. 1), see psychrolib/vectors.js. Its
// saturation pressure holds to 300 ppm, which is 0.005 K of dew point, and its wet bulb is found to 0.001 K.
func TestMoistAirAgainstPsychroLib(t *testing.T) {
	for i, row := range vectors(t) {
		a := air.Air{TempC: row["air_c"], RH: row["rh"], Pressure: row["pressure_pa"]}
		what := "point " + strconv.Itoa(i+1) + ": "
		near(t, what+"saturation", air.Saturation(a.TempC), row["saturation_pa"], 0.0003*row["saturation_pa"])
		near(t, what+"deficit", a.Deficit(), row["deficit_pa"], 0.0003*row["deficit_pa"])
		near(t, what+"vapour", a.VapourDensity()*1000, row["vapour_g_m3"], 0.0003*row["vapour_g_m3"])
		if bulb, ok := row["wet_bulb_c"]; ok {
			near(t, what+"wet bulb", a.WetBulb(), bulb, 0.005)
		}
		if dew, ok := row["dew_point_c"]; ok {
			near(t, what+"dew point", a.DewPoint(), dew, 0.005)
		}
	}
}

// vectors reads the points by column; a column left empty is not in the row.
func vectors(t *testing.T) []map[string]float64 {
	t.Helper()
	file, err := os.Open("psychrolib/vectors.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(records) != 201 {
		t.Fatalf("%d lines, want a heading and 200 points", len(records))
	}
	return byColumn(t, records[0], records[1:])
}

func byColumn(t *testing.T, names []string, records [][]string) []map[string]float64 {
	t.Helper()
	rows := make([]map[string]float64, len(records))
	for i, record := range records {
		rows[i] = map[string]float64{}
		for j, field := range record {
			if field == "" {
				continue
			}
			value, err := strconv.ParseFloat(field, 64)
			if err != nil {
				t.Fatalf("point %d, %s: %v", i+1, names[j], err)
			}
			rows[i][names[j]] = value
		}
	}
	return rows
}
