package table

import "tubside/store/csvfile"

// Fault is one thing in a file that cannot be taken.
type Fault = csvfile.Fault

// Faults is everything in a file that cannot be taken, in the order of the
// lines. While there is one, nothing of the file is taken.
type Faults = csvfile.Faults
