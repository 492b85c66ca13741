package board

import (
	"fmt"

	"tubside/model"
	"tubside/ui/show"
)

const (
	leastCard  = 12 // lines from which the card of the cursor's plant has room below
	leastNames = 3  // lines that each load has beside the list, where there are many
	besideCell = cardWidth/2 - 1
)

// besideLines are what stands beside the list: whom s would put in, what lies in the
// vessels apart from the load under the cursor, and the card of the cursor's plant where
// there is room.
func (s *soakScreen) besideLines(room int) []string {
	type pile struct {
		head, remark string
		ids          model.IDs
	}
	var piles []pile
	if l := s.ready; len(l.ids) > 0 {
		piles = append(piles, pile{
			s.desk.key("s", "*") + " puts into " + show.Safe(s.chosen().Name),
			fmt.Sprintf("%s, %s", show.Count(len(l.ids), "plant"), show.Minutes(l.minutes)), l.ids,
		})
	}
	here, _ := s.groupHere()
	for _, g := range s.shown {
		if l := g.load; l != nil && l != here.load {
			piles = append(piles, pile{
				fmt.Sprintf("In %s, load %d", show.Safe(l.Vessel), l.ID),
				"as they come out, " + s.desk.outClock(l), g.ids,
			})
		}
	}
	var lines []string
	for i, pile := range piles {
		if len(lines) > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, s.desk.headingIn(pile.head, pile.remark, cardWidth))
		lines = append(lines, s.names(pile.ids, max(leastNames, (room-len(lines))/(len(piles)-i)-1))...)
	}
	if room-len(lines) < leastCard {
		return lines
	}
	if len(lines) > 0 {
		lines = append(lines, "")
	}
	return append(lines, s.side.lines()...)
}

// names lists plants and where they hang in two columns, as many as go into so many
// lines.
func (s *soakScreen) names(ids model.IDs, room int) []string {
	rows := min((len(ids)+1)/2, room)
	more := len(ids) - 2*rows
	if more > 0 {
		rows--
		more = len(ids) - 2*rows
	}
	var lines []string
	for r := range rows {
		line := " "
		for c := range 2 {
			if i := c*rows + r; i < len(ids) {
				row := s.desk.book.Row(ids[i])
				line += " " + show.Pad(s.named.of(row), besideCell-12) + " " + show.Pad(hangs(row), 10)
			}
		}
		lines = append(lines, line)
	}
	if more > 0 {
		lines = append(lines, s.desk.theme.quiet.of(fmt.Sprintf("  and %d more", more)))
	}
	return lines
}
