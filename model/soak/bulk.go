package soak

// Bulk is the room that count plants take in a vessel, in litres: the box of
// their span in cm, times the share of it that they fill. The shape is our own;
// the share is the caller's.
func Bulk(spanCM, share float64, count int) float64 {
	return spanCM * spanCM * spanCM / 1000 * share * float64(max(count, 1))
}
