package soak

import (
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// manyPlants is a soak day of many plants of a few sorts.
func manyPlants(n int, seed uint64) *Session {
	rng := rand.New(rand.NewPCG(seed, 0))
	s := &Session{
		Benches: []Bench{{Room: 3, Factor: 1.5}, {Room: 2, Factor: 1}},
		Room:    func(n int) float64 { return 1 + float64(n)/300 },
		Vessels: []Vessel{{Room: 60, Refill: 600, Loads: 2}, {Room: 10, Refill: 180, Loads: 2}},
		Hours:   []Hours{{From: 0, To: 8 * 3600, DryBy: 12 * 3600}},
	}
	for i := range n {
		from := []int{480, 2700, 5400, 7200}[rng.IntN(4)]
		s.Items = append(s.Items, Item{
			ID: i + 1, From: from, To: from * 5 / 4, Bulk: 0.2 + rng.Float64(), HandsIn: 15, HandsOut: 20 + rng.IntN(2)*15,
			Company: Company(rng.IntN(20) / 18), Thirst: 0.1 + rng.Float64()/2, DryFor: 3600 * (1 + rng.IntN(5)), BenchRoom: 0.01 + rng.Float64()/50,
		})
	}
	return s
}

// When its plants go in, and come out, one right after the other, each of a
// handful keeps its own window and is dry when the handful is.
func TestAHandfulKeepsTheWindowsOfItsPlants(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := manyPlants(rapid.IntRange(fewItems, 300).Draw(t, "plants"), rapid.Uint64().Draw(t, "seed"))
		p := prepare(s)
		q, handfuls := p.rough()
		rough := newSearch(q.with(rapid.IntRange(20, 300).Draw(t, "drying at once")), 0, never)
		fine, d := p.with(rough.p.atOnce), &rough.d
		f := d.build(rules()[rapid.IntRange(0, len(rules())-1).Draw(t, "rule")], rough.p.wanted)
		d.keep = true
		d.run(f)
		if len(d.loads) == 0 {
			t.Fatal("nothing is planned")
		}
		for _, l := range d.loads {
			for _, h := range l.Plants {
				in, out := h.In, h.Out
				for _, i := range handfuls[h.Index] {
					it := &s.Items[i]
					if soaked := out - in; soaked < it.From || soaked > it.To {
						t.Fatalf("plant %d soaks %d s, not %d to %d", it.ID, soaked, it.From, it.To)
					}
					in, out = in+it.HandsIn, out+it.HandsOut
					if dry := out + fine.dur[h.Bench][i]; dry > h.Dry {
						t.Fatalf("plant %d is dry at %d, its handful at %d", it.ID, dry, h.Dry)
					}
				}
				if in != h.In+h.HandsIn || out != h.Out+h.HandsOut {
					t.Fatalf("a handful takes the hands %d and %d s, its plants %d and %d", h.HandsIn, h.HandsOut, in-h.In, out-h.Out)
				}
			}
		}
	})
}

func never() bool { return false }

// Every plant is in one handful, with its own kind, and the handful weighs what
// its plants weigh.
func TestHandfulsHoldEveryPlantOnce(t *testing.T) {
	p := prepare(manyPlants(200, 1))
	q, handfuls := p.rough()
	if q.n != len(handfuls) || q.n > 2*manyHandfuls || q.n == p.n || q.all() != p.all() {
		t.Fatalf("%d handfuls of %d plants, %d rows of %d", q.n, p.n, q.all(), p.all())
	}
	seen := make([]bool, p.n)
	for h, plants := range handfuls {
		if q.weight[h] != p.weigh(plants) || q.rows[h] != len(plants) {
			t.Errorf("handful %d weighs %d, its plants %d", h, q.weight[h], p.weigh(plants))
		}
		for _, i := range plants {
			if seen[i] || p.kind(i) != q.kind(h) {
				t.Errorf("plant %d twice, or in a handful of another kind", i)
			}
			seen[i] = true
		}
	}
	for i, yes := range seen {
		if !yes {
			t.Errorf("plant %d is in no handful", i)
		}
	}
}
