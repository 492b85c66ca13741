package board

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// Widths of columns.
const (
	spotWidth  = 6
	homeWidth  = 14
	daysWidth  = 4
	signsWidth = 5
	barWidth   = 8
	gonePlace  = 6 // " 20 %" behind the bar
	bandWidth  = 9
	timeWidth  = 16 // "1 h 05 to 1 h 30"

	leastName, mostName = 22, 30

	wideScreen = 100 // from here on there is room for the reason beside the soak
	narrow     = 72  // below this the minutes stand for the band, and the bar is left out
)

// fullThirst is the share of its water gone at which a bar is full: from here on a
// plant is in danger.
const fullThirst = 0.7

// columns are the widths of triage's columns; 0 leaves one out.
type columns struct {
	home, name, bar, gone, band, why, width int
	shelf                                   bool // a shelf's plants stand under its name
}

// columnsIn shares out a width. Danger and time come before the reason, whose whole
// text stands below.
func (t *triage) columnsIn(width int) columns {
	c := columns{home: spotWidth, bar: barWidth, band: bandWidth, width: width, shelf: t.order == byShelf}
	if !c.shelf {
		c.home = homeWidth
	}
	if width < wideScreen {
		c.bar = 6
	}
	if width >= besideFrom-cardWidth-2 {
		c.gone = gonePlace
	}
	if width < narrow {
		c.bar, c.band = 0, 0
		c.home = min(c.home, 9)
	}
	rest := width - c.before() - 1 - (c.band + 1) - timeWidth - 1
	c.name = rest
	if width < narrow {
		c.name -= 2 // "BADLY DRY, look first" is longer than minutes
	}
	if c.name > mostName { // a name ends long before, and what to do stands near it
		c.name = min(max(rest*2/5, leastName), mostName)
		c.why = rest - c.name
	}
	return c
}

// before is the width before the soak, apart from the name.
func (c columns) before() int {
	width := 2 + c.home + 1 + 1 + daysWidth + 2 + signsWidth + 1
	if c.bar > 0 {
		width += c.bar + c.gone + 1
	}
	return width
}

// columnHeads names the columns.
func (t *triage) columnHeads() string {
	c := t.at
	home := "hook"
	if !c.shelf {
		home = "home"
	}
	text := "  " + show.Pad(home, c.home) + " " + show.Pad("plant", c.name) + " " + show.PadLeft("days", daysWidth) + "  " + show.Pad("signs", signsWidth) + " "
	if c.bar > 0 {
		text += show.Pad("thirst", c.bar+c.gone) + " "
	}
	text += show.Pad("soak", c.band+1+timeWidth)
	if c.why > 0 {
		text += " why"
	}
	return t.desk.theme.quiet.of(show.Pad(text, c.width))
}

// rowsDrawn are rows as they were drawn for the frames before, so that a step of the
// cursor draws two anew and no more.
type rowsDrawn struct {
	version int
	at      columns
	lines   map[model.ID]string
}

// row is one plant's row.
func (t *triage) row(id model.ID, i int) string {
	if i == t.rows.cursor || t.rows.isMarked(id, i) {
		return t.drawRow(id, i)
	}
	if d := &t.drawn; d.lines == nil || d.version != t.desk.version || d.at != t.at {
		*d = rowsDrawn{t.desk.version, t.at, make(map[model.ID]string)}
	}
	line, ok := t.drawn.lines[id]
	if !ok {
		line = t.drawRow(id, i)
		t.drawn.lines[id] = line
	}
	return line
}

