// Package pdf renders drawings as one PDF, a page a sheet, at true size.
package pdf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"time"

	"armwright/export/sheet"
	"armwright/specs/angle"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/goregular"
	"gonum.org/v1/gonum/spatial/r2"
)

// Renderer writes a drawing as a PDF of one page; see [sheet.Renderer].
type Renderer struct{ Station string } // begins the document's title, before that of the sheet

// Extension is ".pdf".
func (Renderer) Extension() string { return ".pdf" }

// Render writes the drawing to w; see [Set].
func (r Renderer) Render(w io.Writer, d *sheet.Drawing) error {
	return Set(w, r.Station+", "+d.Title, d)
}

// Set writes the drawings to w as one document, each on a page of its own size with an
// entry in the outline. Text is set in Helvetica, one of the fonts that every
// reader has, in Windows-1252. A text with other letters of sheet.Lettered is set in
// a font that comes along, as much of it as is used; letters that it lacks too are
// shown as a point. The same drawings give the same bytes: dates are fixed and objects sorted. The
// print dialogue is asked not to scale.
func Set(w io.Writer, title string, drawings ...*sheet.Drawing) error {
	if len(drawings) == 0 {
		return &Error{"no sheets to write", "pass at least one drawing"}
	}
	f := fpdf.NewCustom(&fpdf.InitType{
		UnitStr: "mm",
		Size:    fpdf.SizeType{Wd: drawings[0].Width, Ht: drawings[0].Height},
	})
	// No clock: the same drawing must give the same bytes.
	epoch := time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)
	f.SetCreationDate(epoch)
	f.SetModificationDate(epoch)
	f.SetCatalogSort(true)
	f.SetProducer("armwright", false)
	f.SetCreator("armwright", false)
	f.SetTitle(title, true)
	f.SetLang("en")
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetLineJoinStyle("round")
	r := &pen{pdf: f, encode: f.UnicodeTranslatorFromDescriptor("cp1252")}
	if slices.ContainsFunc(drawings, foreign) {
		f.AddUTF8FontFromBytes(secondFont, "", goregular.TTF)
	}
	for _, d := range drawings {
		r.page(d)
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	out, err := unscaled(b.Bytes())
	if err != nil {
		return err
	}
	_, err = w.Write(out)
	return err
}

// secondFont has the letters that Helvetica lacks: Go Regular (Bigelow & Holmes, 2016;
// licence as of the module it comes in).
const secondFont = "second"

// foreign reports whether a drawing has a text for the second font.
func foreign(d *sheet.Drawing) bool {
	for p := range d.All() {
		if l, ok := p.(sheet.Label); ok && second(l.Value) {
			return true
		}
	}
	return false
}

func second(text string) bool { return !sheet.Printable(text) && sheet.Lettered(text) }

// Error says why no file was written, and what would help.
type Error struct{ Reason, Hint string }

func (e *Error) Error() string { return "pdf: " + e.Reason + " (" + e.Hint + ")" }

// unscaled adds /ViewerPreferences with no print scaling (ISO 32000-1, table
// 150; PDF 1.6) to the catalog. The library cannot; but it writes the catalog
// as the last object, so only the offset of the cross-reference table moves.
func unscaled(file []byte) ([]byte, error) {
	const mark, tail = "/Type /Catalog\n", "startxref\n"
	const extra = "/Version /1.6\n/ViewerPreferences << /PrintScaling /None >>\n"
	at, end := bytes.LastIndex(file, []byte(mark)), bytes.LastIndex(file, []byte(tail))
	if at < 0 || end < at {
		return nil, &Error{"the catalog is not where it was expected", "use the version of fpdf named in go.mod"}
	}
	at += len(mark)
	end += len(tail)
	digits, rest, _ := bytes.Cut(file[end:], []byte("\n"))
	offset, err := strconv.Atoi(string(digits))
	if err != nil || offset < at {
		return nil, &Error{"the cross-reference table is not where it was expected", "use the version of fpdf named in go.mod"}
	}
	var out bytes.Buffer
	out.Write(file[:at])
	out.WriteString(extra)
	out.Write(file[at:end])
	fmt.Fprintf(&out, "%d\n%s", offset+len(extra), rest)
	return out.Bytes(), nil
}

