package snapshot_test

import (
	"bytes"
	"math"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model/snapshot"
)

type shelf struct {
	Name   string
	plants []*plant
	first  *plant
	scale  *[3]float64
}

type plant struct {
	id     uint16
	on     *shelf
	wet    bool
	water  [4]float64
	seen   time.Time
	looks  []look
	names  map[string][]string
	by     map[float64]*plant
	notes  []string
	worked []float64 `snapshot:"-"`
}

type look struct {
	curl  int8
	thirs float64
}

// home is a shelf of plants that know it, and each other.
func home(t *rapid.T, zone *time.Location) *shelf {
	s := &shelf{Name: rapid.String().Draw(t, "shelf")}
	for range rapid.IntRange(0, 6).Draw(t, "plants") {
		p := &plant{
			id: rapid.Uint16().Draw(t, "id"), on: s, wet: rapid.Bool().Draw(t, "wet"),
			notes: rapid.SliceOf(rapid.String()).Draw(t, "notes"),
			by:    map[float64]*plant{},
		}
		for i := range p.water {
			p.water[i] = rapid.Float64().Draw(t, "water")
		}
		at := time.Unix(rapid.Int64Range(-1<<40, 1<<40).Draw(t, "at"), rapid.Int64Range(0, 999).Draw(t, "ns"))
		p.seen = at.In(rapid.SampledFrom([]*time.Location{time.UTC, zone, time.FixedZone("here", 5400)}).Draw(t, "zone"))
		if rapid.Bool().Draw(t, "looked") {
			p.looks = []look{{1, math.Pi}, {3, math.Inf(1)}}
			p.names = map[string][]string{"a": nil, "b": {}, "c": {"d"}}
		}
		s.plants = append(s.plants, p)
		p.by[p.water[0]] = s.plants[rapid.IntRange(0, len(s.plants)-1).Draw(t, "neighbour")]
		s.first = s.plants[0]
	}
	return s
}

var berlin = func() *time.Location {
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		panic(err)
	}
	return zone
}()

// What is read is what was written, and what was one thing is one thing again.
func TestWhatIsReadIsWhatWasWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		zone := rapid.SampledFrom([]*time.Location{time.UTC, berlin}).Draw(t, "house")
		was, common := home(t, zone), &[3]float64{1, 2, 3}
		was.scale = common
		var b bytes.Buffer
		if err := snapshot.Write(&b, was, common, zone, time.UTC); err != nil {
			t.Fatal(err)
		}
		var is shelf
		if err := snapshot.Read(&b, &is, common, zone, time.UTC); err != nil {
			t.Fatal(err)
		}
		if is.scale != common {
			t.Fatal("what both know was written")
		}
		for _, p := range is.plants {
			if p.on == &is || p.on != is.plants[0].on {
				t.Fatal("a shelf that plants shared is none any more")
			}
		}
		if len(is.plants) > 0 && is.first != is.plants[0] {
			t.Fatal("the first plant is there twice")
		}
		if !reflect.DeepEqual(*was, is) {
			t.Fatalf("%+v\nis not\n%+v", *was, is)
		}
	})
}

func TestWhatIsLeftOutIsZero(t *testing.T) {
	was := plant{id: 7, worked: []float64{1}}
	var b bytes.Buffer
	if err := snapshot.Write(&b, &was); err != nil {
		t.Fatal(err)
	}
	var is plant
	if err := snapshot.Read(&b, &is); err != nil || is.id != 7 || is.worked != nil {
		t.Errorf("%+v, %v", is, err)
	}
}

// What is cut short or is no snapshot is an error, never a panic.
func TestWhatIsCutShortIsNoSnapshot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b bytes.Buffer
		if err := snapshot.Write(&b, home(t, time.UTC)); err != nil {
			t.Fatal(err)
		}
		var is shelf
		short := b.Bytes()[:rapid.IntRange(0, b.Len()-1).Draw(t, "cut")]
		if err := snapshot.Read(bytes.NewReader(short), &is); err == nil {
			t.Fatal("half of it was read as the whole")
		}
	})
}

func TestWhatCannotBeWrittenIsRefused(t *testing.T) {
	if err := snapshot.Write(&bytes.Buffer{}, &struct{ f func() }{}); err == nil {
		t.Error("a function was written")
	}
}

type renamed struct {
	ID uint16
	On *renamed
}

func TestShapesAreToldApart(t *testing.T) {
	if snapshot.Shape[plant]() == snapshot.Shape[renamed]() {
		t.Error("two shapes are taken for one")
	}
	type same = plant
	if snapshot.Shape[plant]() != snapshot.Shape[same]() {
		t.Error("one shape is taken for two")
	}
}