// drawRow draws one plant: what is seen of it and what it needs, or where it is when it
// is not at home. Where it is in danger, the danger stands in place of the soak.
func (t *triage) drawRow(id model.ID, i int) string {
	r, n := t.desk.book.Row(id), t.desk.need(id)
	if n == nil {
		return ""
	}
	c, here := t.at, i == t.rows.cursor
	home := r.Home.Spot
	if !c.shelf {
		home = r.Home.String()
	}
	if home == "" { // two of one name are told apart
		home = "#" + id.String()
	}
	name := show.PadName(show.Title(r.Plant), c.name)
	if here {
		name = t.desk.theme.cursor.of(name)
	}
	left := t.desk.sign(t.rows, id, i) + show.PadName(show.Safe(home), c.home) + " " + name + " "
	if r.State.Away() {
		used := 2 + c.home + 1 + c.name + 1
		words, room := t.whereabouts(r), c.width-used
		if under := c.before() + c.name - used; show.Width(words) <= room-under { // under what the others get
			words = strings.Repeat(" ", under) + words
		} else {
			words = show.PadLeft(words, room-1)
		}
		return left + t.desk.theme.quiet.of(show.Pad(words, room))
	}
	left += show.PadLeft(daysShort(n.DaysSince), daysWidth) + "  " + t.signs(r, here) + " "
	band := t.desk.theme.bands[n.Band]
	if c.bar > 0 {
		left += t.desk.thirst(n.Stand, band, c.bar) + " "
		if c.gone > 0 {
			left += show.PadLeft(fmt.Sprintf("%.0f %%", 100*(1-n.RWC)), c.gone-1) + " "
		}
	}
	rest := c.width - c.before() - c.name
	if text, paint := t.danger(n); text != "" {
		if t.desk.book.Waiting().Has(id) {
			if show.Width("pulled: "+text) > rest {
				text, _, _ = strings.Cut(text, ",")
			}
			text = "pulled: " + text
		}
		return left + paint.of(show.Pad(show.Clause(text, rest), rest))
	}
	word := n.Band.String()
	if t.desk.book.Waiting().Has(id) {
		word = "pulled"
	}
	minutes := show.Soak(n.From, n.To)
	switch {
	case c.band == 0 && word == "pulled":
		return left + band.of(show.Pad(word, rest))
	case c.band == 0 && minutes != "":
		return left + band.of(show.Pad(minutes, rest))
	case c.band == 0:
		return left + band.of(word) + "  " + t.why(n, rest-show.Width(word)-2)
	}
	left += band.of(show.Pad(word, c.band)) + " "
	switch {
	case c.why == 0 && minutes == "": // mist and no soak: why stands where the minutes would
		return left + t.why(n, rest-c.band-1)
	case c.why == 0:
		return left + show.Pad(minutes, rest-c.band-1)
	}
	return left + show.Pad(minutes, timeWidth) + " " + t.why(n, c.why) + " "
}

// thirst draws how much of a plant's water is gone, so that a long line is a thirsty
// plant and a full one is in danger: heavy to what is believed, to half a cell, and
// light to the high end of its range. The line goes by the root of the share gone: what
// a week takes, 5 to 30 %, has most of it, and the danger at 70 % still fits.
func (d *desk) thirst(s estimate.Stand, ink paint, width int) string {
	halves := func(water float64) int {
		gone := math.Sqrt(max(0, 1-water) / fullThirst)
		return min(int(2*float64(width)*gone+0.5), 2*width)
	}
	gone, most := halves(s.RWC), (halves(s.Low)+1)/2
	heavy := strings.Repeat("━", gone/2)
	if gone%2 == 1 {
		heavy += "╸"
	}
	used := (gone + 1) / 2
	light := strings.Repeat("╌", max(0, most-used))
	if 1-s.RWC >= fullThirst {
		ink = d.theme.alarm
	}
	return ink.of(heavy+light) + d.theme.quiet.of(strings.Repeat("·", width-max(used, most)))
}

// whereabouts says where a plant is that is not at home, and until when.
func (t *triage) whereabouts(r *model.Row) string {
	zone := t.desk.book.Zone()
	switch r.State {
	case model.Soaking:
		if l := t.desk.book.Load(r.Load); l != nil {
			return "in " + show.Safe(l.Vessel) + ", out " + t.desk.outClock(l)
		}
	case model.Drying:
		if d := t.desk.outlook.DryOut(r.ID); d != nil {
			if d.Overdue {
				return "drying, ready to check"
			}
			return "drying, likely dry " + show.Clock(d.Expected, t.desk.now, zone)
		}
	case model.Dry:
		return "dry since " + show.Clock(r.DryAt, t.desk.now, zone) + ", to be hung back"
	}
	return r.State.String()
}

