package accounts

import (
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// labour is rows handled by one entry.
type labour struct {
	at      time.Time
	fact    model.Fact
	rows    int
	seconds float64 // of one pair of hands
}

// Work is what the period took. The hours are worked out, not measured.
type Work struct {
	SoakDays int // days on which anything went into the water
	Loads    int
	Soaks    int     // rows put into the water
	Hours    float64 // of one pair of hands, putting in and taking out by the house rules; no walking, no hanging
	Mists    int     // rows misted, fed or not
	Looks    int     // rows looked over, or whose signs were entered
	Feeds    int     // rows fed, loads in fed water among them
}

// noteWork keeps what an entry took in hands.
func (w *past) noteWork(e model.Entry) {
	l := labour{at: e.At, fact: e.Fact, rows: len(e.Plants)}
	switch e.Fact.(type) {
	case *model.Soak, *model.Out:
		l.seconds = w.handling(e)
	case *model.Mist, *model.Feed, *model.LookedOver, *model.Look:
	default:
		return
	}
	w.labours = append(w.labours, l)
}

// handling is the seconds that putting a load in or taking it out takes.
func (w *past) handling(e model.Entry) (seconds float64) {
	_, soak := e.Fact.(*model.Soak)
	for _, id := range e.Plants {
		in, out := estimate.HandSeconds(w.then.Row(id).Plant, w.book.Rules())
		if soak {
			seconds += in
		} else {
			seconds += out
		}
	}
	return seconds
}

func (w *past) work(p period) Work {
	var k Work
	days := map[string]bool{}
	for _, l := range w.labours {
		if !p.has(l.at) {
			continue
		}
		k.Hours += l.seconds / time.Hour.Seconds()
		switch f := l.fact.(type) {
		case *model.Soak:
			days[dayOf(l.at, w.book)] = true
			k.Loads++
			k.Soaks += l.rows
			if w.book.Load(f.Load).Fed != nil {
				k.Feeds += l.rows
			}
		case *model.Mist:
			k.Mists += l.rows
		case *model.Feed:
			k.Feeds += l.rows
			if f.How == model.ByMist {
				k.Mists += l.rows
			}
		case *model.LookedOver, *model.Look:
			k.Looks += l.rows
		}
	}
	k.SoakDays = len(days)
	return k
}
