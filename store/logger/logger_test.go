package logger_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	"tubside/model"
	"tubside/store/csvfile"
	"tubside/store/logger"
)

func zone(t testing.TB) *time.Location {
	t.Helper()
	z, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func mustRead(t testing.TB, file string, opt logger.Options) *logger.Log {
	t.Helper()
	if opt.Zone == nil {
		opt.Zone = zone(t)
	}
	log, err := logger.Read(strings.NewReader(file), opt)
	if err != nil {
		t.Fatalf("%v\n%s", err, file)
	}
	return log
}

// Files as loggers write them, each said to hold the same two readings: 20.5 °C
// and 41 % on 3 May 2026 at 14:00 in Berlin, 21 °C and 40.5 % ten minutes later.
var files = map[string]struct {
	file  string
	doubt string // a word of the doubt there must be; none where it is plain
}{
	"plain": {"time,temperature,humidity\n2026-05-03 14:00,20.5,41\n2026-05-03 14:10,21,40.5\n", ""},
	"with lines about the device first": {
		"Device: sensor 12\nSerial;A1B2\nInterval;600 s\n\nNo.;Zeit;Temperatur [°C];Luftfeuchte [%]\n---------\n1;03.05.2026 14:00:00;20,5;41,0\n2;03.05.2026 14:10:00;21,0;40,5\n",
		"day or month first",
	},
	"day and month told apart by the other dates": {
		"Zeit;T;RH\n03.05.2026 14:00;20,5;41\n03.05.2026 14:10;21,0;40,5\n04.05.2026 14:10;---;---\n31.05.2026 14:10;---;---\n31.05.2026 14:11;;\n", "rows hold no usable reading",
	},
	"month first, in Fahrenheit, in the afternoon": {
		"Timestamp,Temp (°F),RH (%),Dew Point (°F)\n05/03/2026 2:00:00 PM,68.9,41,44\n05/03/2026 2:10:00 PM,69.8,40.5,44\n05/13/2026 2:10:00 PM,,,\n", "",
	},
	"date and time of day apart":     {"Date\tTime\tTemp\tRH%\n2026-05-03\t14:00:00\t20.5\t41\n2026-05-03\t14:10:00\t21\t40.5\n", ""},
	"seconds since 1970":             {"ts,temp_c,rh\n1777809600,20.5,41\n1777810200,21,40.5\n", ""},
	"milliseconds":                   {"ts,temp_c,rh\n1777809600000,20.5,41\n1777810200000,21,40.5\n", ""},
	"with its own zone":              {"when,temp,humidity\n2026-05-03T12:00:00Z,20.5,41\n2026-05-03T08:10:00-04:00,21,40.5\n", ""},
	"newest first":                   {"time,temp,hum\n2026-05-03 14:10,21,40.5\n2026-05-03 14:00,20.5,41\n", ""},
	"the month as a word":            {"time;temp;hum\n\"May 3, 2026 2:00 PM\";20.5;41\n3 May 2026, 14:10;21;40.5\n", ""},
	"the year first, with slashes":   {"sep=;\ntime;temp;hum\n2026/05/03 14:00;20.5;41\n2026/05/03 14:10;21;40.5\n", ""},
	"°F in the cells":                {"time;temp;hum\n2026-05-03 14:00;68.9 °F;41\n2026-05-03 14:10;69.8 °F;40.5\n", ""},
	"rows numbered, no heading":      {"1;2026-05-03 14:00;20.5;41\n2;2026-05-03 14:10;21;40.5\n", "guessed"},
	"units in the cells, no heading": {"2026-05-03 14:00;20.5 °C;41 %\n2026-05-03 14:10;21.0 °C;40.5 %\n", ""},
	"numbers alone":                  {"2026-05-03 14:00;20.5;41\n2026-05-03 14:10;21.0;40.5\n", "guessed"},
	"humidity before temperature, in French": {
		"Heure;Humidité relative (%);Température (°C);Point de rosée (°C)\n---------\n2026-05-03 14:00;41;20,5;7\n2026-05-03 14:10;40,5;21;7\n", "",
	},
	"a room and a garden":           {"time,Outdoor Temperature,Outdoor Humidity,Indoor Temperature,Indoor Humidity\n2026-05-03 14:00,9,80,20.5,41\n2026-05-03 14:10,9,80,21,40.5\n", ""},
	"two probes":                    {"time,temp A,temp B,humidity\n2026-05-03 14:00,20.5,19,41\n2026-05-03 14:10,21,19,40.5\n", "several columns of temperature"},
	"rows numbered, gaps, a footer": {"#,time,battery %,temp,humidity\n1,2026-05-03 14:00,90,20.5,41\n2,2026-05-03 14:05,90,---,---\n3,2026-05-03 14:10,90,21,40.5\nend of data\n", ""},
	"Fahrenheit nobody named":       {"time,temp,humidity\n2026-05-03 14:00,68.9,41\n2026-05-03 14:10,69.8,40.5\n", "taken as °F"},
}

func TestFilesOfLoggers(t *testing.T) {
	for name, c := range files {
		t.Run(name, func(t *testing.T) { holds(t, mustRead(t, c.file, logger.Options{}), c.doubt) })
	}
}

// holds holds a log against the two readings of files.
func holds(t *testing.T, log *logger.Log, doubt string) {
	t.Helper()
	start := time.Date(2026, 5, 3, 14, 0, 0, 0, zone(t))
	for i, want := range []model.ReadingAt{{At: start, TempC: 20.5, RH: 41},
		{At: start.Add(10 * time.Minute), TempC: 21, RH: 40.5}} {
		if len(log.Samples) != 2 {
			t.Fatalf("%d readings, want 2: %+v", len(log.Samples), log)
		}
		got := log.Samples[i]
		if !got.At.Equal(want.At) || math.Abs(got.TempC-want.TempC) > 1e-9 || got.RH != want.RH {
			t.Errorf("reading %d is %+v, want %+v", i, got, want)
		}
	}
	doubts := strings.Join(log.Doubts, "; ")
	if (doubt == "") != (doubts == "") || !strings.Contains(doubts, doubt) {
		t.Errorf("doubts %q, want %q", doubts, doubt)
	}
}

// Day and month are told apart by how the readings follow one another: a day at a
// time rather than a month, and never there and back, whichever end comes first.
func TestDayOrMonthFirst(t *testing.T) {
	for name, c := range map[string]struct {
		days  []string
		order model.DayOrder
	}{
		"days in May, day first":      {[]string{"03/05/2026", "04/05/2026", "05/05/2026"}, model.DMY},
		"days in May, month first":    {[]string{"05/03/2026", "05/04/2026", "05/05/2026"}, model.MDY},
		"a summer without the logger": {[]string{"01/03/2026", "02/03/2026", "01/07/2026"}, model.DMY},
		"the newest first":            {[]string{"01/07/2026", "02/03/2026", "01/03/2026"}, model.DMY},
	} {
		text := "time,temp,humidity\n"
		for _, d := range c.days {
			text += d + " 12:00 AM,20,40\n" + d + " 12:30 PM,20,40\n"
		}
		log := mustRead(t, text, logger.Options{})
		if log.Dates != c.order || len(log.Doubts) != 0 {
			t.Errorf("%s: taken as %s, doubts %q", name, log.Dates, log.Doubts)
		}
		if at := log.Samples[0].At; at.Hour() != 0 || log.Samples[1].At.Sub(at) != 12*time.Hour+30*time.Minute {
			t.Errorf("%s: midnight and half past noon are %s and %s", name, at, log.Samples[1].At)
		}
	}
}

// The encodings of spreadsheet programs, told from the bytes alone.
func TestEncodings(t *testing.T) {
	const file = "Zeit;Temperatur °C;Luftfeuchte %\r\n2026-05-03 14:00;20,5;41\r\n2026-05-03 14:10;21;40,5\r\n"
	for name, encode := range map[string]func(string) (string, error){
		"Windows-1252":          charmap.Windows1252.NewEncoder().String,
		"UTF-16 with a mark":    unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String,
		"UTF-16 without a mark": unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM).NewEncoder().String,
		"UTF-8 with a mark":     func(s string) (string, error) { return "\ufeff" + s, nil },
	} {
		t.Run(name, func(t *testing.T) {
			text, err := encode(file)
			if err != nil {
				t.Fatal(err)
			}
			holds(t, mustRead(t, text, logger.Options{}), "")
		})
	}
}

