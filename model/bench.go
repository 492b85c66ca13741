package model

import (
	"fmt"
	"slices"
	"strings"
)

var (
	_ = register[BenchSet]("bench")
	_ = register[Laid]("laid")
)

// Bench is a drying place: a rack, a tray, a table with towels. A tray that is felt,
// moved and marked by itself is a place of its own. All places share the air of one room.
type Bench struct {
	Name   string  `json:"name"`
	Room   float64 `json:"room_m2"`          // m² to lay plants on, none on top of another
	Fan    Fan     `json:"fan,omitempty"`    // what moves the air over it; empty: the room's fan
	Factor float64 `json:"factor,omitempty"` // drying time as a multiple of that in the room at large; 0: worked out from the fan
}

// OwnTray is where plants dry that are kept apart from the others, each company on one by
// itself. It need not be told of: whoever keeps plants apart finds one.
const OwnTray = "own tray"

// firstBenches stand in a fresh book. A choice: racks and towels for a thousand
// plants of 15 cm, so that room to dry is no limit before the grower says how
// much there is.
var firstBenches = []Bench{{Name: "rack", Room: 18}}

// Limits of a bench. A choice: wide enough for any home, narrow enough to catch
// square feet or a slip of the comma.
const (
	MaxBenchRoom   = 200.0
	MinBenchFactor = 0.1
	MaxBenchFactor = 10.0
)

// BenchSet adds a drying place, changes it, or puts it away.
type BenchSet struct {
	Bench
	Away bool `json:"away,omitempty"`
}

// Kind implements [Fact].
func (BenchSet) Kind() Kind { return "bench" }

func (f BenchSet) check(b *Book, e Entry) error {
	_, known := b.Bench(f.Name)
	switch {
	case strings.TrimSpace(f.Name) == "":
		return &Problem{What: "a drying place without a name", Do: "call it rack or towels"}
	case f.Away && !known:
		return &Problem{What: fmt.Sprintf("there is no drying place %q", f.Name), Do: "they are " + b.benchNames()}
	case f.Away:
		return nil
	case !(f.Room > 0 && f.Room <= MaxBenchRoom):
		return &Problem{
			What: fmt.Sprintf("%s: room of %g m²", f.Name, f.Room),
			Do:   fmt.Sprintf("give square metres to lay plants on, up to %g", MaxBenchRoom),
		}
	case f.Factor != 0 && !(f.Factor >= MinBenchFactor && f.Factor <= MaxBenchFactor):
		return &Problem{
			What: fmt.Sprintf("%s: drying takes %g times as long", f.Name, f.Factor),
			Do:   fmt.Sprintf("give %g to %g, or leave it to the fan", MinBenchFactor, MaxBenchFactor),
		}
	case f.Fan != "" && !slices.Contains(Fans, f.Fan):
		return &Problem{What: fmt.Sprintf("%s: fan %q", f.Name, f.Fan), Do: "use off, low, on or near"}
	}
	return nil
}

// A place keeps the name it was first given, whatever case it is typed in later.
func (f BenchSet) apply(b *Book, e Entry) {
	f.Name = strings.TrimSpace(f.Name)
	i := slices.IndexFunc(b.benches, func(o Bench) bool { return strings.EqualFold(o.Name, f.Name) })
	switch {
	case f.Away:
		b.benches = slices.Delete(b.benches, i, i+1)
	case i >= 0:
		f.Name = b.benches[i].Name
		b.benches[i] = f.Bench
	default:
		b.benches = append(b.benches, f.Bench)
	}
}

// Laid moves plants that are out of the water to another drying place.
type Laid struct {
	Bench string `json:"bench"`
}

// Kind implements [Fact].
func (Laid) Kind() Kind { return "laid" }

func (f Laid) check(b *Book, e Entry) error {
	if _, ok := b.dryingPlace(f.Bench); !ok {
		return b.noBench(f.Bench)
	}
	return b.presentIn(e.Plants, "only a plant that is out of the water is laid elsewhere", Drying, Dry)
}

func (f Laid) apply(b *Book, e Entry) {
	bench, _ := b.dryingPlace(f.Bench)
	b.each(e.Plants, func(r *Row) { r.Bench = bench })
}

// Benches lists the drying places of the house. The caller must not change it.
func (b *Book) Benches() []Bench { return b.benches }

// Bench finds a drying place by name, whatever its case.
func (b *Book) Bench(name string) (Bench, bool) {
	for _, o := range b.benches {
		if strings.EqualFold(o.Name, strings.TrimSpace(name)) {
			return o, true
		}
	}
	return Bench{}, false
}

// dryingPlace is the name of a drying place as the book has it, [OwnTray] among them.
func (b *Book) dryingPlace(name string) (string, bool) {
	if o, ok := b.Bench(name); ok {
		return o.Name, true
	}
	if strings.EqualFold(strings.TrimSpace(name), OwnTray) {
		return OwnTray, true
	}
	return "", false
}

func (b *Book) noBench(name string) error {
	return &Problem{What: fmt.Sprintf("there is no drying place %q", name), Do: "they are " + b.benchNames() + ", and " + OwnTray}
}

func (b *Book) benchNames() string {
	names := make([]string, len(b.benches))
	for i, o := range b.benches {
		names[i] = o.Name
	}
	return strings.Join(names, ", ")
}
