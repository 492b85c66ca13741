package model_test

import (
	"testing"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// A last soak told for next year, or for 1900, is a slip of the hand. What stands in the book stays.
func TestDaysThatCannotBeAreRefused(t *testing.T) {
	d := blank(t)
	today := date.NewAt(d.at)
	row := model.Plant{ID: 1, Count: 1, SoakedOn: today - 7}
	for what, p := range map[string]model.Plant{
		"which is still to come": {ID: 1, Count: 1, SoakedOn: today + 1},
		"years ago":              {ID: 1, Count: 1, SoakedOn: date.New(1900, 1, 1)},
		"last fed on":            {ID: 1, Count: 1, FedOn: today + 30},
	} {
		d.refuses(refusal{&model.Add{Plants: []model.Plant{p}}, nil, what, "or none when nobody knows"})
	}
	d.write(&model.Add{Plants: []model.Plant{row}})
	row.Label = "door"
	d.at = d.at.AddDate(model.LongestAgo/365+1, 0, 0)
	d.write(&model.Edit{Plants: []model.Plant{row}})
	if got := d.Row(1).Label; got != "door" {
		t.Errorf("a plant last soaked years ago cannot be labelled: %q", got)
	}
}
