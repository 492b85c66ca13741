package command

import "tubside/model"

// onShelf refuses a shelf that holds no plants: a slip of the keys would answer
// with an empty table, which reads as if nothing were due. No shelf is all. A
// script is answered with an empty list, which it can tell from one with plants.
func (r *run) onShelf(b *model.Book, shelf string) error {
	if shelf == "" || r.json {
		return nil
	}
	_, err := b.Choose("shelf:" + shelf)
	return err
}
