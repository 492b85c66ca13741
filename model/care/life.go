package care

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// A mist round goes by the leaf and by the room: the house rule's days stand
// for the house rule's air, and shrink or grow with the drying power of the
// air there is, but not beyond these. Our own: stomata are not a wet cloth.
const (
	mistShortest = 0.5
	mistLongest  = 2.0
)

// walkSlack is how much sooner than the last one a walk may begin and still
// find the same plants due. Our own.
const walkSlack = 6 * time.Hour

// mistEvery is how long after one mist the next is due.
func mistEvery(p model.Plant, rules model.Rules, deficit float64) time.Duration {
	days := rules[model.MistIntermediate]
	switch {
	case p.Form == model.Wispy || p.Leaf == model.Mesic:
		days = rules[model.MistMesic]
	case p.Leaf == model.Xeric:
		days = rules[model.MistXeric]
	}
	usual := deficitKPa(rules[model.DefaultTemp], rules[model.DefaultRH])
	factor := math.Min(math.Max(usual/math.Max(deficit, 0.01), mistShortest), mistLongest)
	return time.Duration(days * factor * 24 * float64(time.Hour))
}

// mistedLately reports whether the plant's next mist is still to come.
func (v *verdict) mistedLately() bool {
	if v.row.Misted.IsZero() {
		return false
	}
	every := max(mistEvery(v.row.Plant, v.rules, v.room.DeficitKPa)-walkSlack, mistedHours*time.Hour)
	return v.now.Sub(v.row.Misted) < every
}

// healing reports whether the plant was taken off its mother so lately that its
// wound is not dry.
func (v *verdict) healing() bool { return healing(v.row, v.rules, v.now) }

func healing(row *model.Row, rules model.Rules, now time.Time) bool {
	return !row.Separated.IsZero() && now.Sub(row.Separated).Hours() < 24*rules[model.SeparatedDays]
}

func (v *verdict) sayHealing() {
	v.say(Capped, "just separated: mist it, no soak until the wound is dry")
	v.sayHistory()
}

// sayCompany says whose water the plant may share, where it is not everybody's.
func (v *verdict) sayCompany(b *model.Book) {
	c, why := CompanyOf(b, v.row, v.now)
	if c != soak.Healthy {
		v.say(Warning, "%s", why)
	}
}

// CompanyOf is the company a plant may keep in the water at a time, and why.
func CompanyOf(b *model.Book, row *model.Row, now time.Time) (company soak.Company, why string) {
	switch b.Health(row, now) {
	case model.Newcomer:
		return soak.Newcomer, "newcomer: its own water, or the last of the healthy"
	case model.Suspect:
		return soak.Suspect, "trouble cleared a short while ago: after the healthy and the newcomers"
	case model.Sick:
		return soak.Sick, "sick: last, in water of its own that is thrown out; disinfect the vessel"
	}
	return soak.Healthy, ""
}
