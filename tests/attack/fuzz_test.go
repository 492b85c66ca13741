package attack_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
	"tubside/store/logger"
	"tubside/store/table"
)

// FuzzImport gives any file to the import: it is read or refused with words, and
// what is read can be written and read again.
//
//	go test ./tests/attack -run XXX -fuzz FuzzImport -fuzztime 20s
func FuzzImport(f *testing.F) {
	var template bytes.Buffer
	if err := table.Template(&template); err != nil {
		f.Fatal(err)
	}
	f.Add(template.Bytes())
	f.Add([]byte("sep=;\nname;shelf\n\"T. ionantha\n\"\"Fuego\"\"\";A\n"))
	f.Add([]byte("\xff\xfel\x00a\x00b\x00e\x00l\x00\n\x00A\x001\x00"))
	f.Fuzz(func(t *testing.T, file []byte) {
		sheet, err := table.Read(bytes.NewReader(file), table.ReadOptions{})
		if err != nil {
			return
		}
		b := model.NewBook(time.UTC)
		fact, sum, err := table.Plan(b, sheet, sunday)
		if err != nil || !sum.Changes() {
			return
		}
		e := model.NewEntry(sunday, fact)
		e.Seq = 1
		if err := errors.Join(b.Check(e), b.Apply(e)); err != nil {
			if _, told := model.AsProblem(err); !told {
				t.Fatalf("planned, and then not taken: %v", err)
			}
			return
		}
		var out bytes.Buffer
		if err := table.Write(&out, b, table.WriteOptions{}); err != nil {
			t.Fatal(err)
		}
		again, err := table.Read(&out, table.ReadOptions{})
		if err != nil {
			t.Fatalf("what was exported cannot be imported: %v", err)
		}
		if _, sum, err := table.Plan(b, again, sunday); err != nil || sum.Changes() {
			t.Fatalf("exported and imported, something changed: %+v, %v", sum, err)
		}
	})
}

// FuzzLogger gives any file to the reader of logs.
//
//	go test ./tests/attack -run XXX -fuzz FuzzLogger -fuzztime 20s
func FuzzLogger(f *testing.F) {
	f.Add([]byte("time,temp,rh\n2026-01-17 09:00,21.5,44\n2026-01-17 10:00,21.6,43\n"))
	f.Add([]byte("Date;Time;T\xb0C;RH%\n17.01.2026;09:00;21,5;44\n18.01.2026;09:00;21,5;44\n"))
	f.Add([]byte("epoch\ttemp humidity\n1768640400\t21\n"))
	f.Fuzz(func(t *testing.T, file []byte) {
		_, _ = logger.Read(bytes.NewReader(file), logger.Options{Zone: time.UTC})
	})
}

// FuzzBookFile writes anything over a place of a book's file and cuts it there,
// opens it, and rescues what can be. It is refused with words or opened, and never
// changed by being looked at.
//
//	go test ./tests/attack -run XXX -fuzz FuzzBookFile -fuzztime 20s
func FuzzBookFile(f *testing.F) {
	path := filepath.Join(f.TempDir(), "book")
	s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
	for i := 0; err == nil && i < 6; i++ {
		_, err = s.Append(model.NewEntry(sunday, note(i)))
	}
	if err := errors.Join(err, s.Close()); err != nil {
		f.Fatal(err)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	f.Add([]byte{}, uint16(0), false)
	f.Add([]byte("soaked all"), uint16(0), true)
	f.Add([]byte{2, 0, 0, 0}, uint16(4096+16+16), false) // another root
	f.Add([]byte{0xff, 0xff, 0xff, 0xff}, uint16(2*4096+8), false)
	f.Fuzz(func(t *testing.T, patch []byte, at uint16, cut bool) {
		file := append(bytes.Clone(whole), make([]byte, 1<<16)...)
		n := copy(file[at:], patch)
		if file = file[:len(whole)]; cut {
			file = file[:min(len(file), int(at)+n)]
		}
		path := filepath.Join(t.TempDir(), "book")
		if err := os.WriteFile(path, file, 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := store.Open(path, store.Options{Zone: time.UTC, ReadOnly: true})
		if err == nil {
			_ = s.Close()
		}
		now, readErr := os.ReadFile(path)
		if readErr != nil || !bytes.Equal(now, file) {
			t.Fatal("looking changed the file")
		}
		if err != nil {
			_, _ = store.Rescue(path, time.UTC)
		}
	})
}
