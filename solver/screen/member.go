package screen

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/stock"
)

// Strength is the screening of what carries load. It proves no conformity.
type Strength struct {
	Checks    []StrengthCheck
	Factors   []LoadFactor
	Suggested []Suggestion
}

// StrengthCheck is one part under its factored load.
type StrengthCheck struct {
	ID      string // requirement it counts under, "" when it is only told
	Part    string
	What    string
	Value   float64
	Limit   float64
	Unit    string // "%" of a strength or length as a fraction of one, "" a plain ratio
	AtLeast bool
	Met     bool
	Person  string
	Source  string
	Mark    string
	who     int
}

// LoadFactor is a factor on loads with where it comes from.
type LoadFactor struct {
	Name   string
	Value  float64
	Source string
	Mark   string
}

// Suggestion is the lightest tube of stock that holds every screened member of
// the frame within the limits.
type Suggestion struct {
	System     string // metric or inch
	Name       string
	Mass       float64 // kg/m
	Stress     float64 // share of the yield strength
	Deflection float64 // share of the free length
}

const (
	// loadFactor on the working load (EN 957-2 5.2, M).
	loadFactor = 2.5
	// dynamicFactor on what the lifted load puts into the drive (EN 957-2 5.2, M).
	dynamicFactor = 1.5
	// seatAside is how far off the seat post a user may sit, mm (judgement).
	seatAside = 150.0
	// throat of the fillet welds, mm: the wall of the thinnest tube, and the
	// least of EN 1993-1-8 4.5 (M).
	throat = 3.0
	// boltStrength is the tensile strength of bolts of class 8.8, N/mm², and
	// boltPartial the partial factor (EN 1993-1-8 table 3.4, M).
	boltStrength, boltPartial = 800.0, 1.25
	// leastSide of a suggested tube, mm: the crossbar carries the swivel bars.
	leastSide = 40.0
)

func loadFactors() []LoadFactor {
	return []LoadFactor{
		{"working load on members", loadFactor, "EN 957-2 5.2", "M"},
		{"lifted load in the drive, on top", dynamicFactor, "EN 957-2 5.2", "M"},
		{"bolts and welds, partial factor", boltPartial, "EN 1993-1-8", "M"},
	}
}

// frameLoads are working loads, N and N·mm.
type frameLoads struct {
	post, postAxial, postTwist float64 // each pivot post, at its foot; twist with one arm alone
	postBent                   float64 // at its foot with one arm alone
	crossbar, crossbarTwist    float64 // at the post; 0 without one
	swivel, swivelTwist        float64 // at the crossbar or post
	seat, seatAxial            float64
	radial                     float64 // of one arm's pads, handle and pivot together
	shaft, shaftTwist          float64
	postHigh, crossbarLong     float64 // free lengths, mm
	padLoad                    float64 // of one pad, N
	who                        int
}

