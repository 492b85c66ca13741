package demo

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/species"
)

// favourites are the species this home has many of, by how many rows there are
// for each row of any other species. Invented.
var favourites = map[string]int{
	"T. ionantha": 60, "T. stricta": 18, "T. brachycaulos": 14, "T. capitata": 8, "T. velutina": 6,
	"T. aeranthos": 14, "T. bergeri": 10, "T. tenuifolia": 8, "T. neglecta": 5, "T. geminiflora": 6,
	"T. xerographica": 9, "T. harrisii": 8, "T. bulbosa": 14, "T. butzii": 10, "T. caput-medusae": 9,
	"T. fuchsii": 14, "T. filifolia": 5, "T. juncea": 7, "T. tricolor": 5, "T. tectorum": 9,
	"T. magnusiana": 5, "T. usneoides": 5, "T. recurvata": 5, "Wallisia cyanea": 3,
}

// Shares of the collection, and its days. Invented.
const (
	misfits      = 0.35 // rows on a shelf that would suit another leaf better
	trays        = 0.04 // rows that are trays of small plants
	traySize     = 8.0  // cm, the largest kept in trays
	clumps       = 0.07 // rows that are clumps
	clumpSize    = 15.0 // cm, the largest left in a clump
	youngFrom    = 20   // cm: species this large are kept as young plants
	youngSize    = 0.65 // of the full span
	sizeSpread   = 0.2  // standard deviation of the logarithm of the size
	largestKept  = 26.0 // cm
	newcomers    = 0.07 // rows that came during the past year
	yearDays     = 365
	oldestYears  = 8
	unknownDay   = 0.06 // nobody remembers when it came
	formAssumed  = 0.12 // form and leaf out of the species list
	formNotSaid  = 0.02
	sizeNotSaid  = 0.04
	tagged       = 0.85
	withNote     = 0.08
	lastArrival  = 20 // days ago
	firstArrival = 340
	inTheParcel  = 0.22 // newcomers that came together, lately
	parcelDays   = 15   // days ago
)

// newPlant is one row of the invented collection before its life begins.
type newPlant struct {
	model.Plant // as the grower will tell it; the days are still unset
	truth       species.Entry
	sizeCM      float64 // the true span
	daysAgo     int     // since it came; 0 nobody remembers
}

// invent fills the flat. The same numbers give the same plants.
func invent(rng *rand.Rand) []newPlant {
	var all []newPlant
	kinds, tags := stock(), map[string]int{}
	for _, s := range shelves {
		for i := range s.spots {
			p := grow(rng, draw(rng, kinds, s.suits))
			p.Home = model.Home{Shelf: s.name, Spot: s.spot(i)}
			p.tag(rng, tags)
			all = append(all, p)
		}
	}
	inOrder(all)
	return all
}

// stock lists the species, each as often as it is a favourite.
func stock() []species.Entry {
	var kinds []species.Entry
	for _, e := range species.All() {
		if strings.Contains(e.Name, "'") {
			continue // no cultivars
		}
		for range max(1, favourites[e.Name]) {
			kinds = append(kinds, e)
		}
	}
	return kinds
}

// draw picks a species that suits the shelf, most of the time.
func draw(rng *rand.Rand, kinds []species.Entry, suits model.Leaf) species.Entry {
	for {
		if e := kinds[rng.IntN(len(kinds))]; e.Leaf == suits || rng.Float64() < misfits {
			return e
		}
	}
}

// grow makes one row of a species.
func grow(rng *rand.Rand, e species.Entry) newPlant {
	full := e.SizeCM
	if full >= youngFrom {
		full *= youngSize
	}
	size := math.Round(full * math.Exp(sizeSpread*rng.NormFloat64()))
	size = min(max(size, 3), largestKept)
	p := newPlant{truth: e, sizeCM: size, daysAgo: age(rng)}
	p.Name, p.Size, p.Form, p.Leaf, p.Count = e.Name, size, e.Form, e.Leaf, count(rng, size)
	switch x := rng.Float64(); {
	case x < formNotSaid:
		p.Form, p.Leaf = "", ""
	case x < formNotSaid+formAssumed:
		p.Assumed = model.Assumed{Form: true, Leaf: true}
	}
	if rng.Float64() < sizeNotSaid {
		p.Size = 0
	}
	if rng.Float64() < withNote {
		p.Note = plantNotes[rng.IntN(len(plantNotes))]
	}
	return p
}

func count(rng *rand.Rand, size float64) int {
	switch x := rng.Float64(); {
	case x < trays && size <= traySize:
		return 5 + rng.IntN(36)
	case x < trays+clumps && size <= clumpSize:
		return 2 + rng.IntN(5)
	}
	return 1
}

// age is how many days ago a row came, 0 when nobody remembers.
func age(rng *rand.Rand) int {
	switch x := rng.Float64(); {
	case x < newcomers*inTheParcel:
		return parcelDays
	case x < newcomers:
		return lastArrival + rng.IntN(firstArrival-lastArrival)
	case x < newcomers+unknownDay:
		return 0
	}
	return yearDays + 10 + rng.IntN((oldestYears-1)*yearDays-10)
}

// newcomer reports whether the row came during the past year.
func (p newPlant) newcomer() bool { return p.daysAgo > 0 && p.daysAgo < yearDays }

// tag writes the tag: the second word of the name and a running number.
func (p *newPlant) tag(rng *rand.Rand, tags map[string]int) {
	_, epithet, _ := strings.Cut(p.Name, " ")
	tags[epithet]++
	if rng.Float64() < tagged {
		p.Label = fmt.Sprintf("%s %d", epithet, tags[epithet])
	}
}

// inOrder sorts rows as they come into the book: first the old list in walking
// order, then the newcomers day by day.
func inOrder(all []newPlant) {
	slices.SortStableFunc(all, func(a, b newPlant) int {
		switch {
		case a.newcomer() && b.newcomer():
			return cmp.Compare(b.daysAgo, a.daysAgo)
		case a.newcomer():
			return 1
		case b.newcomer():
			return -1
		}
		return 0
	})
}

// acquired is the day the row came, told from today.
func (p newPlant) acquired(today date.Date) date.Date {
	if p.daysAgo == 0 {
		return 0
	}
	return today - date.Date(p.daysAgo)
}

var plantNotes = []string{
	"on a ring of wire", "wired to cork", "on a driftwood stub", "glued low, mind the base", "tips cut last summer",
	"came bare and thirsty", "dropped once, and none the worse", "leans to the light", "from a swap table",
	"hangs from fishing line",
	"in a shell, take it out to soak", "lost its outer leaves once",
}
