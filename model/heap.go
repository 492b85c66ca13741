package model

import "slices"

// ends is how many heaps of a vessel have a place of their own in it: at the tap or the left
// hand, and at the far end or the right hand.
const ends = 2

// lay gives a load that goes into the water its place beside what lies in its vessel: the
// end that is free. With the vessel to itself it goes where the agreed plan has it, and so it
// does where both ends are taken: then it is the rest of one of them.
func (b *Book) lay(l *Load, agreed *AgreedAt) {
	beside := b.InVessel(l.Vessel)
	lies := func(heap int) bool {
		return slices.ContainsFunc(beside, func(m *Load) bool { return m.Heap == heap })
	}
	if !lies(1) && !lies(2) {
		for _, m := range beside { // it had the vessel to itself, from the tap on
			m.Heap = 1
		}
	}
	switch {
	case lies(1) && !lies(2):
		l.Heap = 2
	case lies(2) && !lies(1):
		l.Heap = 1
	default:
		l.Heap = agreed.heapOf(l)
	}
}

// heapOf is which heap of its vessel the agreed plan has a load be; 0 for alone, or not in it.
func (a *AgreedAt) heapOf(l *Load) int {
	if a == nil {
		return 0
	}
	for _, of := range a.Loads {
		if of.Vessel == l.Vessel && of.Heap <= ends && slices.ContainsFunc(l.Plants, func(id ID) bool { return slices.Contains(of.Plants, id) }) {
			return of.Heap
		}
	}
	return 0
}
