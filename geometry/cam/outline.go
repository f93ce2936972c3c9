package cam

import (
	"fmt"
	"math"

	"armwright/geometry/contour"
	"gonum.org/v1/gonum/spatial/r2"
)

const (
	// WrapLimit is the most the cable may wrap, lead-ins and dead wrap
	// included, before it meets its own anchor.
	WrapLimit = 330 * math.Pi / 180
	// FullDeadWrap is the dead wrap given where WrapLimit leaves room.
	FullDeadWrap = math.Pi / 2
	// LeastDeadWrap is the least dead wrap accepted.
	LeastDeadWrap = math.Pi / 4

	// fitTolerance is how far the arcs may stand off the pitch curve, mm: a
	// fifth of the 0.02 mm asked of cut files, and 0.013 % of the smallest
	// usual moment arm, 30 mm.
	fitTolerance = .004
	// bendSlack is the share by which the radius may fall short of the least
	// one: D/d of 17.96 for 18. It forgives the arcs and the coarse grid on
	// which a solver keeps the limit.
	bendSlack = .002
	// sampleTurn is the turning between samples of the working profile, rad.
	sampleTurn = .5 * math.Pi / 180
	// sectorTurn is the largest turning of one closing arc, rad.
	sectorTurn = 6 * math.Pi / 180
)

// Plate is what a cam is cut from and what it must carry. Zero values of the
// fields marked with a default take the default.
type Plate struct {
	Cable     float64 // diameter of the cable
	MinRadius float64 // least radius of curvature to the cable centre
	LeadIn    float64 // flexion past each end over which the profile goes on; default 5 degrees
	DeadWrap  float64 // turning of the cable behind the lead-in; default 90 degrees or what WrapLimit leaves, at least 45

	Bore       float64 // diameter of the bore
	KeyWidth   float64 // of the keyway in the bore, plumb above the axis; 0 for none
	KeyDepth   float64 // of the keyway past the bore
	Bolts      int     // holes of the hub's bolt circle, may be 0
	BoltCircle float64 // its diameter
	BoltHole   float64 // diameter of its holes
	AnchorHole float64 // diameter of the cable anchor's hole; default twice the cable
	Wall       float64 // least material between holes and to the groove root; default 1.5 times the cable
	Lighten    bool    // cut lightening holes where there is room
}

// Hole is a round hole of the cam plate.
type Hole struct {
	Name     string // "bore", "bolt", "anchor" or "lightening"
	Centre   r2.Vec
	Diameter float64
}

// Mark is a line to be etched on the cam plate.
type Mark struct {
	Name     string // "index", "first" or "last"
	From, To r2.Vec
}

// Anchor is where the cable ends: it leaves the groove at Tangent, running in
// Direction, the unit tangent away from the guide, and is held in the hole
// named "anchor".
type Anchor struct {
	Tangent, Direction r2.Vec
	Hole               Hole
}

// Outline is a finished cam, in the body at flexion 0, cam axis at the origin.
// The three paths are parallel, closed, convex, smooth, and counter-clockwise,
// made of arcs; they start at the end of the lead-in past the last flexion.
type Outline struct {
	Pitch contour.Path // cable centre
	Root  contour.Path // groove root, half a cable inside
	Blank contour.Path // rim, the groove's depth outside the root

	Holes  []Hole       // all holes, the anchor's among them
	Keyed  contour.Path // the bore with its keyway, in place of the hole "bore"; empty without one
	Marks  []Mark
	Anchor Anchor

	// WrapFrom and WrapTo are the body normal angles of the contact at the end
	// of the lead-in past the last flexion and before the first; the cable
	// wraps from WrapFrom over WrapTo to the anchor, WrapTo + DeadWrap.
	WrapFrom, WrapTo, DeadWrap float64
	// LeastRadius is the smallest radius of curvature of Pitch.
	LeastRadius float64
}

