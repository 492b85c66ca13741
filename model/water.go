package model

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

var (
	_ = register[VesselSet]("vessel")
	_ = register[Pull]("pull")
	_ = register[PutBack]("putback")
	_ = register[Soak]("soak")
	_ = register[Out]("out")
)

// Vessel is a tub or bucket.
type Vessel struct {
	Name   string  `json:"name"`
	Litres float64 `json:"litres"`               // room for plants when filled, not the brim
	Refill float64 `json:"refill_min,omitempty"` // minutes to empty, rinse and fill it; 0: worked out from the house rules
	Loads  int     `json:"loads,omitempty"`      // loads that one filling serves; 0: the house rule
	Hours  float64 `json:"hours,omitempty"`      // from the first plant in to the last load that may go in; 0: the house rule
	Fed    bool    `json:"fed,omitempty"`        // for fed water only
}

// firstVessels stand in a fresh book. A bathtub filled to the overflow holds
// 150 to 200 L (Alliance for Water Efficiency); 100 L leaves room for hands. A
// household bucket holds 10 L.
var firstVessels = []Vessel{{Name: "tub", Litres: 100}, {Name: "bucket 1", Litres: 10}, {Name: "bucket 2", Litres: 10}}

// VesselSet adds a vessel, changes its room, or puts it away.
type VesselSet struct {
	Vessel
	Away bool `json:"away,omitempty"`
}

// Kind implements [Fact].
func (VesselSet) Kind() Kind { return "vessel" }

func (f VesselSet) check(b *Book, e Entry) error {
	_, known := b.Vessel(f.Name)
	switch {
	case strings.TrimSpace(f.Name) == "":
		return &Problem{What: "a vessel without a name", Do: "call it tub or bucket 1"}
	case f.Away && !known:
		return b.noVessel(f.Name)
	case f.Away && len(b.InVessel(f.Name)) > 0:
		return &Problem{What: fmt.Sprintf("%s has plants in it", f.Name), Do: "take them out first"}
	case !f.Away && !(f.Litres > 0 && f.Litres <= 1000):
		return &Problem{What: fmt.Sprintf("%s: %g litres", f.Name, f.Litres), Do: "give its room in litres, up to 1000"}
	}
	return f.Vessel.checkFilling()
}

// A vessel keeps the name it was first given, whatever case it is typed in
// later: its water is known by that name.
func (f VesselSet) apply(b *Book, e Entry) {
	f.Name = strings.TrimSpace(f.Name)
	i := slices.IndexFunc(b.vessels, func(v Vessel) bool { return strings.EqualFold(v.Name, f.Name) })
	switch {
	case f.Away:
		delete(b.waters, b.vessels[i].Name)
		b.vessels = slices.Delete(b.vessels, i, i+1)
	case i >= 0:
		f.Name = b.vessels[i].Name
		b.vessels[i] = f.Vessel
	default:
		b.vessels = append(b.vessels, f.Vessel)
	}
}

// Pull takes plants off the shelf to wait beside the water.
type Pull struct{}

// Kind implements [Fact].
func (Pull) Kind() Kind { return "pull" }

func (f Pull) check(b *Book, e Entry) error {
	if err := b.presentIn(e.Plants, "only a plant at home can be pulled", AtHome); err != nil {
		return err
	}
	for _, id := range e.Plants {
		if b.waiting.Has(id) {
			return &Problem{What: fmt.Sprintf("plant %d (%s) is already pulled", id, b.rows[id].Title())}
		}
	}
	return nil
}

func (f Pull) apply(b *Book, e Entry) {
	b.enterSession(e.Plants)
	b.waiting = append(b.waiting, e.Plants...)
}

// PutBack hangs pulled plants back without a soak.
type PutBack struct{}

// Kind implements [Fact].
func (PutBack) Kind() Kind { return "putback" }

func (f PutBack) check(b *Book, e Entry) error {
	if err := b.present(e.Plants); err != nil {
		return err
	}
	for _, id := range e.Plants {
		if !b.waiting.Has(id) {
			return &Problem{What: fmt.Sprintf("plant %d (%s) was not pulled", id, b.rows[id].Title())}
		}
	}
	return nil
}

