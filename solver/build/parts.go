package build

import (
	"fmt"
	"math"

	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/stock"
)

// Parts lists what the station is made of, equal tubes counted together.
func (s *Builder) Parts(g *specs.Geometry, d *drive.State, l station.Layout, st station.Structure) []Part {
	var list []Part
	add := func(title string, count int, material string, length, mass float64, mitre string) {
		for i := range list {
			p := &list[i]
			if p.Title == title && p.Stock == material && math.Abs(p.Length-length) < 0.05 && p.Mitre == mitre {
				p.Count += count
				return
			}
		}
		list = append(list, Part{Item: len(list) + 1, Title: title, Count: count, Stock: material, Length: length, Mass: mass, Mitre: mitre})
	}
	tube := fmt.Sprintf("tube %s %s", s.Asked.Stock.Member, s.Asked.Stock.Steel)
	armStuff := s.armTube()
	for _, m := range st.Members {
		mitre := "square both ends"
		if m.A.X != m.B.X && m.A.Z != m.B.Z {
			mitre = fmt.Sprintf("%.1f deg at the foot", math.Atan2(math.Abs(m.B.X-m.A.X), math.Abs(m.B.Z-m.A.Z))/specs.Degree)
		}
		stuff := tube
		if m.Deep == s.Arm.H && m.PerMetre == s.Arm.Mass {
			stuff = armStuff
		}
		add(station.Sideless(m.Title), 1, stuff, m.Length(), m.Mass(), mitre)
	}
	shaft := l.CamPlane() - l.ArmPlane() + l.ArmTube + s.Asked.Stock.CamPlate + 2*s.Asked.Stock.Shaft
	if g.Linkage != nil { // the coupler passes its end
		shaft = l.CamPlane() - l.ArmPlane() + l.ArmTube/2 + l.BarThick/2
	}
	add("Arm tube", 2, armStuff, l.ArmReach+station.GripPast-station.HubReach, s.Arm.Mass*(l.ArmReach+station.GripPast-station.HubReach)/1000, "square both ends")
	add("Grip bar", 2, "round bar "+s.Size(g.Handle.Diameter), g.Handle.GripLength, drive.GripMass, "")
	add("Pivot shaft", 2, "round bar "+s.Size(s.Asked.Stock.Shaft), shaft, stock.RoundBar(s.Asked.Stock.Shaft, shaft), "")
	add("Pivot bearing", 4, s.Asked.Stock.Bearing, 0, 0, "")
	padding := "board " + s.Size(25) + ", foam " + s.Size(60)
	for _, lump := range st.Lumps {
		switch lump.ID {
		case "pad-right":
			add("Arm pad", 2, padding, lump.Size.X, lump.Mass, "")
		case "seat":
			add("Seat pad with carriage", 1, padding, lump.Size.X, lump.Mass, "")
		case "back":
			add("Back pad", 1, padding, lump.Size.Z, lump.Mass, "")
		case "counter-right":
			add("Counterweight", 2, "steel", 0, lump.Mass, "")
		}
		if lump.IsStack() {
			plate := s.Plate
			n, _ := plate.Stack(lump.Mass)
			add("Stack plate "+plate.Title, n, fmt.Sprintf("steel %s x %s x %s", s.Units().Whole(plate.Length, "mm"), s.Units().Whole(plate.Width, "mm"), s.Size(plate.Thickness)), 0, plate.Mass, "")
		}
	}
	if l.Train != nil {
		plate := "plate " + s.Size(s.Asked.Stock.CamPlate) + " " + s.Asked.Stock.Steel
		for _, b := range l.Bars().Named() {
			near, far := b.Areas()
			add(b.Title, 2, plate, b.Length, (near+far)*l.BarPerArea, "cut file; length from pin to pin")
		}
		pin := station.PinAcross(l.BarThick)
		add("Coupler pin", 4, "round bar "+s.Size(pin), l.PinLength(), stock.RoundBar(pin, l.PinLength()), "")
		add("Plate sleeve", 2, fmt.Sprintf("tube %s, %s thick, spigot %s", s.Size(station.SleeveAcross), s.Size(3), s.Size(station.PegAcross(l.BarThick))), station.SleeveLength, station.SleeveMass, "")
		add("Output shaft", 2, "round bar "+s.Size(s.Asked.Stock.Shaft), l.OutputShaftLength(), stock.RoundBar(s.Asked.Stock.Shaft, l.OutputShaftLength()), "")
		add("Output shaft bearing", 4, s.Asked.Stock.Bearing, 0, 0, "")
	}
	if e := g.Eccentric; e != nil {
		add("Eccentric weight", 2, "steel", 0, e.Mass, "")
	}
	if p := g.FootPlate; p != nil {
		add("Foot plate", 1, fmt.Sprintf("%d heights from %s, %s apart", p.Positions, s.Size(p.Lowest), s.Size(p.Pitch)), 0, 0, "")
	}
	sheaves, _ := s.sheaves(g, l, d)
	for _, f := range s.fittings(g, l, d, sheaves) {
		if f.ID == "cam" && d.NoOutline == nil {
			f.Mass = s.camMass(d.Outline.Root.Area(), d.Outline.Blank.Area())
		}
		add(f.Title, 2, f.stock(), f.length, f.Mass, f.mitre)
	}
	if r := d.Route; r != nil {
		if !r.Pair {
			add("Floating sheave", 1, "radius to cable centre "+s.Size(g.Cam.GuideR)+", with bracket", 0, s.sheaveMass(g.Cam.GuideR), "on the stack's head")
		}
		add("Cable", r.Cables(), s.Asked.Stock.Cable, r.Cut, r.Cut/1000*s.Cable.Mass, s.Size(cableEnd)+" at either end for eye and sleeve")
	} else if g.Cam != nil {
		add("Cable", 1, s.Asked.Stock.Cable, 0, 0, "length at assembly")
	}
	if g.Cam != nil {
		s.HubParts(d, add)
	}
	return list
}

// Part is one line of the parts list. Length, Size mm; Mass kg of one.
type Part struct {
	Item   int
	Title  string
	Count  int
	Stock  string
	Length float64
	Mass   float64
	Mitre  string
}
