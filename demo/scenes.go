package demo

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// Scene is a moment of the invented home that the demo can open at.
type Scene struct {
	Name string // as it is typed
	What string // in a few words

	daysSinceSoak int  // since the second of the last two soak mornings
	trip          bool // the grower was away lately
	backAgo       int  // days since coming home
	noPast        bool
	tell          func(*past) // what has happened in the last hours
}

// Scenes lists every scene; the first is the one to open when none is named.
var Scenes = []Scene{
	{Name: "homecoming", What: "just home from a 12-day trip, one load in the tub and one drying", daysSinceSoak: 13,
		trip: true, tell: homecoming},
	{Name: "soakday", What: "three vessels full, one load due and one overdue, more plants pulled", daysSinceSoak: 7,
		tell: soakday},
	{Name: "bench", What: "evening in a humid room, 150 plants out to dry, some of them too long", daysSinceSoak: 7,
		tell: evening},
	{Name: "quiet", What: "an ordinary day between soaks, nothing in the water", daysSinceSoak: 3, tell: quiet},
	{Name: "rotwatch", What: "four days after a trip, all soaked since: time to look for rot", daysSinceSoak: 2,
		trip: true, backAgo: 4, tell: rotwatch},
	{Name: "first", What: "a list imported just now, no past at all", daysSinceSoak: 7, noPast: true, tell: first},
}

// turn hands out the plants of a session at hand, in walking order.
type turn struct {
	*past
	left []*life
}

// newTurn is for plants that may share water: what was sick lately goes in alone.
func (p *past) newTurn(want func(*life) bool) *turn {
	return &turn{p, p.here(func(l *life) bool {
		return l.plain() && l.company(p.now) == model.Sound && !l.healing(p.now) && want(l)
	})}
}

// take is the next plants that want holds for, up to n of them and as many as
// fit into litres.
func (t *turn) take(n int, litres float64, want func(*life) bool) []*life {
	var some []*life
	t.left = slices.DeleteFunc(t.left, func(l *life) bool {
		bulk := estimate.Bulk(l.Plant)
		if len(some) == n || bulk > litres || !want(l) {
			return false
		}
		litres -= bulk
		some = append(some, l)
		return true
	})
	return some
}

// ago is a time some minutes before the scene; a negative number is after it.
func (p *past) ago(minutes float64) time.Time { return p.now.Add(-minutesOf(minutes)) }

// load pulls and soaks plants in water just filled: in and due are minutes ago.
func (t *turn) load(vessel string, in, due float64, load []*life) {
	t.tell(t.ago(in+6), &model.Pull{}, load...)
	t.pours(t.ago(in+2), vessel, true)
	t.soak(t.ago(in), vessel, t.ago(due), load)
}

// soaksFor reports which plants soak for some minutes.
func (p *past) soaksFor(minutes float64) func(*life) bool {
	return func(l *life) bool { return l.soakMinutes(p.now, p.weather) == minutes }
}

func homecoming(p *past) {
	t := p.newTurn(func(l *life) bool { return l.leaf == model.Mesic || l.form == model.Wispy })
	p.say(p.ago(165), &model.Back{})
	p.reading(p.ago(150))
	p.weighAll(p.ago(148))
	p.look(p.ago(140), t.left, lookedAt, true)
	home := t.take(26, 45, t.soaksFor(long))
	t.load("crate", 118, 58, home)
	t.takeOut(p.ago(52), home)
	t.load("tub", 24, -36, t.take(60, 100, t.soaksFor(long)))
	t.tell(p.ago(12), &model.Pull{}, t.take(18, 60, anyLife)...)
}

func soakday(p *past) {
	t := p.newTurn(func(l *life) bool { return soakedFirst(l.Home.Shelf) })
	p.reading(p.ago(130))
	p.look(p.ago(120), t.left, lookedAt, true)
	t.load("crate", 98, 18, t.take(70, 45, t.soaksFor(long)))
	t.load("tub", 60, 0, t.take(140, 100, t.soaksFor(long)))
	t.load("bucket 1", 21, -24, t.take(20, 10, t.soaksFor(usual)))
	t.tell(p.ago(9), &model.Pull{}, t.take(60, 90, anyLife)...)
}

// The bench of the evening scene, in plants.
const (
	longWet   = 24 // out since noon
	stillWet  = 56
	dryNow    = 25
	hungToday = 40
	allOut    = 150 // with those still wet from the last load
)

func evening(p *past) {
	t := p.newTurn(func(l *life) bool { return !soakedFirst(l.Home.Shelf) })
	p.say(p.ago(600), &model.Reading{TempC: 22.4, RH: 58, Fan: model.FanLow})
	p.fan = model.FanLow
	p.look(p.ago(640), t.left, lookedAt, true)
	done := t.take(hungToday+dryNow, 100, t.soaksFor(long))
	t.load("tub", 620, 530, done)
	t.takeOut(p.ago(525), done)
	bulbs := t.take(longWet, 100, t.soaksFor(usual))
	t.load("crate", 560, 500, bulbs)
	t.takeOut(p.ago(480), bulbs)
	p.say(p.ago(470), &model.Drain{Vessel: "crate"})
	xeric := t.take(stillWet, 100, t.soaksFor(usual))
	t.load("tub", 320, 275, xeric)
	t.takeOut(p.ago(270), xeric)
	rest := t.take(allOut-dryNow-len(bulbs)-len(xeric), 120, anyLife)
	t.load("tub", 180, 100, rest)
	t.takeOut(p.ago(95), rest)
	p.say(p.ago(88), &model.Drain{Vessel: "tub"})
	p.tell(p.ago(200), &model.Damp{}, bulbs...)
	p.say(p.ago(190), &model.Reading{TempC: 21.8, RH: 69})
	p.tell(p.ago(160), &model.FoundDry{}, done[:hungToday]...)
	p.tell(p.ago(150), &model.Hung{}, done[:hungToday]...)
	p.tell(p.ago(40), &model.Damp{}, slices.Concat(bulbs[:len(bulbs)/2], xeric[:len(xeric)/4])...)
	p.tell(p.ago(35), &model.FoundDry{}, done[hungToday:]...)
	p.say(p.ago(20), &model.Reading{TempC: 21.5, RH: 74})
}

func quiet(p *past) {
	p.reading(p.ago(65))
	p.say(p.ago(50), &model.Note{Text: "all hung and quiet"})
}

func rotwatch(p *past) {
	p.reading(p.ago(70))
	p.say(p.ago(45), &model.Note{Text: "look into the hearts of what was soaked"})
}

func first(p *past) {
	list := &model.Import{File: "plants.csv", Stages: map[model.Stage]model.IDs{}}
	for _, l := range p.lives {
		p.arrive(l, p.now.AddDate(0, 0, -8))
		if l.newcomer && float64(p.today-l.Acquired) < house[model.QuarantineDays] {
			l.NewOn, l.Home = l.Acquired, p.guestSpot()
		}
		list.Added = append(list.Added, l.Plant)
		if p.happens(bloomsAYear / 8) {
			stage := pick(p, model.Stages)
			list.Stages[stage] = append(list.Stages[stage], l.ID)
		}
	}
	p.say(p.ago(4), list)
}