func (f PutBack) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		b.leaveSession(r)
		b.stopWaiting(r.ID)
	})
}

func (b *Book) stopWaiting(id ID) {
	if i := slices.Index(b.waiting, id); i >= 0 {
		b.waiting = slices.Delete(b.waiting, i, i+1)
	}
}

// LoadID numbers the loads of a book from 1.
type LoadID uint32

// String is the number in decimal.
func (l LoadID) String() string { return strconv.FormatUint(uint64(l), 10) }

// Load is the plants that went into one vessel together.
type Load struct {
	ID     LoadID
	Vessel string
	Plants IDs       // in the order they went in
	In     time.Time // when the first went in
	Due    time.Time // when they should come out
	Left   int       // how many are still in the water
	Fed    *Mix      // what the water was fed with; nil: plain
	Heap   int       // 0 alone; 1 by the tap or at the left, 2 at the far end or the right, until it is out
}

// Minutes is how long the load was meant to soak.
func (l *Load) Minutes() float64 { return l.Due.Sub(l.In).Minutes() }

// Soak puts a load into a vessel. The entry's plants are in the order they go
// in; its time is when the first goes in.
type Soak struct {
	Load   LoadID    `json:"load"`
	Vessel string    `json:"vessel"`
	Due    time.Time `json:"due"`
	Fed    *Mix      `json:"fed,omitempty"`    // nil: what the vessel was filled with
	Took   int       `json:"took_s,omitempty"` // s that the hands took to lay them in, from the entry's time on; 0: not said
}

// Kind implements [Fact].
func (Soak) Kind() Kind { return "soak" }

// inWords says a length of time that cannot be: whole minutes, or whole hours when it is days.
func inWords(d time.Duration) string {
	if d.Abs() < 2*time.Hour {
		return fmt.Sprintf("%.0f min", d.Minutes())
	}
	return fmt.Sprintf("%.0f h", math.Ceil(d.Hours()))
}

// MaxSoak bounds a soak. A choice: longer than any overnight, short enough to
// catch a date slipped by a day.
const MaxSoak = 24 * time.Hour

func (f Soak) check(b *Book, e Entry) error {
	if err := b.presentIn(e.Plants, "only a plant at home, or dry and waiting, goes into the water", AtHome,
		Dry); err != nil {
		return err
	}
	if _, ok := b.Vessel(f.Vessel); !ok {
		return b.noVessel(f.Vessel)
	}
	if d := f.Due.Sub(e.At); d <= 0 || d > MaxSoak {
		return &Problem{What: "a soak of " + inWords(d), Do: "give a time above 0 and up to 24 hours"}
	}
	if f.Load < b.nextLoad {
		return &Problem{
			What: fmt.Sprintf("load %d was used before", f.Load),
			Do:   fmt.Sprintf("the next load is %d", b.nextLoad),
		}
	}
	if err := checkTook(f.Took); err != nil {
		return err
	}
	return f.Fed.check()
}

func (f Soak) allow(b *Book, e Entry) error { return f.Fed.allow(b.rules) }

func (f Soak) apply(b *Book, e Entry) {
	v, _ := b.Vessel(f.Vessel)
	b.enterSession(e.Plants)
	fed := b.serve(v.Name, f.Fed, e)
	load := &Load{ID: f.Load, Vessel: v.Name, Plants: e.Plants, In: e.At, Due: f.Due, Left: len(e.Plants), Fed: fed}
	b.lay(load, b.AgreedPlan(e.At))
	b.loads[f.Load] = load
	b.inWater = append(b.inWater, load)
	b.nextLoad = f.Load + 1
	for i, id := range e.Plants {
		r, at := b.rows[id], e.AtOf(i)
		r.soaked, r.dried = r.LastSoak(), r.DrySince()
		b.setState(r, Soaking, at)
		r.Load, r.In = f.Load, at
		if fed != nil {
			r.feed(e.At, ByBath, *fed)
		}
		b.stopWaiting(r.ID)
	}
}

