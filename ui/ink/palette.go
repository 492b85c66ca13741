package ink

// Palette is every colour of the board on one paper. Nothing but a band, a
// danger, a warning, what is done and the one accent is coloured.
type Palette struct {
	// Ramp are the bands from Mist to Overnight: pale to deep water.
	Ramp [6]Ink
	// Danger is for what is overdue or may kill a plant, Care for what needs
	// care, Done for dry and done.
	Danger, Care, Done Ink
	// Dim is for what need not be read, Accent for what is chosen.
	Dim, Accent Ink
	// Bar lies behind the row under the cursor.
	Bar Ink
	// Letter is what is written on a patch of any of the colours above.
	Letter Ink
}

// Palettes are the palettes by [Paper]. They were sought in OKLCH (Ottosson
// 2020) so that every ink reads on the paper and on the bar with a contrast of
// 4.5 or more (WCAG 2), and neighbours of the ramp stay 0.04 apart in OKLab
// for eyes of the three common kinds of colour blindness. The test beside this
// file computes both. The sixteen are the terminal's own and cannot be
// computed: words stand beside them, as they do beside every colour.
var Palettes = [...]Palette{
	Dark: {
		Ramp: [6]Ink{
			{Hex: "#e5fafb", Many: 195, Few: 15},
			{Hex: "#9ff1f0", Many: 158, Few: 14},
			{Hex: "#6ddeed", Many: 116, Few: 6},
			{Hex: "#5ac3f5", Many: 110, Few: 12},
			{Hex: "#7ba3f6", Many: 75, Few: 12, Bold: true},
			{Hex: "#a37dea", Many: 140, Few: 13},
		},
		Danger: Ink{Hex: "#fc5950", Many: 203, Few: 9},
		Care:   Ink{Hex: "#f8c143", Many: 221, Few: 11},
		Done:   Ink{Hex: "#5dc879", Many: 78, Few: 10},
		Dim:    Ink{Hex: "#9aa1a9", Many: 247, Few: 7},
		Accent: Ink{Hex: "#6ddeed", Many: 116, Few: 14},
		Bar:    Ink{Hex: "#262a30", Many: 235},
		Letter: Ink{Hex: "#14161a", Many: 233, Few: 0},
	},
	Light: {
		Ramp: [6]Ink{
			{Hex: "#4c7476", Many: 60, Few: 8},
			{Hex: "#076871", Many: 25, Few: 6},
			{Hex: "#045269", Many: 23, Few: 6, Bold: true},
			{Hex: "#003c6b", Many: 20, Few: 4},
			{Hex: "#0e1779", Many: 54, Few: 4, Bold: true},
			{Hex: "#200150", Many: 17, Few: 5, Bold: true},
		},
		Danger: Ink{Hex: "#a60033", Many: 125, Few: 1},
		Care:   Ink{Hex: "#985a10", Many: 94, Few: 3},
		Done:   Ink{Hex: "#345202", Many: 22, Few: 2},
		Dim:    Ink{Hex: "#5f666d", Many: 241, Few: 8},
		Accent: Ink{Hex: "#003c6b", Many: 25, Few: 4},
		Bar:    Ink{Hex: "#eef0f1", Many: 255, Few: 7},
		Letter: Ink{Hex: "#fbfaf7", Many: 231, Few: 15},
	},
	// One lightness alone reads on black and on white with 4.5 (of the 256, with 4), so
	// these go from grey to vivid in turns and not from pale to deep. No bar can be
	// both: reverse is.
	Either: {
		Ramp: [6]Ink{
			{Hex: "#427e89", Many: 30, Few: 6},
			{Hex: "#006cff", Many: 27, Few: 4},
			{Hex: "#667883", Many: 243, Few: 6},
			{Hex: "#426cec", Many: 63, Few: 4},
			{Hex: "#6c72a4", Many: 97, Few: 5},
			{Hex: "#5a66ef", Many: 129, Few: 5},
		},
		Danger: Ink{Hex: "#e4185b", Many: 162, Few: 1},
		Care:   Ink{Hex: "#9c6c23", Many: 130, Few: 3},
		Done:   Ink{Hex: "#30845d", Many: 29, Few: 2},
		Dim:    Ink{Hex: "#767676", Many: 243, Few: 8},
		Accent: Ink{Hex: "#427e89", Many: 30, Few: 6},
		Letter: Ink{Hex: "#ffffff", Many: 231, Few: 15},
	},
}
