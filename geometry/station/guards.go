package station

// guards adds the covers of chain and cam.
func (b *builder) guards() {}
