package command

import (
	"bytes"
	"encoding"
	"encoding/json"
	flags "flag"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"tubside/model"
)

var update = flags.Bool("update", false, "write the schemas as the answers now are")

// answered is what a command answers with --json: the type it is made of, the
// name of its schema in the folder schema, and command lines that give it.
var answered = []struct {
	schema string
	of     reflect.Type
	ask    [][]string
}{
	{"triage", reflect.TypeFor[[]needAnswer](), [][]string{{"triage"}, {"triage", "--limit", "3"}, {"triage", "rot"}}},
	{"drying", reflect.TypeFor[[]dryAnswer](), [][]string{{"drying"}}},
	{"air", reflect.TypeFor[airAnswer](), [][]string{{"air", "--temp", "21", "--rh", "35"}}},
	{"enter", reflect.TypeFor[enteredAnswer](), [][]string{
		{"enter", "note", "--text", "x"}, {"enter", "reading", "--temp", "21", "--rh", "35"}, {"enter", "strike"},
		{"enter", "add", "--name", "T. ionantha"},
	}},
	{"batch", reflect.TypeFor[batchAnswer](), [][]string{{"enter", "--from", "-"}}},
	{"log", reflect.TypeFor[entryAnswer](), [][]string{{"log", "--last", "1"}, {"log", "--kind", "import"}}},
	{"sheet", reflect.TypeFor[sheetAnswer](), [][]string{{"sheet", "rehang", "DIR/hang.txt"}}},
	{"calendar", reflect.TypeFor[calendarAnswer](), [][]string{{"week", "--ics", "DIR/week.ics"}}},
	{"labels", reflect.TypeFor[labelsAnswer](), [][]string{{"labels", "DIR/labels.html"}}},
	{"export", reflect.TypeFor[exportedAnswer](), [][]string{{"export", "DIR/plants.csv"}}},
	{"import", reflect.TypeFor[importAnswer](), [][]string{{"import", "--dry-run", "DIR/plants.csv"}, {"import", "DIR/plants.csv"}}},
	{"book", reflect.TypeFor[bookAnswer](), [][]string{{"book"}, {"book", "check"}}},
	{"book-entries", reflect.TypeFor[[]lineAnswer](), [][]string{{"book", "--entries", "30"}}},
	{"book-backup", reflect.TypeFor[backupAnswer](), [][]string{{"book", "--backup", "DIR/copy.db"}}},
	{"book-new", reflect.TypeFor[beganAnswer](), [][]string{{"book", "new", "--book", "DIR/new.db"}}},
	{"book-copies", reflect.TypeFor[copiesToAnswer](), [][]string{{"book", "copies"}}},
	{"book-inbox", reflect.TypeFor[[]waitingAnswer](), [][]string{{"book", "inbox"}}},
	{"book-restore", reflect.TypeFor[restoredAnswer](), [][]string{{"book", "restore", "DIR/copy.db", "--book", "DIR/new.db"}}},
	{"book-rescue", reflect.TypeFor[rescuedAnswer](), [][]string{{"book", "rescue", "--book", "DIR/damaged.db"}}},
	{"rules", reflect.TypeFor[[]ruleAnswer](), [][]string{{"rules"}}},
	{"ledger", reflect.TypeFor[ledgerAnswer](), [][]string{{"ledger"}, {"ledger", "--year", "2025"}}},
	{"rounds", reflect.TypeFor[[]roundAnswer](), [][]string{{"rounds", "look"}}},
	{"weighing", reflect.TypeFor[weighingAnswer](), [][]string{{"weighing"}}},
	{"water", reflect.TypeFor[watersAnswer](), [][]string{{"water"}, {"water", "--sources"}}},
	{"dose", reflect.TypeFor[doseAnswer](), [][]string{{"dose", "--volume", "5 L", "--n", "20", "--ppm", "50"}}},
	{"plan", reflect.TypeFor[planAnswer](), [][]string{{"plan", "--shelf", "Arch"}}},
	{"week", reflect.TypeFor[weekAnswer](), [][]string{{"week"}}},
	{"forecast", reflect.TypeFor[tripAnswer](), [][]string{{"forecast", "--away", "12d"}, {"forecast", "--away", "40d", "--limit", "2"}}},
	{"enter-left", reflect.TypeFor[inboxAnswer](), nil}, // only while another has the book
	{"room-import", reflect.TypeFor[logAnswer](), [][]string{{"room", "import", "DIR/log.csv", "--yes"}}},
	{"guide", reflect.TypeFor[[]guideAnswer](), [][]string{{"guide"}, {"guide", "7"}}},
	{"room", reflect.TypeFor[roomAnswer](), [][]string{{"room"}}},
}

