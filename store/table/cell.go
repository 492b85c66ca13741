package table

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/store/csvfile"
)

// unsaid are cells that stand for nothing known, in any column but text.
var unsaid = map[string]bool{"": true, "-": true, "–": true, "?": true, "n/a": true, "na": true, "unknown": true}

func said(cell string) bool { return !unsaid[strings.ToLower(strings.TrimSpace(cell))] }

// plainText is text as the book and the file both hold it: no control
// characters, plain spaces, no blanks at the ends. A note keeps its line breaks.
func plainText(s string, breaks bool) string {
	s = csvfile.LineEnds.Replace(strings.ToValidUTF8(s, "\ufffd"))
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' && breaks:
			return r
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r) || model.Steers(r):
			return -1
		}
		return r
	}, s)
	return strings.TrimSpace(s)
}

// A cell that begins with = + - or @ is a formula to a spreadsheet program, and
// a formula in a text can be made to send data away. Text is therefore written
// with an apostrophe before such a beginning, which those programs take as
// "this is text"; reading takes it off again. A text that has the apostrophe
// itself gets one more, so that nothing changes on the way out and back.

func wouldBeFormula(s string) bool {
	return s != "" && (strings.IndexByte("=+-@", s[0]) >= 0 ||
		s[0] == '\'' && len(s) > 1 && strings.IndexByte("=+-@'", s[1]) >= 0)
}

func disarm(s string) string {
	if wouldBeFormula(s) {
		return "'" + s
	}
	return s
}

func rearm(s string) string {
	if len(s) > 1 && s[0] == '\'' && wouldBeFormula(s[1:]) || strings.HasPrefix(s, "''") {
		return s[1:]
	}
	return s
}

var sizeForm = regexp.MustCompile(`^(?:~|c\.|ca\.?|about)?\s*([0-9]*[.,]?[0-9]+)\s*(?:(?:-|–|—|to|\.\.)\s*([0-9]*[.,]?[0-9]+))?\s*(cm|mm|m|in|in\.|inch|inches|"|”|″)?$`)

// cmOf is how many cm a unit has.
var cmOf = map[string]float64{
	"": 1, "cm": 1, "mm": 0.1, "m": 100,
	"in": 2.54, "in.": 2.54, "inch": 2.54, "inches": 2.54, `"`: 2.54, "”": 2.54, "″": 2.54,
}

// parseSize reads a span: 12, 12,5 cm, 4 in, 10-12. A range is its middle. A
// size without a unit has the one of the header. The result is cm.
func parseSize(cell, unit string) (float64, error) {
	m := sizeForm.FindStringSubmatch(strings.ToLower(cell))
	if m == nil {
		return 0, &model.Problem{
			What: quote(cell) + " is not a size",
			Do:   "give the span in cm, as 12 or 10-12, or in inches, as 4 in",
		}
	}
	low := decimal(m[1])
	high := low
	if m[2] != "" {
		high = decimal(m[2])
	}
	if m[3] != "" {
		unit = m[3]
	}
	cm := math.Round((low+high)/2*cmOf[unit]*100) / 100
	if high < low || cm > model.MaxSizeCM {
		return 0, &model.Problem{
			What: quote(cell) + " cannot be a size",
			Do:   "give the span in cm, up to 300, the smaller number first",
		}
	}
	return cm, nil
}

// decimal reads digits with a point or a comma, which the pattern has checked.
func decimal(s string) float64 {
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil {
		return math.Inf(1)
	}
	return v
}

// headerUnit is the unit that the header of the size column names.
func headerUnit(title string) string {
	switch key := headerKey(title); {
	case strings.HasSuffix(key, "mm"):
		return "mm"
	case strings.HasSuffix(key, "in"), strings.Contains(key, "inch"):
		return "in"
	}
	return "cm"
}

var countForm = regexp.MustCompile(`^[x×]?\s*([0-9]+)(?:[.,]0+)?\s*(?:x|×|pcs?\.?|pieces?|plants?)?$`)

// parseCount reads how many plants a row stands for: 3, x3, 3 pcs, 3.0.
func parseCount(cell string) (int, error) {
	m := countForm.FindStringSubmatch(strings.ToLower(cell))
	if m != nil {
		if n, err := strconv.Atoi(m[1]); err == nil && n >= 1 && n <= model.MaxCount {
			return n, nil
		}
	}
	return 0, &model.Problem{What: quote(cell) + " is not a count", Do: "give a whole number from 1 to 10000"}
}

// newOn reads the day a quarantine began. A plain no is a plant in none.
func (rd *reader) newOn(line int, cell string) (date.Date, error) {
	if answers[strings.ToLower(cell)] == no {
		return 0, nil
	}
	day, err := rd.day(line, fieldNew, cell)
	if err != nil {
		return 0, &model.Problem{
			What: quote(cell) + " is not the day a quarantine began",
			Do:   "write it as 2026-01-31, or leave the cell empty",
		}
	}
	return day, nil
}

// parseNumber reads the number of a plant.
func parseNumber(cell string) (model.ID, error) {
	n, err := strconv.ParseUint(strings.TrimSuffix(strings.TrimPrefix(cell, "#"), ".0"), 10, 32)
	id := model.ID(n)
	if err != nil || id == 0 || id > model.MaxID {
		return 0, &model.Problem{
			What: quote(cell) + " is not a plant number",
			Do:   "number plants 1 to 999999, or leave the cell empty",
		}
	}
	return id, nil
}

// parseAssumed reads which facts the species list filled in: "form leaf size".
func parseAssumed(cell string) (a model.Assumed, err error) {
	for _, word := range strings.Fields(strings.ToLower(strings.ReplaceAll(cell, ",", " "))) {
		switch word {
		case "form":
			a.Form = true
		case "leaf":
			a.Leaf = true
		case "size":
			a.Size = true
		default:
			return a, &model.Problem{
				What: quote(word) + " cannot be assumed",
				Do:   "leave the column empty or name form, leaf, size",
			}
		}
	}
	return a, nil
}

func assumedWords(a model.Assumed) string {
	var words []string
	for _, w := range []struct {
		is   bool
		word string
	}{{a.Form, "form"}, {a.Leaf, "leaf"}, {a.Size, "size"}} {
		if w.is {
			words = append(words, w.word)
		}
	}
	return strings.Join(words, " ")
}

// quotedRunes is how much of a cell is repeated in a message.
const quotedRunes = 40

// quote repeats a cell in a message, cut short.
func quote(cell string) string {
	r := []rune(plainText(cell, false))
	if len(r) > quotedRunes {
		r = append(r[:quotedRunes], '…')
	}
	return `"` + string(r) + `"`
}
