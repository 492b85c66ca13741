package model

import "errors"

// Problem is something the book will not take, said to a person: what is wrong
// and what to do about it.
type Problem struct {
	What string // lower case, no full stop
	Do   string // what the person can do; may be empty
}

// Error is both halves on one line.
func (p *Problem) Error() string {
	if p.Do == "" {
		return p.What
	}
	return p.What + "; " + p.Do
}

// AsProblem finds the Problem in err's chain, if there is one.
func AsProblem(err error) (*Problem, bool) {
	var p *Problem
	ok := errors.As(err, &p)
	return p, ok
}
