package drying_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/air"
	"tubside/model/drying"
)

var winterAir = air.Air{TempC: 20, RH: 0.4}

func closedRoom() drying.Room {
	return drying.Room{
		VolumeM3: 40, AirChanges: drying.WinterAirChanges,
		Air: winterAir, SupplyDensity: winterAir.VapourDensity(),
	}
}

func anyRoom(t *rapid.T) drying.Room {
	a := homeAir(t)
	outside := a
	outside.RH *= rapid.Float64Range(0.2, 1).Draw(t, "outside")
	return drying.Room{
		VolumeM3:   rapid.Float64Range(10, 300).Draw(t, "m3"),
		AirChanges: rapid.Float64Range(0.1, 5).Draw(t, "changes"),
		Air:        a, SupplyDensity: outside.VapourDensity(),
	}
}

func anyGroups(t *rapid.T) []drying.Group {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) drying.Group {
		return drying.Group{
			Plant:    anyPlant(t),
			Handling: drying.Handling{Shaken: rapid.Bool().Draw(t, "shaken"), Inverted: rapid.Bool().Draw(t, "inverted")},
			Count:    rapid.IntRange(1, 150).Draw(t, "count"),
			Speed:    rapid.SampledFrom([]float64{drying.Off, drying.Low, drying.On, drying.Near}).Draw(t, "fan"),
			// A third of the groups have just come out.
			MinutesOut: math.Max(0, rapid.Float64Range(-60, 120).Draw(t, "out")),
		}
	}), 1, 5).Draw(t, "groups")
}

func dry(t interface{ Fatal(...any) }, r drying.Room, groups []drying.Group) drying.Forecast {
	f, err := r.Dry(groups)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// later is how much two forecasts of the same plants may differ by the solver's error alone: a minute and 0.2 %.
func later(a, b float64) bool { return a > b*1.002+1.0/60 }

func neverLater(t *rapid.T, why string, than, groups []drying.Estimate) {
	for i, g := range groups {
		if later(g.FilmHours, than[i].FilmHours) || later(g.PocketHours, than[i].PocketHours) {
			t.Fatalf("%s: group %d takes %+v, else %+v", why, i+1, g, than[i])
		}
	}
}

func TestWaterIsNeitherMadeNorLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := dry(t, anyRoom(t), anyGroups(t))
		if lost := f.StartKG - f.LeftKG - f.VentedKG - f.GainedKG; math.Abs(lost) > 0.005*f.StartKG+1e-4 {
			t.Fatalf("%v kg of %v unaccounted for: %+v", lost, f.StartKG, f)
		}
	})
}

func TestMorePlantsNeverDrySooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, groups := anyRoom(t), anyGroups(t)
		few := dry(t, r, groups)
		more := append([]drying.Group{}, groups...)
		more[0].Count += rapid.IntRange(1, 300).Draw(t, "more")
		more = append(more, anyGroups(t)...)
		many := dry(t, r, more)
		neverLater(t, "fewer plants", many.Groups[:len(groups)], few.Groups)
		if few.PeakRH > many.PeakRH+0.002 {
			t.Fatalf("few plants peak at %v, many at %v", few.PeakRH, many.PeakRH)
		}
	})
}

func TestOpeningTheWindowToDrierAirIsNeverLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, groups := anyRoom(t), anyGroups(t)
		shut := dry(t, r, groups)
		open := r
		open.AirChanges *= rapid.Float64Range(1, 5).Draw(t, "more air")
		neverLater(t, "window open", shut.Groups, dry(t, open, groups).Groups)
		open.SupplyDensity *= rapid.Float64Range(0.2, 1).Draw(t, "drier")
		neverLater(t, "window open to drier air", shut.Groups, dry(t, open, groups).Groups)
	})
}

// One small plant in a big, still room changes nothing, so the solver must give the closed form of constant air.
func TestLonePlantDriesAsInConstantAir(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlant(t)
		p.AreaCM2, p.PocketG = 1, 0.001
		out := rapid.Float64Range(0, 30).Draw(t, "minutes out")
		r := drying.Room{VolumeM3: 1e5, Air: homeAir(t)}
		g := drying.Group{Plant: p, Handling: shaken, Count: 1, Speed: drying.Low, MinutesOut: out}
		want := p.Dry(drying.Stream{Air: r.Air, Speed: drying.Low}, shaken)
		got := dry(t, r, []drying.Group{g}).Groups[0]
		for _, pair := range [][2]float64{{got.FilmHours, want.FilmHours}, {got.PocketHours, want.PocketHours}} {
			left := math.Max(0, pair[1]-out/60)
			if left < drying.Horizon && math.Abs(pair[0]-left) > 0.001*left+0.002 {
				t.Fatalf("%v h left in the room, %v h in constant air", pair[0], left)
			}
		}
	})
}

