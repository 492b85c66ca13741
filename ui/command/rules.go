package command

import (
	"strings"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// ruleAnswer is one house rule. Value and Default are numbers, or words where
// the rule is a choice.
type ruleAnswer struct {
	Name    string   `json:"name"`
	What    string   `json:"what"`
	Value   any      `json:"value"`
	Default any      `json:"default"`
	Unit    string   `json:"unit"`
	Choices []string `json:"choices,omitempty"`
	Source  string   `json:"source"`
}

func (r *run) rules() *cobra.Command {
	return &cobra.Command{
		Use:   "rules",
		Short: "the house rules: what each limits, its value, and where the default comes from",
		Long: `The house rules: what each limits, its value, its default, and where that comes
from. Change one with: tubside enter rule NAME VALUE`,
		Args:    nothing,
		Example: "  tubside rules\n  tubside rules --json",
		RunE:    func(*cobra.Command, []string) error { return r.peek(r.sayRules) },
	}
}

func (r *run) sayRules(b *model.Book) error {
	if r.json {
		return r.inJSON(ruleAnswers(b.Rules()))
	}
	t := paper.Table{Wrap: true, Columns: []paper.Column{
		{Head: "rule"}, {Head: "value"}, {Head: "default"}, {Head: "what", Least: 16}, {Head: "source", Least: 12},
	}}
	for _, l := range model.Limits() {
		info := model.LimitTable[l]
		t.Add(info.Name, show.Rule(l, b.Rules()), changed(b.Rules(), l), info.What, info.Source)
	}
	return r.table(&t)
}

// changed is the default of a rule that no longer has it.
func changed(rules model.Rules, l model.Limit) string {
	was := model.DefaultRules()
	if rules[l] == was[l] {
		return ""
	}
	return strings.TrimSpace(was.Word(l))
}

func ruleAnswers(rules model.Rules) []ruleAnswer {
	var all []ruleAnswer
	for _, l := range model.Limits() {
		info := model.LimitTable[l]
		all = append(all, ruleAnswer{
			Name: info.Name, What: info.What, Unit: info.Unit, Choices: info.Choices, Source: info.Source,
			Value: ruleValue(rules, l), Default: ruleValue(model.DefaultRules(), l),
		})
	}
	return all
}

func ruleValue(rules model.Rules, l model.Limit) any {
	if model.LimitTable[l].Choices != nil {
		return rules.Word(l)
	}
	return rules[l]
}