// danger is why a plant must not be treated as usual, "" when there is none, and its
// ink: red for what kills, amber for what asks for care. Words for what kills come
// first, and fit the narrowest list.
func (t *triage) danger(n *advice.Need) (string, paint) {
	first := n.Reasons[0]
	switch {
	case !t.desk.book.Row(n.ID).Rot.IsZero():
		return "ROT, keep apart", t.desk.theme.alarm
	case n.Casualty():
		return "BADLY DRY, look first", t.desk.theme.alarm
	case first.Code == advice.BloomBadlyDry:
		if advice.AskBloom(t.desk.book.Row(n.ID), t.desk.now) {
			return "BADLY DRY, in bloom?", t.desk.theme.alarm
		}
		return "BADLY DRY, in bloom", t.desk.theme.alarm
	case first.Code == advice.StillInBloom:
		return "still in bloom?", t.desk.theme.warn
	case first.Code == advice.LastSoakUnknown && n.To > 0:
		if t.desk.width < narrow {
			return "look, up to " + show.Minutes(n.To), t.desk.theme.warn
		}
		return "look first, up to " + show.Minutes(n.To), t.desk.theme.warn
	case first.Kind() != advice.Warning:
		return "", t.desk.theme.plain
	}
	return show.Line(show.Safe(t.desk.subject(n.ID).Reason(first))), t.desk.paintOf(first)
}

// why is the first reason, behind what was forecast for the trip.
func (t *triage) why(n *advice.Need, width int) string {
	text := show.Clause(t.forecast(n.ID)+show.Safe(t.desk.subject(n.ID).Reason(n.Reasons[0])), width)
	if n.Reasons[0].Kind() == advice.Capped {
		if head, _, ok := strings.Cut(text, ": "); ok && strings.HasSuffix(text, "…") { // "in bloom" is enough
			text = head
		}
		return t.desk.theme.warn.of(show.Pad(text, width))
	}
	if strings.HasSuffix(text, "…") { // the days and the thirst beside it say as much
		text = ""
	}
	return t.desk.theme.quiet.of(show.Pad(text, width))
}

// forecast is how thirsty a plant was expected to be on coming home, to stand
// beside what is seen; "" when there was no trip, when it was soaked since, or
// when nobody has looked yet and the bar says the same.
func (t *triage) forecast(id model.ID) string {
	if t.desk.home == nil || t.desk.book.Row(id).SignsAt.Before(t.desk.home.Trip.Home()) {
		return ""
	}
	if stand, ok := t.desk.home.Forecast[id]; ok {
		return fmt.Sprintf("forecast %.0f %%; ", 100*stand.Thirst())
	}
	return ""
}

// signs is the column of what was seen: what is being keyed in, else the last
// look if it was since the soak.
func (t *triage) signs(r *model.Row, here bool) string {
	if here && len(t.digits) > 0 {
		text := ""
		for i := range 3 {
			switch {
			case i < len(t.digits):
				text += t.digits[i].String() + " "
			case i == len(t.digits):
				text += "_ "
			default:
				text += "  "
			}
		}
		return t.desk.theme.input.of(text[:signsWidth])
	}
	if r.SignsAt.IsZero() || r.SignsAt.Before(r.LastSoak()) {
		return t.desk.theme.quiet.of("· · ·")
	}
	s := r.Signs
	return s.Curl.String() + " " + s.Tips.String() + " " + s.Shift.String()
}

// daysShort is the days since the soak, or "?" when none is on record.
func daysShort(days int) string {
	if days < 0 {
		return "?"
	}
	return strconv.Itoa(days)
}