// Outline returns the closed convex contour of the cam with its holes and
// marks.
//
// The working profile between the law's first and last flexion is fitted by
// arcs within 0.004 mm. At either end it goes on for the lead-in at the
// curvature it has there. Dead wrap and blend close the outline: arcs, none
// narrower than the least radius, the dead wrap as near to the end's curvature
// and the blend as near to the least radius as closing and the room for the
// hub allow. Convexity makes every tangent a supporting line, so the free cable
// never touches the cam elsewhere.
//
// The error is an *Error: those of Profile.At, and Curvature, Wrap, Closing or
// Hub.
func (p Profile) Outline(plate Plate) (Outline, error) {
	plate, err := plate.filled()
	if err != nil {
		return Outline{}, err
	}
	work, err := p.working(plate)
	if err != nil {
		return Outline{}, err
	}
	n := len(work)
	last, first := work[0], work[n-1]

	var out Outline
	lead := p.Ratio * plate.LeadIn
	out.WrapFrom, out.WrapTo = last.Phi-lead, first.Phi+lead
	if out.DeadWrap, err = plate.deadWrap(out.WrapTo - out.WrapFrom); err != nil {
		return Outline{}, err
	}

	var arcs chain
	arcs.at = r2.Add(last.Point, r2.Scale(last.Rho, r2.Sub(normal(out.WrapFrom), normal(last.Phi))))
	start := arcs.at
	arcs.add(sector{from: out.WrapFrom, to: last.Phi, radius: last.Rho})
	points, tangents := make([]r2.Vec, n), make([]r2.Vec, n)
	for i, st := range work {
		points[i], tangents[i] = st.Point, normal(st.Phi+math.Pi/2)
	}
	fitted, err := contour.Fit(points, tangents, fitTolerance)
	if err != nil {
		return Outline{}, fmt.Errorf("cam: working profile: %w", err)
	}
	arcs.vertices = append(arcs.vertices, fitted.Vertices[:fitted.Len()]...)
	arcs.at = first.Point
	arcs.add(sector{from: first.Phi, to: out.WrapTo, radius: first.Rho})

	closing, err := plate.closing(&out, first.Rho, arcs.at, start)
	if err != nil {
		return Outline{}, err
	}
	for _, s := range closing {
		arcs.add(s)
	}

	out.Pitch = contour.Path{Closed: true, Vertices: arcs.vertices}
	if out.LeastRadius, _ = out.Pitch.MinRadius(); out.LeastRadius < plate.MinRadius*(1-bendSlack) {
		return Outline{}, &Error{Kind: Curvature, What: "radius of a fitted arc (mm)", Value: out.LeastRadius, Limit: plate.MinRadius, Hint: "keep the profile's radius of curvature a little above the limit"}
	}
	if out.Root, err = out.Pitch.Offset(-plate.Cable / 2); err != nil {
		return Outline{}, fmt.Errorf("cam: groove root: %w", err)
	}
	if out.Blank, err = out.Root.Offset(NewGroove(plate.Cable).Depth); err != nil {
		return Outline{}, fmt.Errorf("cam: rim: %w", err)
	}
	if err := out.drill(plate); err != nil {
		return Outline{}, err
	}
	out.mark(plate, first, last)
	return out, nil
}

// filled returns the plate with its defaults filled in.
func (plate Plate) filled() (Plate, error) {
	c := plate.Cable
	for _, f := range [...]struct {
		field    *float64
		standard float64
	}{
		{&plate.LeadIn, Overrun},
		{&plate.AnchorHole, 2 * c},
		{&plate.Wall, 1.5 * c},
	} {
		if *f.field == 0 {
			*f.field = f.standard
		}
	}
	bad := func(what string, value, limit float64, hint string) (Plate, error) {
		return plate, &Error{Kind: Input, What: what, Value: value, Limit: limit, Hint: hint}
	}
	switch {
	case !finite(c, plate.MinRadius, plate.LeadIn, plate.DeadWrap, plate.Bore, plate.KeyWidth, plate.KeyDepth, plate.BoltCircle, plate.BoltHole, plate.AnchorHole, plate.Wall):
		return plate, &Error{Kind: Input, What: "a size of the plate", Value: math.NaN(), Hint: "every size must be a finite number"}
	case c <= 0:
		return bad("diameter of the cable (mm)", c, 0, "it must be above zero")
	case plate.MinRadius <= c/2:
		return bad("least radius (mm)", plate.MinRadius, c/2, "it must be more than half the cable's diameter")
	case plate.LeadIn < 0:
		return bad("lead-in (rad)", plate.LeadIn, 0, "it must not be negative")
	case plate.DeadWrap != 0 && plate.DeadWrap < LeastDeadWrap:
		return bad("dead wrap (rad)", plate.DeadWrap, LeastDeadWrap, "give more dead wrap, or 0 for the usual")
	case plate.Bore < 0 || plate.BoltHole < 0 || plate.AnchorHole < 0 || plate.Wall < 0:
		return bad("smallest size of a hole or wall (mm)", min(plate.Bore, plate.BoltHole, plate.AnchorHole, plate.Wall), 0, "it must not be negative")
	case plate.KeyWidth < 0 || plate.KeyDepth < 0 || plate.KeyWidth >= plate.Bore && plate.KeyWidth > 0:
		return bad("width of the keyway (mm)", plate.KeyWidth, plate.Bore, "the keyway must be narrower than the bore")
	case plate.Bolts < 0 || plate.Bolts > 0 && plate.BoltCircle < plate.Bore+plate.BoltHole:
		return bad("diameter of the bolt circle (mm)", plate.BoltCircle, plate.Bore+plate.BoltHole, "the bolt holes must clear the bore")
	}
	return plate, nil
}

