package model_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model"
)

func TestEveryRuleIsDescribed(t *testing.T) {
	seen := map[string]bool{}
	for l, info := range model.LimitTable {
		name := strings.ToLower(info.Name)
		switch {
		case name == "" || strings.ContainsAny(name, " \t"):
			t.Errorf("rule %d has the name %q, which cannot be typed", l, info.Name)
		case seen[name]:
			t.Errorf("two rules are called %s", info.Name)
		case info.What == "" || info.Source == "":
			t.Errorf("%s does not say what it limits, or on whose word", info.Name)
		case !(info.Min <= info.Default && info.Default <= info.Max && info.Min < info.Max):
			t.Errorf("%s: default %g is not between %g and %g", info.Name, info.Default, info.Min, info.Max)
		case info.Choices != nil && (info.Min != 0 || int(info.Max) != len(info.Choices)-1):
			t.Errorf("%s: %d choices for %g to %g", info.Name, len(info.Choices), info.Min, info.Max)
		}
		seen[name] = true
		if got, err := model.FindLimit(strings.ToUpper(info.Name)); err != nil || got != model.Limit(l) {
			t.Errorf("%s is found as rule %d, %v; want %d", info.Name, got, err, l)
		}
	}
	if _, err := model.FindLimit("bedtime"); err == nil {
		t.Error("a rule is called bedtime")
	}
}

// A fresh book keeps its own rules: every default can be set where it stands.
func TestDefaultsAreAllowed(t *testing.T) {
	d := blank(t)
	rules := model.DefaultRules()
	for l, info := range model.LimitTable {
		d.write(&model.RuleSet{Name: info.Name, Value: info.Default})
		if rules[l] != info.Default {
			t.Errorf("%s begins at %g, not at its default %g", info.Name, rules[l], info.Default)
		}
	}
	if d.Rules() != rules {
		t.Error("set to their defaults, the rules are not the defaults")
	}
}

func TestRuleValuesInWords(t *testing.T) {
	for _, c := range []struct {
		limit model.Limit
		text  string
		want  float64
	}{
		{model.CapFuzzy, "8", 8}, {model.CapFuzzy, " 7.5 ", 7.5}, {model.CapFuzzy, "1", 1}, {model.CapFuzzy, "1440", 1440},
		{model.TempUnit, "F", 1}, {model.TempUnit, " c", 0}, {model.Notify, "osc777", 3}, {model.RestDays, "0", 0},
	} {
		if got, err := model.ParseLimit(c.limit, c.text); err != nil || got != c.want {
			t.Errorf("%s %q read as %g, %v; want %g", model.LimitTable[c.limit].Name, c.text, got, err, c.want)
		}
	}
	for _, c := range []struct {
		limit model.Limit
		text  string
		want  string
	}{
		{model.CapFuzzy, "0.5", `cap-fuzzy: "0.5"; give a number from 1 to 1440 min`},
		{model.CapFuzzy, "1441", `cap-fuzzy: "1441"; give a number from 1 to 1440 min`},
		{model.CapFuzzy, "ten", `cap-fuzzy: "ten"; give a number from 1 to 1440 min`},
		{model.CapFuzzy, "NaN", `cap-fuzzy: "NaN"; give a number from 1 to 1440 min`},
		{model.CapFuzzy, "", `cap-fuzzy: ""; give a number from 1 to 1440 min`},
		{model.TempUnit, "kelvin", `temperature: "kelvin" is not a choice; use c, f`},
		{model.TempUnit, "1", `temperature: "1" is not a choice; use c, f`},
	} {
		if got, err := model.ParseLimit(c.limit, c.text); err == nil || err.Error() != c.want {
			t.Errorf("%q read as %g, %v; want %s", c.text, got, err, c.want)
		}
	}
}

