package script_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	bolt "go.etcd.io/bbolt"

	"tubside/model"
	"tubside/store"
)

// exits runs the program and holds its exit code against the one named:
// exits 4 import bad.csv.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: exits code words...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec("tubside", args[1:]...); err != nil {
		exit, ok := errors.AsType[*exec.ExitError](err)
		if !ok {
			ts.Fatalf("tubside did not run: %v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// jsonKeys holds the keys of a JSON object, or of each object in an array,
// against those named, in their order: jsonkeys stdout id label state.
func jsonKeys(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: jsonkeys file keys...")
	}
	text := ts.ReadFile(args[0])
	objects := []json.RawMessage{json.RawMessage(text)}
	if strings.HasPrefix(text, "[") {
		ts.Check(json.Unmarshal([]byte(text), &objects))
	}
	if len(objects) == 0 {
		ts.Fatalf("an empty list has no keys")
	}
	for _, object := range objects {
		keys, err := keysOf(object)
		ts.Check(err)
		if !slices.Equal(keys, args[1:]) {
			ts.Fatalf("keys are %s\nwant     %s", strings.Join(keys, " "), strings.Join(args[1:], " "))
		}
	}
}

// keysOf lists an object's keys as they stand.
func keysOf(object json.RawMessage) ([]string, error) {
	dec := json.NewDecoder(strings.NewReader(string(object)))
	if t, err := dec.Token(); err != nil || t != json.Delim('{') {
		return nil, fmt.Errorf("not an object: %v %v", t, err)
	}
	var keys []string
	for dec.More() {
		key, err := dec.Token()
		if err != nil {
			return nil, err
		}
		keys = append(keys, key.(string))
		var value json.RawMessage
		if err := dec.Decode(&value); err != nil {
			return nil, err
		}
	}
	return keys, nil
}

// hold keeps a book open for writing until the script ends, as the board does.
func hold(ts *testscript.TestScript, neg bool, args []string) {
	s, err := store.Open(ts.MkAbs(args[0]), store.Options{As: store.AsBoard})
	ts.Check(err)
	path := ts.MkAbs(args[0])
	held.Store(path, s)
	ts.Defer(func() { letGo(ts, path) })
}

// held are the books that scripts hold open, by path.
var held sync.Map

// release lets a held book go: release book.db.
func release(ts *testscript.TestScript, neg bool, args []string) { letGo(ts, ts.MkAbs(args[0])) }

func letGo(ts *testscript.TestScript, path string) {
	if s, ok := held.LoadAndDelete(path); ok {
		ts.Check(s.(*store.Store).Close())
	}
}

// overtake has whoever holds a book write that a plant was sold: overtake book.db 3.
func overtake(ts *testscript.TestScript, neg bool, args []string) {
	s, ok := held.Load(ts.MkAbs(args[0]))
	if !ok {
		ts.Fatalf("nobody holds %s", args[0])
	}
	id, err := strconv.Atoi(args[1])
	ts.Check(err)
	at := time.Date(2026, 1, 31, 11, 0, 0, 0, time.UTC)
	_, err = s.(*store.Store).Append(model.NewEntry(at, &model.Leave{How: "sold"}, model.ID(id)))
	ts.Check(err)
}

// cut leaves the first n bytes of a file: cut book.db 5000.
func cut(ts *testscript.TestScript, neg bool, args []string) {
	n, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	ts.Check(os.Truncate(ts.MkAbs(args[0]), n))
}

// newer makes a book look as if a later tubside had written it.
func newer(ts *testscript.TestScript, neg bool, args []string) {
	db, err := bolt.Open(ts.MkAbs(args[0]), 0o600, nil)
	ts.Check(err)
	ts.Check(errors.Join(
		db.Update(func(tx *bolt.Tx) error {
			// Sealed, as what the file says of itself is: a sum over the key and the text.
			sum := sha256.Sum256(append(make([]byte, 16+8), "schema\x0099"...))
			return tx.Bucket([]byte("meta")).Put([]byte("schema"), fmt.Appendf(nil, "99\n%x", sum[:16]))
		}),
		db.Close(),
	))
}

// rows writes a CSV of n plants, two shelves of 50 spots and more.
func rows(ts *testscript.TestScript, neg bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	var b strings.Builder
	b.WriteString("label,species,shelf,spot\n")
	for i := range n {
		fmt.Fprintf(&b, "tag %d,Tillandsia ionantha,%c,%d\n", i+1, 'A'+i/50, i%50+1)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o600))
}

// damage flips a bit in the last place where a file has a text: damage book.db Fuego.
func damage(ts *testscript.TestScript, neg bool, args []string) {
	path := ts.MkAbs(args[0])
	data, err := os.ReadFile(path)
	ts.Check(err)
	found := false
	for at := 0; ; at++ { // in every page that has it: only one is in use
		i := bytes.Index(data[at:], []byte(args[1]))
		if i < 0 {
			break
		}
		at += i
		data[at+len(args[1])-1] ^= 1
		found = true
	}
	if !found {
		ts.Fatalf("%s is not in %s", args[1], args[0])
	}
	ts.Check(os.WriteFile(path, data, 0o600))
}
