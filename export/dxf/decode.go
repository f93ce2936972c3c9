package dxf

import "math"

// num returns the first value with the code, or the default.
func (d *decoder) num(o object, code int, def float64) float64 {
	if t, ok := o.find(code); ok {
		return d.number(t)
	}
	return def
}

func (d *decoder) number(t tag) float64 {
	v, ok := t.number()
	if !ok || abs(v) > largest {
		d.fail(t.line, "", "group %d is %q, not a finite number within ±%g", t.code, t.value, float64(largest))
		return 0
	}
	return v
}

func (d *decoder) int(o object, code, def int) int {
	t, ok := o.find(code)
	if !ok {
		return def
	}
	v, ok := t.integer()
	if !ok {
		d.fail(t.line, "", "group %d is %q, not a whole number", t.code, t.value)
	}
	return v
}

// angle returns an angle in radians, given in degrees.
func (d *decoder) angle(o object, code int) float64 { return d.num(o, code, 0) * math.Pi / 180 }

func (d *decoder) point(o object, code int) Point {
	return Point{d.num(o, code, 0), d.num(o, code+10, 0)}
}

// text returns a text value; name a name, without outer spaces.
func (d *decoder) text(o object, code int) string {
	t, _ := o.find(code)
	return unescape(d.ascii(t), false)
}

func (d *decoder) name(o object, code int) string {
	t, _ := o.find(code)
	t.value = t.word()
	return unescape(d.ascii(t), true)
}

func (d *decoder) ascii(t tag) string {
	for i := range len(t.value) {
		if t.value[i] >= 0x80 {
			d.fail(t.line, "write it as an escape", "group %d holds a character outside ASCII", t.code)
			return ""
		}
	}
	return t.value
}

// attr reads the properties all entities share. Anything but a colour, a
// line type or a weight of its own reads as by layer.
func (d *decoder) attr(o object) Attr {
	a := Attr{Layer: d.name(o, 8), Linetype: d.name(o, 6)}
	if k := key(a.Linetype); k == key(byLayer) || k == key(byBlock) {
		a.Linetype = ""
	} else if k == key(continuous) {
		a.Linetype = continuous
	}
	if a.Layer == "0" {
		a.Layer = ""
	}
	if c := d.int(o, 62, 0); c != math.MinInt && abs(float64(c)) < 256 {
		a.Color = ACI(max(c, -c)) // negative: switched off
	}
	if w := d.int(o, 370, 0); w > 0 {
		a.Lineweight = Lineweight(w)
	}
	return a
}

// entities reads entities one after another; a chain of vertices is one.
func (d *decoder) entities(all []object) []Entity {
	var out []Entity
	for i := 0; i < len(all) && d.err == nil; i++ {
		if all[i].kind == "POLYLINE" {
			v, n := d.chain(all[i:])
			out = append(out, v)
			i += n - 1
			continue
		}
		if v := d.entity(all[i]); v != nil {
			out = append(out, v)
		}
	}
	return out
}

func (d *decoder) entity(o object) Entity {
	d.flat(o)
	a := d.attr(o)
	switch o.kind {
	case "LINE":
		return Line{a, d.point(o, 10), d.point(o, 11)}
	case "CIRCLE":
		return Circle{a, d.point(o, 10), d.num(o, 40, 0)}
	case "ARC":
		return Arc{a, d.point(o, 10), d.num(o, 40, 0), d.angle(o, 50), d.angle(o, 51)}
	case "LWPOLYLINE":
		return d.polyline(o, a)
	case "TEXT":
		return d.textEntity(o, a)
	case "SOLID":
		s := Solid{a, []Point{d.point(o, 10), d.point(o, 11), d.point(o, 13), d.point(o, 12)}}
		if s.Corners[2] == s.Corners[3] {
			s.Corners = s.Corners[:3]
		}
		return s
	case "INSERT":
		i := Insert{a, d.name(o, 2), d.point(o, 10), d.num(o, 41, 0), d.angle(o, 50)}
		if y := d.num(o, 42, i.Scale); y != i.Scale {
			d.fail(o.line, "", "insert with unequal scales is not read")
		}
		return i
	case "DIMENSION":
		return d.dimension(o, a)
	}
	d.fail(o.line, "this package reads only what it writes", "entity %q is not read", o.kind)
	return nil
}

