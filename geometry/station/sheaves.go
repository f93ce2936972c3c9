package station

// sheaves adds the sheaves of the cable's way with their forks and stems.
func (b *builder) sheaves() {}
