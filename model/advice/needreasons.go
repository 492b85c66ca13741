package advice

import (
	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/model/soak"
)

// because adds a reason.
func (v *verdict) because(c Code, n ...float64) {
	v.need.Reasons = append(v.need.Reasons, because(c, n...))
}

func (v *verdict) becauseOf(name string, c Code, n ...float64) {
	v.need.Reasons = append(v.need.Reasons, about(name, because(c, n...)))
}

// thirstSeen reports whether signs of thirst were seen since the soak.
func (v *verdict) thirstSeen() bool {
	return v.need.Signs.Curl > 0 || v.need.Signs.Tips > 0
}

// history is what was seen, and how long ago the soak was.
func (v *verdict) history() {
	if v.thirstSeen() {
		v.because(ThirstSeen)
	}
	if v.need.DaysSince < 0 {
		v.because(NeverSoaked)
		return
	}
	v.because(SinceSoak, float64(v.need.DaysSince))
}

// away is why nothing is asked of a plant off its shelf.
func (v *verdict) away() {
	switch v.row.State {
	case model.Soaking:
		v.because(InWater, v.context.now.Sub(v.row.In).Minutes())
	case model.Drying:
		v.because(OutDripping, v.context.now.Sub(v.row.Out).Minutes())
	case model.Dry:
		v.because(ReadyToHang)
	}
}

func (v *verdict) rot() {
	v.because(RotSuspected)
	v.because(RotSince)
	v.history()
	v.because(PressTheBase)
}

func (v *verdict) wetHeart() {
	v.because(StillWet)
	v.history()
	if v.need.DaysSince >= 0 && float64(v.need.DaysSince) < v.context.rules[model.RestDays] {
		v.because(NotDriedYet)
	}
}

// bloom keeps the flower dry, for as long as there is one.
func (v *verdict) bloom() {
	dry := v.need.Thirst() >= badlyDry || v.seen >= deepChannel
	if dry {
		v.because(BloomBadlyDry)
	}
	if AskBloom(v.row, v.context.now) {
		v.need.LookFirst = true
		v.because(StillInBloom)
	}
	if !dry {
		v.because(BloomMist)
		v.history()
		return
	}
	v.casualty()
	v.history()
	v.because(FlowerUp)
}

// mistOnly is a plant that the grower never soaks: how long ago it was soaked is no
// matter, and of the thirst only what was seen.
func (v *verdict) mistOnly() {
	v.need.Band = soak.Mist
	if v.seen >= deepChannel {
		v.because(MistOnlyDry)
	}
	v.because(MistOnly)
	if v.seen < deepChannel && v.mistedLately() {
		v.need.Band = soak.Rest
		v.because(MistedAgo, v.context.now.Sub(v.row.Misted).Minutes())
	}
	if v.thirstSeen() {
		v.because(ThirstSeen)
	}
}

// casualty says that the plant has lost nearly all it can bear to lose.
func (v *verdict) casualty() {
	if v.need.Thirst() > casualty {
		v.because(Casualty, leaf.LethalFrom)
		if v.seen != nothingSeen {
			v.gone()
		}
	}
}

// whyDue is why the plant is due, what was seen first, and what bounds the
// numbers.
func (v *verdict) whyDue(unsure, gone bool) {
	switch {
	case gone && v.seen == nothingSeen:
		v.because(PastMendingSoon, v.need.Thirst(), v.need.To)
	case unsure && v.need.DaysSince < 0 && v.need.Signs.Seen():
		v.because(SoakNotSaid, v.need.To)
	case unsure && v.need.DaysSince < 0:
		v.because(LastSoakUnknown, v.need.To)
	case unsure:
		v.because(FlatThoughDry, v.plant.Eye.Thirst, v.need.To)
	}
	v.casualty()
	switch v.due {
	case bySigns:
		v.history()
		if v.plant.Eye.Says == estimate.LooksDrier {
			v.because(SeenDecides, float64(v.need.Band), v.plant.Eye.Thirst)
		}
	case byWeight:
		v.because(Weighed, v.row.Weight.Grams, v.plant.WetGrams)
	case byThirst:
		v.gone()
		v.because(ThirstAsks, v.context.rules[model.SoakFrom]/100)
	case byRhythm:
		v.history()
		if !v.context.eager && v.need.DaysSince >= 0 {
			v.because(EveryDays, float64(v.rhythm()), float64(v.place.rhythmIn(1, &v.context.rules)))
		}
	}
}

