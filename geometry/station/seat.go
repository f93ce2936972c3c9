package station

// SeatValues are the seat and its positions.
type SeatValues struct{}

// seat adds the seat on its sleeve and post.
func (b *builder) seat() {}
