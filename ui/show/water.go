package show

import (
	"fmt"
	"math"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/feed"
)

// SourceInfo is what is known of a source of water.
type SourceInfo struct {
	Of     model.Source
	What   string // what to know of it, in a clause
	Origin string // who says so
}

// commonPractice marks what growers do and nobody published.
const commonPractice = "common practice, no source"

// Sources tells of every source of water, in the order of [model.Sources].
var Sources = []SourceInfo{
	{model.Tap, "measure its conductivity; hard water leaves a crust", commonPractice},
	{
		model.RestedTap, "standing lowers free chlorine, not chloramine",
		"EPA allows up to 4.0 mg/L of either; no harm to these plants was found published",
	},
	{model.Filtered, "a jug filter takes chlorine and some of the lime", commonPractice},
	{
		model.Rain, "few minerals; catch it clean, not off copper or zinc",
		"copper did harm in Vriesea (Vanhoutte, Ceusters & De Proft 2019, Acta Hort. 1242:141)",
	},
	{model.Well, "measure its conductivity and hardness", commonPractice},
	{model.Bottled, "still, low in minerals", commonPractice},
	{model.Rice, "starch feeds mould: fresh and thin only, rinse after; no trial found", commonPractice},
	{model.Aquarium, "feeds, and carries life, salt and medicines; never with copper in it", commonPractice},
	{model.Pond, "surface water is the likeliest to carry rot", "Oregon State Univ., on recycled nursery water"},
	{model.Distilled, "empty: blend it with tap water, or feed; harm is said, not shown", commonPractice},
	{
		model.RO, "empty: blend it with tap water, or feed; orchids are grown with it",
		"Szyren, Michigan State Univ. and American Orchid Society",
	},
	{
		model.Softened, "sodium in the place of the lime",
		"over 3 me/L of sodium harms wetted leaves: FAO Irrigation and Drainage Paper 29, table 1",
	},
	{model.Sea, "salt dries on the leaves", "FAO Irrigation and Drainage Paper 29, table 1"},
}

// sourceInfo is what is known of a source; the zero value for one nobody knows.
func sourceInfo(s model.Source) SourceInfo {
	for _, info := range Sources {
		if info.Of == s {
			return info
		}
	}
	return SourceInfo{}
}

// water says why water is fit or is not.
func (a About) water(r advice.Reason) string {
	n := r.N
	switch r.Code {
	case advice.LoadsUsedUp:
		return fmt.Sprintf("%.0f loads have been in it, the house rule is %.0f", n[0], n[1])
	case advice.NotAnotherDay:
		return "plants were in it " + longAgo(n[0]) + " ago: do not keep it for another day"
	case advice.HoursUsedUp:
		return fmt.Sprintf("%s since its first plant, the house rule is %g h", longAgo(n[0]), n[1])
	case advice.TooCold:
		return fmt.Sprintf("%.0f °C: let it warm to the room", n[0])
	case advice.TooWarm:
		return fmt.Sprintf("%.0f °C: let it cool to the room", n[0])
	case advice.OverLimit:
		return fmt.Sprintf("%s %.2g %s, limit %g (%s)", r.Name, n[0], feed.UnitOf(r.Name), n[1], feed.FAO29)
	case advice.HardWater:
		return fmt.Sprintf("hard (%.0f mg/L): rinse with rain now and then, or blend it", n[0])
	case advice.SourceWarns:
		info := sourceInfo(model.Source(r.Name))
		return r.Name + ": " + info.What + " (" + info.Origin + ")"
	case advice.TapStood:
		return "tap water, stood " + Minutes(math.Floor(n[0])*60) + " of " + a.Book.Rules().Word(model.WaterRest) + " h"
	case advice.ChlorineIsLeft:
		return fmt.Sprintf("stood %s: %.0f to %.0f %% of the chlorine is left", longAgo(60*n[0]), 100*n[1], 100*n[2])
	}
	return asIs[r.Code]
}
