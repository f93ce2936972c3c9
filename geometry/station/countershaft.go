package station

// countershaft adds the second shaft of a geared cam with its wheels.
func (b *builder) countershaft() {}