// frameLoads finds the worst loads over the boundary persons and angles. One
// arm's peak torque at the heaviest load is level, one cable's tension then is
// tension.
func (s *Screen) frameLoads(g *specs.Geometry, l station.Layout, sat []seat.Person, level, tension float64) frameLoads {
	f := frameLoads{who: -1}
	f.postHigh = l.CrossbarHeight() - l.Side
	posts := 1.0
	if l.HasBack {
		posts = 2 // one post a pivot
		f.postHigh = l.PivotHeight - l.Side
	} else {
		f.crossbarLong = l.PivotSpacing / 2
	}
	radial := 0.0 // squared, of both arms
	for i := range sat {
		p := &sat[i]
		peak := min(p.Person.ElbowStrength(), level)
		eq := balance.Seated{
			Weight: p.Person.Mass * balance.G, Slope: p.Pose.ArmSlope, UpperArm: p.Body.UpperArm,
			Support: (l.Rest.Near + l.Rest.Far) / 2, Reach: p.Body.Forearm, SeatTop: l.PivotHeight - p.SeatTop,
		}
		sd, cd := math.Sincos(eq.Slope)
		for k := range s.Angles {
			eq.Load = 2 * peak * s.Shape[k] / p.Body.Forearm
			pad := eq.PadForce(s.Cos[k])
			// Of the forearm's angle to the floor, flexion less slope.
			sin, cos := s.Sin[k]*cd-s.Cos[k]*sd, s.Cos[k]*cd+s.Sin[k]*sd
			// On the station: the pads are pushed down and forward, the handles
			// against their motion's reaction.
			fx := -pad*sd - eq.Load*sin
			fz := -pad*cd + eq.Load*cos
			px, pz := -eq.Support*cd, eq.Support*sd
			hx, hz := p.Body.Forearm*cos, p.Body.Forearm*sin
			// About the foot of the post.
			x0, z0 := l.PadPost, l.Side-l.PivotHeight
			mo := math.Abs((px-x0)*(-pad*cd) - (pz-z0)*(-pad*sd) + (hx-x0)*(eq.Load*cos) - (hz-z0)*(-eq.Load*sin))
			if mo/posts > f.post {
				f.who, f.post, f.postAxial = i, mo/posts, math.Abs(fz)/posts
			}
			radial = max(radial, fx*fx+fz*fz)
			// One arm alone twists a post in the middle.
			if !l.HasBack {
				f.postTwist = max(f.postTwist, math.Abs(fx)/2*l.PivotSpacing/2)
			}
			f.padLoad = max(f.padLoad, pad/2)
		}
	}
	f.radial = math.Sqrt(radial) / 2
	f.postBent = f.post * posts / 2
	user := s.ratedUser() * balance.G
	f.seat, f.seatAxial = user*seatAside, user
	hand := 0.0
	for i := range sat {
		hand = max(hand, min(sat[i].Person.ElbowStrength(), level)/sat[i].Body.Forearm)
	}
	drive := dynamicFactor * (tension + l.PlatesEachArm*balance.G)
	over := l.BearingPlane() - l.ArmPlane()
	f.shaft = max(hand*over, drive*(l.CamPlane()-l.BearingPlane()))
	f.shaftTwist = dynamicFactor * level
	bearing := hand + drive + (l.ArmMass+l.CounterMass+l.EccentricMass)*balance.G
	if l.HasBack {
		f.swivel = bearing * math.Abs(l.PadPost)
		f.swivelTwist = bearing * math.Max(over, l.PlatePlane()-l.BearingPlane())
	} else {
		f.crossbar = f.padLoad * l.PivotSpacing / 2
		f.crossbarTwist = f.padLoad * (l.Rest.Near + l.Rest.Far) / 2
		f.swivel = bearing * l.BearingPlane()
		f.swivelTwist = bearing * (l.PivotHeight - l.CrossbarHeight())
	}
	return f
}

// combined is the equivalent stress (von Mises) of a tube under a moment about
// its strong axis, an axial force and a torque, N/mm². Shear by Bredt's formula
// on the middle line of the wall.
func combined(sec stock.Section, moment, axial, twist float64) float64 {
	normal := moment/sec.Wx + axial/sec.Area
	shear := twist / (2 * (sec.B - sec.T) * (sec.H - sec.T) * sec.T)
	return math.Sqrt(normal*normal + 3*shear*shear)
}

// frameStress returns the shares of the yield strength in posts and crossbar
// of a section under the factored loads, in the order of frameParts.
func (f frameLoads) frameStress(sec stock.Section, yield float64) [4]float64 {
	k := loadFactor / yield
	weak := sec
	weak.Wx = sec.Wy // the seat's user may sit off any side
	return [4]float64{
		k * combined(sec, f.post, f.postAxial, 0),
		k * combined(sec, f.postBent, f.postAxial/2, f.postTwist),
		k * combined(sec, f.crossbar, 0, f.crossbarTwist),
		k * combined(weak, f.seat, f.seatAxial, 0),
	}
}

func frameParts(u specs.Units) [4][2]string {
	return [...][2]string{
		{"pivot post at the base", "bending, both arms"},
		{"pivot post at the base", "bending with torsion, one arm alone"},
		{"crossbar at the post", "bending with torsion under one pad"},
		{"seat post", "user " + u.Size(seatAside, "mm") + " off centre"},
	}
}

// frameDeflection is that of posts under an end force of equal moment and of
// the crossbar's half, shares of the free length.
func (f frameLoads) frameDeflection(sec stock.Section) [2]float64 {
	ei := 3 * stock.YoungsModulus * sec.Ix
	return [2]float64{f.post * f.postHigh / ei, f.padLoad * f.crossbarLong * f.crossbarLong / ei}
}

