package logger

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// clocks finds a time of day, and behind it perhaps a zone, at the end of a
// cell.
var clocks = regexp.MustCompile(`^(.*?)[ T,]*(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?(?:\s*([AaPp])\.?[Mm]\.?)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?$`)

// dates is what a date with numbers looks like.
var dates = regexp.MustCompile(`^\d{1,4}([./-])\s?\d{1,2}([./-])\s?\d{1,4}\.?$`)

// named are dates with the month as a word, in English.
var named = []string{"2 Jan 2006", "Jan 2 2006", "2 January 2006", "January 2 2006", "2-Jan-2006", "2-Jan-06",
	"2006-Jan-2", "Mon 2 Jan 2006", "Mon Jan 2 2006"}

// looksLikeMoment reports whether a cell may hold a date, or a date and time.
func looksLikeMoment(cell string) bool {
	if _, ok := epoch(cell); ok {
		return true
	}
	day, _, _ := apart(cell)
	return isDate(day)
}

// apart splits a cell into its date and its time of day; the zone goes with the
// latter.
func apart(cell string) (day, clock, zone string) {
	cell = strings.TrimSpace(cell)
	m := clocks.FindStringSubmatchIndex(cell)
	if m == nil {
		return cell, "", ""
	}
	if m[12] >= 0 {
		zone = cell[m[12]:m[13]]
		return strings.TrimRight(cell[:m[3]], " T,"), strings.TrimSpace(cell[m[4]:m[12]]), zone
	}
	return strings.TrimRight(cell[:m[3]], " T,"), cell[m[4]:], ""
}

func isDate(day string) bool {
	if dates.MatchString(day) {
		return true
	}
	_, ok := namedDay(day)
	return ok
}

func namedDay(day string) (date.Date, bool) {
	day = strings.Join(strings.Fields(strings.ReplaceAll(day, ",", " ")), " ")
	for _, layout := range named {
		if t, err := time.Parse(layout, day); err == nil {
			return date.NewAt(t), true
		}
	}
	return 0, false
}

// parseDay reads a date in one order.
func parseDay(day string, order model.DayOrder) (date.Date, bool) {
	if d, ok := namedDay(day); ok {
		return d, true
	}
	day = strings.TrimSuffix(day, ".")
	if len(day) > 4 && strings.ContainsRune("./", rune(day[4])) {
		day = strings.NewReplacer(".", "-", "/", "-").Replace(day) // the year first
	}
	d, err := model.ParseDay(day, order)
	return d, err == nil
}

// parseClock reads a time of day as a length from midnight.
func parseClock(clock string) (time.Duration, bool) {
	m := clocks.FindStringSubmatch(clock)
	if m == nil || m[1] != "" {
		return 0, false
	}
	h, _ := strconv.Atoi(m[2])
	minute, _ := strconv.Atoi(m[3])
	second, _ := strconv.Atoi(orElse(m[4], "0"))
	switch strings.ToLower(m[5]) {
	case "a":
		h %= 12
	case "p":
		h = h%12 + 12
	}
	ok := h < 24 && minute < 60 && second < 60
	return time.Duration(h)*time.Hour + time.Duration(minute)*time.Minute + time.Duration(second)*time.Second, ok
}

// parseZone reads the zone behind a time of day; none is the grower's own.
func parseZone(zone string, own *time.Location) *time.Location {
	switch zone {
	case "":
		return own
	case "Z", "UTC", "GMT":
		return time.UTC
	}
	t, err := time.Parse("-0700", strings.ReplaceAll(zone, ":", ""))
	if err != nil {
		return own
	}
	return t.Location()
}

// epoch reads seconds or milliseconds since 1970, from 2001 to 2100.
func epoch(cell string) (time.Time, bool) {
	cell = strings.TrimSpace(cell)
	n, err := strconv.ParseInt(cell, 10, 64)
	if err != nil || len(cell) != 10 && len(cell) != 13 {
		return time.Time{}, false
	}
	if len(cell) == 13 {
		n /= 1000
	}
	const y2100 = 4102444800
	return time.Unix(n, 0).UTC(), n >= 1e9 && n < y2100
}

// number reads a reading with or without its unit, with a decimal point or
// comma.
func number(cell string) (float64, bool) {
	s := strings.TrimRight(strings.TrimSpace(cell), "°º%CFcfRHrh \u00a0")
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	if s == "" || strings.Trim(s, "+-.0123456789") != "" {
		return 0, false // also keeps out "nan" and "inf"
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}
