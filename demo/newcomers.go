package demo

import (
	"strconv"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// guests is the shelf in another room where newcomers hang until they are
// released.
const guests = "Guest"

// arrivals adds the plants that came by the evening of a day, apart from the
// others. What came while the grower was away is fetched on the way home.
func (p *past) arrivals(d date.Date) {
	var came []*life
	at := p.clock(d, 20).Add(p.minutes(0, 60))
	add := &model.Add{}
	for _, l := range p.lives {
		if !l.newcomer || l.ID != 0 || l.Acquired > d {
			continue
		}
		p.arrive(l, at.AddDate(0, 0, -3))
		l.Acquired, l.apart = d, at.Add(2*time.Minute)
		l.goal, l.Home = l.Home, p.guestSpot()
		if p.happens(0.5) {
			l.SoakedOn = d - 3
		}
		add.Plants = append(add.Plants, l.Plant)
		came = append(came, l)
	}
	if len(came) > 0 {
		p.say(at, add)
		p.tell(at.Add(2*time.Minute), &model.Quarantine{}, came...)
	}
}

// guestSpot is the next spot among the newcomers.
func (p *past) guestSpot() model.Home {
	p.guests++
	return model.Home{Shelf: guests, Spot: strconv.Itoa(1 + p.guests%guestSpots)}
}

const guestSpots = 20

// releases hangs the newcomers up with the others whose days are over and who
// were found clean twice, far enough apart.
func (p *past) releases(at time.Time) {
	ready := p.here(func(l *life) bool {
		over := at.After(l.apart.AddDate(0, 0, int(house[model.QuarantineDays])))
		twice := !l.clean.IsZero() && !within(l.clean, l.looked, house[model.LooksApart])
		return !l.apart.IsZero() && over && twice && l.rot.IsZero() && l.ill == ""
	})
	for _, l := range ready {
		l.apart, l.released = time.Time{}, at
	}
	p.tell(at, &model.Quarantine{Over: true}, ready...)
	for i, l := range ready {
		at := at.Add(time.Duration(i+1) * time.Minute)
		l.move(l.goal, at, p.weather)
		p.tell(at, &model.Move{To: l.goal}, l)
	}
}
