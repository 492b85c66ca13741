package command

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/store"
	"tubside/ui/paper"
)

// Somebody who has only the sheet, and does its lines from top to bottom, does the day:
// each plant is pulled once, put in once, taken out once within its window, laid, and
// hung or left for the morning; the numbers at every head add up; one pair of hands is
// never at two things, no vessel is used before it is full, and all are empty at the end.
// So it is with the sheet of the morning, and with one printed in the middle of the day.
func TestTheSheetCanBeActed(t *testing.T) {
	nine, evening := time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC), time.Date(2026, 11, 28, 21, 5, 0, 0, time.UTC)
	scenes := []struct {
		scene string
		seed  uint64
		now   time.Time
	}{{"homecoming", 1, noon}, {"quiet", 1, nine}, {"soakday", 1, noon}, {"bench", 1, noon}, {"homecoming", 2, noon},
		{"soakday", 3, noon}, {"homecoming", 4, noon}, {"quiet", 2, nine}, {"quiet", 1, evening}, {"first", 1, evening}}
	if testing.Short() {
		scenes = scenes[:2]
	}
	for _, is := range scenes {
		t.Run(fmt.Sprintf("%s %d %s", is.scene, is.seed, is.now.Format("15:04")), func(t *testing.T) {
			s, now := sceneStore(t, is.scene, is.seed, is.now), is.now
			p, err := day.NewPlan(context.Background(), estimate.New(s.Book()), now, day.Ask{})
			if err != nil {
				t.Fatal(err)
			}
			actSheet(t, s.Book(), p, now)
			write(t, s, now, p.Agree(s.Book(), now))
			from := now
			for _, hours := range []int{1, 3} {
				until := now.Add(time.Duration(hours)*time.Hour + 7*time.Minute)
				followOn(t, s, from, until)
				if p, err = day.Current(context.Background(), estimate.New(s.Book()), until); err != nil {
					t.Fatal(err)
				}
				t.Run("reprinted "+until.Format("15:04"), func(t *testing.T) { actSheet(t, s.Book(), p, until) })
				from = until
				late := until.Add(25 * time.Minute)
				p = current(t, s.Book(), late)
				t.Run("nothing done until "+late.Format("15:04"), func(t *testing.T) { actSheet(t, s.Book(), p, late) })
			}
		})
	}
}

// followOn enters what the agreed plan has the hands do from one time to another, as it
// has it.
func followOn(t *testing.T, s *store.Store, from, until time.Time) {
	t.Helper()
	p, err := day.Current(context.Background(), estimate.New(s.Book()), from)
	if err != nil {
		t.Fatal(err)
	}
	type did struct {
		at   time.Time
		fact model.Fact
		ids  model.IDs
	}
	var all []did
	for _, step := range p.Steps {
		if step.Done || step.At.After(until) {
			continue
		}
		if step.Do == soak.PutIn {
			l := p.Loads[step.Load]
			due := step.At.Add(l.Out.Sub(l.Start)).UTC().Truncate(time.Second)
			all = append(all, did{step.At, &model.Soak{Vessel: step.Vessel, Due: due}, step.Plants})
			continue
		}
		if step.Until.After(until) {
			continue
		}
		switch step.Do {
		case soak.Fill:
			all = append(all, did{step.Until, &model.Fill{Vessel: step.Vessel, Of: []model.Source{model.Rain}}, nil})
		case soak.Empty:
			all = append(all, did{step.Until, &model.Drain{Vessel: step.Vessel}, nil})
		case soak.Pull:
			all = append(all, did{step.Until, &model.Pull{}, step.Plants})
		case soak.GetOut:
			all = append(all, did{step.Until, model.TakenOut(true), step.Plants})
		case soak.Hang:
			var damp model.IDs
			for _, id := range step.Plants {
				if s.Book().Row(id).State != model.Dry {
					damp = append(damp, id)
				}
			}
			if len(damp) > 0 {
				all = append(all, did{step.Until, &model.FoundDry{}, damp})
			}
			all = append(all, did{step.Until, &model.Hung{}, step.Plants})
		}
	}
	slices.SortStableFunc(all, func(a, b did) int { return a.at.Compare(b.at) })
	for _, d := range all {
		if in, ok := d.fact.(*model.Soak); ok {
			in.Load = s.Book().NextLoad()
		}
		write(t, s, d.at, d.fact, d.ids...)
	}
}

