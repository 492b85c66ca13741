package board

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// card is one plant opened: what it is, what it needs and why, how its water
// went, and everything written about it.
type card struct {
	desk  *desk
	rows  *list                    // of the screen behind
	pass  func(tea.KeyMsg) tea.Cmd // gives a key to the screen behind
	id    model.ID
	lines []string
	brief bool // beside the list: only the last entries, and the chart when it is there

	points []estimate.Point // of the chart beside the list
	built  int              // the version the lines were made at
	wide   laidFor          // what it was laid out for
	text   scroll
}

// about is the plant the card is of.
func (c *card) about() model.IDs { return model.IDs{c.id} }

func newCard(d *desk, rows *list, pass func(tea.KeyMsg) tea.Cmd) *card {
	return &card{desk: d, rows: rows, pass: pass, id: rows.current(), built: -1}
}

func (c *card) groups() []group {
	return []group{{"The card", append(c.text.keys(),
		act("l →", "the next plant", func() { c.turn(1) }).pad(".").foot("other plant"),
		act("h ←", "the plant before", func() { c.turn(-1) }).foot("other plant"),
		act("esc enter q", "back", func() { c.desk.drop(c) }).foot("back"),
		remark("the screen's keys work on this plant"),
		anyOther("the keys of the screen behind work on this plant too", c.behind),
	)}}
}

func (c *card) lead() string { return "" }

// behind gives a key to the screen behind, for the card's plant alone.
func (c *card) behind(msg tea.KeyMsg) tea.Cmd {
	c.rows.unmark()
	if !c.rows.goTo(c.id) {
		return nil
	}
	return c.pass(msg)
}

// turn opens the next plant of the list behind.
func (c *card) turn(n int) {
	c.rows.goTo(c.id)
	c.rows.move(n)
	if id := c.rows.current(); id != 0 {
		c.id, c.built, c.text.top = id, -1, 0
	}
}

func (c *card) draw(p *page, height int) {
	if c.built != c.desk.version || c.wide != c.desk.laid() {
		c.build()
	}
	c.text.text = c.lines
	c.text.draw(p, c.desk.width, height)
}

// build makes the card's lines.
func (c *card) build() {
	c.built, c.wide, c.lines = c.desk.version, c.desk.laid(), c.lines[:0]
	r := c.desk.book.Row(c.id)
	c.lines = append(c.lines, c.desk.heading(fmt.Sprintf("#%d  %s", r.ID, show.Title(r.Plant)),
		show.Standing(r, c.desk.book, c.desk.now)+" "))
	c.describe(r)
	if n := c.desk.need(c.id); n != nil {
		c.explain(r, n)
	}
	if c.brief {
		c.smallChart()
	} else {
		c.chart()
	}
	c.history()
}

func (c *card) add(paint paint, format string, args ...any) {
	for _, line := range wrap(fmt.Sprintf(format, args...), c.desk.width-6) {
		c.lines = append(c.lines, "   "+paint.of(show.Fit(line, c.desk.width-4)))
	}
}

// describe says what the plant is.
func (c *card) describe(r *model.Row) {
	what := []string{}
	if r.Label != "" && r.Name != "" {
		what = append(what, r.Name)
	}
	if r.Now != "" && r.Now != r.Name {
		what = append(what, "renamed "+r.Now)
	}
	what = append(what, show.Form(r.Plant))
	if r.Size > 0 {
		what = append(what, fmt.Sprintf("%g cm", r.Size))
	}
	if r.Count > 1 {
		what = append(what, show.Count(r.Count, "plant"))
	}
	if came := show.Came(r.Plant); came != "" {
		what = append(what, "came "+came)
	}
	c.add(c.desk.theme.plain, "%s", strings.Join(what, ", "))
	if life := c.life(r); len(life) > 0 {
		c.add(c.desk.theme.plain, "%s", strings.Join(life, ", "))
	}
	if r.Note != "" {
		c.add(c.desk.theme.quiet, "%s", r.Note)
	}
}

