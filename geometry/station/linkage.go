package station

// LinkageValues are the linkage between arm and plate lever.
type LinkageValues struct{}

// linkage adds output shaft, bars, sleeve and plates.
func (b *builder) linkage() {}
