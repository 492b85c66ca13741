package model_test

import (
	"testing"

	"pgregory.net/rapid"

	"tubside/model"
)

// What is scanned off a label is the plant's number, and nothing else is.
func TestCodes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		id := model.ID(rapid.IntRange(1, int(model.MaxID)).Draw(t, "id"))
		if got, err := model.ParseCode(id.Code() + "\r"); err != nil || got != id {
			t.Fatalf("%s gives %d, %v", id.Code(), got, err)
		}
	})
	for _, wrong := range []string{"", "%", "17", "%0", "%017", "%1-3", "%17 18", "%-1", "4006381333931", "%x",
		"% 17"} {
		if id, err := model.ParseCode(wrong); err == nil {
			t.Errorf("%q was taken as plant %d", wrong, id)
		}
	}
}
