package drying

import (
	"fmt"
	"testing"
	"tubside/model/air"
)

func TestX(t *testing.T) {
	pts := [][6]float64{{0.82, 22.24, 1200, 0, 424, 18.0}, {2.62, 22.28, 1267, 0, 617, 18.0}, {4.48, 22.41, 1329, 0, 773, 18.2}, {1.00, 22.73, 542, 0, 650, 16.1}, {1.02, 23.34, 684, 0, 629, 16.7}, {1.02, 22.35, 664, 0, 596, 16.2}, {1.01, 22.59, 1246, 0, 439, 18.2}, {1.03, 22.50, 2221, 0, 129, 21.3}, {3.97, 23.31, 731, 376, 1321, 18.4}, {2.09, 22.97, 626, 375, 1167, 18.8}, {1.25, 23.28, 579, 380, 1047, 19.6}, {2.84, 22.61, 666, 374, 1243, 18.3}, {4.63, 22.72, 779, 385, 1446, 18.0}}
	for _, fo := range []bool{true, false} {
		sum := 0.0
		for _, p := range pts {
			l := Leaf{WidthM: .03, Shelter: 1, WetFaces: 1, HeatFaces: 2, Absorbed: p[3], ForcedOnly: fo}
			w := l.In(Stream{air.Air{TempC: p[1], RH: p[2] / air.Saturation(p[1])}, p[0]})
			sum += w.GramsPerHour() / p[4]
			fmt.Printf("%v %.0f %.0f %.3f  T %.1f %.1f\n", fo, p[4], w.GramsPerHour(), w.GramsPerHour()/p[4], p[5], w.TempC)
		}
		fmt.Println(sum / 13)
	}
	for _, r := range [][2]float64{{20, .3}, {20, .4}, {20, .6}, {25, .5}, {18, .6}} {
		for _, u := range []float64{.05, .1, .15, .5, 1, 2} {
			w := Leaf{WidthM: .01, Shelter: .5, WetFaces: 1, HeatFaces: 1}.In(Stream{air.Air{TempC: r[0], RH: r[1]}, u})
			fmt.Printf(" %.3f", w.Evaporation*3600)
		}
		fmt.Println()
	}
	for _, q := range [][2]float64{{1, 1}, {2, 2}, {5, 5}} {
		s := Stream{air.Air{TempC: 15, RH: .5}, q[0]}
		fmt.Println(Forced(s, .05).times(1.5), Free(s, .05, q[1]))
	}
	w := Leaf{WidthM: .01, Shelter: 1, WetFaces: 1, HeatFaces: 1}.In(Stream{air.Air{TempC: 20, RH: .4}, 10})
	fmt.Println(w.TempC, steps)
}
func BenchmarkLeaf(b *testing.B) {
	l := Leaf{WidthM: .01, Shelter: .5, WetFaces: 1, HeatFaces: 1}
	s := Stream{air.Air{TempC: 20, RH: .4}, .5}
	for b.Loop() {
		l.In(s)
	}
}