// hub returns the radius of the zone that bore and bolts take.
func (plate Plate) hub() float64 {
	r := math.Hypot(plate.KeyWidth/2, plate.Bore/2+plate.KeyDepth)
	if plate.Bolts > 0 {
		r = math.Max(r, (plate.BoltCircle+plate.BoltHole)/2)
	}
	return r
}

// deadWrap returns the dead wrap behind a wrap of the given turning.
func (plate Plate) deadWrap(wrap float64) (float64, error) {
	room := WrapLimit - wrap
	dead := plate.DeadWrap
	if dead == 0 {
		dead = math.Max(LeastDeadWrap, math.Min(FullDeadWrap, room))
	}
	if dead > room {
		return 0, &Error{Kind: Wrap, What: "wrap with dead wrap (rad)", Value: wrap + dead, Limit: WrapLimit, Hint: "lower the drive ratio, shorten the loaded range or give less dead wrap"}
	}
	return dead, nil
}

// working returns the states over the loaded range from the last flexion to
// the first, in the order of growing body angle, and checks their curvature.
func (p Profile) working(plate Plate) ([]State, error) {
	from, to := p.Law.Range()
	wrap, err := p.WrapAngle(from, to)
	if err != nil {
		return nil, err
	}
	n := max(32, int(math.Ceil(math.Abs(wrap)/sampleTurn)))
	states := make([]State, n+1)
	tightest := 0
	for i := range states {
		theta := to + (from-to)*float64(i)/float64(n)
		if states[i], err = p.At(theta); err != nil {
			return nil, err
		}
		if states[i].Rho < states[tightest].Rho {
			tightest = i
		}
	}
	if st := states[tightest]; st.Rho < plate.MinRadius*(1-bendSlack) {
		return nil, &Error{Kind: Curvature, Theta: st.Theta, What: "radius of curvature (mm)", Value: st.Rho, Limit: plate.MinRadius, Hint: "flatten the moment arm there, raise the drive ratio, enlarge the cam or use a thinner cable"}
	}
	return states, nil
}

// closing returns dead wrap and blend from the end of the lead-in at the first
// flexion, at, round to start. The blend grows until the hub has room. Its arcs
// keep bendSlack above the least radius, so that the coordinates' rounding in a
// cut file does not take them below it.
func (plate Plate) closing(out *Outline, endRho float64, at, start r2.Vec) ([]sector, error) {
	narrowest := plate.MinRadius * (1 + bendSlack)
	anchor := out.WrapTo + out.DeadWrap
	chord := r2.Sub(start, at)
	clear := plate.hub() + plate.Wall + plate.Cable/2
	least := math.Inf(1)
	for size := 1.0; size < 16; size *= 1.1 {
		sectors := append(
			sectorsOver(out.WrapTo, anchor, sectorTurn, math.Max(endRho, narrowest)),
			sectorsOver(anchor, out.WrapFrom+2*math.Pi, sectorTurn, size*narrowest)...)
		if !closeBy(sectors, chord, narrowest) {
			return nil, &Error{Kind: Closing, What: "turning left for the blend (rad)", Value: out.WrapFrom + 2*math.Pi - anchor, Hint: "no convex outline closes the profile; give less dead wrap, lower the drive ratio or let the moment arm at the two ends differ less"}
		}
		if least = leastSupport(sectors, at); least >= clear {
			return sectors, nil
		}
	}
	return nil, &Error{Kind: Hub, What: "distance of the outline from the cam axis (mm)", Value: least, Limit: clear, Hint: "use a smaller bore or bolt circle, or a larger moment arm at the ends"}
}

// leastSupport returns the smallest distance of the tangents of a chain of
// sectors, beginning at a point, from the origin.
func leastSupport(sectors []sector, at r2.Vec) float64 {
	least := math.Inf(1)
	for _, s := range sectors {
		// The sector's centre c gives h(t) = c·n(t) + radius.
		c := r2.Sub(at, r2.Scale(s.radius, normal(s.from)))
		for _, t := range [...]float64{s.from, (s.from + s.to) / 2, s.to} {
			least = math.Min(least, r2.Dot(c, normal(t))+s.radius)
		}
		at = r2.Add(c, r2.Scale(s.radius, normal(s.to)))
	}
	return least
}

// chain builds a path of arcs end to end.
type chain struct {
	vertices []contour.Vertex
	at       r2.Vec
}

func (c *chain) add(s sector) {
	if s.to <= s.from {
		return
	}
	c.vertices = append(c.vertices, contour.Vertex{X: c.at.X, Y: c.at.Y, Bulge: math.Tan((s.to - s.from) / 4)})
	c.at = r2.Add(c.at, r2.Scale(s.radius, s.move()))
}
