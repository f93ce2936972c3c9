package specs

import "embed"

// Examples holds example briefs, examples/*.yaml: an arm-pad station for a
// town workshop, a cam for a design school's bench, a plate-loaded reclined
// station in inches, and one with a four-bar linkage.
//
//go:embed examples/*.yaml
var Examples embed.FS
