package people

import "armwright/specs/strength"

// Segment is one body segment: its mass as a share of body mass, its centre of
// mass as a share of its length from the upper (proximal) end, and its length
// as a share of stature.
type Segment struct {
	Mass, Centre, Length float64
}

// Body holds the segments of one sex after de Leva 1996, J Biomech 29:1223,
// table 4; lengths are divided by that table's statures, 1.741 m (men) and
// 1.735 m (women). Limbs are one side. Trunk and TrunkToNeck are the same
// trunk between other ends.
type Body struct {
	Head        Segment // vertex to the seventh neck vertebra
	Trunk       Segment // mid-shoulder to mid-hip
	TrunkToNeck Segment // seventh neck vertebra to mid-hip
	UpperArm    Segment // shoulder to elbow
	Forearm     Segment // elbow to wrist
	LowerTrunk  Segment // navel (omphalion) to mid-hip
	Hand        Segment // wrist to third metacarpal: a gripping hand
	Thigh       Segment // hip to knee
	Shank       Segment // knee to ankle
	Foot        Segment // heel to toe
}

// Segments returns the body segments of a sex.
func Segments(s Sex) Body {
	if s == Woman {
		return lengths(1.735, Body{
			Head:        Segment{.0668, .4841, .2437},
			Trunk:       Segment{.4257, .3782, .4979},
			TrunkToNeck: Segment{.4257, .4964, .6148},
			LowerTrunk:  Segment{.1247, .4920, .1815},
			UpperArm:    Segment{.0255, .5754, .2751},
			Forearm:     Segment{.0138, .4559, .2643},
			Hand:        Segment{.0056, .7474, .0780},
			Thigh:       Segment{.1478, .3612, .3685},
			Shank:       Segment{.0481, .4352, .4386},
			Foot:        Segment{.0129, .4014, .2283},
		})
	}
	return lengths(1.741, Body{
		Head:        Segment{.0694, .5002, .2429},
		Trunk:       Segment{.4346, .4310, .5155},
		TrunkToNeck: Segment{.4346, .5138, .6033},
		LowerTrunk:  Segment{.1117, .6115, .1457},
		UpperArm:    Segment{.0271, .5772, .2817},
		Forearm:     Segment{.0162, .4574, .2689},
		Hand:        Segment{.0061, .7900, .0862},
		Thigh:       Segment{.1416, .4095, .4222},
		Shank:       Segment{.0433, .4395, .4403},
		Foot:        Segment{.0137, .4415, .2581},
	})
}

// lengths divides the lengths of b, m, by the stature they were tabulated for.
func lengths(stature float64, b Body) Body {
	for _, s := range []*Segment{
		&b.Head, &b.Trunk, &b.TrunkToNeck, &b.LowerTrunk, &b.UpperArm, &b.Forearm, &b.Hand, &b.Thigh, &b.Shank, &b.Foot,
	} {
		s.Length /= stature
	}
	return b
}

// ForearmHand returns mass, kg, and distance of the centre of mass from the
// elbow axis, mm, of one forearm with its hand, wrist straight.
func (p Person) ForearmHand() (mass, centre float64) {
	b := Segments(p.Sex)
	forearm := b.Forearm.Centre * b.Forearm.Length
	hand := b.Forearm.Length + b.Hand.Centre*b.Hand.Length
	share := b.Forearm.Mass + b.Hand.Mass
	centre = (b.Forearm.Mass*forearm + b.Hand.Mass*hand) / share
	return share * p.Mass, centre * p.Stature
}

// ElbowStrength returns the peak isometric elbow-flexion torque of one arm,
// N·mm, by the regression of package strength on age, stature and mass, and by how much
// stronger the person is than it says.
func (p Person) ElbowStrength() float64 {
	return (1 + p.Stronger) * strength.Peak(strength.Isometric, p.Sex == Woman, p.Age, p.Stature, p.Mass)
}

// MovingStrength is the same at constant speed.
func (p Person) MovingStrength() float64 {
	return (1 + p.Stronger) * strength.Peak(strength.Isokinetic, p.Sex == Woman, p.Age, p.Stature, p.Mass)
}
