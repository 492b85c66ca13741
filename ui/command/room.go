package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/paper"
	"tubside/ui/show"

	"github.com/spf13/cobra"
)

// usualDays is how far back the room is drawn when nobody says: a
// month.
const usualDays = 30

// seasonMonths is how far back the season view goes: this month a year
// ago stands beside this one.
const seasonMonths = 12

func (r *run) room() *cobra.Command {
	days := usualDays
	c := &cobra.Command{
		Use:   "room",
		Short: "the room's air: now, day by day, and through the seasons",
		Long: `The room's air as it was read: now, day by day, and month by month, and how
thirsty it is beside an earlier month. Readings come from: tubside enter reading,
or from a logging hygrometer's file: tubside room import`,
		Args:    nothing,
		Example: "  tubside room --days 30\n  tubside room --json",
		RunE: func(*cobra.Command, []string) error {
			if days < 1 || days > mostRoomDays {
				return misread(fmt.Errorf("room: --days takes 1 to %d", mostRoomDays))
			}
			return r.peek(func(b *model.Book) error { return r.sayRoom(b, days) })
		},
	}
	c.Flags().IntVar(&days, "days", usualDays, "how many days back to draw")
	c.AddCommand(r.importLog())
	return c
}

// mostRoomDays bounds --days: ten years.
const mostRoomDays = 3660

// roomPast is what the room command tells.
type roomPast struct {
	now      estimate.RoomAir
	days     []estimate.AirSpell
	months   []estimate.AirSpell
	shelves  []estimate.Shelf      // that dry plants out faster or slower, or seem to
	compared *estimate.AirCompared // nil where the readings do not allow it
}

func (r *run) roomPast(b *model.Book, days int) roomPast {
	now := r.now()
	keeper := r.keeper(b)
	p := roomPast{now: advice.Look(keeper, now).Air}
	p.shelves = slices.DeleteFunc(keeper.Shelves(), func(s estimate.Shelf) bool { return s.Set == 1 && !s.Suggest })
	y, m, d := now.AddDate(0, 0, 1-days).Date()
	p.days = estimate.AirDays(b, time.Date(y, m, d, 0, 0, 0, 0, now.Location()), now.Add(time.Second))
	p.months = estimate.AirMonths(estimate.AirDays(b,
		time.Date(now.Year(), now.Month()-seasonMonths, 1, 0, 0, 0, 0, now.Location()), now.Add(time.Second)))
	if c, ok := estimate.CompareAir(b, now); ok {
		p.compared = &c
	}
	return p
}

func (r *run) sayRoom(b *model.Book, days int) error {
	p := r.roomPast(b, days)
	if r.json {
		return r.inJSON(answerRoom(p))
	}
	lines := []string{r.roomNow(p.now, b)}
	if p.compared != nil {
		lines = append(lines, show.AirCompared(*p.compared)+": "+show.AirInterval(*p.compared))
	}
	if len(p.days) == 0 {
		lines = append(lines, "no readings in these "+show.Count(days,
			"day")+": enter some, or read in a logger's file")
	}
	text := r.folded(strings.Join(lines, "\n")) + "\n" + roomCharts(p.days, r.now(), b, r.width())
	if len(p.months) > 0 {
		text += "\n" + r.text(monthTable(p.months, b.Rules()))
	}
	if len(p.shelves) > 0 {
		text += "\n" + r.text(shelfTable(p.shelves))
	}
	return r.print(text)
}

// roomNow is the room as it is taken to be now.
func (r *run) roomNow(a estimate.RoomAir, b *model.Book) string {
	read := "assumed: no reading"
	if !a.ReadAt.IsZero() {
		read = "read " + show.Duration(r.now().Sub(a.ReadAt)) + " ago"
	}
	return fmt.Sprintf("now %s, %s humidity, %s air, %s (%s), %s", show.Temp(a.TempC, b.Rules()), show.Humidity(a.RH),
		show.AirZone(a.DeficitKPa), show.Deficit(a.DeficitKPa), read, show.Fan(a.Fan))
}

// monthTable is the season view.
func monthTable(months []estimate.AirSpell, rules model.Rules) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{
		{Head: "month"}, {Head: "days", Right: true}, {Head: "temperature", Right: true},
		{Head: "from–to", Right: true},
		{Head: "humidity", Right: true}, {Head: "from–to", Right: true}, {Head: "dry air", Right: true}, {Head: ""},
	}}
	most := 0.0
	for _, m := range months {
		most = max(most, m.Deficit.Mean)
	}
	for _, m := range months {
		temp := inUnit(m.TempC, rules)
		t.Add(fmt.Sprintf("%s %d", m.First.Month().String()[:3], m.First.Year()), fmt.Sprint(m.Days),
			show.Temp(m.TempC.Mean, rules), fmt.Sprintf("%.0f–%.0f", temp.Min, temp.Max),
			show.Humidity(m.RH.Mean), fmt.Sprintf("%.0f–%.0f", m.RH.Min,
				m.RH.Max), show.Deficit(m.Deficit.Mean), meter(m.Deficit.Mean/most))
	}
	return t
}

// shelfTable is the shelves that are not as the others, as set and as their
// plants show.
func shelfTable(shelves []estimate.Shelf) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{
		{Head: "shelf", Least: 6}, {Head: "plants", Right: true}, {Head: "set", Right: true},
		{Head: "seen beside it", Right: true}, {Head: "range"}, {Head: "", Least: 20},
	}}
	for _, s := range shelves {
		advice := ""
		if s.Suggest {
			advice = fmt.Sprintf("tubside enter shelf %q %.2g", s.Name, s.Set*s.Factor)
		}
		t.Add(s.Name, fmt.Sprint(s.Plants), fmt.Sprintf("%.2gx", s.Set), fmt.Sprintf("%.2fx", s.Factor),
			fmt.Sprintf("%.2f–%.2f", s.Low, s.High), advice)
	}
	return t
}

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
		Now: roomNowAnswer{round(p.now.TempC, 2), round(p.now.RH, 1), round(p.now.DeficitKPa, 4),
			when(p.now.ReadAt), p.now.Fan},
		Days:    answerSpells(p.days),
		Months:  answerSpells(p.months),
		Shelves: []shelfAnswer{},
	}
	for _, s := range p.shelves {
		a.Shelves = append(a.Shelves, shelfAnswer{s.Name, s.Plants, round(s.Set, 3), round(s.Factor, 3),
			round(s.Low, 3), round(s.High, 3), s.Suggest})
	}
	if c := p.compared; c != nil {
		a.Compared = &comparedAnswer{c.Then.First.String()[:len("2006-01")], round(c.Ratio, 3),
			round(c.Now.Deficit.Mean, 4), round(c.Then.Deficit.Mean, 4), show.AirCompared(*c)}
	}
	return a
}

func answerSpells(spells []estimate.AirSpell) []spellAnswer {
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
