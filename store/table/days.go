package table

import (
	"fmt"
	"regexp"
	"strconv"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/store/csvfile"
)

// dayFields are the columns that hold days.
var dayFields = []field{fieldAcquired, fieldSoaked, fieldFed, fieldNew}

// dayParts are the numbers of a date that does not begin with its year; it may have none.
var dayParts = regexp.MustCompile(
	`^\s*([0-9]{1,2})\s*([./-])\s*([0-9]{1,2})(?:\s*[./-]\s*([0-9]{4}|[0-9]{2})\b|\s*[./]?\s*$)`)

// orderOf finds out from all cells of a column which of day and month comes
// first: one day after the 12th tells it for all, and points between the numbers
// are only written with the day first (common practice). It is ISO, which says
// nothing, when no cell tells or, which torn says, the cells tell both.
func orderOf(cells []string, yearless bool) (order model.DayOrder, torn bool) {
	day, month, points := false, false, false
	for _, cell := range cells {
		m := dayParts.FindStringSubmatch(cell)
		if m == nil || m[4] == "" && !yearless {
			continue
		}
		first, _ := strconv.Atoi(m[1])
		second, _ := strconv.Atoi(m[3])
		day = day || first > 12 && second <= 12
		month = month || second > 12 && first <= 12
		points = points || m[2] == "."
	}
	switch {
	case day && month:
		return model.ISO, true
	case day || points && !month:
		return model.DMY, false
	case month:
		return model.MDY, false
	}
	return model.ISO, false
}

// learnDays finds out how each column of days is written, unless that was said. A
// column that does not tell is written as the others are, where they agree: one hand
// kept the list.
func (rd *reader) learnDays(recs []csvfile.Record) {
	told := map[model.DayOrder]bool{}
	var silent []field
	for _, f := range dayFields {
		rd.orders[f] = rd.opt.Dates
		column := rd.at[f]
		if column < 0 || rd.opt.Dates != model.ISO {
			continue
		}
		var cells []string
		for _, rec := range recs {
			if column < len(rec.Cells) {
				cells = append(cells, rec.Cells[column])
			}
		}
		order, torn := orderOf(cells, f != fieldAcquired)
		rd.orders[f] = order
		switch {
		case order != model.ISO:
			told[order] = true
		case !torn:
			silent = append(silent, f)
		}
	}
	for order := range told {
		for _, f := range silent {
			if len(told) == 1 {
				rd.orders[f] = order
			}
		}
	}
}

// wordy are the ways a date with the month's name is written, as [model.PlainDay] has
// them: "Jan 5, 2024" and "5. January 2024" are two of them.
var wordy = []string{"Jan 2 2006", "2 Jan 2006", "2006 Jan 2", "2 Jan 06", "Jan 2 06"}

var (
	// yearless are the ways a day is written without its year.
	yearless = []string{"2 Jan", "Jan 2"}

	// monthOfYear is how spreadsheet programs write a month: "Nov-21" is November 2021.
	monthOfYear = regexp.MustCompile(`^\pL+\.?[-/]`)
)

// leapEvery is how many years may lie between one 29 February and the next, and one.
const leapEvery = 9

// lastSuch is the latest day, today or before, that is written like this without its
// year.
func lastSuch(cell string, today date.Date) (date.Date, bool) {
	if monthOfYear.MatchString(cell) {
		return 0, false
	}
	for _, layout := range yearless {
		for year := today.Year(); year > today.Year()-leapEvery; year-- {
			t, err := time.Parse(layout+" 2006", fmt.Sprintf("%s %d", model.PlainDay(cell), year))
			if day := date.NewAt(t); err == nil && day <= today {
				return day, true
			}
		}
	}
	return 0, false
}

// parseWordy reads a date with the month's name in English.
func parseWordy(cell string) (date.Date, bool) {
	for _, layout := range wordy {
		if t, err := time.Parse(layout, model.PlainDay(cell)); err == nil {
			return date.NewAt(t), true
		}
	}
	return 0, false
}

var (
	midnight  = regexp.MustCompile(`[ T]0?0:00(:00(\.0+)?)?Z?$`)
	dayNumber = regexp.MustCompile(`^[0-9]{5}(\.[0-9]+)?$`)
)

// What to say of days that can be read once a person has answered.
const (
	WhichFirst = "say which comes first, day or month"   // see [ReadOptions.Dates]
	WhichYear  = "say whether it is the latest such day" // see [ReadOptions.Yearless]
)

// Answerable reports whether a cell can be read once a person has said how.
func Answerable(f Fault) bool { return f.Do == WhichFirst || f.Do == WhichYear }

// day reads a cell of a column of days. One without its year is the latest such day,
// and that is noted.
func (rd *reader) day(line int, f field, cell string) (date.Date, error) {
	text := cell
	if m := dayParts.FindStringSubmatch(cell); m != nil && m[4] == "" && f != fieldAcquired && rd.opt.Today != 0 {
		var err error
		if text, err = rd.named(f, cell, m); err != nil {
			return 0, err
		}
	}
	if day, ok := lastSuch(text, rd.opt.Today); ok && rd.opt.Today != 0 {
		rd.supposed.Add(Fault{Line: line, Field: rd.title(f), Text: fmt.Sprintf(`%q is read as "%s"`, cell, model.DayWords(day)),
			Do: "where there is no year it is the latest such day"})
		return day, nil
	}
	return parseDay(cell, rd.orders[f])
}

// named is a day like 21/11, taken apart by [dayParts], with the name of its month.
func (rd *reader) named(f field, cell string, m []string) (string, error) {
	first, _ := strconv.Atoi(m[1])
	second, _ := strconv.Atoi(m[3])
	switch rd.orders[f] {
	case model.ISO:
		_, err := undecided(cell, m)
		return "", err
	case model.MDY:
		first, second = second, first
	}
	if second < 1 || second > 12 {
		return cell, nil // no day
	}
	if !rd.opt.Yearless {
		return "", &model.Problem{What: quote(cell) + " has no year", Do: WhichYear}
	}
	return fmt.Sprintf("%d %s", first, time.Month(second)), nil
}

// parseDay reads a date. Spreadsheet programs like to add midnight to it, or to
// write the number they keep for it.
func parseDay(cell string, order model.DayOrder) (date.Date, error) {
	if dayNumber.MatchString(cell) {
		return 0, &model.Problem{
			What: quote(cell) + " is a spreadsheet's day number",
			Do:   "format the column as a date, as 2026-01-31, and save it again",
		}
	}
	cell = midnight.ReplaceAllString(cell, "")
	if day, ok := parseWordy(cell); ok {
		return day, nil
	}
	day, err := model.ParseDay(cell, order)
	if m := dayParts.FindStringSubmatch(cell); err != nil && order == model.ISO && m != nil && m[4] != "" {
		return undecided(cell, m)
	}
	return day, err
}

// undecided says why a day, taken apart by [dayParts], cannot be read where its column
// does not tell which of the two comes first.
func undecided(cell string, m []string) (date.Date, error) {
	first, _ := strconv.Atoi(m[1])
	second, _ := strconv.Atoi(m[3])
	if first <= 12 && second <= 12 {
		return 0, &model.Problem{What: fmt.Sprintf("%q could be day first or month first", cell), Do: WhichFirst}
	}
	// Other cells of the column put it the other way round.
	return 0, &model.Problem{
		What: fmt.Sprintf("%q is not written as the others", cell),
		Do:   "write the column one way, as 2026-01-31",
	}
}
