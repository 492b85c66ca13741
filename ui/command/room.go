package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/care"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// usualDays is how far back the room is drawn when nobody says. Our own: a
// month.
const usualDays = 30

// seasonMonths is how far back the season view goes. Our own: this month a year
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
		Args: nothing,
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

// mostRoomDays bounds --days. Our own: ten years.
const mostRoomDays = 3660

// roomPast is what the room command tells.
type roomPast struct {
	now      care.RoomAir
	days     []care.AirSpell
	months   []care.AirSpell
	shelves  []care.Shelf      // that dry plants out faster or slower, or seem to
	compared *care.AirCompared // nil where the readings do not allow it
}

func (r *run) roomPast(b *model.Book, days int) roomPast {
	now := r.now()
	keeper := care.New(b)
	p := roomPast{now: keeper.Look(now).Air}
	p.shelves = slices.DeleteFunc(keeper.Shelves(), func(s care.Shelf) bool { return s.Set == 1 && !s.Suggest })
	y, m, d := now.AddDate(0, 0, 1-days).Date()
	p.days = care.AirDays(b, time.Date(y, m, d, 0, 0, 0, 0, now.Location()), now.Add(time.Second))
	p.months = care.AirMonths(care.AirDays(b, time.Date(now.Year(), now.Month()-seasonMonths, 1, 0, 0, 0, 0, now.Location()), now.Add(time.Second)))
	if c, ok := care.CompareAir(b, now); ok {
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
		lines = append(lines, p.compared.Words()+": "+p.compared.Interval())
	}
	if len(p.days) == 0 {
		lines = append(lines, "no readings in these "+show.Count(days, "day")+": enter some, or read in a logger's file")
	}
	text := strings.Join(lines, "\n") + "\n" + roomCharts(p.days, b.Rules(), r.width())
	if len(p.months) > 0 {
		text += "\n" + monthTable(p.months, b.Rules()).Text(r.width())
	}
	if len(p.shelves) > 0 {
		text += "\n" + shelfTable(p.shelves).Text(r.width())
	}
	return r.print(text)
}

// roomNow is the room as it is taken to be now.
func (r *run) roomNow(a care.RoomAir, b *model.Book) string {
	read := "assumed: no reading"
	if !a.ReadAt.IsZero() {
		read = "read " + show.Duration(r.now().Sub(a.ReadAt)) + " ago"
	}
	return fmt.Sprintf("now %s, %s humidity, deficit %s (%s), %s", show.Temp(a.TempC, b.Rules()), show.Humidity(a.RH), show.Deficit(a.DeficitKPa), read, show.Fan(a.Fan))
}

// monthTable is the season view.
func monthTable(months []care.AirSpell, rules model.Rules) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{
		{Head: "month"}, {Head: "days", Right: true}, {Head: "temperature", Right: true}, {Head: "from–to", Right: true},
		{Head: "humidity", Right: true}, {Head: "from–to", Right: true}, {Head: "deficit", Right: true}, {Head: ""},
	}}
	most := 0.0
	for _, m := range months {
		most = max(most, m.Deficit.Mean)
	}
	for _, m := range months {
		t.Add(fmt.Sprintf("%s %d", m.First.Month().String()[:3], m.First.Year()), fmt.Sprint(m.Days),
			show.Temp(m.TempC.Mean, rules), fmt.Sprintf("%.0f–%.0f", inUnit(m.TempC.Min, rules), inUnit(m.TempC.Max, rules)),
			show.Humidity(m.RH.Mean), fmt.Sprintf("%.0f–%.0f", m.RH.Min, m.RH.Max), show.Deficit(m.Deficit.Mean), meter(m.Deficit.Mean/most))
	}
	return t
}

// shelfTable is the shelves that are not as the others, as set and as their
// plants show.
func shelfTable(shelves []care.Shelf) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{
		{Head: "shelf", Least: 6}, {Head: "plants", Right: true}, {Head: "set", Right: true}, {Head: "seen beside it", Right: true}, {Head: "range"}, {Head: "", Least: 20},
	}}
	for _, s := range shelves {
		advice := ""
		if s.Suggest {
			advice = fmt.Sprintf("tubside enter shelf %q %.2g", s.Name, s.Set*s.Factor)
		}
		t.Add(s.Name, fmt.Sprint(s.Plants), fmt.Sprintf("%.2gx", s.Set), fmt.Sprintf("%.2fx", s.Factor), fmt.Sprintf("%.2f–%.2f", s.Low, s.High), advice)
	}
	return t
}
