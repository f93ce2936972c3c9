// Package folder says what a file of an output folder is, for those that make one and
// those that write or pack it.
package folder

// File is a file of the output folder.
type File struct {
	Path string // relative, with slashes: "drawings/03-cam.svg", "cut/cam.dxf"
	Data []byte

	// Of a sheet's SVG, and nothing for other files: a small SVG of what it shows,
	// and what is amiss on it, nil or a *sheet.CheckError.
	Thumbnail []byte
	Flaws     error
}
