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

// Carriage plates under boards.
const seatEdge = 30.0 // from the plate to the board's edge, and of the post's middle from the plate's

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
