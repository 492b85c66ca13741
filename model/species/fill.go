package species

import "tubside/model"

// Fill gives a plant the form, leaf and size that are missing, from its name,
// and marks them as assumed. What is already there stays.
func Fill(p model.Plant) model.Plant {
	e, ok := Find(p.Name)
	if !ok {
		return p
	}
	if p.Form == "" {
		p.Form, p.Assumed.Form = e.Form, true
	}
	if p.Leaf == "" {
		p.Leaf, p.Assumed.Leaf = e.Leaf, true
	}
	if p.Size == 0 {
		p.Size, p.Assumed.Size = e.SizeCM, true
	}
	return p
}
