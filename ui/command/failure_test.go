package command

import (
	"errors"
	"fmt"
	"testing"

	"tubside/store"
)

// A script tells by the code whether to try again.
func TestExitCodes(t *testing.T) {
	for err, want := range map[error]int{
		nil:                       done,
		errors.New("no"):          failed,
		misread(errors.New("no")): wrongUsage,
		store.ErrInUse:            bookInUse,
		store.ErrDamaged:          bookDamaged,
		store.ErrForeign:          bookDamaged,
		store.ErrUnconfirmed:      unconfirmed,
		store.ErrNotWritten:       failed,
		store.ErrMoved:            failed,
		store.ErrMissing:          failed,
	} {
		if err != nil {
			err = fmt.Errorf("enter: %w", err)
		}
		if got := exitCode(err); got != want {
			t.Errorf("%v: exit code %d, want %d", err, got, want)
		}
	}
}
