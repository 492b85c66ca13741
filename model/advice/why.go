package advice

import (
	"tubside/model"
)

// because adds a reason.
func (v *verdict) because(c Code, n ...float64) { v.Reasons = append(v.Reasons, because(c, n...)) }

func (v *verdict) becauseOf(name string, c Code, n ...float64) {
	v.Reasons = append(v.Reasons, about(name, because(c, n...)))
}

// thirstSeen reports whether signs of thirst were seen since the soak.
func (v *verdict) thirstSeen() bool {
	return v.freshLook() && (v.row.Signs.Curl > 0 || v.row.Signs.Tips > 0)
}

// history is what was seen, and how long ago the soak was.
func (v *verdict) history() {
	if v.thirstSeen() {
		v.because(ThirstSeen)
	}
	if v.DaysSince < 0 {
		v.because(NeverSoaked)
		return
	}
	v.because(SinceSoak, v.DaysSince)
}

// away is why nothing is asked of a plant off its shelf.
func (v *verdict) away() {
	switch v.row.State {
	case model.Soaking:
		v.because(InWater, v.now.Sub(v.row.In).Minutes())
	case model.Drying:
		v.because(OutDripping, v.now.Sub(v.row.Out).Minutes())
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
	if v.DaysSince >= 0 && v.DaysSince < v.rules[model.RestDays] {
		v.because(NotDriedYet)
	}
}

func (v *verdict) bloom() {
	if v.Thirst() < badlyDry && !(v.freshLook() && v.row.Signs.Curl >= 2) {
		v.because(BloomMist)
		v.history()
		return
	}
	v.because(BloomBadlyDry)
	v.history()
	v.because(FlowerUp)
}

// gone is the thirst with its range, once.
func (v *verdict) gone() {
	if !v.saidGone {
		v.because(WaterGone, v.Thirst(), 1-v.High, 1-v.Low)
	}
	v.saidGone = true
}

// terms opens the thirst into its terms: the air, the time in it, the rate
// multiplier and where that was learned, and what was assumed.
func (v *verdict) terms() {
	v.gone()
	readDays := -1.0
	if !v.room.ReadAt.IsZero() {
		readDays = v.now.Sub(v.room.ReadAt).Hours() / 24
	}
	v.because(RoomIs, v.room.TempC, v.room.RH, v.room.DeficitKPa, readDays)
	if !v.plant.Wet && v.now.After(v.plant.DrySince) {
		past := v.keeper.PastAir(v.plant.DrySince, v.now)
		v.because(AirSinceDry, past.Deficit, float64(past.Readings))
	}
	v.loss()
	if f := v.plant.OnShelf; f != 1 {
		v.becauseOf(v.plant.Shelf, ShelfDries, f)
	}
	if w := v.row.Weight; v.plant.WetGrams > 0 && w.Grams > 0 && !w.At.Before(v.row.LastSoak()) {
		v.because(Weighed, w.Grams, v.plant.WetGrams)
	}
	if v.full > 0 && v.row.Rot.IsZero() {
		v.because(MinutesBack, v.full, v.rules[model.SoakTarget]/100)
	}
	if v.row.Assumed.Any() || v.row.Form == "" || v.row.Leaf == "" || v.row.Size == 0 {
		v.because(PartlyAssumed)
	}
}

// loss is how fast the plant loses water, and where that was learned.
func (v *verdict) loss() {
	p, _ := v.keeper.LossPace(v.row.ID)
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
	if v.freshLook() && v.row.Signs.Shift == model.StaysPale {
		v.because(StaysPale)
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
