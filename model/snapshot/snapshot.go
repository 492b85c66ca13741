// Package snapshot writes down a value with all that it points to, and reads it
// back: for a cache of what would take long to work out again. What is written is
// how the value lies in memory, so that only the very program that wrote it may
// read it: [Shape] tells apart how types lie, and who keeps it must tell programs apart. It knows nothing of what it
// writes, and a field that is added is written without a word here.
//
// A pointer that is met twice is written once, and is one pointer again. A pointer
// into the middle of something else becomes one to a copy, so a type that is to be
// written must have none. Interfaces, functions and channels cannot be written. A
// field marked `snapshot:"-"` is left out and comes back as zero.
//
// encoding/gob, the plain way, takes three times as long there and back and three times the memory (BenchmarkBesideGob,
// for 640 plants and for 5,000), and carries neither pointers that are met twice nor fields that are not exported, of
// which nearly all of it is made: it would need a second set of types.
package snapshot

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"reflect"
	"time"
	"unsafe"
)

// order is that of the machine, as everything else in a snapshot.
var order = binary.NativeEndian

var timeType, zoneType = reflect.TypeFor[time.Time](), reflect.TypeFor[*time.Location]()

// Write writes what v points to. known are pointers that the reader will have as
// well: what they point to is not written.
func Write[T any](w io.Writer, v *T, known ...any) error {
	e := &encoder{w: bufio.NewWriterSize(w, 1<<16), seen: map[pointer]uint64{}, last: uint64(len(known)), codecs: codecs{}}
	for i, k := range known {
		e.seen[pointer{reflect.TypeOf(k), reflect.ValueOf(k).UnsafePointer()}] = uint64(i + 1)
	}
	e.codecs.of(reflect.TypeFor[T]()).write(e, unsafe.Pointer(v))
	return errors.Join(e.err, e.w.Flush())
}

// Read fills what v points to with what [Write] wrote. known are its pointers, in
// the same order. After an error v is of no use.
func Read[T any](r io.Reader, v *T, known ...any) error {
	d := &decoder{r: bufio.NewReaderSize(r, 1<<16), met: make([]unsafe.Pointer, 1, 1024), codecs: codecs{}}
	for _, k := range known {
		d.met = append(d.met, reflect.ValueOf(k).UnsafePointer())
	}
	d.codecs.of(reflect.TypeFor[T]()).read(d, unsafe.Pointer(v))
	return d.err
}

// pointer is one that was met. A pointer to a value and one to its first field are
// at the same place.
type pointer struct {
	of reflect.Type
	to unsafe.Pointer
}

// encoder writes. After an error it does nothing.
type encoder struct {
	w      *bufio.Writer
	seen   map[pointer]uint64 // the place of each pointer, from 1
	last   uint64             // place that was given; two known pointers may be one
	codecs codecs
	word   [8]byte // room for a number
	err    error
}

func (e *encoder) bytes(b []byte) {
	if e.err == nil {
		_, e.err = e.w.Write(b)
	}
}

func (e *encoder) number(n uint64) {
	order.PutUint64(e.word[:], n)
	e.bytes(e.word[:])
}

// decoder reads. After an error it does nothing.
type decoder struct {
	r      *bufio.Reader
	met    []unsafe.Pointer // by place
	codecs codecs
	word   [8]byte // room for a number
	err    error
}

func (d *decoder) bytes(b []byte) {
	if d.err == nil {
		_, d.err = io.ReadFull(d.r, b)
	}
}

func (d *decoder) number() uint64 {
	d.bytes(d.word[:])
	if d.err != nil {
		return 0
	}
	return order.Uint64(d.word[:])
}

// length is a number of things, 0 after an error.
func (d *decoder) length() int {
	n := d.number()
	if n > 1<<32 {
		d.fail("so many cannot be: %d", n)
		return 0
	}
	return int(n)
}

func (d *decoder) fail(format string, args ...any) {
	if d.err == nil {
		d.err = fmt.Errorf(format, args...)
	}
}

// codec writes and reads one type.
type codec struct {
	write func(*encoder, unsafe.Pointer)
	read  func(*decoder, unsafe.Pointer)
}