// Out takes plants out of the water, in the order given.
type Out struct {
	Shaken   bool `json:"shaken"`
	Inverted bool `json:"inverted,omitempty"` // laid upside down

	Bench string `json:"bench,omitempty"`  // the drying place it was laid on; empty: not said
	Took  int    `json:"took_s,omitempty"` // s that the hands took, up to the entry's time; 0: not said
}

// TakenOut is the way plants come out unless the grower says otherwise: laid upside
// down, or on the side, whatever their form. It is never wrong, and a bulb needs
// it. Common practice, and the advice of an extension educator (Oklahoma State
// University, Cherokee County: upside down for half an hour to three hours).
func TakenOut(shaken bool) *Out { return &Out{Shaken: shaken, Inverted: true} }

// Kind implements [Fact].
func (Out) Kind() Kind { return "out" }

func (f Out) check(b *Book, e Entry) error {
	if _, ok := b.dryingPlace(f.Bench); !ok && f.Bench != "" {
		return b.noBench(f.Bench)
	}
	if err := b.presentIn(e.Plants, "only a plant in the water comes out", Soaking); err != nil {
		return err
	}
	for i, id := range e.Plants {
		if f.Took > 0 && e.AtOf(i).Before(b.rows[id].In) {
			return tookTooLong(f.Took)
		}
	}
	return checkTook(f.Took)
}

func (f Out) apply(b *Book, e Entry) {
	bench, _ := b.dryingPlace(f.Bench)
	for i, id := range e.Plants {
		r, at := b.rows[id], e.AtOf(i)
		if f.Took == 0 { // the load has one clock
			r.In = b.loads[r.Load].In
		}
		b.setState(r, Drying, at)
		r.Out, r.Minutes = at, max(0, at.Sub(r.In).Minutes()) // a clock may have been set back
		r.Shaken, r.Inverted, r.InTurn, r.Bench = f.Shaken, f.Inverted, f.Took > 0, bench
		r.DampAt = zeroTime
		b.leaveWater(r)
	}
}

// leaveWater counts a plant out of its load.
func (b *Book) leaveWater(r *Row) {
	l := b.loads[r.Load]
	if l.Left--; l.Left == 0 {
		i := slices.Index(b.inWater, l)
		b.inWater = slices.Delete(b.inWater, i, i+1)
	}
}

// Vessels lists the vessels of the house.
func (b *Book) Vessels() []Vessel { return b.vessels }

// Vessel finds a vessel by name, whatever its case.
func (b *Book) Vessel(name string) (Vessel, bool) {
	for _, v := range b.vessels {
		if strings.EqualFold(v.Name, strings.TrimSpace(name)) {
			return v, true
		}
	}
	return Vessel{}, false
}

func (b *Book) vesselNames() string {
	names := make([]string, len(b.vessels))
	for i, v := range b.vessels {
		names[i] = v.Name
	}
	return strings.Join(names, ", ")
}

// Load finds a load by number, or nil.
func (b *Book) Load(id LoadID) *Load { return b.loads[id] }

// NextLoad is the number the next load gets.
func (b *Book) NextLoad() LoadID { return b.nextLoad }

// OpenLoads lists the loads still in the water, the first due first.
func (b *Book) OpenLoads() []*Load {
	open := slices.Clone(b.inWater)
	slices.SortFunc(open, func(x, y *Load) int {
		if c := x.Due.Compare(y.Due); c != 0 {
			return c
		}
		return int(x.ID) - int(y.ID)
	})
	return open
}

// InVessel lists the open loads of one vessel, whatever the case of its name.
func (b *Book) InVessel(name string) []*Load {
	name = strings.TrimSpace(name)
	return slices.DeleteFunc(b.OpenLoads(), func(l *Load) bool { return !strings.EqualFold(l.Vessel, name) })
}

// StillIn lists the plants of a load that are in the water, in the order they
// went in.
func (b *Book) StillIn(l *Load) IDs {
	var ids IDs
	for _, id := range l.Plants {
		if r := b.rows[id]; r.State == Soaking && r.Load == l.ID {
			ids = append(ids, id)
		}
	}
	return ids
}
