package soak

import (
	"context"
)

// Explain says of every item of a session that a plan made earlier leaves out why it does,
// the plan being as it is. The error wraps [ErrSession] or the context's.
func Explain(ctx context.Context, s *Session, before Before) ([]LeftOut, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	t := prepare(s).trier(max(1, before.AtOnce))
	small := t.anySize(t.p)
	d := small.recall(before)
	sc, ok := small.try(&d)
	if err := ctx.Err(); err != nil || !ok {
		return nil, err
	}
	left, _, _ := t.left(&d, sc, false)
	return left, nil
}