// flat refuses what does not lie in the plane of model space.
func (d *decoder) flat(o object) {
	if d.int(o, 67, 0) != 0 {
		d.fail(o.line, "", "%s in paper space is not read", o.kind)
	}
	if d.num(o, 230, 1) != 1 {
		d.fail(o.line, "", "%s with a tilted or mirrored plane is not read", o.kind)
	}
}

func (d *decoder) polyline(o object, a Attr) Entity {
	p := Polyline{Attr: a, Closed: d.int(o, 70, 0)&1 != 0}
	for _, t := range o.tags {
		switch n := len(p.Vertices); {
		case t.code == 10:
			p.Vertices = append(p.Vertices, Vertex{Point: Point{X: d.number(t)}})
		case n > 0 && t.code == 20:
			p.Vertices[n-1].Y = d.number(t)
		case n > 0 && t.code == 42:
			p.Vertices[n-1].Bulge = d.number(t)
		}
	}
	if n := d.int(o, 90, -1); n != len(p.Vertices) {
		d.fail(o.line, "", "LWPOLYLINE announces %d vertices and has %d", n, len(p.Vertices))
	}
	d.length(o, p)
	return p
}

func (d *decoder) length(o object, p Polyline) {
	if len(p.Vertices) < 2 {
		d.fail(o.line, "", "polyline of %d vertices, needs two", len(p.Vertices))
	}
}

// chain reads POLYLINE, VERTEX ... SEQEND and returns how many objects it
// took.
func (d *decoder) chain(all []object) (Entity, int) {
	d.flat(all[0])
	p := Polyline{Attr: d.attr(all[0]), Closed: d.int(all[0], 70, 0)&1 != 0}
	if d.int(all[0], 70, 0)&^(1|128) != 0 {
		d.fail(all[0].line, "", "fitted or spatial POLYLINE is not read")
	}
	for i, o := range all[1:] {
		switch o.kind {
		case "VERTEX":
			p.Vertices = append(p.Vertices, Vertex{d.point(o, 10), d.num(o, 42, 0)})
			continue
		case "SEQEND":
			d.length(all[0], p)
			return p, i + 2
		}
		break
	}
	d.fail(all[0].line, "", "POLYLINE without SEQEND")
	return p, len(all)
}

func (d *decoder) textEntity(o object, a Attr) Entity {
	t := Text{Attr: a, At: d.point(o, 10), Height: d.num(o, 40, 0), Value: d.text(o, 1),
		Rotation: d.angle(o, 50), H: HAlign(d.int(o, 72, 0)), V: VAlign(d.int(o, 73, 0)), Style: d.name(o, 7)}
	if !t.alignment() {
		d.fail(o.line, "", "text alignment %d, %d is not read", t.H, t.V)
	}
	switch {
	case t.H == Fit:
		t.End = d.point(o, 11)
	case t.H != Left || t.V != Baseline:
		t.At = d.point(o, 11)
	}
	return t
}

// dimension reads a dimension; its measurement is NaN if the file has none.
func (d *decoder) dimension(o object, a Attr) Entity {
	flags := d.int(o, 70, 0)
	v := Dimension{Attr: a, Kind: DimKind(flags & dimKindMask), XOrdinate: flags&dimXOrdinate != 0,
		Style: d.name(o, 3), Text: d.text(o, 1), Measurement: d.num(o, 42, math.NaN()),
		TextAt: d.point(o, 11), Line: d.point(o, 10)}
	if key(v.Style) == key(standard) {
		v.Style = ""
	}
	switch v.Kind {
	case Rotated:
		v.Angle = d.angle(o, 50)
		v.First, v.Second = d.point(o, 13), d.point(o, 14)
	case Aligned, Ordinate:
		v.First, v.Second = d.point(o, 13), d.point(o, 14)
	case Radius, Diameter:
		v.First = d.point(o, 15)
	case Angular:
		v.First, v.Second, v.Vertex = d.point(o, 13), d.point(o, 14), d.point(o, 15)
	default:
		d.fail(o.line, "", "dimension of kind %d is not read", int(v.Kind))
	}
	block := d.name(o, 2)
	picture, ok := d.pictures[key(block)]
	if !ok {
		d.fail(o.line, "strict readers refuse it too", "DIMENSION without its block %q", block)
	}
	v.Picture = picture
	return v
}
