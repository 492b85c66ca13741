package care

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/belief"
	"tubside/model/drying"
)

// How unsure a drying time is: the standard deviation of the logarithm, before
// anybody has looked, and of one drying around the plant's own pace. Guesses:
// film and pocket of a real plant are known to about a factor of two.
const (
	dryingSpread = 0.45
	eventSpread  = 0.15
)

// roomShare is how much longer than in the bare room a plant must take before
// the damp air is named as what holds it up. Our own.
const roomShare = 1.3

// dryingRoom is the plants out of the water, solved together with the air they
// share. It holds from one entry to the next.
type dryingRoom struct {
	at     time.Time // the moment it is solved from
	groups map[dryKey]dryGroup
	peakRH float64
}

// dryKey is what plants of one group have in common.
type dryKey struct {
	load     model.LoadID
	out      int64
	plant    drying.Plant // without area and pocket mass
	handling drying.Handling
}

// dryGroup is the hours from out to dry of the plants of a group.
type dryGroup struct {
	shared drying.Estimate // in the room with the others
	alone  drying.Estimate // in the room as it was before
}

func (g dryGroup) hours() float64 { return g.shared.Hours() }

func keyOf(row *model.Row, kd kind) dryKey {
	h := drying.Handling{Shaken: row.Shaken, Inverted: row.Inverted}
	if row.Count > 1 || row.Form == model.Pendent {
		h.Clump = drying.ClumpTime
	}
	p := kd.dry
	p.AreaCM2, p.PocketG = 0, 0
	return dryKey{row.Load, row.Out.Unix(), p, h}
}

// solveRoom works out all plants that are drying. The room is solved from the
// last time anything changed, so that the answer stands still in between.
func (k *Keeper) solveRoom(now time.Time) *dryingRoom {
	d := &dryingRoom{groups: map[dryKey]dryGroup{}}
	sums := map[dryKey]*drying.Group{}
	var order []dryKey
	first := now
	for _, id := range k.book.IDs() {
		row := k.book.Row(id)
		if row.State != model.Drying && row.State != model.Dry {
			continue
		}
		key := keyOf(row, k.kinds[id])
		if sums[key] == nil {
			sums[key] = &drying.Group{Plant: k.kinds[id].dry, Handling: key.handling}
			order = append(order, key)
		}
		if row.State == model.Drying {
			add(sums[key], k.kinds[id].dry)
			d.at = later(d.at, row.Out)
			first = earlier(first, row.Out)
		}
	}
	before := roomNow(k.book, first)
	start := roomNow(k.book, now)
	d.at = later(d.at, start.ReadAt)
	speed := fanSpeed(start.Fan)
	groups := make([]drying.Group, len(order))
	for i, key := range order {
		g := sums[key]
		g.Speed, g.MinutesOut = speed, math.Max(0, d.at.Sub(time.Unix(key.out, 0)).Minutes())
		groups[i] = *g
	}
	d.fill(order, groups, k.book.Rules(), before, start)
	return d
}

// add puts one more plant into a group, keeping the mean of its water.
func add(g *drying.Group, p drying.Plant) {
	n := float64(g.Count)
	g.Plant.AreaCM2 = (g.Plant.AreaCM2*n + p.AreaCM2) / (n + 1)
	g.Plant.PocketG = (g.Plant.PocketG*n + p.PocketG) / (n + 1)
	g.Count++
}

// fill solves the groups in the room. What comes in from outside is taken to
// keep the room as it was before the plants came out.
func (d *dryingRoom) fill(order []dryKey, groups []drying.Group, rules model.Rules, before, start RoomAir) {
	outside := air.Air{TempC: before.TempC, RH: before.RH / 100}
	room := drying.Room{
		VolumeM3: rules[model.RoomVolume], AirChanges: rules[model.AirChanges],
		Air:           air.Air{TempC: start.TempC, RH: start.RH / 100},
		SupplyDensity: outside.VapourDensity(),
	}
	forecast, err := room.Dry(groups)
	d.peakRH = forecast.PeakRH
	for i, key := range order {
		g := groups[i]
		alone := g.Plant.Dry(drying.Stream{Air: outside, Speed: g.Speed}, g.Handling)
		shared := alone
		if err == nil {
			// What was dry before the moment solved from keeps its own estimate.
			if h := forecast.Groups[i].FilmHours; h > 0 {
				shared.FilmHours = h + g.MinutesOut/60
			}
			if h := forecast.Groups[i].PocketHours; h > 0 {
				shared.PocketHours = h + g.MinutesOut/60
			}
		}
		d.groups[key] = dryGroup{shared: clamped(shared), alone: clamped(alone)}
	}
}

// clamped keeps an endless time within what a calendar can show.
func clamped(e drying.Estimate) drying.Estimate {
	return drying.Estimate{
		FilmHours:   math.Min(e.FilmHours, drying.Horizon),
		PocketHours: math.Min(e.PocketHours, drying.Horizon),
	}
}

func fanSpeed(f model.Fan) float64 {
	switch f {
	case model.FanOff:
		return drying.Off
	case model.FanOn:
		return drying.On
	case model.FanNear:
		return drying.Near
	}
	return drying.Low
}

// dryOut is the estimate for one plant that is out of the water.
func (k *Keeper) dryOut(row *model.Row, now time.Time) DryOut {
	if k.drying == nil {
		k.drying = k.solveRoom(now)
	}
	kd := k.kinds[row.ID]
	g := k.drying.groups[keyOf(row, kd)]
	pace := belief.Prior(dryingSpread)
	if row.DampAt.After(row.Out) {
		var still [belief.Points]float64
		belief.LogInterval(row.DampAt.Sub(row.Out).Hours()/g.hours(), math.Inf(1), eventSpread, &still)
		pace.Weigh(&still)
	}
	shares := pace.Shares()
	low, high := shares.Range(0.8)
	middle, _ := shares.Range(0)
	after := func(multiple float64) time.Time {
		return row.Out.Add(time.Duration(multiple * g.hours() * float64(time.Hour))).Round(time.Minute)
	}
	d := DryOut{
		ID: row.ID, Load: row.Load, OutAt: row.Out,
		Low: after(low), Expected: after(middle), High: after(high),
		Limit: row.Out.Add(time.Duration(kd.limit * float64(time.Hour))),
	}
	if row.State == model.Dry {
		d.Progress = 1
		d.Reasons = []Reason{{Text: "dry: hang it back on " + orElse(row.Home.String(), "its shelf"), Kind: Saw}}
		return d
	}
	d.Overdue = now.After(d.High) || now.After(d.Limit)
	if span := d.Expected.Sub(row.Out); span > 0 {
		d.Progress = math.Min(1, now.Sub(row.Out).Hours()/span.Hours())
	}
	d.HoldUp = holdUp(g)
	d.Reasons = k.dryReasons(row, kd, d, g, now)
	return d
}

func holdUp(g dryGroup) HoldUp {
	switch {
	case g.hours() > roomShare*g.alone.Hours():
		return HeldByRoom
	case g.shared.Last() == drying.Pocket:
		return HeldByPocket
	}
	return HeldByFilm
}
