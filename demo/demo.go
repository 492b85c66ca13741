// Package demo is an invented collection with an invented past, made from a
// seed number: a year of soak days, rounds, feeds, newcomers, troubles and trips
// in a flat that nobody lives in. It knows the truth about its plants, so that
// estimates can be held against it.
package demo

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/store"
)

// Options say which collection, and at which moment.
type Options struct {
	Scene    string    // the name of a [Scene]; empty is the first
	Seed     uint64    // the same seed gives the same plants
	Now      time.Time // the moment of the scene; its zone is the grower's
	Progress func(done, total int)
}

// Build writes an invented collection into an empty book and tells what its
// plants are really like. The same options give the same entries. A book that
// is not empty, or a scene there is none of, is a [model.Problem]; nothing is
// written then, nor after any other error. See [store.Store.AppendAll].
func Build(s *store.Store, opt Options) (*Truth, error) {
	scene, err := find(opt.Scene)
	if err != nil {
		return nil, err
	}
	if opt.Now.IsZero() {
		return nil, &model.Problem{What: "a demo without a time"}
	}
	if len(s.Book().Entries()) > 0 {
		return nil, &model.Problem{What: "the book already has entries", Do: "name a file that is not there yet"}
	}
	p := newPast(opt.Seed, opt.Now.Round(0).Truncate(time.Second), scene)
	if !scene.noPast {
		p.year()
	}
	scene.tell(p)
	entries := p.journal()
	if _, err := s.AppendAll(entries, opt.Progress); err != nil {
		return nil, fmt.Errorf("write the demo: %w", err)
	}
	return truthAt(p.lives, p.now, p.weather), nil
}

func find(name string) (Scene, error) {
	if name == "" {
		return Scenes[0], nil
	}
	names := make([]string, len(Scenes))
	for i, s := range Scenes {
		if strings.EqualFold(s.Name, name) {
			return s, nil
		}
		names[i] = s.Name
	}
	return Scene{}, &model.Problem{
		What: fmt.Sprintf("there is no scene %q", name),
		Do:   "the scenes are " + strings.Join(names, ", "),
	}
}
