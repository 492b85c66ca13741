package alien

import (
	"fmt"
	"math"
	"slices"
	"time"

	"tubside/model"
)

func (h *Home) write(at time.Time, f model.Fact, ids ...model.ID) {
	e := model.NewEntry(at, f, ids...)
	e.Seq = model.Seq(len(h.Book.Entries()) + 1)
	if err := h.Book.Check(e); err != nil {
		panic(fmt.Sprintf("%s: %v", f.Kind(), err))
	}
	if err := h.Book.Apply(e); err != nil {
		panic(err)
	}
	h.Wrote(e)
}

func (h *Home) readRoom() {
	now := h.halves[int(h.Now.Sub(h.begin)/(12*time.Hour))]
	temp, rh := now.tempC+0.3*h.acting.NormFloat64(), now.rh+2*h.acting.NormFloat64()
	h.write(h.Now, &model.Reading{TempC: math.Round(10*temp) / 10, RH: math.Round(max(rh, 5))})
	h.told = h.strength(halfDay{deficit: kPa(temp, max(rh, 5))})
}

// lookAt looks at a share of some plants and writes down what is seen, or what is bad of it.
func (h *Home) lookAt(plants []*Plant, share float64) {
	alike := map[model.Signs]model.IDs{}
	for _, p := range plants {
		looks, closely, keeps := h.acting.Float64() < share, h.acting.Float64() < h.closely, h.in.Float64()
		s := p.see(h.acting, h.Eye, closely)
		if !looks {
			continue
		}
		m := moment{looked: true, signs: s, unwritten: fine(s) && keeps < h.GoodUnwritten}
		p.past = append(p.past, m)
		if !m.unwritten {
			p.seen, p.seenAt = s, h.Now
			alike[s] = append(alike[s], p.Row.ID)
		}
	}
	kinds := make([]model.Signs, 0, len(alike))
	for s := range alike {
		kinds = append(kinds, s)
	}
	slices.SortFunc(kinds, func(a, b model.Signs) int { return slices.Compare(alike[a], alike[b]) })
	for _, s := range kinds {
		h.write(h.Now, &model.Look{Signs: s}, alike[s]...)
	}
}

// perLoad is how many plants share a vessel.
const perLoad = 40

// soakDay looks at those whose turn it is, soaks and dries them: everybody's turn is before the trip.
func (h *Home) soakDay(day int) {
	for _, p := range h.Plants {
		h.advance(p, h.Now)
	}
	asked := day >= firstAsked && (day == leaves || (day-firstAsked)/28 != (day-firstAsked-h.rhythm)/28 ||
		day-firstAsked < h.rhythm)
	turn := slices.DeleteFunc(slices.Clone(h.Plants), func(p *Plant) bool {
		resting := (day/h.rhythm+int(p.Row.ID))%p.every != 0
		return day != leaves && (resting || h.acting.Float64() < 0.04)
	})
	if asked {
		h.Ask(false)
	}
	h.beginWeighing(day)
	h.lookAt(turn, h.looks)
	if asked {
		h.Ask(true)
	}
	h.weighBefore(day, turn)
	laid := h.soak(turn)
	h.scale.soaked()
	if asked {
		h.Out()
	}
	h.walkBench(laid)
	for _, p := range laid {
		p.dried = append(p.dried, math.Log(p.dry.Sub(p.out).Hours()/p.expectedHours))
	}
}

// soak puts plants in by their minutes, load by load, and writes down when they go in and come out.
func (h *Home) soak(turn []*Plant) (laid []*Plant) {
	h.write(h.Now, &model.FanSet{Fan: model.FanLow})
	turn = slices.Clone(turn)
	slices.SortStableFunc(turn, func(a, b *Plant) int { return int(b.minutes) - int(a.minutes) })
	in := h.Now.Add(30 * time.Minute)
	for from := 0; from < len(turn); {
		to := from
		for to < len(turn) && to < from+perLoad && turn[to].minutes == turn[from].minutes {
			to++
		}
		h.soakLoad(turn[from:to], in)
		laid = append(laid, turn[from:to]...)
		from, in = to, in.Add(20*time.Minute)
	}
	slices.SortStableFunc(h.acts, func(a, b model.Entry) int { return a.At.Compare(b.At) })
	for _, e := range h.acts {
		h.write(e.At, e.Fact, e.Plants...)
		h.Now = e.At
	}
	h.acts = nil
	for _, p := range laid {
		h.dries(p, laid)
	}
	return laid
}

func (h *Home) soakLoad(load []*Plant, in time.Time) {
	minutes := load[0].minutes
	due := in.Add(time.Duration(minutes * float64(time.Minute)))
	out := due.Add(time.Duration(min(15, minutes/4) * h.acting.Float64() * float64(time.Minute))).Truncate(time.Second)
	ids := make(model.IDs, len(load))
	for i, p := range load {
		ids[i] = p.Row.ID
		h.advance(p, in)
		p.out = out
	}
	h.acts = append(h.acts,
		model.NewEntry(in, &model.Soak{Load: h.load, Vessel: "tub", Due: due}, ids...),
		model.NewEntry(out, &model.Out{Shaken: true, Inverted: load[0].Row.Form == model.Bulbous}, ids...))
	h.load++
}

// drinksOn is how much of the time that a plant lies wet counts as time in water. A guess.
const drinksOn = 0.2

// dries is one drying, and the soak before it, which goes on while the leaves are wet.
func (h *Home) dries(p *Plant, laid []*Plant) {
	beside := 0
	for _, other := range laid {
		if d := other.out.Sub(p.out).Hours(); d > -2 && d < 2 {
			beside++
		}
	}
	p.expectedHours = h.dryHours(p, h.halves[int(p.out.Sub(h.begin)/(12*time.Hour))].deficit, beside)
	hours := min(p.expectedHours*p.slow*h.once(h.acting), 100)
	soaked := p.out.Sub(p.at).Hours()
	p.lives(moment{soak: soaked + drinksOn*hours, minutes: 60 * soaked})
	p.soaked, p.at = p.out, p.out
	p.dry = p.out.Add(time.Duration(hours * float64(time.Hour)))
}

// walkBench marks what the grower finds: walks two to three hours apart until the evening, then on the next days. Some
// plants are passed over, and some marked dry without a look.
func (h *Home) walkBench(laid []*Plant) {
	left := slices.Clone(laid)
	at := h.Now.Add(90 * time.Minute)
	for len(left) > 0 {
		var damp, dry model.IDs
		left = slices.DeleteFunc(left, func(p *Plant) bool {
			if h.acting.Float64() < 0.3 {
				return false
			}
			if at.After(p.dry) || h.acting.Float64() < 0.02 {
				dry = append(dry, p.Row.ID)
				return true
			}
			if h.acting.Float64() < 0.5 {
				damp = append(damp, p.Row.ID)
			}
			return false
		})
		if len(damp) > 0 {
			h.write(at, &model.Damp{}, damp...)
		}
		if len(dry) > 0 {
			h.write(at, &model.FoundDry{}, dry...)
			h.weighFull(at, dry)
			h.write(at.Add(time.Minute), &model.Hung{}, dry...)
		}
		at = at.Add(time.Duration((2 + h.acting.Float64()) * float64(time.Hour)))
		if at.Hour() >= 22 || at.Hour() < 8 {
			next := at.Add(3 * time.Hour)
			at = time.Date(next.Year(), next.Month(), next.Day(), 8, 5, 0, 0, time.UTC)
		}
	}
}
