package specs

import "embed"

// Examples holds example briefs, examples/*.yaml: an arm-pad station for a
// town workshop, a cam for a design school's bench, and a plate-loaded
// reclined station in inches.
//
//go:embed examples/*.yaml
var Examples embed.FS
