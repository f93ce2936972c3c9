package dxf

import (
	"strings"

	"armwright/export/sheet"
)

// Version is an edition of the format.
type Version string

const (
	AC1015 Version = "AC1015" // release 2000; the default
	AC1009 Version = "AC1009" // releases 11 and 12
)

// Units is the drawing unit, with the values of the header variable $INSUNITS.
type Units int

const (
	Unitless    Units = 0
	Inches      Units = 1
	Millimetres Units = 4
)

// ACI is a colour by its number in the format's index, 1 to 255.
type ACI int

const (
	ByLayer ACI = 0 // an entity takes the colour of its layer
	Red     ACI = 1
	Yellow  ACI = 2
	Green   ACI = 3
	Cyan    ACI = 4
	Blue    ACI = 5
	Magenta ACI = 6
	White   ACI = 7 // black on paper
	Grey    ACI = 8
)

// Lineweight is a line width in hundredths of a millimetre, one of
// [Lineweights]. Zero leaves it open: an entity takes the weight of its layer,
// a layer takes the reader's default.
type Lineweight int

// Lineweights lists the widths the format allows, in hundredths of a
// millimetre.
func Lineweights() []Lineweight {
	return []Lineweight{5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70,
		80, 90, 100, 106, 120, 140, 158, 200, 211}
}

// LineweightOf returns the allowed width nearest to mm; of two equally near
// ones the narrower.
func LineweightOf(mm float64) Lineweight {
	all := Lineweights()
	best := all[0]
	for _, w := range all[1:] {
		if abs(mm*100-float64(w)) < abs(mm*100-float64(best)) {
			best = w
		}
	}
	return best
}

// Point is a place in the drawing plane.
type Point struct{ X, Y float64 }

// Layer gathers entities that are seen, cut or plotted alike.
type Layer struct {
	Name       string
	Color      ACI        // zero means White
	Linetype   string     // empty means Continuous
	Lineweight Lineweight // AC1015 only
}

// Linetype is a dash pattern. An empty pattern is a continuous line.
type Linetype struct {
	Name        string
	Description string
	Pattern     []float64 // dash > 0, gap < 0, dot = 0; drawing units
}

// TextStyle names a font. Height is left to each text.
type TextStyle struct {
	Name  string
	Font  string  // font file; empty means txt
	Width float64 // character width factor; zero means 1
}

// DimStyle governs how a reader rebuilds a dimension after an edit.
type DimStyle struct {
	Name         string
	LinearFactor float64 // real length per drawn length (DIMLFAC); zero means 1
	TextHeight   float64 // zero means sheet.ViewText
	ArrowSize    float64 // zero means sheet.ArrowLength
	Offset       float64 // gap between outline and extension line
	Extension    float64 // extension line past the dimension line
	Decimals     int     // decimals of a rebuilt text, 0 to 8
	TextStyle    string  // empty means Standard
}

// Block is a group of entities placed by [Insert]. It may hold inserts of
// blocks listed before it, and no dimensions: readers drop those.
type Block struct {
	Name     string
	Base     Point
	Entities []Entity
}

// Document is a drawing. Layer 0, the line types ByLayer, ByBlock and
// Continuous, and the text and dimension style Standard always exist; list
// them only to change them. Names compare without regard to case.
type Document struct {
	Comments   []string // lines at the top of the file
	Units      Units
	Layers     []Layer
	Linetypes  []Linetype
	TextStyles []TextStyle
	DimStyles  []DimStyle
	Blocks     []Block
	Entities   []Entity
}

// New returns an empty drawing in millimetres.
func New() *Document { return &Document{Units: Millimetres} }

// Add appends entities to model space.
func (d *Document) Add(e ...Entity) { d.Entities = append(d.Entities, e...) }

// On returns the entities of model space on the named layer, in order.
func (d *Document) On(layer string) []Entity {
	var out []Entity
	for _, e := range d.Entities {
		if strings.EqualFold(e.attr().layer(), layer) {
			out = append(out, e)
		}
	}
	return out
}

// Bounds returns the least box round the entities of model space, with texts
// counted by their anchor points. It reports false for an empty drawing.
func (d *Document) Bounds() (lo, hi Point, ok bool) {
	b := emptyBox()
	blocks := d.blockBoxes()
	for _, e := range d.Entities {
		e.bound(&b, blocks)
	}
	return b.lo, b.hi, !b.empty()
}

// blockBoxes returns the box of every block about its base point, by upper
// case name.
func (d *Document) blockBoxes() map[string]box {
	boxes := make(map[string]box, len(d.Blocks))
	for _, bl := range d.Blocks {
		b := emptyBox()
		for _, e := range bl.Entities {
			e.bound(&b, boxes)
		}
		if !b.empty() {
			b.lo, b.hi = b.lo.sub(bl.Base), b.hi.sub(bl.Base)
		}
		boxes[key(bl.Name)] = b
	}
	return boxes
}

// The entries every drawing has; the reader leaves them out again when they
// stand unchanged.
func layerZero() Layer        { return Layer{Name: "0", Color: White, Linetype: continuous} }
func standardText() TextStyle { return TextStyle{Name: standard, Font: defaultFont, Width: 1} }
func standardDim() DimStyle   { return DimStyle{Name: standard}.filled() }
func standardTypes() []string { return []string{byBlock, byLayer, continuous} }
func key(name string) string  { return strings.ToUpper(name) }

const (
	standard    = "Standard"
	continuous  = "Continuous"
	byLayer     = "ByLayer"
	byBlock     = "ByBlock"
	defaultFont = "txt"
)

// filled returns the layer with its open fields at the values they stand for.
func (l Layer) filled() Layer {
	if l.Color == 0 {
		l.Color = White
	}
	if l.Linetype == "" {
		l.Linetype = continuous
	}
	return l
}

func (s TextStyle) filled() TextStyle {
	if s.Font == "" {
		s.Font = defaultFont
	}
	if s.Width == 0 {
		s.Width = 1
	}
	return s
}

// stroked returns the style with a font of release 12, which knows none but
// stroke fonts. The plain one is as wide as it is high; the factor brings it to
// the average width of the sans-serif letters it stands for.
func (s TextStyle) stroked() TextStyle {
	const narrower = 0.7
	if strings.HasSuffix(strings.ToLower(s.Font), ".ttf") {
		s.Font, s.Width = defaultFont, s.Width*narrower
	}
	return s
}

func (s DimStyle) filled() DimStyle {
	if s.LinearFactor == 0 {
		s.LinearFactor = 1
	}
	if s.TextHeight == 0 {
		s.TextHeight = sheet.ViewText
	}
	if s.ArrowSize == 0 {
		s.ArrowSize = sheet.ArrowLength
	}
	if s.TextStyle == "" {
		s.TextStyle = standard
	}
	return s
}
