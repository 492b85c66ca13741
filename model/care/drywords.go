package care

import (
	"fmt"
	"time"

	"tubside/model"
)

// dampRoom is the humidity in % from which opening a window is worth saying.
// Our own.
const dampRoom = 60

// dryReasons says how far a plant is, what holds it up and what to do.
func (k *Keeper) dryReasons(row *model.Row, p *kept, d DryOut, g dryGroup, now time.Time) []Reason {
	var rs []Reason
	say := func(kind ReasonKind, format string, args ...any) {
		rs = append(rs, Reason{Text: fmt.Sprintf(format, args...), Kind: kind})
	}
	wet := minutesWords(now.Sub(row.Out).Minutes())
	switch {
	case now.After(d.Limit):
		say(Warning, "wet for %s; %s is the limit", wet, minutesWords(p.kind.limit*60))
	case d.Overdue:
		say(Warning, "out for %s and should be dry: look into the heart", wet)
	case row.DampAt.After(row.Out):
		say(Saw, "still damp when looked at %s ago", minutesWords(now.Sub(row.DampAt).Minutes()))
	}
	say(Computed, "%s", holdUpWords(d.HoldUp, k.drying.peakRH))
	for _, advice := range k.dryAdvice(row, d, now) {
		say(Advice, "%s", advice)
	}
	say(Computed, "leaves about %s, heart about %s; 8 in 10 such plants between %s and %s",
		minutesWords(g.shared.FilmHours*60), minutesWords(g.shared.PocketHours*60),
		minutesWords(d.Low.Sub(row.Out).Minutes()), minutesWords(d.High.Sub(row.Out).Minutes()))
	say(Computed, "%s", p.lingerWords())
	return rs
}

func holdUpWords(h HoldUp, peakRH float64) string {
	switch h {
	case HeldByRoom:
		return fmt.Sprintf("held up by the room: the drying plants bring it to %.0f %% humidity", 100*peakRH)
	case HeldByPocket:
		return "held up by water at the heart"
	}
	return "held up by water on the leaves"
}

// dryAdvice is what would help, the quickest first, for a plant that is late or
// is going to be.
func (k *Keeper) dryAdvice(row *model.Row, d DryOut, now time.Time) []string {
	if !d.Overdue && !d.Expected.After(d.Limit) {
		return nil
	}
	room := roomNow(k.book, now)
	var do []string
	if d.HoldUp != HeldByFilm && !row.Inverted {
		do = append(do, "tip it out, lay it upside down")
	} else if d.HoldUp == HeldByPocket {
		do = append(do, "shake it again, turn it")
	}
	if room.Fan == model.FanOff || room.Fan == model.FanLow {
		do = append(do, "more fan, across the plants, away from the water")
	}
	if d.HoldUp == HeldByRoom || room.RH >= dampRoom {
		do = append(do, "open a window or a door")
	}
	if len(do) == 0 {
		do = append(do, "spread them out, blot the bases")
	}
	return do
}

// DryBy is the hour of the evening by which all should be dry.
func DryBy(rules model.Rules, now time.Time) time.Time {
	y, m, d := now.Date()
	minutes := int(rules[model.DryByHour] * 60)
	return time.Date(y, m, d, minutes/60, minutes%60, 0, 0, now.Location())
}
