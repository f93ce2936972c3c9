package station

// BackValues are the back pad of a reclined station.
type BackValues struct{}

// backPad adds the back pad on its strut.
func (b *builder) backPad() {}