// Whatever a rule may be, the word shown for it reads back as the same value.
func TestARuleShownReadsBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := model.Limit(rapid.IntRange(0, len(model.LimitTable)-1).Draw(rt, "rule"))
		info, rules := model.LimitTable[l], model.DefaultRules()
		rules[l] = rapid.Float64Range(info.Min, info.Max).Draw(rt, "value")
		if info.Choices != nil {
			rules[l] = float64(rapid.IntRange(0, len(info.Choices)-1).Draw(rt, "choice"))
		}
		if got, err := model.ParseLimit(l, rules.Word(l)); err != nil || got != rules[l] {
			rt.Errorf("%s %g, shown as %q, read as %g, %v", info.Name, rules[l], rules.Word(l), got, err)
		}
	})
}

func TestRulesRefused(t *testing.T) {
	d := blank(t)
	d.refuses(
		refusal{&model.RuleSet{Name: "bedtime", Value: 22}, nil, `no house rule "bedtime"`, "tubside rules"},
		refusal{&model.RuleSet{Name: "cap-fuzzy", Value: 0}, nil, "cap-fuzzy: 0", "from 1 to 1440 min"},
		refusal{&model.RuleSet{Name: "cap-fuzzy", Value: 2000}, nil, "cap-fuzzy: 2000", "from 1 to 1440 min"},
		refusal{&model.RuleSet{Name: "temperature", Value: 2}, nil, "temperature: 2", "use c, f"},
		refusal{&model.RuleSet{Name: "temperature", Value: 0.5}, nil, "temperature: 0.5", "use c, f"},
	)
	for l, info := range model.LimitTable {
		_, err := model.ParseLimit(model.Limit(l), "x")
		for _, err := range []error{err, d.Check(d.entry(&model.RuleSet{Name: info.Name, Value: info.Max + 1}))} {
			if p, told := model.AsProblem(err); !told || p.Do != strings.TrimSpace(p.Do) {
				t.Errorf("%s: told %q", info.Name, err)
			}
		}
	}
}

// The bands stand in their order without overlap; they may touch.
func TestBandsKeepTheirOrder(t *testing.T) {
	bands := []model.Limit{
		model.DipTo, model.ShortTo, model.LongTo, model.OvernightFrom, model.OvernightTo,
	}
	d := blank(t)
	name := func(i int) string { return model.LimitTable[bands[i]].Name }
	at := func(i int) float64 { return d.Rules()[bands[i]] }
	for i := range bands[1:] {
		d.refuses(
			refusal{&model.RuleSet{Name: name(i), Value: at(i+1) + 1}, nil, name(i), "change the other one first"},
			refusal{&model.RuleSet{Name: name(i + 1), Value: at(i) - 1}, nil, name(i + 1), "change the other one first"},
		)
	}
	d.refuses(refusal{&model.RuleSet{Name: "cap-fuzzy", Value: 8, Today: true}, nil, "cap-fuzzy for today only", "change it back"})
	d.write(&model.RuleSet{Name: "Short-To", Value: 25})
	d.write(&model.RuleSet{Name: "dip-to", Value: 25})
	if at(0) != 25 || at(1) != 25 {
		t.Errorf("Dip to %g, Short to %g, want 25 and 25", at(0), at(1))
	}
}

// A rule that is no longer read is not listed, and a book that has it set still opens.
func TestRetiredRulesAreTakenAndNotListed(t *testing.T) {
	d := blank(t)
	d.write(&model.RuleSet{Name: "deep-to", Value: 300})
	for _, l := range model.Limits() {
		if l.Retired() {
			t.Errorf("%s is listed", model.LimitTable[l].Name)
		}
	}
	if got := len(model.LimitTable) - len(model.Limits()); got != 5 {
		t.Errorf("%d rules are retired, want 5", got)
	}
}

func TestFahrenheit(t *testing.T) {
	d := blank(t)
	if d.Rules().Fahrenheit() {
		t.Error("a fresh book is in °C")
	}
	d.write(&model.RuleSet{Name: "temperature", Value: 1})
	if !d.Rules().Fahrenheit() || d.Rules().Word(model.TempUnit) != "f" {
		t.Error("set to f, and still in °C")
	}
}
