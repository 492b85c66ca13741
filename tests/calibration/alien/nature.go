// Package alien invents homes of air plants that owe nothing to the program: it imports the book's entries and no more,
// and its plants lose and take up water, show thirst and dry by laws of its own, which are plainly different in form
// from the program's. Each home keeps a book, by entries alone, and knows the truth behind it. What the program makes
// of such books says how far it is to be believed where its own equations are wrong, as they are in every real home.
//
// The numbers are made to fit what is published and what the trade does, not the program: T. ionantha loses 17 % in 20
// days (Nowak & Martin 1997) and lives through half a year (Ohrui et al. 2007), tissue fills in three hours (the same),
// loss falls over the first four or five days (Zotz & Andrade 1998) and is flat at night (Lange & Medina 1979), thin
// plants lose twice as much as that. Where nobody has measured, which is nearly everywhere, the spreads are wide and
// each home draws its own.
package alien

// Nature is how a world is made.
type Nature struct {
	Name string

	// What the grower writes and how.
	GoodUnwritten   float64 // share of looks at a plant with nothing wrong that are not written down
	Eye             float64 // thirst that the grower's eye adds to what there is; under 0 a mild eye
	MistsUnwritten  float64 // unwritten mists a week, on every plant
	HelperUnwritten float64 // chance a week and shelf of an unwritten soak
	MovedUnwritten  float64 // share of plants moved to another shelf, once, without a word
	Mislabelled     float64 // share of plants with another leaf, and half of them another form, in the book
	ReadingGap      float64 // days between two readings of the room

	// How the plants and the room are.
	Season      float64 // how far loss swings with the year, as a share
	Uptake      float64 // how far plants of a kind lie apart in how fast they drink: standard deviation of the logarithm
	AirPower    float64 // loss goes as this power of the deficit; 0: day by the deficit, night flat
	OtherDrying float64 // 0: plants dry by the first law, 1: by the second
	Lift        float64 // thirst at which edges begin to lift in the middle plant of every home; 0: each home draws it
}

// plain is a world in which nothing is hidden but what nobody can know.
var plain = Nature{Name: "plain", ReadingGap: 4, Uptake: 0.15}

func changed(name string, change func(*Nature)) Nature {
	n := plain
	n.Name = name
	change(&n)
	return n
}

// The usual eye is 0.08 off in the worlds of a strict and of a mild one, and a season makes 40 % more or less.
const (
	eyeOff    = 0.08
	seasonOff = 0.40
)

// Natures are the kinds of world.
var Natures = []Nature{
	plain,
	changed("leaves lift at 16 % down", func(n *Nature) { n.Lift = 0.16 }),
	changed("leaves lift at 36 % down", func(n *Nature) { n.Lift = 0.36 }),
	changed("only bad plants written", func(n *Nature) { n.GoodUnwritten = 1 }),
	changed("eye 0.08 stricter", func(n *Nature) { n.Eye = eyeOff }),
	changed("eye 0.08 milder", func(n *Nature) { n.Eye = -eyeOff }),
	changed("season of 40 %", func(n *Nature) { n.Season = seasonOff }),
	changed("uptake differs by plant", func(n *Nature) { n.Uptake = 0.55 }),
	changed("mists nobody wrote", func(n *Nature) { n.MistsUnwritten = 2 }),
	changed("a helper's unwritten soaks", func(n *Nature) { n.HelperUnwritten = 0.15 }),
	changed("moved without a word", func(n *Nature) { n.MovedUnwritten = 0.3 }),
	changed("a fifth mislabelled", func(n *Nature) { n.Mislabelled = 0.2 }),
	changed("loss as deficit^0.6", func(n *Nature) { n.AirPower = 0.6 }),
	changed("another drying law", func(n *Nature) { n.OtherDrying = 1 }),
	changed("six weeks without readings", func(n *Nature) { n.ReadingGap = 42 }),
	{
		Name: "everything at half", GoodUnwritten: 0.5, Eye: eyeOff / 2, MistsUnwritten: 1, HelperUnwritten: 0.075,
		MovedUnwritten: 0.15, Mislabelled: 0.1, ReadingGap: 21, Season: seasonOff / 2, Uptake: 0.35, AirPower: 0.8,
		OtherDrying: 0.5,
	},
}
