package command

import (
	"time"

	"tubside/model"
	"tubside/model/care"
)

// roomAnswer is the room's air.
type roomAnswer struct {
	Now      roomNowAnswer   `json:"now"`
	Compared *comparedAnswer `json:"compared"` // null where the readings do not allow it
	Days     []spellAnswer   `json:"days"`
	Months   []spellAnswer   `json:"months"`
	Shelves  []shelfAnswer   `json:"shelves"` // that are not as the others
}

// shelfAnswer is how many times as fast plants dry out on a shelf: as set by
// hand, and what their paces come to beside that.
type shelfAnswer struct {
	Name    string  `json:"name"`
	Plants  int     `json:"plants"`
	Set     float64 `json:"set"`
	Factor  float64 `json:"factor"`
	Low     float64 `json:"factor_low"`
	High    float64 `json:"factor_high"`
	Suggest bool    `json:"suggest"`
}

// roomNowAnswer is the room as it is taken to be now. ReadAt is null where the
// house rules' default stands.
type roomNowAnswer struct {
	TempC   float64    `json:"temp_c"`
	RH      float64    `json:"rh"`
	Deficit float64    `json:"deficit_kpa"`
	ReadAt  *time.Time `json:"read_at"`
	Fan     model.Fan  `json:"fan"`
}

// comparedAnswer holds the last days against an earlier month.
type comparedAnswer struct {
	Month string  `json:"month"`
	Ratio float64 `json:"ratio"`
	Now   float64 `json:"deficit_now_kpa"`
	Then  float64 `json:"deficit_then_kpa"`
	Words string  `json:"words"`
}

// spellAnswer is the air of a day or a month.
type spellAnswer struct {
	Day        string  `json:"day"` // of a month, the first with readings
	DaysRead   int     `json:"days_read"`
	Readings   int     `json:"readings"`
	TempC      float64 `json:"temp_c"`
	TempMin    float64 `json:"temp_min_c"`
	TempMax    float64 `json:"temp_max_c"`
	RH         float64 `json:"rh"`
	RHMin      float64 `json:"rh_min"`
	RHMax      float64 `json:"rh_max"`
	Deficit    float64 `json:"deficit_kpa"`
	DeficitMin float64 `json:"deficit_min_kpa"`
	DeficitMax float64 `json:"deficit_max_kpa"`
}

func answerRoom(p roomPast) roomAnswer {
	a := roomAnswer{
		Now:     roomNowAnswer{round(p.now.TempC, 2), round(p.now.RH, 1), round(p.now.DeficitKPa, 4), when(p.now.ReadAt), p.now.Fan},
		Days:    answerSpells(p.days),
		Months:  answerSpells(p.months),
		Shelves: []shelfAnswer{},
	}
	for _, s := range p.shelves {
		a.Shelves = append(a.Shelves, shelfAnswer{s.Name, s.Plants, round(s.Set, 3), round(s.Factor, 3), round(s.Low, 3), round(s.High, 3), s.Suggest})
	}
	if c := p.compared; c != nil {
		a.Compared = &comparedAnswer{c.Then.First.String()[:len("2006-01")], round(c.Ratio, 3), round(c.Now.Deficit.Mean, 4), round(c.Then.Deficit.Mean, 4), c.Words()}
	}
	return a
}

func answerSpells(spells []care.AirSpell) []spellAnswer {
	all := []spellAnswer{}
	for _, s := range spells {
		all = append(all, spellAnswer{
			s.First.String(), s.Days, s.Readings,
			round(s.TempC.Mean, 2), round(s.TempC.Min, 2), round(s.TempC.Max, 2),
			round(s.RH.Mean, 1), round(s.RH.Min, 1), round(s.RH.Max, 1),
			round(s.Deficit.Mean, 4), round(s.Deficit.Min, 4), round(s.Deficit.Max, 4),
		})
	}
	return all
}
