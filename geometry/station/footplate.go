package station

// FootPlateValues are the foot plate and its heights.
type FootPlateValues struct{}

// footPlate adds the foot plate on its guides.
func (b *builder) footPlate() {}
