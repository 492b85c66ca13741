package day

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
)

// ReadHour reads an hour as the first of that name on a day, or on the one after
// where it would not be after another time. An empty text is the zero time. The error is a
// [model.Problem].
func ReadHour(text string, day, after time.Time) (time.Time, error) {
	if text = strings.TrimSpace(text); text == "" {
		return time.Time{}, nil
	}
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		return t, nil
	}
	for _, layout := range []string{"15:04", "15.04", "15"} {
		t, err := time.Parse(layout, text)
		if err != nil {
			continue
		}
		y, m, d := day.Date()
		at := time.Date(y, m, d, t.Hour(), t.Minute(), 0, 0, day.Location())
		if !after.IsZero() && !at.After(after) {
			at = time.Date(y, m, d+1, t.Hour(), t.Minute(), 0, 0, day.Location())
		}
		return at, nil
	}
	return time.Time{}, &model.Problem{What: fmt.Sprintf("%q is not an hour", text), Do: "write it as 09:00"}
}

// ReadStretches reads pieces of a day, "12:00-12:30", of which each is a thing with a name. The
// error is a [model.Problem].
func ReadStretches(what string, texts []string, on time.Time) (all []Stretch, err error) {
	for _, text := range texts {
		from, until, ok := strings.Cut(text, "-")
		if !ok {
			return nil, &model.Problem{What: fmt.Sprintf("%q is not a %s", text, what), Do: "write it as 12:00-12:30"}
		}
		var s Stretch
		if s.From, err = ReadHour(from, on, time.Time{}); err == nil {
			s.Until, err = ReadHour(until, on, s.From)
		}
		if err != nil {
			return nil, err
		}
		all = append(all, s)
	}
	return all, nil
}