// Peak humidity and pocket hours of medium plants with a pocket of 1 mm at 20 degC and 40 % with the fan on, worked
// out in another program in fixed steps. Noted to a whole percent and a tenth of an hour, they are held to
// half of that, and the hours to 1 % more, as the steps of that program are not on record. The narrow check is
// TestRoomAgreesWithTinyPlainSteps.
func TestRoomfulsOfMediumPlants(t *testing.T) {
	type want struct{ peak, pocket float64 }
	rooms := []struct{ volume, changes float64 }{{40, 0.44}, {40, 3}, {300, 0.44}}
	for count, wants := range map[int][3]want{
		50:  {{0.50, 3.0}, {0.44, 2.8}, {0.41, 2.7}},
		100: {{0.59, 3.5}, {0.48, 2.8}, {0.43, 2.7}},
		200: {{0.72, 4.5}, {0.54, 3.0}, {0.45, 2.9}},
		500: {{0.90, 8.0}, {0.68, 3.5}, {0.53, 3.2}},
	} {
		for i, w := range wants {
			r := closedRoom()
			r.VolumeM3, r.AirChanges = rooms[i].volume, rooms[i].changes
			plant := with(drying.Typical(), func(p *drying.Plant) { p.PocketMM, p.PocketG = 1, 0.5 })
			f := dry(t, r, []drying.Group{{Plant: plant, Handling: shaken, Count: count, Speed: drying.On}})
			if math.Abs(f.PeakRH-w.peak) > 0.005 || math.Abs(f.Groups[0].PocketHours-w.pocket) > 0.05+0.01*w.pocket {
				t.Errorf("%d plants in %+v: peak %.3f, pocket %.2f h; want %+v", count, rooms[i], f.PeakRH,
					f.Groups[0].PocketHours, w)
			}
		}
	}
}

func TestRoomThatNeverDries(t *testing.T) {
	r := closedRoom()
	r.Air.RH = 1
	r.SupplyDensity = r.Air.VapourDensity()
	f := dry(t, r, []drying.Group{{Plant: drying.Typical(), Count: 20, Speed: drying.Off}})
	if !math.IsInf(f.Groups[0].Hours(), 1) || f.Moments[len(f.Moments)-1].Hours != drying.Horizon {
		t.Errorf("saturated room: %+v", f.Groups[0])
	}
	if f.LeftKG < 0.999*f.StartKG {
		t.Errorf("%v of %v kg left", f.LeftKG, f.StartKG)
	}
}

func TestLongOutIsDry(t *testing.T) {
	f := dry(t, closedRoom(), []drying.Group{
		{Plant: drying.Typical(), Handling: shaken, Count: 20, Speed: drying.On, MinutesOut: 600},
	})
	if f.Groups[0].Hours() != 0 || f.StartKG != 0 || len(f.Moments) != 1 {
		t.Errorf("dry since long: %+v", f)
	}
	if f := dry(t, closedRoom(), nil); f.PeakRH != winterAir.RH && math.Abs(f.PeakRH-winterAir.RH) > 1e-9 {
		t.Errorf("an empty room: %+v", f)
	}
}

func TestRoomNamesWhatIsWrong(t *testing.T) {
	good := drying.Group{Plant: drying.Typical(), Count: 1, Speed: drying.Low}
	for want, c := range map[string]struct {
		room   func(*drying.Room)
		groups []drying.Group
	}{
		"room of 0 m3":                                   {room: func(r *drying.Room) { r.VolumeM3 = 0 }},
		"-1 air changes":                                 {room: func(r *drying.Room) { r.AirChanges = -1 }},
		"incoming air with 9":                            {room: func(r *drying.Room) { r.SupplyDensity = 9 }},
		"humidity 0 %":                                   {room: func(r *drying.Room) { r.Air.RH = 0 }},
		"drying group 2: film 9 mm":                      {groups: []drying.Group{good, {Plant: with(good.Plant, func(p *drying.Plant) { p.FilmMM = 9 })}}},
		"drying group 1: -3 plants":                      {groups: []drying.Group{{Plant: good.Plant, Count: -3}}},
		"drying group 1: out for NaN":                    {groups: []drying.Group{{Plant: good.Plant, MinutesOut: math.NaN()}}},
		"airings":                                        {room: func(r *drying.Room) { r.Airings = []drying.Airing{{Hours: 1, AirChanges: -1}} }},
		"drying group 1: clump taking NaN":               {groups: []drying.Group{{Plant: good.Plant, Handling: drying.Handling{Clump: math.NaN()}}}},
		"drying group 1: a place where drying takes NaN": {groups: []drying.Group{{Plant: good.Plant, Handling: drying.Handling{Place: math.NaN()}}}},
		"drying group 1: air speed 99 m/s":               {groups: []drying.Group{{Plant: good.Plant, Speed: 99}}},
	} {
		r := closedRoom()
		if c.room != nil {
			c.room(&r)
		}
		if _, err := r.Dry(c.groups); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v does not say %q", err, want)
		}
	}
}

