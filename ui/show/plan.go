package show

import (
	"strings"

	"tubside/model"
	"tubside/model/day"
)

// LeftOut says why a plant has no place in a plan, and what would get it one.
func LeftOut(b *model.Book, p *day.Plan, l day.LeftOut) string {
	text := l.Reason
	if l.NotFed != nil {
		text = NotFed(b, *l.NotFed, p.Ask.From).What
	}
	if len(l.Because) > 0 {
		text += ": " + About{Book: b, Row: b.Row(l.ID), Now: p.Ask.From}.Reason(l.Because[0])
	}
	if len(l.Help) == 0 {
		return text
	}
	return text + "; " + strings.Join(l.Help, ", or ")
}
