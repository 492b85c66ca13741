package command

import (
	"tubside/model"
	"tubside/model/species"
	"tubside/ui/show"
)

// suggestName tells a person the accepted name of a plant that came under
// another. Nothing is changed by it.
func (r *run) suggestName(p model.Plant) error {
	name, ok := species.Accepted(p.Name)
	if !ok || p.Now != "" || r.json {
		return nil
	}
	return r.say("  the species list has it as %s; to note that: tubside enter edit %d --name-now %q", show.Safe(name), p.ID, show.Safe(name))
}
