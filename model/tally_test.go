package model_test

import (
	"testing"

	"tubside/model"
)

// tallies holds what the board counts.
func (d *diary) tallies(when string, want model.Tally) {
	d.t.Helper()
	got := d.Tally()
	if got != want {
		d.t.Errorf("%s: %+v, want %+v", when, got, want)
	}
	if !got.Adds() {
		d.t.Errorf("%s: %+v does not add up", when, got)
	}
	if open := got.Waiting+got.Soaking+got.Drying+got.Dry > 0; got.Open() != open {
		d.t.Errorf("%s: open %t", when, got.Open())
	}
}

// Pulled = soaked = dried = hung back.
func TestASoakDayCounted(t *testing.T) {
	d := shelved(t)
	d.tallies("before", model.Tally{})
	d.write(&model.Pull{}, 1, 2, 3, 4)
	d.tallies("pulled", model.Tally{Pulled: 4, Waiting: 4})
	d.soak(1, 2, 5) // 5 was not pulled first
	d.tallies("in", model.Tally{Pulled: 5, Waiting: 2, Soaking: 3})
	d.write(&model.Out{}, 1, 2)
	d.write(&model.FoundDry{}, 1)
	d.tallies("out", model.Tally{Pulled: 5, Waiting: 2, Soaking: 1, Drying: 1, Dry: 1})
	d.write(&model.PutBack{}, 3) // in bud after all
	if d.Row(3).InSession || !d.Row(4).InSession {
		t.Error("put back, and still of the session; or the other was put back with it")
	}
	d.tallies("put back", model.Tally{Pulled: 4, Waiting: 1, Soaking: 1, Drying: 1, Dry: 1})
	d.write(&model.Leave{How: model.Lost, Cause: "rot"}, 5)
	d.write(&model.Leave{How: model.Sold}, 4)
	d.tallies("two gone", model.Tally{Pulled: 4, Drying: 1, Dry: 1, Gone: 2})
	d.write(&model.FoundDry{}, 2)
	d.write(&model.Hung{}, 1, 2)
	d.tallies("hung", model.Tally{Pulled: 4, Hung: 2, Gone: 2})
}

// The session ends when nothing is away: what is pulled next begins another.
func TestANewSessionBeginsWhenNothingIsAway(t *testing.T) {
	d := shelved(t)
	d.soak(1)
	d.write(&model.Out{}, 1)
	d.write(&model.Pull{}, 2)
	d.tallies("1 is still drying", model.Tally{Pulled: 2, Waiting: 1, Drying: 1})
	d.write(&model.FoundDry{}, 1)
	d.write(&model.Hung{}, 1)
	d.write(&model.Pull{}, 3)
	d.tallies("2 still waits", model.Tally{Pulled: 3, Waiting: 2, Hung: 1})
	d.write(&model.PutBack{}, 2, 3)
	d.tallies("all home", model.Tally{Pulled: 1, Hung: 1})
	d.write(&model.Pull{}, 4)
	d.tallies("the next session", model.Tally{Pulled: 1, Waiting: 1})
	d.soak(4)
	d.write(&model.Leave{How: model.Lost, Cause: "drought"}, 4) // the only one away
	d.soak(5)
	d.tallies("and the next", model.Tally{Pulled: 1, Soaking: 1})
}

// The first one pulled can be put back like any other.
func TestTheFirstOnePutBack(t *testing.T) {
	d := shelved(t)
	d.write(&model.Pull{}, 1, 2)
	d.write(&model.PutBack{}, 1)
	d.tallies("the first put back", model.Tally{Pulled: 1, Waiting: 1})
	d.write(&model.PutBack{}, 2)
	d.tallies("both put back", model.Tally{})
}

// A plant that was hung and goes in again counts once.
func TestTwoSoaksInOneSession(t *testing.T) {
	d := shelved(t)
	d.soak(1, 2)
	d.write(&model.Out{}, 1, 2)
	d.write(&model.FoundDry{}, 1)
	d.write(&model.Hung{}, 1)
	d.soak(1)
	d.tallies("in again", model.Tally{Pulled: 2, Soaking: 1, Drying: 1})
}
