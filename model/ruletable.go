package model

const (
	habit  = "growers' habit"
	ourOwn = "chosen here"

	// The trade counts 15 s a plant in and 20 s out of the water, a minute in all.
	habitMinute = "growers count a minute a plant: 15 s in, 20 s out and laid down; the rest of it is shared out by guess"
)

// LimitTable describes every house rule, indexed by [Limit].
var LimitTable = [limitCount]LimitInfo{
	TempUnit: {"temperature", "degrees Celsius or Fahrenheit", "", 0, 0, 1, []string{"c", "f"}, ourOwn},
	DryByHour: {
		"dry-by", "hour of the evening by which every plant should be dry",
		"h", 21, 12, 24, nil,
		"growers' habit; wet leaves cannot take in air at night (Benzing, Seemann & Renfrow 1978)",
	},
	Notify: {
		"notify", "how you are called when a load is due",
		"", 1, 0, 3, []string{"off", "bell", "osc9", "osc777"}, ourOwn,
	},
	Paper: {
		"paper", "background of your terminal; auto asks the terminal",
		"", 0, 0, 2, []string{"auto", "dark", "light"}, ourOwn,
	},
	PullItself: {
		"pull-itself", "pull a plant by itself when you look at it, from this soak or curl on",
		"", 0, 0, 7, []string{"off", "dip", "short", "long", "deep", "curl-1", "curl-2", "curl-3"}, ourOwn,
	},
	NumberPad: {
		"number-pad", "work the board from a number pad alone",
		"", 0, 0, 1, []string{"off", "on"}, ourOwn,
	},
	DefaultTemp: {
		"air-temp", "room temperature to assume when you have not entered one",
		"°C", 21, 0, 45, nil, ourOwn,
	},
	DefaultRH:   {"air-rh", "room humidity to assume when you have not entered one", "%", 40, 5, 95, nil, ourOwn},
	ReadingDays: {"reading-days", "how long a reading of the air counts", "d", 30, 1, 365, nil, ourOwn},
	RoomVolume: {
		"room-volume", "size of the room the plants dry in",
		"m³", 40, 5, 2000, nil, "chosen here: a 16 m² room",
	},
	AirChanges: {
		"air-changes", "how often an hour the drying room gets fresh air, all shut",
		"/h", 0.44, 0.05, 20, nil, "Kent, Handegord & Robson, ASHRAE Transactions 72: Canadian houses in winter",
	},
	AirChangesDoor: {
		"air-changes-door", "how often an hour the drying room gets fresh air, its door open",
		"/h", 2.5, 0.05, 60, nil, "a guess, a third of what a doorway passes at 1 K between the rooms",
	},
	AirChangesOpen: {
		"air-changes-open", "how often an hour the drying room gets fresh air, a window open",
		"/h", 3, 0.05, 60, nil, ourOwn,
	},
	AirChangesExtractor: {
		"air-changes-extractor", "how often an hour the drying room gets fresh air, the extractor on",
		"/h", 2, 0.05, 60, nil, "ASHRAE 62.2: a bathroom fan of 50 cfm (85 m³/h), from memory, in 40 m³",
	},
	SoakTarget: {
		"soak-target", "how full of water a routine soak makes a plant",
		"%", 96, 80, 99, nil, ourOwn,
	},
	SoakFrom: {
		"soak-from", "thirst at which a plant is soaked whatever the day",
		"%", 12, 2, 40, nil, ourOwn,
	},
	RestDays: {"rest-days", "days between soaks for a plant that shows no thirst", "d", 3, 0, 30, nil, habit},
	MistDays: {
		"mist-days", "days after a soak from which a plant that needs none is misted",
		"d", 4, 0, 60, nil, habit,
	},
	DipFrom:   {"dip-from", "no longer read", "min", 2, 1, 720, nil, habit},
	DipTo:     {"dip-to", "a soak of up to so long is called Dip", "min", 20, 1, 720, nil, habit},
	ShortFrom: {"short-from", "no longer read", "min", 20, 1, 720, nil, habit},
	ShortTo:   {"short-to", "a soak of up to so long is called Short", "min", 60, 1, 720, nil, habit},
	LongFrom:  {"long-from", "no longer read", "min", 60, 1, 720, nil, habit},
	LongTo: {
		"long-to", "a soak of up to so long is called Long; a longer one is Deep",
		"min", 180, 1, 720, nil, habit,
	},
	DeepFrom: {"deep-from", "no longer read", "min", 180, 1, 720, nil, habit},
	DeepTo:   {"deep-to", "no longer read", "min", 240, 1, 720, nil, habit},
	OvernightFrom: {
		"overnight-from", "shortest soak overnight, for leaves rolled shut; or soak twice, a day apart",
		"min", 480, 1, 1440, nil, "growers differ: overnight, or never and twice a day apart instead",
	},
	OvernightTo: {"overnight-to", "longest soak overnight", "min", 720, 1, 1440, nil, habit},
	CapBulbous: {
		"cap-bulbous", "longest soak for a bulbous plant that looks thirsty; some growers give a few hours",
		"min", 90, 1, 1440, nil, habit,
	},
	CapFuzzy:   {"cap-fuzzy", "longest soak for a fuzzy plant", "min", 10, 1, 1440, nil, habit},
	CapTank:    {"cap-tank", "longest soak for a tank plant", "min", 20, 1, 1440, nil, habit},
	CapPendent: {"cap-pendent", "longest soak for a pendent mass", "min", 60, 1, 1440, nil, habit},
	CapXeric:   {"cap-xeric", "longest soak for any xeric leaf", "min", 60, 1, 1440, nil, habit},
	WetLimit: {
		"wet-limit", "hours a plant may always stay wet before it counts as out too long",
		"h", 4, 0.5, 48, nil, habit,
	},
	WetLimitFuzzy: {"wet-limit-fuzzy", "hours a fuzzy plant may always stay wet", "h", 2, 0.5, 48, nil, habit},
	WetLimitClump: {"wet-limit-clump", "hours a clump or a tray may always stay wet", "h", 6, 0.5, 48, nil, habit},
	HandsPull: {
		"hands-pull", "taking one plant from its home to the vessel",
		"s", 10, 0, 300, nil, habitMinute,
	},
	HandsIn:   {"hands-in", "putting one plant into the water", "s", 15, 1, 300, nil, habitMinute},
	HandsOut:  {"hands-out", "taking one plant out and shaking it", "s", 12, 1, 300, nil, habitMinute},
	HandsLay:  {"hands-lay", "laying one plant down to dry", "s", 8, 0, 300, nil, habitMinute},
	HandsHang: {"hands-hang", "hanging one plant back", "s", 15, 0, 300, nil, habitMinute},
	MistMesic: {
		"mist-mesic", "days between mistings for thin and mesic leaves, in air of air-temp and air-rh",
		"d", 2, 0.5, 60, nil, habit,
	},
	MistIntermediate: {
		"mist-intermediate", "days between mistings for intermediate leaves, in air of air-temp and air-rh",
		"d", 3, 0.5, 60, nil, habit,
	},
	MistXeric: {
		"mist-xeric", "days between mistings for xeric leaves, in air of air-temp and air-rh",
		"d", 7, 0.5, 60, nil, habit,
	},
	MistFuzzyRH: {
		"mist-fuzzy-rh", "below this room humidity fuzzy plants are misted too",
		"%", 25, 0, 100, nil, habit,
	},
	FeedDays: {
		"feed-days", "days between feeds",
		"d", 30, 1, 365, nil,
		"growers' habit; a trial with T. kautskyi fed once a month (Rev. Bras. Hort. Orn., Jaboticabal 2003-04)",
	},
	FeedDaysSlow: {
		"feed-days-slow", "days between feeds for slow growers with xeric leaves",
		"d", 60, 1, 365, nil, habit,
	},
	FeedFromMonth: {
		"feed-from-month", "month in which feeding begins",
		"", 3, 1, 12, nil, "growers' habit, for the northern half of the world",
	},
	FeedToMonth: {
		"feed-to-month", "month in which feeding ends",
		"", 10, 1, 12, nil, "growers' habit, for the northern half of the world",
	},
	FeedWinter: {
		"feed-winter", "feeding in the other months: off, half as often, or on for plants under lamps",
		"", 0, 0, 2, []string{"off", "half", "on"}, "growers' habit; the same trial did not feed in winter",
	},
	FeedAfterDays: {
		"feed-after-days", "days without feed for a plant that is new, just released or just separated",
		"d", 30, 0, 365, nil, habit,
	},
	FeedWarn: {
		"feed-warn", "strength of feed above which you are warned",
		"ppm N", 100, 1, 1000, nil, habit,
	},
	FeedRefuse: {
		"feed-refuse", "strength of feed that is refused",
		"ppm N", 200, 1, 1000, nil, ourOwn,
	},
	LookDays:    {"look-days", "days between looks for pests and rot", "d", 30, 1, 365, nil, habit},
	LookNewDays: {"look-new-days", "days between looks at a plant in quarantine", "d", 7, 1, 365, nil, habit},
	LookSickDays: {
		"look-sick-days", "days from a trouble or its treatment to the next look",
		"d", 7, 1, 365, nil, "growers' habit; it is the young scale that treatment hits (Mizell 1998, UF/IFAS)",
	},
	LookRotDays: {"look-rot-days", "days between looks at suspected rot", "d", 3, 1, 365, nil, habit},
	QuarantineDays: {
		"quarantine-days", "days a new plant is kept apart",
		"d", 21, 0, 365, nil,
		"sources differ: Colorado State Univ. 3 weeks or more, Clemson Univ. HGIC 6 weeks (both as quoted by others)",
	},
	LooksApart: {
		"looks-apart", "days between the two clean looks that end a quarantine",
		"d", 10, 0, 365, nil, ourOwn,
	},
	SeparatedDays: {
		"separated-days", "days a fresh offset is only misted, so that its wound dries",
		"d", 3, 0, 30, nil, habit,
	},
	OffsetFrom: {
		"offset-from", "size against its parent from which an offset may come off",
		"%", 33, 5, 150, nil, "San Diego Bromeliad Society, FAQ: a third to a half",
	},
	OffsetTo: {
		"offset-to", "size against its parent at which an offset should come off",
		"%", 50, 5, 150, nil, "San Diego Bromeliad Society, FAQ: a third to a half",
	},
	TapTreated: {
		"tap-treated", "what your waterworks puts in the tap water; ask, and they say",
		"", 0, 0, 2, []string{"unknown", "chlorine", "chloramine"}, ourOwn,
	},
	WaterRest: {
		"water-rest", "hours tap water stands before plants go in; 0 for none",
		"h", 12, 0, 168, nil, "growers' habit; no harm of tap chlorine to these plants was found published",
	},
	FillLoads: {
		"fill-loads", "loads one filling of a vessel serves",
		"", 2, 1, 50, nil,
		"chosen here: shared water carries rot from plant to plant " +
			"(Stanghellini et al. 2000, Plant Disease 84:1147, in peppers)",
	},
	FillHours: {
		"fill-hours", "hours from the first plant in to the last load in the same water",
		"h", 2, 0.25, 48, nil, ourOwn,
	},
	WaterCold: {
		"water-cold", "colder water is left to warm up first",
		"°C", 15, 0, 40, nil, "chosen here; very cold or hot water can spot leaves (Univ. of Arkansas FSA6061)",
	},
	WaterWarm: {
		"water-warm", "warmer water is left to cool first",
		"°C", 30, 10, 50, nil, "chosen here; very cold or hot water can spot leaves (Univ. of Arkansas FSA6061)",
	},
	DayFrom: {
		"day-from", "hour from which you have time for the tub",
		"h", 8, 0, 24, nil, "chosen here; in the morning, so that plants are dry by night: growers' habit",
	},
	DayUntil: {"day-until", "hour by which you want to be done", "h", 18, 0, 24, nil, ourOwn},
	NightIn:  {"night-in", "hour at which an overnight load goes in", "h", 20, 12, 24, nil, ourOwn},
	NightOut: {
		"night-out", "hour of the next morning at which an overnight load comes out",
		"h", 6, 0, 14, nil, ourOwn,
	},
	DayLoads: {
		"day-loads",
		"most loads in a day, not counting the overnight one, new, sick and fed plants; 0 for no limit",
		"", 8, 0, 50, nil, ourOwn,
	},
	LoadPlants: {
		"load-plants", "fewest plants worth a load; new, sick and fed plants may be fewer",
		"", 5, 1, 50, nil, ourOwn,
	},
	LoadShare: {
		"load-share", "share of its vessel a load should fill; the smallest of several is exempt",
		"%", 33, 0, 90, nil, ourOwn,
	},
	Rinse: {"rinse", "time to empty and rinse a vessel before you fill it", "min", 2, 0, 60, nil, ourOwn},
	TapFlow: {
		"tap-flow", "how fast your tap runs; time a 10 L bucket",
		"L/min", 10, 0.5, 100, nil, ourOwn,
	},
	Taps: {"taps", "taps you can fill from at once", "", 1, 1, 5, nil, ourOwn},
	FillStands: {
		"fill-stands",
		"which tap water stands first: only the first filling of the day, from the evening before, or every one",
		"", 0, 0, 1, []string{"first", "every"}, ourOwn,
	},
	SoakMon: {"soak-mon", "hours you have for soaking on Mondays; 0 for none", "h", 2, 0, 16, nil, ourOwn},
	SoakTue: {"soak-tue", "hours you have for soaking on Tuesdays; 0 for none", "h", 2, 0, 16, nil, ourOwn},
	SoakWed: {"soak-wed", "hours you have for soaking on Wednesdays; 0 for none", "h", 2, 0, 16, nil, ourOwn},
	SoakThu: {"soak-thu", "hours you have for soaking on Thursdays; 0 for none", "h", 2, 0, 16, nil, ourOwn},
	SoakFri: {"soak-fri", "hours you have for soaking on Fridays; 0 for none", "h", 2, 0, 16, nil, ourOwn},
	SoakSat: {"soak-sat", "hours you have for soaking on Saturdays; 0 for none", "h", 5, 0, 16, nil, ourOwn},
	SoakSun: {"soak-sun", "hours you have for soaking on Sundays; 0 for none", "h", 5, 0, 16, nil, ourOwn},
	RhythmDays: {
		"rhythm", "days from one soak to the next; fewer when the air is dry",
		"d", 7, 1, 60, nil, "growers' habit; sources differ from 2 or 3 times a week to once",
	},
	RhythmSlow: {
		"rhythm-slow", "days from one soak to the next for xeric and fuzzy plants",
		"d", 12, 1, 90, nil, habit,
	},
	RescueTarget: {
		"rescue-target", "how full of water a soak makes a plant that looks thirsty",
		"%", 99, 80, 99.9, nil, ourOwn,
	},
	Shortest: {
		"shortest", "shortest soak worth the trouble; half the longest where that is less",
		"min", 10, 1, 120, nil, habit,
	},
	MostRoutine: {"most-routine", "longest soak for a plant that looks fine", "min", 180, 1, 720, nil, habit},
	MostWispy:   {"most-wispy", "longest soak for thin leaves that look fine", "min", 240, 1, 720, nil, habit},
	MostLate: {
		"most-late", "longest soak for a mesic leaf that is half as late again as its usual days",
		"min", 240, 1, 720, nil, habit,
	},
	MostRescue: {
		"most-lifting", "longest soak where edges lift; for intermediate leaves also with a deep channel or many brown tips",
		"min", 240, 1, 720, nil, habit,
	},
	MostUnseen: {
		"most-unseen", "longest soak for a plant nobody has looked at that is badly dry or has no last soak",
		"min", 120, 1, 720, nil, ourOwn,
	},
	RoutineBulbous: {
		"most-bulbous", "longest soak for a bulbous plant that looks fine",
		"min", 30, 1, 1440, nil, habit,
	},
	LiftingMesic: {
		"lifting-mesic", "shortest soak where edges lift, for mesic leaves",
		"min", 120, 1, 720, nil, habit,
	},
	LiftingIntermediate: {
		"lifting-intermediate", "shortest soak where edges lift, for intermediate leaves",
		"min", 90, 1, 720, nil, habit,
	},
	LiftingWispy: {
		"lifting-wispy", "shortest soak where edges lift, for thin leaves",
		"min", 120, 1, 720, nil, habit,
	},
	LiftingXeric: {
		"lifting-xeric", "shortest soak where edges lift, for xeric leaves",
		"min", 30, 1, 720, nil, habit,
	},
	LiftingBulbous: {
		"lifting-bulbous", "shortest soak where edges lift, for bulbous plants",
		"min", 30, 1, 720, nil, habit,
	},
	DeepMesic: {
		"channel-mesic", "shortest soak for a deep channel or many brown new tips, for mesic leaves",
		"min", 180, 1, 720, nil, habit,
	},
	DeepIntermediate: {
		"channel-intermediate", "shortest soak for a deep channel or many brown new tips, for intermediate leaves",
		"min", 150, 1, 720, nil, habit,
	},
	DeepWispy: {
		"channel-wispy", "shortest soak for a deep channel or many brown new tips, for thin leaves",
		"min", 180, 1, 720, nil, habit,
	},
	DeepXeric: {
		"channel-xeric", "shortest soak for a deep channel or many brown new tips, for xeric leaves",
		"min", 45, 1, 720, nil, habit,
	},
	DeepBulbous: {
		"channel-bulbous", "shortest soak for a deep channel or many brown new tips, for bulbous plants",
		"min", 60, 1, 720, nil, habit,
	},
	VolumeUnit: {
		"volume", "litres or US gallons",
		"", 0, 0, 1, []string{"L", "gal"}, ourOwn,
	},
	ScaleStep: {
		"scale-step", "smallest step your scale shows",
		"g", 0.1, 0.01, 10, nil, "what kitchen scales for spices show; read it off yours",
	},
	WetPast: {
		"wet-past",
		"how long past the hour it should be dry a plant is out too long; never before wet-limit",
		"h", 1, 0, 48, nil,
		"chosen here; no source was found for the trade's 4 hours, nor in which room they hold",
	},
}