// again is what one soak does not mend.
func (v *verdict) again() {
	switch {
	case v.need.Again:
		v.because(OnceMoreTomorrow)
	case v.seen == rolledShut && !v.place.capped():
		v.because(TwoSoaksApart)
	case v.place == rowTank && v.seen >= deepChannel:
		v.because(FillTheCup)
	}
	if v.place == rowFuzzy && v.seen == rolledShut {
		v.because(ExpectLoss)
	}
}

// doubts is what does not fit together, and asks for another look.
func (v *verdict) doubts() {
	doubt := func(c Code, n ...float64) {
		v.need.LookFirst = true
		v.because(c, n...)
	}
	dark := v.darkLately() && !v.stillWet()
	switch {
	case dark && v.seen >= deepChannel:
		doubt(DarkAndRolled)
	case dark:
		doubt(DarkForLong, float64(v.need.DaysSince))
	}
	if v.row.MistOnly { // mists that nobody wrote down are the likelier cause
		return
	}
	switch eye := v.plant.Eye; {
	case eye.Says != estimate.Agrees && eye.Sure:
		v.because(SeenTwice, eye.Thirst)
	case eye.Says == estimate.LooksDrier:
		doubt(FarDrier)
	case eye.Says == estimate.LooksFuller:
		doubt(FarFuller, eye.Thirst)
	}
	switch scales := v.plant.Scales; scales.Says {
	case estimate.LooksDrier:
		doubt(FarLighter, scales.Thirst)
	case estimate.LooksFuller:
		doubt(FarHeavier, scales.Thirst)
	}
}

// gone is the thirst with its range, once.
func (v *verdict) gone() {
	if !v.saidGone {
		v.because(WaterGone, v.need.Thirst(), 1-v.need.High, 1-v.need.Low)
	}
	v.saidGone = true
}

// terms opens the thirst into its terms: the air, the time in it, the rate
// multiplier and where that was learned, and what was assumed.
func (v *verdict) terms() {
	v.gone()
	readDays := -1.0
	if !v.context.room.ReadAt.IsZero() {
		readDays = v.context.now.Sub(v.context.room.ReadAt).Hours() / 24
	}
	v.because(RoomIs, v.context.room.TempC, v.context.room.RH, v.context.room.DeficitKPa, readDays)
	if !v.plant.Wet && v.context.now.After(v.plant.DrySince) {
		past := v.context.keeper.PastAir(v.plant.DrySince, v.context.now)
		v.because(AirSinceDry, past.Deficit, float64(past.Readings))
	}
	v.loss()
	if f := v.plant.OnShelf; f != 1 {
		v.becauseOf(v.plant.Shelf, ShelfDries, f)
	}
	if v.weighed() && v.due != byWeight {
		v.because(Weighed, v.row.Weight.Grams, v.plant.WetGrams)
	}
	if v.full > 0 && v.need.Band.InWater() {
		v.minutesBack()
	}
	if v.row.Assumed.Any() || v.row.Form == "" || v.row.Leaf == "" || v.row.Size == 0 {
		v.because(PartlyAssumed)
	}
}

// minutesBack says how long the plant takes back its water, most of it or, when
// something was seen, all; and that the grower's rule for what was seen is longer.
func (v *verdict) minutesBack() {
	if v.seen < edgesLift {
		v.because(MinutesBack, v.full, v.context.rules[model.SoakTarget]/100)
		return
	}
	rescue := v.rescue()
	v.because(MinutesBack, rescue, v.context.rules[model.RescueTarget]/100)
	if v.need.From > handy(rescue) {
		v.because(SeenAtLeast, v.need.From)
	}
}

// lossPopulation is how fast the plant loses water, and where that was learned.
func (v *verdict) loss() {
	p, _ := v.context.keeper.LossMultiplier(v.row.ID)
	code := LossFromKin
	switch {
	case p.Own > 0:
		code = LossFromSoaks
	case p.Seen:
		code = LossFromSigns
	}
	v.because(code, p.Median, p.Low, p.High, float64(p.Own))
}

// always is what holds whatever the band.
func (v *verdict) always() {
	if v.need.Signs.Shift == model.StaysPale {
		v.because(StaysPale)
	}
	if !v.need.Band.InWater() && !v.row.State.Away() {
		return
	}
	switch v.row.Form {
	case model.Bulbous:
		v.because(ShakeHard)
	case model.Tank:
		v.because(TipOut)
	case model.Pendent:
		v.because(Wring)
	}
}
