package board

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// notToday is who has no place in the plan: under each reason the plants that it keeps
// out, the reason that keeps out most first.
type notToday struct {
	desk  *desk
	plan  *day.Plan
	lines []outLine
	named naming
	wide  laidFor // what the lines were laid out for
	rows  window
}

// outLine is a line of the list: a plant, or what stands above some plants.
type outLine struct {
	text string
	left *day.LeftOut // nil above the plants
}

func newNotToday(d *desk, p *day.Plan) *notToday {
	v := &notToday{desk: d, plan: p}
	var ids model.IDs
	for _, l := range slices.Concat(p.Late, p.Left) {
		if d.book.Row(l.ID) != nil {
			ids = append(ids, l.ID)
		}
	}
	v.named = d.namingOf(ids)
	v.rows.pass = func(i int) bool { return v.lines[i].left == nil }
	v.lay()
	v.rows.fit(len(v.lines), d.height)
	v.rows.put(0)
	return v
}

// lay writes the list for the window as it is; the cursor stays on its plant.
func (v *notToday) lay() {
	on := v.chosen()
	v.wide, v.lines = v.desk.laid(), nil
	v.add(v.plan.Late)
	v.add(v.plan.Left)
	v.rows.fit(len(v.lines), max(1, v.rows.height))
	if on != nil {
		v.rows.put(slices.IndexFunc(v.lines, func(l outLine) bool { return l.left == on }))
	}
}

// add groups plants by why they have no place. How much too late each would be is
// another for every plant, and stands in its row.
func (v *notToday) add(left []day.LeftOut) {
	groups := map[string][]*day.LeftOut{}
	var order []string
	for i := range left {
		if v.desk.book.Row(left[i].ID) == nil {
			continue
		}
		text := show.Line(show.Safe(show.LeftOut(v.desk.book, v.plan, left[i].WithoutTimes())))
		if groups[text] == nil {
			order = append(order, text)
		}
		groups[text] = append(groups[text], &left[i])
	}
	slices.SortStableFunc(order, func(a, b string) int { return len(groups[b]) - len(groups[a]) })
	for _, text := range order {
		said, help, _ := strings.Cut(text, "; ")
		heads := wrap(said, v.desk.width-3)
		for i, head := range heads {
			if i < len(heads)-1 {
				v.lines = append(v.lines, outLine{text: " " + v.desk.theme.title.of(head)})
				continue
			}
			v.lines = append(v.lines, outLine{text: v.desk.heading(head, show.Count(len(groups[text]), "plant"))})
		}
		if help != "" {
			for _, line := range wrap("What would help: "+help, v.desk.width-5) {
				v.lines = append(v.lines, outLine{text: "   " + v.desk.theme.quiet.of(line)})
			}
		}
		for _, l := range groups[text] {
			v.lines = append(v.lines, outLine{v.row(l), l})
		}
	}
}

const lateWidth = len("12 h 59 min too late")

// row is a plant, its home, how much too late it would be dry, and what it needs as far
// as there is room.
func (v *notToday) row(l *day.LeftOut) string {
	r := v.desk.book.Row(l.ID)
	name, home := v.named.columns(v.desk.width - 3 - 2 - 2 - lateWidth - 1)
	line := "   " + show.Pad(v.named.of(r), name) + "  " + show.Pad(hangs(r), home)
	if late := show.HowMuchTooLate(*l); late != "" || v.desk.width >= wideScreen {
		line += "  " + show.Pad(late, lateWidth)
	}
	n, left := v.desk.need(l.ID), v.desk.width-show.Width(line)-3
	if n == nil || left < len("Overnight") {
		return strings.TrimRight(line, " ")
	}
	needs := show.Line(show.Safe(n.Band.String() + ": " + show.About{Book: v.desk.book, Row: r, Now: v.desk.now}.First(n.Reasons)))
	if show.Width(needs) > left {
		needs = n.Band.String()
	}
	return line + "  " + v.desk.theme.quiet.of(needs)
}

func (v *notToday) groups() []group {
	none := func() string {
		if v.chosen() == nil {
			return "Nobody is left out"
		}
		return ""
	}
	back := anyOther("back", func(tea.KeyMsg) tea.Cmd { v.desk.drop(v); return nil }).foot("goes back")
	return []group{{"Not today", append(v.rows.keys(), act("enter", "why not, and what it needs", v.open).unless(none).foot("why not"), back)}}
}

// chosen is the plant under the cursor, or nil.
func (v *notToday) chosen() *day.LeftOut {
	if v.rows.cursor >= len(v.lines) {
		return nil
	}
	return v.lines[v.rows.cursor].left
}

// open says of one plant why it is not in the plan, what would help, and what it needs.
func (v *notToday) open() {
	l := *v.chosen()
	v.desk.push(&loadView{desk: v.desk, lay: func() (title, remark string, lines []string) { return v.one(l) }})
}

// one is the page about one plant.
func (v *notToday) one(l day.LeftOut) (title, remark string, lines []string) {
	row := v.desk.book.Row(l.ID)
	why, help := show.WhyLeftOut(v.desk.book, v.plan, l)
	paragraph := func(text string) {
		for _, line := range wrap(show.Line(show.Safe(text)), v.desk.width-4) {
			lines = append(lines, "   "+line)
		}
	}
	paragraph("home: " + show.Home(row.Home))
	lines = append(lines, v.desk.heading("Why not today", ""))
	paragraph(why)
	for i, h := range help {
		if i == 0 {
			lines = append(lines, v.desk.heading("What would help", ""))
		}
		paragraph(h)
	}
	if n := v.desk.need(l.ID); n != nil {
		lines = append(lines, v.desk.heading("What it needs", ""))
		paragraph(n.Band.String() + ": " + show.About{Book: v.desk.book, Row: row, Now: v.desk.now}.First(n.Reasons))
	}
	return show.Title(row.Plant), "number " + l.ID.String(), lines
}

func (v *notToday) lead() string { return "" }

func (v *notToday) draw(p *page, height int) {
	if v.wide != v.desk.laid() {
		v.lay()
	}
	p.line("")
	n := len(v.plan.Left)
	p.line(v.desk.heading("Not today", show.Count(n, "plant")+" "))
	if len(v.lines) == 0 {
		p.line("   Everybody who is due has a place.")
		return
	}
	v.rows.fit(len(v.lines), height-2)
	for from, until := v.rows.inView(); from < until; from++ {
		if line := v.lines[from].text; from == v.rows.cursor {
			p.line(v.desk.barred(show.Fit(line, v.desk.width)))
		} else {
			p.line(fitStyled(line, v.desk.width))
		}
	}
}
