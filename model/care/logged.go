package care

import "tubside/model"

// readLogs takes in what loggers wrote down, before anything else: it is told
// long after it was so, and changes how the past reads.
func (k *Keeper) readLogs() {
	for _, e := range k.book.Entries() {
		f, ok := e.Fact.(*model.Readings)
		if !ok || k.book.Struck(e.Seq) {
			continue
		}
		for i := range f.Len() {
			k.climate.add(f.At(i))
		}
	}
}