type pen struct {
	pdf    *fpdf.Fpdf
	encode func(string) string
	height float64
	role   sheet.Role // of the last stroke on this page
	fresh  bool       // no stroke on this page yet
}

func (r *pen) page(d *sheet.Drawing) {
	r.pdf.AddPageFormat("P", fpdf.SizeType{Wd: d.Width, Ht: d.Height})
	r.height, r.fresh = d.Height, true
	name := d.Title
	if d.Number > 0 {
		name = fmt.Sprintf("%02d %s", d.Number, d.Title)
	}
	r.pdf.Bookmark(r.encode(name), 0, 0)
	r.pdf.SetFont("Helvetica", "", 10)
	for p := range d.All() {
		switch p := p.(type) {
		case sheet.Stroke:
			r.style(p.Role)
			r.path(p.Path, p.Closed)
			r.pdf.DrawPath("D")
		case sheet.Fill:
			for _, loop := range p.Loops {
				r.path(loop, true)
			}
			r.pdf.SetFillColor(0, 0, 0)
			r.pdf.DrawPath("F*")
		case sheet.Label:
			r.text(p)
		}
	}
}

func (r *pen) style(role sheet.Role) {
	if role == r.role && !r.fresh {
		return
	}
	r.role, r.fresh = role, false
	style := role.Style()
	r.pdf.SetLineWidth(style.Width)
	r.pdf.SetDashPattern(style.Dash, 0)
	ends := "round"
	if style.Dash != nil {
		ends = "butt"
	}
	r.pdf.SetLineCapStyle(ends)
}

func (r *pen) text(l sheet.Label) {
	size, width, text := sheet.FontSize(l.Height), sheet.TextWidth(l.Value, l.Height), r.encode(l.Value)
	if second(l.Value) {
		r.pdf.SetFont(secondFont, "", 10)
		defer r.pdf.SetFont("Helvetica", "", 10)
		// Where it is wider than the sheet was laid out for it is set smaller.
		r.pdf.SetFontUnitSize(size)
		text = l.Value
		own := r.pdf.GetStringWidth(text)
		size, width = size*math.Min(1, width/own), math.Min(own, width)
	}
	r.pdf.SetFontUnitSize(size)
	x, y := l.At.X, r.height-l.At.Y
	start := x
	switch l.H {
	case sheet.Middle:
		start -= width / 2
	case sheet.Right:
		start -= width
	}
	if l.Rotation != 0 {
		r.pdf.TransformBegin()
		r.pdf.TransformRotate(l.Rotation/angle.Degree, x, y)
		defer r.pdf.TransformEnd()
	}
	r.pdf.Text(start, y, text)
}

// path builds a path, arcs as curves.
func (r *pen) path(path []sheet.Vertex, closed bool) {
	if len(path) == 0 {
		return
	}
	r.pdf.MoveTo(path[0].X, r.height-path[0].Y)
	for i := 1; i < len(path); i++ {
		r.span(path[i-1], path[i].Vec)
	}
	if closed {
		if last := path[len(path)-1]; last.Bulge != 0 {
			r.span(last, path[0].Vec)
		}
		r.pdf.ClosePath()
	}
}

// span draws a line or an arc to a point. An arc becomes one cubic for each
// 45 degrees or less, with handles of 4/3·tan(sweep/4)·radius; the error of
// one is below 5e-6 of the radius.
func (r *pen) span(from sheet.Vertex, to r2.Vec) {
	if from.Bulge == 0 {
		r.pdf.LineTo(to.X, r.height-to.Y)
		return
	}
	centre, radius, start, sweep := sheet.ArcOf(from.Vec, to, from.Bulge)
	n := int(math.Ceil(math.Abs(sweep)/(math.Pi/4) - 1e-9))
	step := sweep / float64(n)
	handle := 4.0 / 3 * math.Tan(step/4) * radius
	point := func(angle, tangent float64) (x, y float64) {
		s, c := math.Sincos(angle)
		return centre.X + radius*c - tangent*s, r.height - (centre.Y + radius*s + tangent*c)
	}
	for i := range n {
		a, b := start+float64(i)*step, start+float64(i+1)*step
		x1, y1 := point(a, handle)
		x2, y2 := point(b, -handle)
		x, y := point(b, 0)
		r.pdf.CurveBezierCubicTo(x1, y1, x2, y2, x, y)
	}
}