// codecs is a codec for each type met.
type codecs map[reflect.Type]*codec

// of is the codec of a type. It is there before it is made, for types that point
// back at themselves.
func (all codecs) of(t reflect.Type) *codec {
	if c := all[t]; c != nil {
		return c
	}
	c := new(codec)
	all[t] = c
	*c = all.made(t)
	return c
}

func (all codecs) made(t reflect.Type) codec {
	switch {
	case t == timeType:
		return codec{writeTime, readTime}
	case plain(t):
		return raw(t.Size())
	}
	switch t.Kind() {
	case reflect.Struct:
		return all.structure(t)
	case reflect.Array:
		return all.array(t)
	case reflect.Slice:
		return all.slice(t)
	case reflect.Pointer:
		return all.pointer(t)
	case reflect.Map:
		return all.mapping(t)
	case reflect.String:
		return codec{writeString, readString}
	}
	return codec{
		func(e *encoder, _ unsafe.Pointer) {
			e.err = errors.Join(e.err, fmt.Errorf("a %v cannot be written", t))
		},
		func(d *decoder, _ unsafe.Pointer) { d.fail("a %v cannot be read", t) },
	}
}

// plain reports whether a type is its bytes and nothing else.
func plain(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Array:
		return plain(t.Elem())
	case reflect.Struct:
		for i := range t.NumField() {
			if f := t.Field(i); left(f) || !plain(f.Type) {
				return false
			}
		}
		return true
	}
	return t.Kind() >= reflect.Bool && t.Kind() <= reflect.Complex128 && t.Kind() != reflect.Uintptr
}

// left reports whether a field is left out.
func left(f reflect.StructField) bool { return f.Tag.Get("snapshot") == "-" }

// raw is for what is its bytes.
func raw(size uintptr) codec {
	return codec{
		func(e *encoder, p unsafe.Pointer) { e.bytes(unsafe.Slice((*byte)(p), size)) },
		func(d *decoder, p unsafe.Pointer) { d.bytes(unsafe.Slice((*byte)(p), size)) },
	}
}

func (all codecs) structure(t reflect.Type) codec {
	var offsets []uintptr
	var fields []*codec
	for i := range t.NumField() {
		if f := t.Field(i); !left(f) {
			offsets, fields = append(offsets, f.Offset), append(fields, all.of(f.Type))
		}
	}
	return codec{
		func(e *encoder, p unsafe.Pointer) {
			for i, f := range fields {
				f.write(e, unsafe.Add(p, offsets[i]))
			}
		},
		func(d *decoder, p unsafe.Pointer) {
			for i, f := range fields {
				f.read(d, unsafe.Add(p, offsets[i]))
			}
		},
	}
}

func (all codecs) array(t reflect.Type) codec {
	elem, size, n := all.of(t.Elem()), t.Elem().Size(), t.Len()
	return codec{
		func(e *encoder, p unsafe.Pointer) {
			for i := range n {
				elem.write(e, unsafe.Add(p, uintptr(i)*size))
			}
		},
		func(d *decoder, p unsafe.Pointer) {
			for i := range n {
				elem.read(d, unsafe.Add(p, uintptr(i)*size))
			}
		},
	}
}

// slice writes one more than the length, and 0 for nil.
func (all codecs) slice(t reflect.Type) codec {
	elem, size := all.of(t.Elem()), t.Elem().Size()
	bytes := plain(t.Elem())
	return codec{
		func(e *encoder, p unsafe.Pointer) {
			s := reflect.NewAt(t, p).Elem()
			if s.IsNil() {
				e.number(0)
				return
			}
			n, first := s.Len(), s.UnsafePointer()
			e.number(uint64(n) + 1)
			if bytes {
				e.bytes(unsafe.Slice((*byte)(first), uintptr(n)*size))
				return
			}
			for i := range n {
				elem.write(e, unsafe.Add(first, uintptr(i)*size))
			}
		},
		func(d *decoder, p unsafe.Pointer) {
			n := d.length() - 1
			if n < 0 {
				return
			}
			s := reflect.MakeSlice(t, n, n)
			reflect.NewAt(t, p).Elem().Set(s)
			first := s.UnsafePointer()
			if bytes {
				d.bytes(unsafe.Slice((*byte)(first), uintptr(n)*size))
				return
			}
			for i := 0; i < n && d.err == nil; i++ {
				elem.read(d, unsafe.Add(first, uintptr(i)*size))
			}
		},
	}
}

