package command

import (
	"math"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/care"
)

// planAnswer is a soak day. From it alone every rule can be checked.
type planAnswer struct {
	Vessels   []planVesselAnswer `json:"vessels"`
	Loads     []planLoadAnswer   `json:"loads"`
	Actions   []planStepAnswer   `json:"actions"`
	HandsFree *time.Time         `json:"hands_free_at"`
	AllDry    *time.Time         `json:"all_dry_by"`
	Bound     *time.Time         `json:"lower_bound"`
	Left      []unplacedAnswer   `json:"left_out"`
}

type planVesselAnswer struct {
	Name   string  `json:"name"`
	Litres float64 `json:"litres"`
}

// planLoadAnswer is one load. Fill 0 is the water that stood in the vessel.
type planLoadAnswer struct {
	Vessel string            `json:"vessel"`
	Fill   int               `json:"fill"`
	Start  *time.Time        `json:"start"`
	Out    *time.Time        `json:"out"`
	Plants []planPlantAnswer `json:"plants"`
}

type planPlantAnswer struct {
	ID       model.ID   `json:"id"`
	Bulk     float64    `json:"bulk_litres"`
	From     float64    `json:"minutes_from"`
	To       float64    `json:"minutes_to"`
	HandsIn  int        `json:"hands_in_s"`
	HandsOut int        `json:"hands_out_s"`
	Company  string     `json:"company"`
	In       *time.Time `json:"in"`
	Out      *time.Time `json:"out"`
}

type planStepAnswer struct {
	At     *time.Time `json:"at"`
	Until  *time.Time `json:"until"`
	Do     string     `json:"do"`
	Vessel string     `json:"vessel"`
	IDs    []model.ID `json:"ids"`
}

type unplacedAnswer struct {
	ID     model.ID `json:"id"`
	Reason string   `json:"reason"`
}

func answerPlan(p *care.Plan) planAnswer {
	a := planAnswer{
		Vessels: []planVesselAnswer{}, Loads: []planLoadAnswer{}, Actions: []planStepAnswer{}, Left: []unplacedAnswer{},
		HandsFree: when(p.HandsFree), AllDry: when(p.AllDry), Bound: when(p.Bound),
	}
	for _, v := range p.Vessels {
		a.Vessels = append(a.Vessels, planVesselAnswer{v.Name, v.Litres})
	}
	for _, l := range p.Loads {
		a.Loads = append(a.Loads, answerLoad(l))
	}
	for _, s := range p.Steps {
		a.Actions = append(a.Actions, planStepAnswer{when(s.At), when(s.Until), s.Do.String(), s.Vessel, append([]model.ID{}, s.Plants...)})
	}
	for _, l := range p.Left {
		a.Left = append(a.Left, unplacedAnswer{l.ID, unplacedWords(l)})
	}
	return a
}

func answerLoad(l care.PlanLoad) planLoadAnswer {
	a := planLoadAnswer{Vessel: l.Vessel, Fill: l.Fill, Start: when(l.Start), Out: when(l.Out), Plants: []planPlantAnswer{}}
	for _, t := range l.Plants {
		a.Plants = append(a.Plants, planPlantAnswer{
			t.ID, litres(t.Bulk), minutesFrom(t.From), minutesTo(t.To), t.HandsIn, t.HandsOut, t.Company.String(), when(t.In), when(t.Out),
		})
	}
	return a
}

// litres is cut, not rounded, at a microlitre, so that a full vessel is never
// over its room by the digits left off.
func litres(v float64) float64 { return math.Floor(v*1e6) / 1e6 }

// minutesFrom and minutesTo are the ends of a window in minutes; the digits left
// off never make it narrower.
func minutesFrom(seconds int) float64 { return math.Floor(float64(seconds)/60*1e4) / 1e4 }
func minutesTo(seconds int) float64   { return math.Ceil(float64(seconds)/60*1e4) / 1e4 }

// unplacedWords is why a plant has no place, and what would get it one.
func unplacedWords(l care.LeftOut) string {
	if len(l.Help) == 0 {
		return l.Reason
	}
	return l.Reason + "; " + strings.Join(l.Help, ", or ")
}
