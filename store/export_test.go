package store

// WithMaxSize gives the book a disk of so many bytes.
func WithMaxSize(opt Options, bytes int) Options {
	opt.maxSize = bytes
	return opt
}
