package station

// Sizes that more than one part family needs, mm and kg, own choices: padding, board and
// foam with what is under them.
const (
	boardThick = 18.0
	foamThick  = 42.0
	padThick   = boardThick + foamThick
	padPlate   = 6.0
	padRound   = 15.0 // corners
	plateIn    = 10.0 // of the plate from the board's edges
	seatEdge   = 30.0 // from a carriage plate to the board's edge, and of the post's middle from the plate's
)

// Feet, and what closes and joins tubes.
const (
	footDisc = 10.0 // plate of a levelling foot
	footNut  = 10.0 // its lock nut, with what is left to level
	footSeat = 8.0  // plate under the rail that the foot screws into
	footRise = footDisc + footNut + footSeat
	footIn   = 40.0 // from the end of the rail
	capThick = 4.0
	tubeWeld = 3.0 // throat of fillets round a tube of 3 mm wall, EN 1993-1-8 4.5 allows its full strength
)

// Cheeks of the swivel bracket.
const (
	bossOver  = 4.0  // of a cheek beyond a bearing housing
	cheekWeld = 5.0  // throat of the cheeks' fillets on the sole
	guardBolt = 8.0  // M8
	guardEar  = 16.0 // of a cheek round such a bolt
)

// What sits on the arm's shaft.
const (
	collarWall = 12.5
	weightHole = 13.5
)

// Densities, kg/mm³: steel EN 1993-1-1 3.2.6; board, foam, rubber and aluminium judgement.
const (
	steelDensity   = 7.85e-6
	alloyDensity   = 2.7e-6
	boardDensity   = 650e-9 // plywood
	foamDensity    = 80e-9  // firm foam with its cover
	gumDensity     = 1.2e-6
	plugDensity    = 0.95e-6 // polyethylene
	bronzeDensity  = 6.6e-6  // sintered bronze, 6.6 g/cm³ (from memory)
	plasticDensity = 1.41e-6 // acetal, judgement
)
