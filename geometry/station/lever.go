package station

// LeverValues are the plate-loaded lever.
type LeverValues struct{}

// lever adds the lever with its sleeve and plates.
func (b *builder) lever() {}
