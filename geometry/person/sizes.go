package person

import "math"

// Sizes are what one person's bodies are made from, mm, unclothed and barefoot:
// dimensions of the 2012 survey (Gordon et al. 2014, NATICK/TR-15/007) by their
// usual names, and the lengths between joint centres that placing a person uses.
// All must be above zero but Shoe.
type Sizes struct {
	Trunk         float64 // hip joint centre to shoulder centre, along the trunk
	HipHeight     float64 // hip joint centre above the loaded seat
	Behind        float64 // hip joint centre to the rear plane of the buttocks
	SittingHeight float64 // seat to the top of the head

	Bideltoid       float64 // across the deltoids
	ChestDepth      float64
	ChestBreadth    float64
	AbdominalDepth  float64 // sitting
	HipBreadth      float64 // sitting
	ThighClearance  float64 // seat to the top of the thigh
	ButtockKnee     float64 // back of the buttock to the front of the knee
	PoplitealHeight float64 // sole to the underside of the thigh behind the knee
	KneeHeight      float64 // sole to the top of the knee
	CalfGirth       float64
	UpperArmGirth   float64 // biceps flexed
	ForearmGirth    float64 // flexed
	HandBreadth     float64
	FootLength      float64
	Shoe            float64 // height that shoes add under the sole
}

// CalfGirth returns the greatest girth of the calf, mm, of a person of a mass,
// kg, and a stature, mm. Girths go as the root of mass over length; 57 is what
// brings the mean man and woman of the 2012 survey to their calves of 392 and 373
// mm (from memory, no source at hand).
func CalfGirth(mass, stature float64) float64 {
	return 57 * math.Sqrt(mass/(stature/1000))
}

// Shares and lengths that no dimension of Sizes gives, mm.
const (
	// Of the 2012 survey's rows (derived): foot breadth over length is 0.376 (SD
	// 0.017) and wrist over forearm girth 0.57-0.59 in either sex.
	footBreadthShare = 0.376
	wristShare       = 0.58
	// Girth over the elbow, of the flexed forearm: 277 over 310, men of the 1988
	// survey over those of 2012 (derived).
	elbowShare = 0.89
	// Waist breadth over chest breadth: 327 over 289 and 297 over 269, men and
	// women of the 2012 survey (numerators from memory).
	waistShare = 1.12
	// Head and neck as shares of sitting height: breadth 154 and 147, length 199 and
	// 187, top to chin 220 and 204, neck girth 398 and 330, over 918 and 857, men and
	// women of the 2012 survey (numerators from memory); the men's shares.
	headBreadth = 154 / 918.3
	headLength  = 199 / 918.3
	headHeight  = 220 / 918.3
	neckRadius  = 63 / 918.3
	chinRadius  = 40 / 918.3 // judgement
	// The acromion stands 45 above the shoulder centre (as placing takes it); 10
	// more of soft tissue over it (judgement).
	shoulderRadius = 55
	// Ankle joint above the bare sole: 0.039 of stature (Drillis and Contini 1966,
	// from memory), 64-68; ankle girth 230 (from memory).
	ankleHeight = 66
	ankleRadius = 37
	// The ankle stands a quarter of the foot's length from its heel (as de Leva's
	// foot is taken for the seated centre of mass). Shoes add 25 to length and 10
	// to breadth, and a toe cap is 50 high (judgement).
	ankleShare  = 0.25
	shoeLonger  = 25
	shoeBroader = 10
	toeRadius   = 25
	heelRadius  = 32
	// A seated thigh keeps its bulk for half its length (judgement; the thigh's volume
	// comes out as its mass asks).
	thighAlong  = 0.45
	thighShare  = 0.93 // of the hip end's radius
	calfDown    = 0.3  // of the shank's length from the knee to the greatest girth (judgement)
	fistRadius  = 40   // hand circumferences of 173-230 are 28-37 in radius, rounded up for the bar's end
	bicepsAlong = 0.55 // of the upper arm from the shoulder to the greatest girth (judgement)
	bellyAbove  = 110  // belly front above the hip joint, about the navel's height (judgement)
	bellyHalf   = 30   // half the height over which it is foremost (judgement)
	chestFrom   = 0.42 // of hip to shoulder: lower end of the rib cage's straight part (judgement)
	chestTo     = 0.86 // upper end
	neckFrom    = 40   // above the shoulder line, where the neck leaves the chest (judgement)
)

// kneeRadius is half of the knee's thickness: 124 mm (SD 12) between knee height and
// popliteal height, 115 and 105 between buttock-knee and buttock-popliteal length
// (2012 survey, derived), so that one ball serves both.
func (s *Sizes) kneeRadius() float64 { return (s.KneeHeight - s.PoplitealHeight) / 2 }

// ThighHalf is the distance of a thigh's line from the midline: the hips' breadth
// is filled by both thighs, knees as far apart as hips.
func (s *Sizes) ThighHalf() float64 { return (s.HipBreadth - s.ThighClearance) / 2 }

// thigh is hip joint to knee joint along the thigh: level, its underside is.
func (s *Sizes) thigh() float64 {
	r := s.kneeRadius()
	return math.Hypot(s.ButtockKnee-s.Behind-r, s.ThighClearance/2-r)
}

// shank is knee joint to ankle joint.
func (s *Sizes) shank() float64 { return s.PoplitealHeight + s.kneeRadius() - ankleHeight }