// life says what goes on with the plant: bloom, offsets, troubles, quarantine.
func (c *card) life(r *model.Row) []string {
	zone := c.desk.book.Zone()
	var on []string
	if r.MistOnly {
		on = append(on, "mist only")
	}
	if !r.Bloom.IsZero() {
		text := "in bloom since " + show.Date(r.Bloom, zone)
		if r.Stage == model.Bud {
			text = "in bud since " + show.Date(r.Bloom, zone)
		}
		if low, high, ok := advice.BloomEnd(r); ok && c.desk.now.After(high) {
			text += fmt.Sprintf(": over? Such blooms are by %s", show.Date(high, zone))
		} else if ok {
			text += fmt.Sprintf(", over between %s and %s", show.Date(low, zone), show.Date(high, zone))
		}
		on = append(on, text)
	}
	if r.Offsets > 0 {
		text := show.Count(r.Offsets, "offset")
		if may, should := c.desk.book.MaySeparate(r); should {
			text += ", should be separated"
		} else if may {
			text += ", may be separated"
		}
		on = append(on, text)
	}
	if r.Mother != 0 {
		on = append(on, fmt.Sprintf("offset of #%d", r.Mother))
	}
	if !r.Fading.IsZero() {
		on = append(on, "fading since "+show.Date(r.Fading, zone))
	}
	if !r.Quarantine.IsZero() {
		text := "in quarantine since " + show.Date(r.Quarantine, zone)
		if lacks := c.desk.book.Lacks(r, c.desk.now); len(lacks) > 0 {
			text += " (" + strings.Join(lacks, "; ") + ")"
		} else {
			text += ", may be released (Q)"
		}
		on = append(on, text)
	}
	for _, ill := range r.Troubles {
		text := string(ill.What) + " since " + show.Date(ill.Since, zone)
		if ill.Treatment != "" {
			text += ", treated: " + ill.Treatment
		}
		on = append(on, text)
	}
	if !r.Rot.IsZero() {
		on = append(on, "suspected rot since "+show.Date(r.Rot, zone))
	}
	if !r.Fed.IsZero() {
		on = append(on, "last fed "+show.Ago(r.Fed, c.desk.now, zone))
	}
	return on
}

// explain says what the plant needs and gives every number its reason.
func (c *card) explain(r *model.Row, n *advice.Need) {
	words := "Needs " + show.Band(n.Band, n.From, n.To)
	if r.State.Away() {
		words = "Water"
	}
	c.lines = append(c.lines, "", c.desk.heading(words, ""))
	if !r.SignsAt.IsZero() {
		c.add(c.desk.theme.plain, "Seen %s: %s", show.Ago(r.SignsAt, c.desk.now, c.desk.book.Zone()), show.Signs(r.Signs))
	}
	for _, reason := range n.Reasons {
		c.add(c.desk.paintOf(reason), "· %s", c.desk.subject(c.id).Reason(reason))
	}
	if !c.brief {
		c.add(c.desk.theme.quiet, "kPa: %s", show.KPaWords())
	}
	d := c.desk.outlook.DryOut(c.id)
	if d == nil {
		return
	}
	zone := c.desk.book.Zone()
	c.lines = append(c.lines, "", c.desk.heading("Drying", fmt.Sprintf("expected %s, between %s and %s ",
		show.Clock(d.Expected, c.desk.now, zone), show.Clock(d.Low, c.desk.now, zone), show.Clock(d.High, c.desk.now, zone))))
	for _, reason := range d.Reasons {
		c.add(c.desk.paintOf(reason), "· %s", c.desk.subject(c.id).Reason(reason))
	}
}

// A brief card is drawn at every key: it has so many of the last entries about its
// plant, looked for among so many of the last entries of the book.
const (
	lastWritten  = 10
	lastSearched = 500
)

// history lists what was written about the plant, newest first.
func (c *card) history() {
	if c.brief {
		c.lines = append(c.lines, "", c.desk.heading("Written lately", "enter for all "))
		entries := c.desk.book.Entries()
		last, left := max(0, len(entries)-lastSearched), lastWritten
		for i := len(entries) - 1; i >= last && left > 0; i-- {
			if e := entries[i]; !c.desk.book.Struck(e.Seq) && e.Names(c.id) {
				c.written(e)
				left--
			}
		}
		return
	}
	past := c.desk.book.History(c.id)
	c.lines = append(c.lines, "", c.desk.heading("Written", show.Count(len(past), "entry", "entries")+" "))
	for _, e := range slices.Backward(past) {
		c.written(e)
	}
}

// written is one entry about the plant.
func (c *card) written(e model.Entry) {
	when, others := c.desk.entryTime(e), ""
	if n := len(e.Plants) - 1; n > 1 { // two may have changed places
		e.Plants, others = model.IDs{c.id}, fmt.Sprintf(", with %d others", n)
	}
	text := show.Clause(show.Line(show.Sentence(e, c.desk.book))+others, c.desk.width-whenWidth-6)
	c.lines = append(c.lines, "   "+c.desk.theme.quiet.of(show.PadLeft(when, whenWidth))+"  "+text)
}

// fitStyled cuts a line that may hold styles.
func fitStyled(s string, width int) string { return ansi.Truncate(s, width, "…") }

func splitLines(s string) []string { return strings.Split(s, "\n") }
