package store

// IsBook reports whether there is a bolt file at path, sound or damaged: nothing
// that is printed or exported may take its place.
func IsBook(path string) bool {
	f, err := openPlain(path)
	if err != nil {
		return false
	}
	defer f.Close()
	var head [pageHeader + metaLength]byte
	for _, size := range append([]int64{0}, pageSizes()...) {
		if _, err := f.ReadAt(head[:], size); err == nil && order.Uint32(head[pageHeader:]) == boltMagic {
			return true
		}
	}
	return false
}

// pageSizes are the sizes of pages that bbolt knows.
func pageSizes() (all []int64) {
	for size := int64(1 << 10); size <= 16<<20; size <<= 1 {
		all = append(all, size)
	}
	return all
}
