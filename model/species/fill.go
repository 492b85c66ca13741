package species

import "tubside/model"

// Fill gives a plant the form, leaf and size that nobody said, from its name,
// and marks them as assumed. What is only assumed is taken anew, so that it
// follows a changed name; what the grower said stays. A misspelt name is filled in as
// the one it is nearest to. It is the one place where
// a plant is filled in: on the board, in the shell and from a spreadsheet.
func Fill(p model.Plant) model.Plant {
	e, ok := Find(p.Name)
	if !ok && p.Now != "" { // a name as received that the list does not know
		e, ok = Find(p.Now)
	}
	if !ok { // a slip of the pen is no other plant
		e, ok = Find(Near(p.Name))
	}
	if !ok {
		return p
	}
	if p.Form == "" || p.Assumed.Form {
		p.Form, p.Assumed.Form = e.Form, true
	}
	if p.Leaf == "" || p.Assumed.Leaf {
		p.Leaf, p.Assumed.Leaf = e.Leaf, true
	}
	if p.Size == 0 || p.Assumed.Size {
		p.Size, p.Assumed.Size = e.SizeCM, e.SizeCM > 0
	}
	return p
}
