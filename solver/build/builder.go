package build

import "armwright/solver/drive"

// Builder makes a station's geometry into what it is built of.
type Builder struct{ drive.Designer }