func write(t *testing.T, s *store.Store, at time.Time, f model.Fact, ids ...model.ID) {
	t.Helper()
	if _, err := s.Append(model.NewEntry(at.UTC().Truncate(time.Second), f, ids...)); err != nil {
		t.Fatal(err)
	}
}

// sceneStore is a scene of the demo, open.
func sceneStore(t *testing.T, scene string, seed uint64, now time.Time) *store.Store {
	t.Helper()
	path, key := filepath.Join(t.TempDir(), "demo.db"), fmt.Sprint(scene, seed, now)
	if book, ok := built[key]; ok {
		if err := os.WriteFile(path, book, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s, err := store.Open(path, store.Options{Begin: true, Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	if built[key] == nil {
		if _, err := demo.Build(s, demo.Options{Scene: scene, Seed: seed, Now: now}); err != nil {
			t.Fatal(err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		if built[key], err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
		return sceneStore(t, scene, seed, now)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// built are scenes as files, each made once.
var built = map[string][]byte{}

// said is a plan's sheet as text, its lines run together.
func saidOnPaper(b *model.Book, p *day.Plan, now time.Time) string {
	return strings.Join(strings.Fields(soakSheet(estimate.New(b), p, now, "").Text()), " ")
}

// current is the agreed plan as it stands.
func current(t *testing.T, b *model.Book, now time.Time) *day.Plan {
	t.Helper()
	p, err := day.Current(context.Background(), estimate.New(b), now)
	if err != nil || p == nil {
		t.Fatal(p, err)
	}
	return p
}

// agreedDay is a scene whose plan was agreed at noon.
func agreedDay(t *testing.T, scene string) (*store.Store, *day.Plan) {
	t.Helper()
	s := sceneStore(t, scene, 1, noon)
	p, err := day.NewPlan(context.Background(), estimate.New(s.Book()), noon, day.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	write(t, s, noon, p.Agree(s.Book(), noon))
	return s, current(t, s.Book(), noon)
}

func has(t *testing.T, text string, want ...string) {
	t.Helper()
	for _, w := range want {
		if !strings.Contains(text, w) {
			t.Errorf("the sheet does not say %q", w)
		}
	}
}

func hasNot(t *testing.T, text string, not ...string) {
	t.Helper()
	for _, n := range not {
		if strings.Contains(text, n) {
			t.Errorf("the sheet says %q", n)
		}
	}
}

// Two sheets of one day can be told apart. A load that is forgotten was to come out by an
// hour that does not move with the clock, and what stands full with nothing to go into it
// is emptied first, and again before the day ends.
func TestTheSheetOfAForgottenTub(t *testing.T) {
	s, p := agreedDay(t, "homecoming")
	has(t, saidOnPaper(s.Book(), p, noon),
		"The plan agreed at 12:00; printed at 12:00. Throw older sheets of this day away.")
	write(t, s, noon, &model.VesselSet{Vessel: model.Vessel{Name: "can", Litres: 2}})
	write(t, s, noon, &model.Fill{Vessel: "can", Of: []model.Source{model.Rain}})
	kept, err := day.Kept(context.Background(), estimate.New(s.Book()), noon)
	if err != nil {
		t.Fatal(err)
	}
	has(t, saidOnPaper(s.Book(), kept, noon),
		"Empty can at once and rinse it. It stands full since 12:00, and nothing goes into it any more.")
	since := regexp.MustCompile(`OVERDUE: load \d+ in tub, since (\d\d:\d\d)`)
	var first string
	for _, hours := range []int{4, 5, 8} {
		now := noon.Add(time.Duration(hours) * time.Hour)
		text := saidOnPaper(s.Book(), current(t, s.Book(), now), now)
		has(t, text, "printed at "+now.Format("15:04"), "OVERDUE since", "[ ] can empty and dry")
		if hours == 8 {
			has(t, text, "after your hours, which end at 18:00")
		}
		m := since.FindStringSubmatch(text)
		if m == nil || first != "" && m[1] != first {
			t.Errorf("%s: overdue %v, an hour before since %q", now.Format("15:04"), m, first)
			continue
		}
		first = m[1]
	}
	now := noon.Add(4 * time.Hour)
	water := must(t, bookOf(t, s), "", "water", "--now", now.Format(time.RFC3339))
	for _, line := range strings.Split(water, "\n") {
		if strings.HasPrefix(line, "can") && !strings.Contains(line, "it stands full") {
			t.Errorf("of a forgotten pail: %s", line)
		}
	}
}

// bookOf closes a store, and is its file.
func bookOf(t *testing.T, s *store.Store) string {
	t.Helper()
	path := s.Path()
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// The sheet says what keeps to no rule: an end after the hours, plants wet at the hour
// when all should be dry. Who stays is told in a line a reason, and not to begin earlier.
func TestTheSheetSaysWhatBreaksTheRules(t *testing.T) {
	s, p := agreedDay(t, "homecoming")
	var last time.Time
	for _, l := range p.Loads {
		for _, plant := range l.Plants {
			if !l.Night {
				last = model.Later(last, plant.Dry)
			}
		}
	}
	p.Ask.Until, p.Ask.DryBy = p.DayFree.Add(-time.Hour), last.Add(-time.Minute)
	text := saidOnPaper(s.Book(), p, noon)
	has(t, text, "after your hours, which end at "+p.Ask.Until.Format("15:04"),
		" may still be wet at "+p.Ask.DryBy.Format("15:04"))
	p.Ask.Until, p.Ask.DryBy = p.DayFree.Add(time.Hour), p.AllDry.Add(time.Hour)
	text = saidOnPaper(s.Book(), p, noon)
	hasNot(t, text, "after your hours", "may still be wet at")
	p.Left = nil
	for i := range 90 {
		late := &soak.LeftOut{Why: soak.DryTooLate, By: 60 * i}
		p.Left = append(p.Left, day.LeftOut{ID: model.ID(i + 1), Unplaced: late})
	}
	text = saidOnPaper(s.Book(), p, noon)
	has(t, text, fmt.Sprintf("90 plants would still be wet at %s. Soak them tomorrow.", p.Ask.DryBy.Format("15:04")))
	hasNot(t, text, "start earlier", "min earlier")
}

// Newcomers and sick plants wait and dry by themselves, and a load without slack is taken
// out to the minute; nobody reads two lengths for one plant.
func TestTheSheetKeepsCompanyApart(t *testing.T) {
	s, p := agreedDay(t, "soakday")
	sheet := soakSheet(estimate.New(s.Book()), p, noon, "")
	companies := 0
	for _, section := range sheet.Sections {
		if section.Title != "The day" {
			continue
		}
		table := section.Blocks[len(section.Blocks)-1].(*paper.Table)
		for _, row := range table.Rows {
			text := row[3]
			if !strings.Contains(text, "newcomer") && !strings.Contains(text, "sick plant") {
				continue
			}
			companies++
			moved := strings.Contains(text, "ull ") || strings.HasPrefix(text, "Take out")
			if moved && !strings.Contains(text, " own, a") {
				t.Errorf("with the others: %s", text)
			}
		}
	}
	if companies == 0 {
		t.Errorf("%d lines of newcomers and sick plants: it shows nothing", companies)
	}
	text := saidOnPaper(s.Book(), p, noon)
	has(t, text, "own tray", "Never newcomers beside sick ones.", "to the minute; that takes until", "To the minute",
		"Your rule: tap water stands 12 h")
	hasNot(t, text, "at most", " nth ", "coming out", "on the left", "let it stand", "till then beside it")
}

// A sheet goes to standard output as well.
func TestASheetOnStandardOutput(t *testing.T) {
	book := demoBook(t, "bench")
	for _, args := range [][]string{{"plan", "--sheet", "-"}, {"sheet", "rehang", "-"}} {
		out := must(t, book, "", args...)
		if !strings.Contains(out, "====") || strings.Contains(out, "the sheet is in") {
			t.Errorf("%v: %.80q", args, out)
		}
	}
}
