package fit

import (
	"fmt"
	"math"

	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/stock"
)

// parts lists what the station is made of, equal tubes counted together.
func (s *study) parts(g *specs.Geometry, d *drive, l station.Layout, st station.Structure) []Part {
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
	tube := fmt.Sprintf("tube %s %s", s.asked.Stock.Member, s.asked.Stock.Steel)
	armStuff := s.armTube()
	for _, m := range st.Members {
		mitre := "square both ends"
		if m.A.X != m.B.X && m.A.Z != m.B.Z {
			mitre = fmt.Sprintf("%.1f deg at the foot", math.Atan2(math.Abs(m.B.X-m.A.X), math.Abs(m.B.Z-m.A.Z))/deg)
		}
		stuff := tube
		if m.Deep == s.arm.H && m.PerMetre == s.arm.Mass {
			stuff = armStuff
		}
		add(memberTitle(m.Title), 1, stuff, m.Length(), m.Mass(), mitre)
	}
	shaft := l.CamPlane() - l.ArmPlane() + l.ArmTube + s.asked.Stock.CamPlate + 2*s.asked.Stock.Shaft
	if g.Linkage != nil { // the coupler passes its end
		shaft = l.CamPlane() - l.ArmPlane() + l.ArmTube/2 + l.BarThick/2
	}
	add("Arm tube", 2, armStuff, l.ArmReach+station.GripPast-station.HubReach, s.arm.Mass*(l.ArmReach+station.GripPast-station.HubReach)/1000, "square both ends")
	add("Grip bar", 2, fmt.Sprintf("round bar %.0f mm", g.Handle.Diameter), g.Handle.GripLength, gripMass, "")
	add("Pivot shaft", 2, fmt.Sprintf("round bar %.0f mm", s.asked.Stock.Shaft), shaft, stock.RoundBar(s.asked.Stock.Shaft, shaft), "")
	add("Pivot bearing", 4, s.asked.Stock.Bearing, 0, 0, "")
	for _, u := range st.Lumps {
		switch u.ID {
		case "pad-right":
			add("Arm pad", 2, "board 25 mm, foam 60 mm", u.Size.X, u.Mass, "")
		case "seat":
			add("Seat pad with carriage", 1, "board 25 mm, foam 60 mm", u.Size.X, u.Mass, "")
		case "back":
			add("Back pad", 1, "board 25 mm, foam 60 mm", u.Size.Z, u.Mass, "")
		case "counter-right":
			add("Counterweight", 2, "steel", 0, u.Mass, "")
		case "stack", "stack-right", "stack-left":
			plate := s.plate
			n, _ := plate.Stack(u.Mass)
			add("Stack plate "+plate.Title, n, fmt.Sprintf("steel %.0f x %.0f x %.1f mm", plate.Length, plate.Width, plate.Thickness), 0, plate.Mass, "")
		}
	}
	if l.Train != nil {
		plate := fmt.Sprintf("plate %.0f mm %s", s.asked.Stock.CamPlate, s.asked.Stock.Steel)
		for _, b := range l.Bars().Named() {
			near, far := b.Areas()
			add(b.Title, 2, plate, b.Length, (near+far)*l.BarPerArea, "cut file; length from pin to pin")
		}
		pin := station.PinAcross(l.BarThick)
		add("Coupler pin", 4, fmt.Sprintf("round bar %.0f mm", pin), l.PinLength(), stock.RoundBar(pin, l.PinLength()), "")
		add("Plate sleeve", 2, fmt.Sprintf("tube %.0f mm, 3 mm thick, spigot %.0f mm", station.SleeveAcross, station.PegAcross(l.BarThick)), station.SleeveLength, station.SleeveMass, "")
		add("Output shaft", 2, fmt.Sprintf("round bar %.0f mm", s.asked.Stock.Shaft), l.OutputShaftLength(), stock.RoundBar(s.asked.Stock.Shaft, l.OutputShaftLength()), "")
		add("Output shaft bearing", 4, s.asked.Stock.Bearing, 0, 0, "")
	}
	if e := g.Eccentric; e != nil {
		add("Eccentric weight", 2, "steel", 0, e.Mass, "")
	}
	if p := g.FootPlate; p != nil {
		add("Foot plate", 1, fmt.Sprintf("%d heights from %.0f mm, %.0f mm apart", p.Positions, p.Lowest, p.Pitch), 0, 0, "")
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
			add("Floating sheave", 1, fmt.Sprintf("radius to cable centre %.1f mm, with bracket", g.Cam.GuideR), 0, s.sheaveMass(g.Cam.GuideR), "on the stack's head")
		}
		add("Cable", r.Cables(), s.asked.Stock.Cable, r.Cut, r.Cut/1000*s.cable.Mass, fmt.Sprintf("%.0f mm at either end for eye and sleeve", cableEnd))
	} else if g.Cam != nil {
		add("Cable", 1, s.asked.Stock.Cable, 0, 0, "length at assembly")
	}
	if g.Cam != nil {
		s.hubParts(d, add)
	}
	return list
}

// memberTitle drops the side from a member's title, so that pairs count as one
// line.
func memberTitle(t string) string {
	for _, side := range []string{", right", ", left"} {
		if n := len(t) - len(side); n > 0 && t[n:] == side {
			return t[:n]
		}
	}
	return t
}
