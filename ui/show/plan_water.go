package show

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/soak"
)

// standsLong is from how long on a filled vessel that waits for its load is
// said to stand. A guess.
const standsLong = 10 * time.Minute

// tubLitres is from how many litres on a vessel is a tub, with a tap end; a smaller
// one is a bucket. A guess.
const tubLitres = 60

func fillStep(b *model.Book, p *day.Plan, s *day.Step, l *day.Load) string {
	text := "fill "
	if StandsDisinfected(b, p, s) {
		text = "pour the disinfectant out of " + s.Vessel + ", rinse it well, and fill "
	}
	if l.Fed {
		text = "mix fed water in "
	}
	text += fmt.Sprintf("%s (%s)", s.Vessel, Volume(s.Litres, b.Rules()))
	switch {
	case p.BeforeHours(s):
		return text + " the evening before: it stands " + b.Rules().Word(model.WaterRest) + " h"
	case l.Start.Sub(s.Until) > standsLong:
		return text + fmt.Sprintf(": load %d goes in at %s", l.Number, Clock(l.Start, p.Ask.From, p.Ask.From.Location()))
	}
	return text
}

// StandsDisinfected reports whether a vessel to be filled was last emptied of water that the
// sick were in.
func StandsDisinfected(b *model.Book, p *day.Plan, fill *day.Step) (is bool) {
	for i := range p.Steps {
		if s := &p.Steps[i]; s.Vessel == fill.Vessel && s.At.Before(fill.At) && s.Do == soak.Empty {
			var l *day.Load
			if s.Load >= 0 {
				l = &p.Loads[s.Load]
			}
			is = worstIn(b, s, l) == soak.Sick
		} else if s.Vessel == fill.Vessel && s.At.Before(fill.At) && s.Do == soak.Fill {
			is = false
		}
	}
	return is
}

func emptyStep(b *model.Book, s *day.Step, l *day.Load) string {
	switch {
	case worstIn(b, s, l) == soak.Sick:
		return "empty " + s.Vessel + ": throw this water out, disinfect the vessel for 10 min, and wash your hands"
	case l != nil && l.Fed:
		return "empty " + s.Vessel + " and rinse it: fed water is not kept"
	}
	return "empty " + s.Vessel + " at once and rinse it"
}

// worstIn is the worst company that was in the water that is let out by a step.
func worstIn(b *model.Book, s *day.Step, l *day.Load) (worst soak.Company) {
	if l != nil {
		worst = l.Company
		for _, t := range l.Plants {
			worst = max(worst, t.Company)
		}
	}
	if w := b.Water(s.Vessel); w != nil && (l == nil || l.Fill == 0) {
		worst = max(worst, advice.CompanyFor(w.Worst))
	}
	return worst
}

func isTub(b *model.Book, vessel string) bool {
	v, _ := b.Vessel(vessel)
	return IsTub(v)
}

// IsTub reports whether a vessel is a tub, with a tap end and a far end.
func IsTub(v model.Vessel) bool { return v.Litres >= tubLitres }

func emptyStanding(vessels []string) string {
	if len(vessels) == 0 {
		return ""
	}
	return "empty " + anded(vessels) + ": nothing more goes in, and a child can drown in a bucket"
}

// WaterRule says that the day's water does not stand as the house rule wants it; "" where
// it does.
func WaterRule(b *model.Book, p *day.Plan) string {
	rules := b.Rules()
	if p.Fills == 0 || rules[model.WaterRest] == 0 || p.Ahead {
		return ""
	}
	return "your rule: tap water stands " + rules.Word(model.WaterRest) +
		" h before plants go in; fill the evening before, or use rain water"
}
