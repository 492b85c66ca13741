package show

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
)

// round says why a plant is due on a round, or is not.
func (a About) round(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.OffItsShelf:
		return a.Row.State.String()
	case advice.WantsASoak:
		return "thirsty: it wants a soak (" + soak.Band(n[0]).String() + "), not a mist"
	case advice.LastMisted:
		return "misted " + longAgo(n[0]) + " ago"
	case advice.LastSoaked:
		return longAgo(n[0]) + " since the soak"
	case advice.NoFeedTrouble:
		return "trouble (" + string(a.Row.Troubles[0].What) + "): no feed"
	case advice.NoFeedWinter:
		return "little light in winter: no feed before " + a.day(r.Time(0, a.Now.Location()))
	case advice.LastFed:
		return "fed " + a.day(a.Row.Fed) + fedHow(a.Row)
	case advice.BottleStillFed:
		return "the mist bottle has held feed since " + a.day(a.Book.Bottle().At) + ": is it plain water again?"
	case advice.BottleTooStrong:
		return fmt.Sprintf("%g ppm nitrogen in the bottle, more than %g: thin it for leaves", n[0], n[1])
	case advice.LookAfterTrip:
		return fmt.Sprintf("day %.0f after the trip, and soaked since: look into the heart for rot", n[0])
	case advice.LookAtTrouble:
		return a.trouble(a.Row.Troubles[int(n[0])])
	case advice.NewcomerLacks:
		return "newcomer: " + a.Book.Lacks(a.Row, a.Now)[0]
	case advice.TroubleBack:
		return "trouble over since " + a.day(a.Row.Cleared) + ": is it back?"
	case advice.WeighingDay:
		return fmt.Sprintf("day %.0f of %.0f", n[0], n[1])
	case advice.WeighedOnce:
		return fmt.Sprintf("weighed, %g g", n[0])
	case advice.WeighedFull:
		return fmt.Sprintf("weighed, %g g full", n[0])
	case advice.LastLookedOver:
		return "looked over " + a.day(a.Row.Looked)
	}
	return asIs[r.Code]
}

func fedHow(row *model.Row) string {
	how := ""
	if row.FedHow != "" {
		how = " by " + string(row.FedHow)
	}
	if row.FedMix != nil && row.FedMix.PPM > 0 {
		how += fmt.Sprintf(", %g ppm N", row.FedMix.PPM)
	}
	return how
}

// trouble says what a plant has and what was done: "scale since 2 Feb, treated
// 5 Feb".
func (a About) trouble(t model.Ill) string {
	text := string(t.What) + " since " + a.day(t.Since)
	if !t.Treated.IsZero() {
		text += ", treated " + a.day(t.Treated) + " (" + t.Treatment + ")"
	}
	return text
}

// NotFed is the problem with feeding a plant that is not to be fed.
func NotFed(b *model.Book, s advice.Stop, now time.Time) *model.Problem {
	a := About{Book: b, Row: b.Row(s.ID), Now: now.In(b.Zone())}
	again := ""
	if !s.When.IsZero() {
		again = ", again from " + a.day(s.When)
	}
	return &model.Problem{
		What: fmt.Sprintf("plant %d (%s) should not be fed now: %s%s", s.ID, a.Row.Title(), a.First(s.Reasons), again),
		Do:   "leave it out, or feed it all the same",
	}
}

// ToWeigh says how many plants are due on the scale: before they go in, dry and not hung yet, and half way to their
// soak; "" when none are.
func ToWeigh(before, full, halfWay int) string {
	switch {
	case before > 0:
		return fmt.Sprintf("weigh %d before they go in", before)
	case full > 0:
		return fmt.Sprintf("weigh %d full, before they hang", full)
	case halfWay > 0:
		return fmt.Sprintf("weigh %d, half way", halfWay)
	}
	return ""
}