// Plants that are still to come out find the room as those before have left it, and leave it damper for those.
func TestPlantsStillToComeOut(t *testing.T) {
	group := func(n int, minutesOut float64) drying.Group {
		return drying.Group{Plant: drying.Typical(), Handling: shaken, Count: n, Speed: drying.On,
			MinutesOut: minutesOut}
	}
	alone := dry(t, closedRoom(), []drying.Group{group(1, 0)}).Groups[0].Hours()
	later := dry(t, closedRoom(), []drying.Group{group(1, -90)}).Groups[0].Hours() - 1.5
	if math.Abs(later-alone) > 0.01*alone {
		t.Errorf("alone, but out an hour and a half from now: %.3f h after that, want %.3f h", later, alone)
	}
	first := dry(t, closedRoom(), []drying.Group{group(100, 0)}).Groups[0].Hours()
	both := dry(t, closedRoom(), []drying.Group{group(100, 0), group(100, -60)})
	if both.Groups[0].Hours() <= first || both.Groups[1].Hours()-1 <= first {
		t.Errorf("100 dry in %.2f h; with 100 more an hour later %.2f h, and those in %.2f h", first,
			both.Groups[0].Hours(), both.Groups[1].Hours()-1)
	}
	if dt := both.StartKG - 2*dry(t, closedRoom(), []drying.Group{group(100, 0)}).StartKG; math.Abs(dt) > 1e-9 {
		t.Errorf("the water of those to come is not counted: off by %g kg", dt)
	}
}

// A window opened now helps most, opened later less, opened after all is dry not at all.
func TestAWindowOpenedLater(t *testing.T) {
	groups := []drying.Group{{Plant: drying.Typical(), Handling: shaken, Count: 200, Speed: drying.On}}
	with := func(airings ...drying.Airing) float64 {
		r := closedRoom()
		r.Airings = airings
		return dry(t, r, groups).Groups[0].Hours()
	}
	wide := closedRoom()
	wide.AirChanges = 3
	shut, now, soon, late := with(), with(drying.Airing{AirChanges: 3}), with(drying.Airing{Hours: 1,
		AirChanges: 3}), with(drying.Airing{Hours: 100, AirChanges: 3})
	if open := dry(t, wide, groups).Groups[0].Hours(); now != open {
		t.Errorf("opened at once %.4f h, open from the start %.4f h", now, open)
	}
	if !(now < soon && soon < shut) || late != shut {
		t.Errorf("shut %.2f h, opened now %.2f, in an hour %.2f, in 100 hours %.2f", shut, now, soon, late)
	}
	if again := with(drying.Airing{Hours: 1, AirChanges: 3},
		drying.Airing{Hours: 1.5, AirChanges: wide.AirChanges / 10}); !(soon < again && again < shut+0.2) {
		t.Errorf("open for half an hour %.2f h", again)
	}
}

// The worst bench a house can have: a thousand plants in a closed bathroom, whose air answers within the minute.
func BenchmarkCrowdedBathroom(b *testing.B) {
	r := closedRoom()
	r.VolumeM3 = 10
	groups := []drying.Group{
		{Plant: drying.Typical(), Handling: shaken, Count: 700, Speed: drying.Near},
		{Plant: drying.Bulbous(), Count: 300, Speed: drying.On},
	}
	for b.Loop() {
		if _, err := r.Dry(groups); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRoom20Groups(b *testing.B) {
	plants := []drying.Plant{drying.OpenRosette(), drying.Typical(), drying.Fuzzy(), drying.Bulbous()}
	fans := []float64{drying.Off, drying.Low, drying.On}
	var groups []drying.Group
	for i := range 20 {
		groups = append(groups, drying.Group{
			Plant: plants[i%4], Handling: drying.Handling{Shaken: i%3 > 0}, Count: 22 + i,
			Speed: fans[i%3], MinutesOut: float64(i * 7),
		})
	}
	r := closedRoom()
	for b.Loop() {
		if _, err := r.Dry(groups); err != nil {
			b.Fatal(err)
		}
	}
}