// pointer writes the place of what it points to, and that itself the first time.
func (all codecs) pointer(t reflect.Type) codec {
	elem := all.of(t.Elem())
	return codec{
		func(e *encoder, p unsafe.Pointer) {
			to := *(*unsafe.Pointer)(p)
			if to == nil {
				e.number(0)
				return
			}
			place, again := e.seen[pointer{t, to}]
			if !again {
				e.last++
				place = e.last
				e.seen[pointer{t, to}] = place
			}
			e.number(place)
			if !again {
				elem.write(e, to)
			}
		},
		func(d *decoder, p unsafe.Pointer) {
			place := d.length()
			if place == len(d.met) {
				to := reflect.New(t.Elem()).UnsafePointer()
				d.met = append(d.met, to)
				elem.read(d, to)
			}
			if place >= len(d.met) {
				d.fail("a pointer to nowhere")
				return
			}
			*(*unsafe.Pointer)(p) = d.met[place]
		},
	}
}

// mapping writes one more than the length, and 0 for nil.
func (all codecs) mapping(t reflect.Type) codec {
	key, value := all.of(t.Key()), all.of(t.Elem())
	room := func() (k, v reflect.Value) { return reflect.New(t.Key()), reflect.New(t.Elem()) }
	return codec{
		func(e *encoder, p unsafe.Pointer) {
			m := reflect.NewAt(t, p).Elem()
			if m.IsNil() {
				e.number(0)
				return
			}
			e.number(uint64(m.Len()) + 1)
			k, v := room()
			for each := m.MapRange(); each.Next(); {
				k.Elem().SetIterKey(each)
				v.Elem().SetIterValue(each)
				key.write(e, k.UnsafePointer())
				value.write(e, v.UnsafePointer())
			}
		},
		func(d *decoder, p unsafe.Pointer) {
			n := d.length() - 1
			if n < 0 {
				return
			}
			m := reflect.MakeMapWithSize(t, n)
			reflect.NewAt(t, p).Elem().Set(m)
			for i := 0; i < n && d.err == nil; i++ {
				k, v := room()
				key.read(d, k.UnsafePointer())
				value.read(d, v.UnsafePointer())
				m.SetMapIndex(k.Elem(), v.Elem())
			}
		},
	}
}

func writeString(e *encoder, p unsafe.Pointer) {
	s := *(*string)(p)
	e.number(uint64(len(s)))
	e.bytes([]byte(s))
}

func readString(d *decoder, p unsafe.Pointer) {
	b := make([]byte, d.length())
	d.bytes(b)
	*(*string)(p) = string(b)
}

// A time is its second and nanosecond, and the place of its zone among the known
// pointers: 0 for UTC, or -1 and a zone that is always the same.
const unknownZone = 1<<64 - 1

func writeTime(e *encoder, p unsafe.Pointer) {
	t := *(*time.Time)(p)
	e.number(uint64(t.Unix()))
	e.number(uint64(t.Nanosecond()))
	if t.Location() == time.UTC {
		e.number(0)
		return
	}
	if place, known := e.seen[pointer{zoneType, unsafe.Pointer(t.Location())}]; known {
		e.number(place)
		return
	}
	name, offset := t.Zone()
	e.number(unknownZone)
	e.number(uint64(offset))
	writeString(e, unsafe.Pointer(&name))
}

func readTime(d *decoder, p unsafe.Pointer) {
	t := time.Unix(int64(d.number()), int64(d.number()))
	switch place := d.number(); {
	case place == 0:
		t = t.UTC()
	case place == unknownZone:
		offset, name := int(d.number()), ""
		readString(d, unsafe.Pointer(&name))
		t = t.In(time.FixedZone(name, offset))
	case place < uint64(len(d.met)):
		t = t.In((*time.Location)(d.met[place]))
	default:
		d.fail("a zone from nowhere")
	}
	*(*time.Time)(p) = t
}
