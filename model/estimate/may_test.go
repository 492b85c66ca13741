package estimate_test

import "tubside/tests/household"

// may is an hour of a day in May 2026.
var may = household.May
