package plan_test

import (
	"bytes"
	"path/filepath"
	"testing"
	"time"

	"tubside/tests/plan/answer"
	"tubside/ui/command"
)

// shell runs a command line at a time and gives what it answers.
func shell(t testing.TB, now time.Time, args ...string) []byte {
	t.Helper()
	var out, errs bytes.Buffer
	code := command.Main(command.Env{
		Args: append([]string{"--now", now.Format(time.RFC3339)}, args...), In: &bytes.Buffer{}, Out: &out, Err: &errs,
		Clock: func() time.Time { return now }, Getenv: func(string) string { return "" },
	})
	if code != 0 {
		t.Fatalf("%v: exit %d: %s", args, code, errs.String())
	}
	return out.Bytes()
}

// scene is the book of a scene of the demo at a time.
func scene(t testing.TB, name string, now time.Time) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name+".db")
	shell(t, now, "demo", "--scene", name, "--keep", path)
	return path
}

func TestTheDemosPlansKeepTheRules(t *testing.T) {
	now := time.Date(2026, 1, 31, 9, 0, 0, 0, time.Local)
	limits := answer.Limits{From: now, Loads: 2, Used: 2 * time.Hour} // the house rules of the demo
	morning := []string{"--from", "09:30", "--until", "14:00", "--pause", "12:00-12:30", "--dry-by", "21:00"}
	for name, all := range map[string][][]string{
		"homecoming": {nil, morning}, "soakday": {nil, {"--until", "22:00"}}, "bench": {nil}, "quiet": {nil, {"--shelf", "Bay"}}, "first": {morning},
	} {
		book := scene(t, name, now)
		for _, flags := range all {
			text := shell(t, now, append([]string{"--book", book, "plan", "--json"}, flags...)...)
			faults, err := answer.Check(text, limits)
			if err != nil {
				t.Fatal(err)
			}
			for _, fault := range faults {
				t.Errorf("%s %v: %s", name, flags, fault)
			}
		}
	}
}
