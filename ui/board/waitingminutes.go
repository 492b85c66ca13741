package board

import (
	"math"
	"time"

	"tubside/model"
	"tubside/ui/show"
)

// saidMinutes is what was said of a waiting plant's soak when it was pulled, or when the
// board first showed it waiting.
type saidMinutes struct {
	from, to, deficit float64   // minutes; kPa
	at, seen          time.Time // when it was said, and when its signs were seen last
}

// otherAir is from which change of the drying power of the air, as a share, it is named
// as what moved a soak's minutes. A choice: less is within one reading.
const otherAir = 0.05

// keepMinutes remembers what was said of the plants that wait. What is seen of a plant
// says by itself why its soak is another.
func (d *desk) keepMinutes() {
	waiting := d.book.Waiting()
	if len(waiting) == 0 {
		d.minutes = nil
		return
	}
	kept := make(map[model.ID]saidMinutes, len(waiting))
	for _, id := range waiting {
		n, was := d.need(id), d.minutes[id]
		if n == nil {
			continue
		}
		if was.at.IsZero() || !n.SignsAt.Equal(was.seen) {
			was = saidMinutes{n.From, n.To, d.outlook.Air.DeficitKPa, d.now, n.SignsAt}
		}
		kept[id] = was
	}
	d.minutes = kept
}

// moved says why a waiting plant is to soak longer or shorter than when it was pulled: "longer
// than at 09:10: drier air"; "" when it is not.
func (d *desk) moved(id model.ID) string {
	was, ok := d.minutes[id]
	n := d.need(id)
	if !ok || n == nil || n.From == was.from && n.To == was.to {
		return ""
	}
	text, longer := "shorter", n.From > was.from || n.From == was.from && n.To > was.to
	if longer {
		text = "longer"
	}
	text += " than at " + show.Clock(was.at, d.now, d.book.Zone()) + ": "
	switch now := d.outlook.Air.DeficitKPa; {
	case now > was.deficit*(1+otherAir):
		return text + "drier air"
	case now < was.deficit*(1-otherAir):
		return text + "damper air"
	case longer && d.now.Sub(was.at) >= time.Hour:
		return text + "it has waited " + show.Duration(d.now.Sub(was.at).Truncate(time.Hour))
	case math.Abs(n.From-was.from) <= 5:
		return text + "rounded to five minutes"
	}
	return text + "by what was entered since"
}
