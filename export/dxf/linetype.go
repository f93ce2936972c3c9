package dxf

// Names of the line types of ISO 128-2 that the constructors below make.
const (
	DashedName    = "DASHED"
	ChainName     = "CHAIN"
	DoubleDotName = "CHAIN_DOUBLE_DOT"
)

// Dashed returns line type 02 of ISO 128-2 for line width w in mm: dashes of
// 12 w, gaps of 3 w. Source: ISO 128-20:1996 table 1 (from memory).
func Dashed(w float64) Linetype {
	return Linetype{DashedName, "Dashed __ __ __", []float64{12 * w, -3 * w}}
}

// Chain returns line type 04, the long-dashed dotted line of axes and cutting
// planes: dash 24 w, gap 3 w, dot 0.5 w, gap 3 w. Source: as [Dashed].
func Chain(w float64) Linetype {
	return Linetype{ChainName, "Chain ____ . ____", []float64{24 * w, -3 * w, w / 2, -3 * w}}
}

// DoubleDot returns line type 05, the long-dashed double-dotted line of
// adjacent parts and extreme positions. Source: as [Dashed].
func DoubleDot(w float64) Linetype {
	return Linetype{DoubleDotName, "Chain ____ . . ____",
		[]float64{24 * w, -3 * w, w / 2, -3 * w, w / 2, -3 * w}}
}