// What the grower says goes before any guess.
func TestTheGrowerKnowsBetter(t *testing.T) {
	const file = "a,b,c,d\n3/5/2026 14:00,41,20.5,99\n3/5/2026 14:10,40.5,21,99\n"
	holds(t, mustRead(t, file, logger.Options{Time: "A", Temp: "3", RH: "b", Dates: model.DMY}), "")
	log := mustRead(t, file, logger.Options{Time: "a", Temp: "2", RH: "c", Dates: model.MDY, Unit: logger.Fahrenheit})
	if s := log.Samples[0]; s.At.Month() != time.March || math.Abs(s.TempC-5) > 1e-9 || s.RH != 20.5 {
		t.Errorf("41 °F and 20.5 %% in March are %+v", s)
	}
	_, err := logger.Read(strings.NewReader(file), logger.Options{Zone: zone(t), Temp: "warmth"})
	if p, ok := model.AsProblem(err); !ok || !strings.Contains(p.Do, "a, b, c, d") {
		t.Errorf("a column that is not there: %v", err)
	}
}

func TestNotALog(t *testing.T) {
	for name, c := range map[string]struct{ file, why string }{
		"empty":         {"", "no rows of times and numbers"},
		"a letter":      {"Dear sir,\nit is warm.\n", "no rows of times and numbers"},
		"no humidity":   {"time,temp\n2026-05-03 14:00,20.5\n2026-05-03 14:10,20.5\n", "no column of humidities"},
		"broken sensor": {"time,temp,humidity\n2026-05-03 14:00,20.5,0\n2026-05-03 14:10,20.5,0\n", "not one row"},
	} {
		_, err := logger.Read(strings.NewReader(c.file), logger.Options{Zone: zone(t)})
		if _, ok := errors.AsType[csvfile.Faults](err); !ok || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s: got %v, want %q", name, err, c.why)
		}
	}
}

