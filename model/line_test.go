package model_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tubside/model"
)

// A line as it is written is read the short way, or opening a book takes three
// times as long.
func TestLinesAsWrittenAreReadTheShortWay(t *testing.T) {
	for kind, text := range writtenLines(t) {
		if !model.AsWritten(text) {
			t.Errorf("%s is read the long way: %s", kind, text)
		}
	}
}

// The short way and the long way say the same of a line, be it as written, or
// with a slip in it, or cut short, or as another hand would write it.
func TestLinesReadTheSameEitherWay(t *testing.T) {
	for kind, text := range writtenLines(t) {
		sameEitherWay(t, text)
		var loose bytes.Buffer
		if err := json.Indent(&loose, text, "", " "); err != nil {
			t.Fatalf("%s: %v", kind, err)
		}
		sameEitherWay(t, loose.Bytes())
	}
	lines := writtenLines(t)
	rapid.Check(t, func(rt *rapid.T) {
		text := bytes.Clone(lines[rapid.SampledFrom(model.Kinds()).Draw(rt, "kind")])
		for range rapid.IntRange(1, 3).Draw(rt, "slips") {
			at := rapid.IntRange(0, len(text)-1).Draw(rt, "at")
			slip := rapid.SampledFrom([]string{"", "}", "{", `"`, ",", `\`, " ", "\n", "0", "9", "-", "e", "null",
				`"v":2,`, `,"fact":{}`, `,"plants":"4"`, "\xff"}).Draw(rt, "slip")
			until := min(at+rapid.IntRange(0, 4).Draw(rt, "gone"), len(text))
			text = append(append(bytes.Clone(text[:at]), slip...), text[until:]...)
			if len(text) == 0 {
				return
			}
		}
		sameEitherWay(rt, text)
	})
}

// One who has read much reads as one who has read nothing, be it met before, new, or
// long forgotten.
func TestAReaderThatRemembersReadsTheSame(t *testing.T) {
	lines := slices.Collect(maps.Values(writtenLines(t)))
	for n := range 300 {
		text, err := json.Marshal(model.NewEntry(soakDay, &model.Note{Text: fmt.Sprint(n)}, 1, model.ID(n+2)))
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, text)
	}
	var reader model.Reader
	for _, text := range slices.Concat(lines, lines) {
		var one, other model.Entry
		if err := errors.Join(reader.Read(text, &one), other.UnmarshalJSON(text)); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if diff := cmp.Diff(other, one); diff != "" {
			t.Errorf("%s\n%s", text, diff)
		}
	}
}

// FuzzLines tries the same with whatever a fuzzer makes of them:
//
//	go test ./model -fuzz FuzzLines -fuzztime 20s
func FuzzLines(f *testing.F) {
	for _, text := range writtenLines(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) { sameEitherWay(t, text) })
}

// writtenLines is a line of every kind, about plants and about none.
func writtenLines(t testing.TB) map[model.Kind][]byte {
	t.Helper()
	lines := map[model.Kind][]byte{}
	for kind, f := range examples {
		for name, plants := range map[model.Kind]model.IDs{kind: {12, 13, 14, 3}, kind + " of none": nil} {
			text, err := json.Marshal(model.NewEntry(soakDay, f, plants...))
			if err != nil {
				t.Fatalf("%s: %v", kind, err)
			}
			lines[name] = text
			e := model.NewEntry(soakDay, f, plants...)
			e.Once = "logger-2026-01-17T09:00"
			if lines[name+" once"], err = json.Marshal(e); err != nil {
				t.Fatalf("%s: %v", kind, err)
			}
		}
	}
	return lines
}

func sameEitherWay(t rapid.TB, text []byte) {
	t.Helper()
	var short, long model.Entry
	shortErr, longErr := short.UnmarshalJSON(text), long.ReadAny(text)
	if diff := cmp.Diff(long, short); diff != "" || fmt.Sprint(shortErr) != fmt.Sprint(longErr) {
		t.Errorf("%s\nthe long way: %v, the short way: %v\n%s", text, longErr, shortErr, diff)
	}
}
