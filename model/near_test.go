package model_test

import (
	"testing"
	"time"

	"tubside/model"
)

func TestASlipOfTheFingerIsUnderstood(t *testing.T) {
	words := []string{"tub", "bucket 1", "bucket 2", "feed pail", "crate"}
	for typed, want := range map[string]string{
		"bukcet": "bucket 1", "Bucket2": "bucket 2", "tup": "tub", "crat": "crate", "feed": "feed pail",
		"cellar": "", "x": "", "": "", "bath": "",
	} {
		if got := model.Near(typed, words); got != want {
			t.Errorf("%q: %q, want %q", typed, got, want)
		}
	}
}

// A vessel, a rule and a shelf that are misspelt are asked back.
func TestRefusalsAskWhatWasMeant(t *testing.T) {
	b := model.NewBook(time.UTC)
	_, rule := model.FindLimit("dry-bye")
	_, word := b.Choose("puled")
	for err, want := range map[error]string{rule: "did you mean dry-by?", word: "did you mean pulled?"} {
		if p, ok := model.AsProblem(err); !ok || p.Do != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
}