// Every answer in JSON is as its schema says, and the schemas are as they were:
// a script that reads an answer today reads tomorrow's.
func TestAnswersAreAsTheirSchemasSay(t *testing.T) {
	book, dir := demoBook(t, "soakday"), t.TempDir()
	readings := "Time,Temperature (°C),Humidity (%)\n2026-01-30 10:00,20.5,41\n2026-01-30 11:00,20.6,40\n"
	if err := os.WriteFile(filepath.Join(dir, "log.csv"), []byte(readings), 0o600); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(book)
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, "damaged.db"), whole[:len(whole)/2], 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range answered {
		t.Run(a.schema, func(t *testing.T) {
			path := filepath.Join("schema", a.schema+".json")
			made, err := json.MarshalIndent(schemaOf(a.schema, a.of), "", "  ")
			if err != nil {
				t.Fatal(err)
			}
			made = append(made, '\n')
			if *update {
				if err := os.WriteFile(path, made, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			kept, err := os.ReadFile(path)
			if err != nil || !bytes.Equal(kept, made) {
				t.Fatalf("%s is not what the answer is made of (%v); look at why, then: go test ./ui/command -update",
					path, err)
			}
			schema := jsonschema.NewCompiler()
			schema.AssertFormat()
			compiled, err := schema.Compile(path)
			if err != nil {
				t.Fatal(err)
			}
			for _, line := range a.ask {
				line = slices.Clone(line)
				for i, word := range line {
					line[i] = strings.Replace(word, "DIR", dir, 1)
				}
				out := must(t, book, "note --text batch\n", append(line, "--json")...)
				for dec := json.NewDecoder(strings.NewReader(out)); dec.More(); {
					var text json.RawMessage
					if err := dec.Decode(&text); err != nil {
						t.Fatalf("%v: %v", line, err)
					}
					answer, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
					if err == nil {
						err = compiled.Validate(answer)
					}
					if err != nil {
						t.Errorf("%v: %v\n%.600s", line, err, text)
					}
				}
			}
		})
	}
	files, err := filepath.Glob("schema/*.json")
	if err != nil || len(files) != len(answered) {
		t.Errorf("%d schemas for %d answers, %v", len(files), len(answered), err)
	}
}

// No answer is left without a schema: every type of one is part of an answer in
// the list.
func TestEveryAnswerHasASchema(t *testing.T) {
	part := map[string]bool{}
	var walk func(reflect.Type)
	walk = func(of reflect.Type) {
		switch of.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Map:
			walk(of.Elem())
		case reflect.Struct:
			if part[of.Name()] {
				return
			}
			part[of.Name()] = true
			for _, f := range reflect.VisibleFields(of) {
				walk(f.Type)
			}
		}
	}
	for _, a := range answered {
		walk(a.of)
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	declared := regexp.MustCompile(`(?m)^type (\w+Answer) struct`)
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range declared.FindAllStringSubmatch(string(source), -1) {
			if !part[name[1]] {
				t.Errorf("%s: %s is in no schema: give it a line in the list of answers", file, name[1])
			}
		}
		if !strings.HasSuffix(file, "_test.go") && strings.Contains(string(source), "inJSON(map[") {
			t.Errorf("%s answers with a map: give the answer a type", file)
		}
	}
}

// A schema is strict: what it does not know is refused, and so is a number where
// words belong.
func TestASchemaRefuses(t *testing.T) {
	compiled, err := jsonschema.NewCompiler().Compile("schema/sheet.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, wrong := range []string{`{"file":"a"}`, `{"file":"a","sheet":"b","more":1}`, `{"file":1,"sheet":"b"}`,
		`[]`} {
		answer, err := jsonschema.UnmarshalJSON(strings.NewReader(wrong))
		if err != nil || compiled.Validate(answer) == nil {
			t.Errorf("%s was taken, %v", wrong, err)
		}
	}
}

// schema is a JSON Schema, draft 2020-12.
type schema map[string]any

// schemaOf is the schema of what encoding/json writes for a type.
func schemaOf(name string, of reflect.Type) schema {
	s := typeSchema(of)
	s["$schema"], s["title"] = "https://json-schema.org/draft/2020-12/schema", "tubside "+name+" --json"
	return s
}

func typeSchema(of reflect.Type) schema {
	text := reflect.TypeFor[encoding.TextMarshaler]()
	switch {
	case of.Kind() == reflect.Pointer:
		return schema{"anyOf": []schema{typeSchema(of.Elem()), {"type": "null"}}}
	case of == reflect.TypeFor[time.Time]():
		return schema{"type": "string", "format": "date-time"}
	case of == reflect.TypeFor[json.RawMessage](), of.Kind() == reflect.Interface:
		return schema{}
	case of == reflect.TypeFor[model.IDs](): // "1-3 7"
		return schema{"type": "string"}
	case of == reflect.TypeFor[model.Grade]():
		return schema{"type": []string{"integer", "null"}, "minimum": 0, "maximum": 3}
	case of == reflect.TypeFor[standing]():
		return schema{"type": "string", "enum": []string{"home", "pulled", "soaking", "drying", "dry", "gone"}}
	case of.Implements(text):
		return schema{"type": "string"}
	}
	switch of.Kind() {
	case reflect.String:
		return schema{"type": "string"}
	case reflect.Bool:
		return schema{"type": "boolean"}
	case reflect.Float64:
		return schema{"type": "number"}
	case reflect.Slice:
		return schema{"type": "array", "items": typeSchema(of.Elem())}
	case reflect.Map:
		return schema{"type": "object", "additionalProperties": typeSchema(of.Elem())}
	case reflect.Struct:
		s := schema{"type": "object", "properties": schema{}, "required": []string{}, "additionalProperties": false}
		fieldSchemas(s, of)
		return s
	default:
		return schema{"type": "integer"}
	}
}

// fieldSchemas adds the fields of a struct, those of embedded ones among them.
func fieldSchemas(s schema, of reflect.Type) {
	for _, f := range reflect.VisibleFields(of) {
		name, opts, tagged := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Anonymous && name == "", !f.IsExported(), name == "-", len(f.Index) > 1 && promotedOver(of, f):
			continue
		}
		if name == "" {
			name = f.Name
		}
		s["properties"].(schema)[name] = typeSchema(f.Type)
		if !tagged || !strings.Contains(opts, "omit") {
			s["required"] = append(s["required"].([]string), name)
		}
	}
}

// promotedOver reports whether a field lies in an embedded struct that has a name
// in JSON, and so is not one of the outer's.
func promotedOver(of reflect.Type, f reflect.StructField) bool {
	outer := of.FieldByIndex(f.Index[:1])
	return outer.Tag.Get("json") != ""
}