// A file that overlaps the book adds only its new hours, and none twice.
func TestAFileThatGrows(t *testing.T) {
	b := model.NewBook(zone(t))
	file := func(hours int) *logger.Log {
		var text strings.Builder
		text.WriteString("time,temp,humidity\n")
		for m := 0; m < 60*hours; m += 10 {
			at := time.Date(2026, 5, 3, 0, m, 0, 0, zone(t))
			fmt.Fprintf(&text, "%s,%d,%d\n", at.Format("2006-01-02 15:04"), 20+m%3, 40)
		}
		return mustRead(t, text.String(), logger.Options{})
	}
	take := func(log *logger.Log) int {
		fresh := logger.New(b, logger.Hourly(log.Samples))
		if len(fresh) == 0 {
			return 0
		}
		e := model.NewEntry(time.Date(2026, 5, 20, 0, 0, 0, 0, time.UTC), model.NewReadings("log.csv", fresh))
		e.Seq = model.Seq(len(b.Entries()) + 1)
		if err := b.Check(e); err != nil {
			t.Fatal(err)
		}
		if err := b.Apply(e); err != nil {
			t.Fatal(err)
		}
		return len(fresh)
	}
	for i, want := range []struct{ hours, added int }{{24, 24}, {24, 0}, {30, 6}} {
		if got := take(file(want.hours)); got != want.added {
			t.Errorf("time %d: %d hours added, want %d", i+1, got, want.added)
		}
	}
	if len(b.Readings()) != 30 {
		t.Errorf("the book has %d readings, want 30", len(b.Readings()))
	}
}

// Thinning keeps the mean: of each hour, so of every day evenly read.
func TestHourlyKeepsTheMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC)
		n := rapid.IntRange(1, 200).Draw(t, "readings")
		var samples []model.ReadingAt
		at, inHour, sum := start, map[int64]float64{}, map[int64]float64{}
		for range n {
			at = at.Add(time.Duration(rapid.IntRange(0, 5000).Draw(t, "seconds")) * time.Second)
			r := model.ReadingAt{At: at, TempC: rapid.Float64Range(10, 30).Draw(t, "temp"), RH: 40}
			samples = append(samples, r)
			inHour[model.HourOf(at)]++
			sum[model.HourOf(at)] += r.TempC
		}
		hours := logger.Hourly(samples)
		if len(hours) != len(inHour) {
			t.Fatalf("%d hours of %d", len(hours), len(inHour))
		}
		for i, h := range hours {
			hour := model.HourOf(h.At)
			if i > 0 && hour <= model.HourOf(hours[i-1].At) {
				t.Fatalf("hour %d out of order", i)
			}
			if want := sum[hour] / inHour[hour]; math.Abs(h.TempC-want) > 1e-9 || h.RH != 40 {
				t.Fatalf("%+v, want %g", h, want)
			}
		}
	})
}

// No file, however broken, brings the reader down or in an impossible reading.
func FuzzRead(f *testing.F) {
	for _, c := range files {
		f.Add(c.file)
	}
	f.Fuzz(func(t *testing.T, file string) {
		log, err := logger.Read(strings.NewReader(file), logger.Options{Zone: time.UTC})
		if err != nil {
			return
		}
		for i, s := range log.Samples {
			if !(s.TempC >= -5 && s.TempC <= 50 && s.RH >= 1 && s.RH <= 100) ||
				i > 0 && s.At.Before(log.Samples[i-1].At) {
				t.Fatalf("%+v of %q", s, file)
			}
		}
	})
}

// BenchmarkRead reads a year of readings ten minutes apart.
func BenchmarkRead(b *testing.B) {
	var text strings.Builder
	text.WriteString("Zeit;Temperatur °C;Luftfeuchte %\n")
	for m := 0; m < 365*24*60; m += 10 {
		fmt.Fprintf(&text, "%s;20,%d;4%d\n", time.Date(2025, 5, 3, 0, m, 0, 0, time.UTC).Format("02.01.2006 15:04"),
			m%9, m%7)
	}
	for b.Loop() {
		log := mustRead(b, text.String(), logger.Options{Zone: time.UTC})
		logger.Hourly(log.Samples)
	}
}
