package model

import "errors"

// Problem is something the book will not take, said to a person: what is wrong
// and what to do about it.
type Problem struct {
	What  string // lower case, no full stop
	Do    string // what the person can do, wherever it is said; may be empty
	Shell string // the command or flag that does it: said in the shell alone
}

// Error is what is wrong and what to do on one line, without the shell's part.
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
