package leaf

import "math"

// Out of the water a leaf drinks on, for as long as it is wet. In Tillandsia ionantha the scales draw water over the
// leaf within a minute and hand it on to the tissue over hours (Ohrui et al. 2007, Planta 227:47): a film feeds them
// as a tub does. So the thirst u falls in a film as in water, but more slowly, and the film, with w the share of a
// full leaf's water in it, goes two ways:
//
//	du/dt = -s d u/tau, dw/dt = -s (e + d u/tau)
//
// s is the share of the leaf that is wet, d is FilmDraw, e what evaporates in an hour from a leaf wet all over. How
// the film breaks up (s) falls out of the answer, which says how long the leaf is wet, counted as wet all over. To
// spare solving for it plant by plant, the film is taken to be drunk to the end as fast as a plant with the thirst at
// the start of the soak drinks, which makes it last a little too short: w/(e + d u0/tau). After a dip the thirst left
// is over the exact one by 0.02 at most in the air of heated rooms, by 0.06 in damp air. The equations are worked out
// here, from no source.

// FilmDraw is how fast a leaf drinks from a film, as a share of how fast it drinks in water. A guess: drops do not
// touch every scale, nor leaves that lie on each other. Plants dipped, shaken, weighed blotted at once and again when
// dry would replace it.
const FilmDraw = 0.5

// Film is water on a leaf, on its way to be drunk or to evaporate. The zero value is a dry leaf.
type Film struct {
	Share float64 // the water in it, as a share of the water in a full leaf: 0 or more
	Hours float64 // how long it would wet the whole leaf if none were drunk: above 0, +Inf where nothing evaporates
}

// Part is a share (0 to 1) of the film: less water, gone sooner.
func (f Film) Part(share float64) Film { return Film{f.Share * share, f.Hours * share} }

// Drunk is the RWC of a leaf when it has worn the film to its end, that it put on at RWC r0 (0 to 1) with the time
// constant tau in hours. No more is drunk than is there.
func (f Film) Drunk(r0, tau float64) float64 {
	r0 = held(r0)
	if s := NewSoak(0, tau).Wearing(f); s.film > 0 && r0 < 1 {
		return 1 - (1-r0)*math.Exp(-s.film/(s.evaporates+1-r0))
	}
	return r0
}

// Wearing is the same soak for a plant that wears a film when it comes out, to its end.
func (s Soak) Wearing(f Film) Soak {
	if f.Share > 0 && f.Hours > 0 {
		s.film, s.evaporates = f.Share, s.tau/FilmDraw*f.Share/f.Hours
	}
	return s
}
