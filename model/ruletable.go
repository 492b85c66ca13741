package model

const (
	habit  = "growers' habit"
	ourOwn = "chosen here"

	// The trade counts 15 s a plant in and 20 s out of the water, a minute in all.
	habitMinute = "growers count a minute a plant: 15 s in, 20 s out and laid down; the rest of it is shared out by guess"
)

// LimitTable describes every house rule, indexed by [Limit].
var LimitTable = [limitCount]LimitInfo{
	TempUnit: {"temperature", "unit for temperatures", "", 0, 0, 1, []string{"c", "f"}, ourOwn},
	DryByHour: {
		"dry-by", "hour of the evening by which all should be dry",
		"h", 21, 12, 24, nil,
		"growers' habit; wet leaves cannot take in air at night (Benzing, Seemann & Renfrow 1978)",
	},
	Notify: {
		"notify", "how a load that is due calls you",
		"", 1, 0, 3, []string{"off", "bell", "osc9", "osc777"}, ourOwn,
	},
	Paper: {
		"paper", "background the board is drawn for; auto asks the terminal",
		"", 0, 0, 2, []string{"auto", "dark", "light"}, ourOwn,
	},
	PullItself: {
		"pull-itself", "plants pulled as soon as they are looked at, from this band or curl on",
		"", 0, 0, 7, []string{"off", "dip", "short", "long", "deep", "curl-1", "curl-2", "curl-3"}, ourOwn,
	},
	NumberPad: {
		"number-pad", "the board worked from a number pad alone",
		"", 0, 0, 1, []string{"off", "on"}, ourOwn,
	},
	DefaultTemp: {"air-temp", "room temperature where there is no reading", "°C", 21, 0, 45, nil, ourOwn},
	DefaultRH:   {"air-rh", "room humidity where there is no reading", "%", 40, 5, 95, nil, ourOwn},
	ReadingDays: {"reading-days", "how long a reading stands for the room", "d", 30, 1, 365, nil, ourOwn},
	RoomVolume: {
		"room-volume", "air volume the drying plants share",
		"m³", 40, 5, 2000, nil, "chosen here: a 16 m² room",
	},
	AirChanges: {
		"air-changes", "air changes of that room, windows shut",
		"/h", 0.44, 0.05, 20, nil, "Kent, Handegord & Robson, ASHRAE Transactions 72: Canadian houses in winter",
	},
	AirChangesDoor: {
		"air-changes-door", "the same with its door open to the rest of the home",
		"/h", 2.5, 0.05, 60, nil, "a guess, a third of what a doorway passes at 1 K between the rooms",
	},
	AirChangesOpen: {"air-changes-open", "the same with a window open", "/h", 3, 0.05, 60, nil, ourOwn},
	AirChangesExtractor: {
		"air-changes-extractor", "the same with the extractor on",
		"/h", 2, 0.05, 60, nil, "ASHRAE 62.2: a bathroom fan of 50 cfm (85 m³/h), from memory, in 40 m³",
	},
	SoakTarget: {
		"soak-target", "share of its water that a routine soak brings a plant back to",
		"%", 96, 80, 99, nil, ourOwn,
	},
	SoakFrom: {
		"soak-from", "thirst from which a plant is soaked whatever its rhythm",
		"%", 12, 2, 40, nil, ourOwn,
	},
	RestDays: {"rest-days", "days between soaks when no thirst shows", "d", 3, 0, 30, nil, habit},
	MistDays: {
		"mist-days", "days after a soak from which a resting plant is misted",
		"d", 4, 0, 60, nil, habit,
	},
	DipFrom:   {"dip-from", "no longer read", "min", 2, 1, 720, nil, habit},
	DipTo:     {"dip-to", "Dip: at least so long at most", "min", 20, 1, 720, nil, habit},
	ShortFrom: {"short-from", "no longer read", "min", 20, 1, 720, nil, habit},
	ShortTo:   {"short-to", "Short: at least so long at most", "min", 60, 1, 720, nil, habit},
	LongFrom:  {"long-from", "no longer read", "min", 60, 1, 720, nil, habit},
	LongTo: {
		"long-to", "Long: at least so long at most; beyond it is Deep",
		"min", 180, 1, 720, nil, habit,
	},
	DeepFrom: {"deep-from", "no longer read", "min", 180, 1, 720, nil, habit},
	DeepTo:   {"deep-to", "no longer read", "min", 240, 1, 720, nil, habit},
	OvernightFrom: {
		"overnight-from", "Overnight, at least: what was seen rolled shut; or two soaks a day apart",
		"min", 480, 1, 1440, nil, "growers differ: overnight, or never and twice a day apart instead",
	},
	OvernightTo: {"overnight-to", "Overnight, at most", "min", 720, 1, 1440, nil, habit},
	CapBulbous: {
		"cap-bulbous", "longest soak for a bulbous plant seen thirsty; a few hours are some growers' habit",
		"min", 90, 1, 1440, nil, habit,
	},
	CapFuzzy:   {"cap-fuzzy", "longest soak for a fuzzy plant", "min", 10, 1, 1440, nil, habit},
	CapTank:    {"cap-tank", "longest soak for a tank plant", "min", 20, 1, 1440, nil, habit},
	CapPendent: {"cap-pendent", "longest soak for a pendent mass", "min", 60, 1, 1440, nil, habit},
	CapXeric:   {"cap-xeric", "longest soak for any xeric leaf", "min", 60, 1, 1440, nil, habit},
	WetLimit: {
		"wet-limit", "hours wet before which no plant is out too long",
		"h", 4, 0.5, 48, nil, habit,
	},
	WetLimitFuzzy: {"wet-limit-fuzzy", "the same for a fuzzy plant", "h", 2, 0.5, 48, nil, habit},
	WetLimitClump: {"wet-limit-clump", "the same for a clump or tray", "h", 6, 0.5, 48, nil, habit},
	HandsPull: {
		"hands-pull", "taking one plant from its home to the vessel",
		"s", 10, 0, 300, nil, habitMinute,
	},
	HandsIn:   {"hands-in", "putting one plant into the water", "s", 15, 1, 300, nil, habitMinute},
	HandsOut:  {"hands-out", "taking one plant out and shaking it", "s", 12, 1, 300, nil, habitMinute},
	HandsLay:  {"hands-lay", "laying one plant down to dry", "s", 8, 0, 300, nil, habitMinute},
	HandsHang: {"hands-hang", "hanging one plant back", "s", 15, 0, 300, nil, habitMinute},
	MistMesic: {
		"mist-mesic", "days between mists, mesic or wispy leaf, in the room of air-temp and air-rh",
		"d", 2, 0.5, 60, nil, habit,
	},
	MistIntermediate: {"mist-intermediate", "the same, intermediate leaf", "d", 3, 0.5, 60, nil, habit},
	MistXeric:        {"mist-xeric", "the same, xeric leaf", "d", 7, 0.5, 60, nil, habit},
	MistFuzzyRH: {
		"mist-fuzzy-rh", "room humidity below which fuzzy plants are misted too",
		"%", 25, 0, 100, nil, habit,
	},
	FeedDays: {
		"feed-days", "days between feeds",
		"d", 30, 1, 365, nil,
		"growers' habit; a trial with T. kautskyi fed once a month (Rev. Bras. Hort. Orn., Jaboticabal 2003-04)",
	},
	FeedDaysSlow: {"feed-days-slow", "the same for slow growers: xeric leaf", "d", 60, 1, 365, nil, habit},
	FeedFromMonth: {
		"feed-from-month", "first month of feeding; after feed-to-month it runs over the new year",
		"", 3, 1, 12, nil, "growers' habit, for the northern half of the world",
	},
	FeedToMonth: {
		"feed-to-month", "last month of feeding",
		"", 10, 1, 12, nil, "growers' habit, for the northern half of the world",
	},
	FeedWinter: {
		"feed-winter", "feeding in the other months: off, at half the pace, or on as under lamps",
		"", 0, 0, 2, []string{"off", "half", "on"}, "growers' habit; the same trial did not feed in winter",
	},
	FeedAfterDays: {
		"feed-after-days", "days unfed after it came, was released or was separated",
		"d", 30, 0, 365, nil, habit,
	},
	FeedWarn: {
		"feed-warn", "strength of fed water above which a warning comes",
		"ppm N", 100, 1, 1000, nil, habit,
	},
	FeedRefuse: {
		"feed-refuse", "strength of fed water above which it is refused",
		"ppm N", 200, 1, 1000, nil, ourOwn,
	},
	LookDays:    {"look-days", "days between looks for pests and rot", "d", 30, 1, 365, nil, habit},
	LookNewDays: {"look-new-days", "the same in quarantine", "d", 7, 1, 365, nil, habit},
	LookSickDays: {
		"look-sick-days", "days from a trouble or its treatment to the next look",
		"d", 7, 1, 365, nil, "growers' habit; it is the young scale that treatment hits (Mizell 1998, UF/IFAS)",
	},
	LookRotDays: {"look-rot-days", "days between looks at suspected rot", "d", 3, 1, 365, nil, habit},
	QuarantineDays: {
		"quarantine-days", "days newcomers are kept apart",
		"d", 21, 0, 365, nil,
		"sources differ: Colorado State Univ. 3 weeks or more, Clemson Univ. HGIC 6 weeks (both as quoted by others)",
	},
	LooksApart: {
		"looks-apart", "days between the two clean looks that end a quarantine",
		"d", 10, 0, 365, nil, ourOwn,
	},
	SeparatedDays: {
		"separated-days", "days an offset just separated is misted only, for the wound to dry",
		"d", 3, 0, 30, nil, habit,
	},
	OffsetFrom: {
		"offset-from", "size against the parent from which an offset may be separated",
		"%", 33, 5, 150, nil, "San Diego Bromeliad Society, FAQ: a third to a half",
	},
	OffsetTo: {
		"offset-to", "size by which it is ready",
		"%", 50, 5, 150, nil, "San Diego Bromeliad Society, FAQ: a third to a half",
	},
	TapTreated: {
		"tap-treated", "what the waterworks keeps in the tap water; it says so when asked",
		"", 0, 0, 2, []string{"unknown", "chlorine", "chloramine"}, ourOwn,
	},
	WaterRest: {
		"water-rest", "how long tap water is left to stand before plants go in; 0 not at all",
		"h", 12, 0, 168, nil, "growers' habit; no harm of tap chlorine to these plants was found published",
	},
	FillLoads: {
		"fill-loads", "loads that one filling serves",
		"", 2, 1, 50, nil,
		"chosen here: shared water carries rot from plant to plant " +
			"(Stanghellini et al. 2000, Plant Disease 84:1147, in peppers)",
	},
	FillHours: {
		"fill-hours", "from the first plant in to the last load that may go in",
		"h", 2, 0.25, 48, nil, ourOwn,
	},
	WaterCold: {
		"water-cold", "water below this is left to warm",
		"°C", 15, 0, 40, nil, "chosen here; very cold or hot water can spot leaves (Univ. of Arkansas FSA6061)",
	},
	WaterWarm: {
		"water-warm", "water above this is left to cool",
		"°C", 30, 10, 50, nil, "chosen here; very cold or hot water can spot leaves (Univ. of Arkansas FSA6061)",
	},
	DayFrom: {
		"day-from", "hour from which you have time for the tub",
		"h", 8, 0, 24, nil, "chosen here; in the morning, so that plants are dry by night: growers' habit",
	},
	DayUntil: {"day-until", "hour by which you are done", "h", 18, 0, 24, nil, ourOwn},
	NightIn:  {"night-in", "hour at which a load for the night goes in", "h", 20, 12, 24, nil, ourOwn},
	NightOut: {"night-out", "hour of the morning after at which it comes out", "h", 6, 0, 14, nil, ourOwn},
	DayLoads: {
		"day-loads",
		"loads before the night; newcomers, suspects, the sick and the fed come on top; 0 as many as find time",
		"", 8, 0, 50, nil, ourOwn,
	},
	LoadPlants: {
		"load-plants", "plants in a load, at least; newcomers, suspects, the sick and the fed may be fewer",
		"", 5, 1, 50, nil, ourOwn,
	},
	LoadShare: {
		"load-share", "share of its vessel that a load takes, at least; the smallest vessel is free of it",
		"%", 33, 0, 90, nil, ourOwn,
	},
	Rinse: {"rinse", "emptying and rinsing a vessel before it is filled", "min", 2, 0, 60, nil, ourOwn},
	TapFlow: {
		"tap-flow", "water from the tap; time a bucket of 10 L",
		"L/min", 10, 0.5, 100, nil, ourOwn,
	},
	Taps: {"taps", "taps that can fill vessels at once", "", 1, 1, 5, nil, ourOwn},
	FillStands: {
		"fill-stands",
		"which fills of tap water stand for water-rest before plants go in: the day's first, " +
			"filled the evening before, or every",
		"", 0, 0, 1, []string{"first", "every"}, ourOwn,
	},
	SoakMon: {"soak-mon", "hours for soaking on Mondays; 0 none", "h", 2, 0, 16, nil, ourOwn},
	SoakTue: {"soak-tue", "the same on Tuesdays", "h", 2, 0, 16, nil, ourOwn},
	SoakWed: {"soak-wed", "the same on Wednesdays", "h", 2, 0, 16, nil, ourOwn},
	SoakThu: {"soak-thu", "the same on Thursdays", "h", 2, 0, 16, nil, ourOwn},
	SoakFri: {"soak-fri", "the same on Fridays", "h", 2, 0, 16, nil, ourOwn},
	SoakSat: {"soak-sat", "the same on Saturdays", "h", 5, 0, 16, nil, ourOwn},
	SoakSun: {"soak-sun", "the same on Sundays", "h", 5, 0, 16, nil, ourOwn},
	RhythmDays: {
		"rhythm", "days from soak to soak; fewer in dry air",
		"d", 7, 1, 60, nil, "growers' habit; sources differ from 2 or 3 times a week to once",
	},
	RhythmSlow: {"rhythm-slow", "the same for xeric and fuzzy plants", "d", 12, 1, 90, nil, habit},
	RescueTarget: {
		"rescue-target", "share of its water that a soak brings back to a plant seen thirsty",
		"%", 99, 80, 99.9, nil, ourOwn,
	},
	Shortest: {
		"shortest", "shortest soak worth the handling; half the longest where that is less",
		"min", 10, 1, 120, nil, habit,
	},
	MostRoutine: {"most-routine", "longest soak with nothing seen", "min", 180, 1, 720, nil, habit},
	MostWispy:   {"most-wispy", "the same for thin leaves", "min", 240, 1, 720, nil, habit},
	MostLate: {
		"most-late", "the same for a mesic leaf half as long again without as its rhythm",
		"min", 240, 1, 720, nil, habit,
	},
	MostRescue: {
		"most-lifting", "longest soak where edges lift; of an intermediate leaf, also in a deep channel or with many brown tips",
		"min", 240, 1, 720, nil, habit,
	},
	MostUnseen: {
		"most-unseen", "longest soak with nothing seen, where a plant is badly dry or its last soak is not known",
		"min", 120, 1, 720, nil, ourOwn,
	},
	RoutineBulbous: {
		"most-bulbous", "longest soak for a bulbous plant with nothing seen",
		"min", 30, 1, 1440, nil, habit,
	},
	LiftingMesic: {
		"lifting-mesic", "shortest soak where edges lift, mesic leaf",
		"min", 120, 1, 720, nil, habit,
	},
	LiftingIntermediate: {"lifting-intermediate", "the same, intermediate leaf", "min", 90, 1, 720, nil, habit},
	LiftingWispy:        {"lifting-wispy", "the same, thin leaves", "min", 120, 1, 720, nil, habit},
	LiftingXeric:        {"lifting-xeric", "the same, xeric leaf", "min", 30, 1, 720, nil, habit},
	LiftingBulbous:      {"lifting-bulbous", "the same, bulbous", "min", 30, 1, 720, nil, habit},
	DeepMesic: {
		"channel-mesic", "shortest soak for a deep channel or many brown new tips, mesic leaf",
		"min", 180, 1, 720, nil, habit,
	},
	DeepIntermediate: {"channel-intermediate", "the same, intermediate leaf", "min", 150, 1, 720, nil, habit},
	DeepWispy:        {"channel-wispy", "the same, thin leaves", "min", 180, 1, 720, nil, habit},
	DeepXeric:        {"channel-xeric", "the same, xeric leaf", "min", 45, 1, 720, nil, habit},
	DeepBulbous:      {"channel-bulbous", "the same, bulbous", "min", 60, 1, 720, nil, habit},
	VolumeUnit: {
		"volume", "unit for water; gal is the US gallon",
		"", 0, 0, 1, []string{"L", "gal"}, ourOwn,
	},
	ScaleStep: {
		"scale-step", "smallest step that the scale shows",
		"g", 0.1, 0.01, 10, nil, "what kitchen scales for spices show; read it off yours",
	},
	WetPast: {
		"wet-past",
		"how long after it was expected to be dry, here and with its company, " +
			"a plant is out too long; never before wet-limit",
		"h", 1, 0, 48, nil,
		"chosen here; no source was found for the trade's 4 hours, nor in which room they hold",
	},
}
