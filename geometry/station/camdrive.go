package station

// CamValues are the cam and its outline.
type CamValues struct{}

// camDrive adds the cam on its flange hub.
func (b *builder) camDrive() {}
