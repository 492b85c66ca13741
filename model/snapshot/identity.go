package snapshot

import (
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"reflect"
	"runtime/debug"
)

// Identity tells apart what can read which snapshot: it is another one for another
// program, another build of it, and another shape of T. Two builds are told apart by
// their sources and settings, and by the size and time of their file: a build of
// sources that are being worked on says no more of itself.
func Identity[T any]() ([sha256.Size]byte, error) {
	h := sha256.New()
	describe(h, reflect.TypeFor[T](), map[reflect.Type]bool{})
	if build, ok := debug.ReadBuildInfo(); ok {
		fmt.Fprintln(h, build)
	}
	path, err := os.Executable()
	if err != nil {
		return [sha256.Size]byte{}, err
	}
	file, err := os.Stat(path)
	if err != nil {
		return [sha256.Size]byte{}, err
	}
	fmt.Fprintln(h, file.Size(), file.ModTime().UnixNano())
	return [sha256.Size]byte(h.Sum(nil)), nil
}

// describe writes how a type and all that it leads to lie in memory.
func describe(w io.Writer, t reflect.Type, seen map[reflect.Type]bool) {
	fmt.Fprintln(w, t.PkgPath(), t, t.Kind(), t.Size())
	if seen[t] {
		return
	}
	seen[t] = true
	switch t.Kind() {
	case reflect.Struct:
		for i := range t.NumField() {
			f := t.Field(i)
			fmt.Fprintln(w, f.Name, f.Offset, f.Tag)
			describe(w, f.Type, seen)
		}
	case reflect.Map:
		describe(w, t.Key(), seen)
		describe(w, t.Elem(), seen)
	case reflect.Array, reflect.Slice, reflect.Pointer:
		describe(w, t.Elem(), seen)
	}
}
