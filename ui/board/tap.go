package board

import (
	"time"

	"tubside/model/day"
	"tubside/ui/show"
)

// tapOn is the tap that runs into a vessel, or that should be off by now.
func (d *desk) tapOn(vessel string) (day.Tap, bool) {
	for _, tap := range d.taps {
		if tap.Vessel == vessel {
			return tap, true
		}
	}
	return day.Tap{}, false
}

// tapWords say in a few words until when a tap runs.
func (d *desk) tapWords(tap day.Tap) (string, paint) {
	if d.now.Before(tap.Until) {
		return "tap until " + show.Clock(tap.Until, d.now, d.book.Zone()), d.tapPaint(tap)
	}
	return "TAP OFF", d.theme.alarm
}

// tapLine says until when a tap runs, and what to do then.
func (d *desk) tapLine(tap day.Tap) (string, paint) {
	name, at := show.Safe(tap.Vessel), show.Clock(tap.Until, d.now, d.book.Zone())
	if d.now.Before(tap.Until) {
		return "Tap on the " + name + " until " + at + ": turn it off then", d.tapPaint(tap)
	}
	return "The " + name + " is full since " + at + ": turn off the tap", d.theme.alarm
}

// tapPaint is that of a clock that runs.
func (d *desk) tapPaint(tap day.Tap) paint {
	if tap.Until.Sub(d.now) <= time.Minute {
		return d.theme.warn
	}
	return d.theme.plain
}
