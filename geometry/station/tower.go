package station

// TowerValues are the tower with its stack or stacks.
type TowerValues struct{}

// tower adds the tower, guide rods and stack.
func (b *builder) tower() {}
