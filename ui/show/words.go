package show

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Signs says what was seen: "edges lifting, a few brown new tips". Signs not
// looked at are left out.
func Signs(s model.Signs) string {
	if words := s.Words(0); words != "" {
		return words
	}
	return "not looked at"
}

// State is the state's word, with "pulled" for a plant at home that waits
// beside the water.
func State(r *model.Row, b *model.Book) string {
	if r.State == model.AtHome && b.Waiting().Has(r.ID) {
		return "pulled"
	}
	return r.State.String()
}

// Standing says where a plant is and since when: "in tub (load 3), due 14:20",
// "drying since 14:20", "at home on A 12", "lost to rot 2026-01-31".
func Standing(r *model.Row, b *model.Book, now time.Time) string {
	since := Clock(r.Since, now, b.Zone())
	switch r.State {
	case model.Soaking:
		l := b.Load(r.Load)
		return fmt.Sprintf("in %s (load %d), due %s", Safe(l.Vessel), l.ID, Clock(l.Due, now, b.Zone()))
	case model.Drying:
		return "drying since " + since
	case model.Dry:
		return "dry since " + since + ", to hang on " + Home(r.Home)
	case model.Gone:
		return leaving(r.GoneHow, r.GoneCause) + " " + Date(r.Since, b.Zone())
	}
	return "at home on " + Home(r.Home)
}

// Home is where a plant goes back to, or "no shelf".
func Home(h model.Home) string {
	if s := Safe(h.String()); s != "" {
		return s
	}
	return "no shelf"
}

// leaving says how a plant left: "sold", "lost to rot".
func leaving(how, cause string) string {
	if cause == "" {
		return how
	}
	return how + " to " + Safe(cause)
}

// Band is a band with its time: "Long, 1 h – 1 h 30"; Rest and Mist have none.
func Band(b soak.Band, from, to float64) string {
	if window := Soak(from, to); window != "" {
		return b.String() + ", " + window
	}
	return b.String()
}

// HoldUp says what keeps a plant from being dry.
func HoldUp(h estimate.HoldUp) string {
	switch h {
	case estimate.HeldByFilm:
		return "leaves still wet"
	case estimate.HeldByPocket:
		return "water at the heart"
	case estimate.HeldByRoom:
		return "damp air"
	}
	return "dry"
}

// Fan says how the fan is set: "fan off", "fan near".
func Fan(f model.Fan) string { return "fan " + string(f) }

// Form is the growth form and leaf type in few words: "rosette, xeric", with a
// question mark for what was assumed or nobody said.
func Form(p model.Plant) string {
	form, leaf := orQuestion(string(p.Form), p.Assumed.Form), orQuestion(string(p.Leaf), p.Assumed.Leaf)
	if form == "?" && leaf == "?" {
		return "?"
	}
	return form + ", " + leaf
}

func orQuestion(word string, assumed bool) string {
	if assumed && word != "" {
		return word + "?"
	}
	if word == "" {
		return "?"
	}
	return word
}
