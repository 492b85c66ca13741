package trip

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// LastSoak is a soak on the last day at home, early enough to be dry before
// leaving.
type LastSoak struct {
	Band     soak.Band
	From, To float64        // minutes
	InBy     time.Time      // the latest it can go in
	OutBy    time.Time      // the latest it must come out
	Return   estimate.Stand // on return, after it
	Lines    Lines          // still crossed before the return
}

// What makes a last soak worth the handling, and when hands are up. A choice.
const (
	gainWorth   = 0.03 // more RWC on return than without
	morningHour = 7    // nobody soaks plants before
	dryShelf    = 1.15 // how much faster a shelf dries plants out to be worth a move
)

// lastEvening is when the last soak must be dry: the dry-by hour of the day
// before leaving, or of today for one who leaves at once, or the hour of leaving
// for one who leaves today. Growers soak and dry a day before they go.
func lastEvening(rules model.Rules, now, from time.Time) time.Time {
	from = from.In(now.Location())
	today := rules.DryBy(now)
	switch dayBefore := rules.DryBy(from.AddDate(0, 0, -1)); {
	case from.Sub(now) < time.Hour:
		return today
	case dayBefore.Before(today):
		return model.Earlier(from, today)
	default:
		return dayBefore
	}
}

// plan gives a plant its last soak, or says why it gets none, and whether it
// should be moved.
func (f *forecaster) plan(row *model.Row, c *estimate.Course, l *Left) {
	switch {
	case l.StillWet:
		l.Why = MayBeWet
	case row.State.Away():
		l.Why = HangBackFirst
	case !row.Rot.IsZero():
		l.Why = RotSuspected
	case !l.Lines.Soak.IsZero():
		f.soakLast(row, c, l)
	}
	_, lines := l.AtReturn()
	f.move(row, lines, l)
}

// move finds which plants to move: those that lose half their water on a shelf
// that is drier than others, and those that would be past mending anywhere near.
func (f *forecaster) move(row *model.Row, lines Lines, l *Left) {
	shelf := f.keeper.Shelf(row.Home.Shelf)
	factor := shelf.Set
	if shelf.Suggest {
		factor *= shelf.Factor
	}
	switch {
	case lines.HalfGone.IsZero():
	case factor >= dryShelf:
		l.Move, l.Faster = OffDryShelf, factor
	case !lines.Injury.IsZero():
		l.Move = ToMoistAir
	}
}

// AtReturn is how the plant stands on return and the lines it has crossed, after
// its last soak if it gets one.
func (l *Left) AtReturn() (estimate.Stand, Lines) {
	if l.Last != nil {
		return l.Last.Return, l.Last.Lines
	}
	return l.Return, l.Lines
}

// soakLast gives a plant that would cross the soak line its last soak, or says
// why it gets none.
func (f *forecaster) soakLast(row *model.Row, c *estimate.Course, l *Left) {
	hours := f.dryHours(row)
	n := f.needAt(row, c, f.trip.DryBy.Add(-model.Hours(hours)))
	bars := restrictions(n.Reasons)
	if n.Band == soak.Rest || n.Band == soak.Mist {
		l.Bars = bars
		return
	}
	last := &LastSoak{Band: n.Band, From: n.From, To: n.To}
	last.InBy, last.OutBy = lastTimes(f.book.Rules(), f.trip.DryBy, hours, n.From)
	after := f.water.Soaked(c, last.InBy, last.OutBy, last.From)
	last.Return = after.Stand(f.trip.Until)
	switch {
	case last.InBy.Before(f.trip.Now):
		l.Why = TooLate
		return
	case last.Return.RWC-l.Return.RWC < gainWorth:
		l.Why = LittleGain
		return
	}
	last.Lines = f.lines(after, last.Return)
	l.Last, l.Bars = last, bars
	if hours > f.keeper.Traits(row.ID).WetLimit {
		l.SlowHours = hours
	}
}

// needAt is what the house rules give a plant at a time to come, if thirst and
// rest days did not matter.
func (f *forecaster) needAt(row *model.Row, c *estimate.Course, at time.Time) advice.Need {
	at = model.Later(at, f.trip.Now)
	p := f.keeper.Plant(row.ID, at)
	p.Stand, p.Suspect = c.Stand(at), false
	return advice.At(f.keeper, at, f.room).HoweverFresh().NeedIf(row, &p)
}

// lastTimes is the latest a plant can go in and come out to be dry by evening,
// both at an hour when hands are up: a day or more earlier where it soaks long or
// dries slowly. A soak through the night goes in before the evening is over.
func lastTimes(rules model.Rules, evening time.Time, hours, minutes float64) (in, out time.Time) {
	soaking := time.Duration(minutes * float64(time.Minute))
	out = evening.Add(-model.Hours(hours)).Truncate(handStep)
	for first := out.AddDate(0, 0, -7); out.After(first); out = out.Add(-handStep) {
		if in = out.Add(-soaking); handsUp(rules, in) && handsUp(rules, out) {
			break
		}
	}
	return in, out
}

// handStep is how finely hours are named. A choice.
const handStep = 5 * time.Minute

// handsUp reports whether somebody handles plants at a time.
func handsUp(rules model.Rules, t time.Time) bool {
	y, m, d := t.Date()
	dawn := time.Date(y, m, d, morningHour, 0, 0, 0, t.Location())
	return !t.Before(dawn) && !t.After(rules.DryBy(t))
}

// dryHours is how long a plant may take to dry in the room as it is now, with
// the others of the last day: what is believed of it, at its upper end, and never
// under the house rule.
func (f *forecaster) dryHours(row *model.Row) float64 {
	return math.Max(f.trip.Damp*f.dry.Hours(row), f.keeper.Traits(row.ID).WetLimit)
}

// slowEachOther works out how the last soaks slow each other down: all plants that would
// cross the soak line, out of the water as fast as one pair of hands can.
func (f *forecaster) slowEachOther() {
	n, seconds := 0, 0.0
	for _, l := range f.trip.Plants {
		row := f.book.Row(l.ID)
		if l.Lines.Soak.IsZero() || row.State.Away() {
			continue
		}
		f.dry.Take(row)
		in, out := estimate.HandSeconds(row.Plant, f.book.Rules())
		n, seconds = n+1, seconds+in+out
	}
	if n > 0 {
		f.trip.Damp = f.dry.Slowed(n, seconds/float64(n)/60)
	}
}

// restrictions is the reasons that come from house rules and warnings.
func restrictions(rs []advice.Reason) []advice.Reason {
	return slices.DeleteFunc(
		slices.Clone(rs),
		func(r advice.Reason) bool { return r.Kind() != advice.Capped && r.Kind() != advice.Warning },
	)
}
