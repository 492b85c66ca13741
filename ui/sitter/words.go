package sitter

import "tubside/ui/sheet"

// doNots is growers' habit: what well-meant help kills plants with.
var doNots = sheet.Points{
	"water or mist anything that is not on this page",
	"leave a plant in water for longer, or overnight",
	"hang a plant back while its middle is wet",
	"feed, spray, wipe or trim",
	"move plants into the sun, over a heater, or into a box or bag",
	"use water from a softener, from the sea, or with anything in it",
}

// rotWords is common practice, no source.
const rotWords = "A soft, dark base, a sour smell, or a leaf that comes out of the middle at a light pull means rot. Put that plant by itself in a dry, airy place, give it no water, and tell me. Curled leaves and brown tips only mean thirst, and can wait."

// cautions are the usual ones, with who says so. They do not replace the rules
// of the place.
var cautions = sheet.Cautions{
	{
		Text:   "Never leave a filled bucket or tub, not for a minute, where there is a child or a pet. A child drowns in seconds, in inches of water.",
		Source: "US Consumer Product Safety Commission, 2007 and 2012",
	},
	{
		Text:   "Keep the fan, its cord and its plug 1.5 m (5 ft) or more from any water. Dry your hands first. If it falls into water, do not reach for it: switch off at the fuses.",
		Source: "Safe Electricity",
	},
	{
		Text:   "Wipe up drips at once: most injuries in bathrooms are falls.",
		Source: "MMWR 2011;60(22):729-733",
	},
	{Text: "A full bucket is heavy: fill it half, twice. The local electrical code and a qualified electrician have the last word on fans near water."},
}