// screen lists the checks of members, shaft, bearings, welds and bolts.
func (s *Screen) screen(g *specs.Geometry, l station.Layout, sat []seat.Person, level, tension float64) ([]StrengthCheck, frameLoads) {
	f := s.frameLoads(g, l, sat, level, tension)
	var list []StrengthCheck
	add := func(id, part, what string, value, limit float64, unit, source, mark string) *StrengthCheck {
		c := StrengthCheck{ID: id, Part: part, What: what, Value: value, Limit: limit, Unit: unit, Source: source, Mark: mark, who: -1}
		c.AtLeast = unit == ""
		c.Met = value <= limit
		if c.AtLeast {
			c.Met = value >= limit
		}
		list = append(list, c)
		return &list[len(list)-1]
	}
	of := func(id string) float64 { return s.Limits[s.Index[id]] }
	const strength = "2.5 times the load (EN 957-2 5.2); yield strength of the grade"
	named := func(c *StrengthCheck) {
		if f.who >= 0 {
			c.who, c.Person = f.who, sat[f.who].Person.Label
		}
	}
	parts := frameParts(s.Units())
	for i, v := range f.frameStress(s.Member, s.Steel.Yield) {
		c := add("member-stress", parts[i][0], parts[i][1], v, of("member-stress"), "%", strength, "M")
		if i < 3 {
			named(c)
		}
	}
	add("member-stress", "swivel bar", "bending with torsion", loadFactor*combined(s.Arm, f.swivel, 0, f.swivelTwist)/s.Steel.Yield, of("member-stress"), "%", strength, "M")
	_, _, equivalent := stock.Shaft(s.Asked.Stock.Shaft, f.shaft, f.shaftTwist)
	add("member-stress", "pivot shaft", "bending with torsion (von Mises)", loadFactor*equivalent/s.Steel.Yield, of("member-stress"), "%",
		"2.5 times the load, bright bar of the tubes' grade", "M")
	// A fillet all round a square foot: section modulus 4/3 side² throat.
	weld := f.post/(4.0/3*s.Member.H*s.Member.H*throat) + f.postAxial/(4*s.Member.H*throat)
	add("member-stress", "weld at the pivot post's foot", "throat of "+s.Size(3)+" all round", loadFactor*weld/s.Steel.WeldStrength(), of("member-stress"), "%",
		"EN 1993-1-8 simplified method, gamma M2 1.25", "S")

	for i, v := range f.frameDeflection(s.Member) {
		c := add("member-deflection", []string{"pivot post", "crossbar, each half"}[i], "share of the free length", v, of("member-deflection"), "%", "judgement: 1/150", "own")
		named(c)
	}

	// Two bearings to a pivot, the arm outside them by half their distance:
	// the near one carries one and a half times the load.
	load := 1.5 * (f.radial + tension)
	if w := g.Lever; w != nil {
		load += 1.5 * s.Asked.Resistance.Load.Heavy * balance.G
	}
	add("bearing-static", "pivot bearing next to the arm", "static rating over the load", s.Bearing.StaticFactor(load), of("bearing-static"), "",
		"ISO 76, oscillating pivots", "M")
	if g.Linkage != nil {
		s.linkageChecks(g, l, level, add)
	}
	bolt, area := "M10", 58.0 // stress area, mm² (ISO 898-1, M)
	if s.Bearing.BoltHole > 14 {
		bolt, area = "M14", 115
	}
	pull := loadFactor * load / 2 // two bolts to a block, taken as all pull
	add("", "bolts of a bearing block, "+bolt+" 8.8", "pull, share of the strength", pull/(0.9*boltStrength*area/boltPartial), 1, "%", "EN 1993-1-8 table 3.4", "M")
	return list, f
}

// members adds the rows of the screening.
func (s *Screen) members(g *specs.Geometry, l station.Layout, sat []seat.Person, level, tension float64, out *require.Rows) {
	if g.Base == nil {
		return
	}
	list, _ := s.screen(g, l, sat, level, tension)
	for _, c := range list {
		if c.ID != "" {
			out.Named(out.Add(c.ID, c.who, c.Value), "%s, %s", c.Part, c.What)
		}
	}
}

// Strength is the screening for the report.
func (s *Screen) Strength(g *specs.Geometry, l station.Layout, sat []seat.Person, d drive.State) Strength {
	list, f := s.screen(g, l, sat, d.Level, d.HeavyTension)
	return Strength{Checks: list, Factors: loadFactors(), Suggested: s.suggest(f)}
}

// suggest finds the lightest tubes, metric and inch, that hold posts and
// crossbar within the limits.
func (s *Screen) suggest(f frameLoads) []Suggestion {
	var best [2]*Suggestion
	stress, bend := s.LimitOf("member-stress"), s.LimitOf("member-deflection")
	for _, name := range stock.MemberNames() {
		sec, err := stock.Member(name)
		if err != nil || sec.B < leastSide {
			continue
		}
		c := Suggestion{System: "metric", Name: name, Mass: sec.Mass}
		i := 0
		if stock.Inch(name) {
			c.System, i = "inch", 1
		}
		for _, v := range f.frameStress(sec, s.Steel.Yield) {
			c.Stress = max(c.Stress, v)
		}
		for _, v := range f.frameDeflection(sec) {
			c.Deflection = max(c.Deflection, v)
		}
		if c.Stress <= stress && c.Deflection <= bend && (best[i] == nil || c.Mass < best[i].Mass) {
			best[i] = &c
		}
	}
	var out []Suggestion
	for _, c := range best {
		if c != nil {
			out = append(out, *c)
		}
	}
	return out
}
