package station

// materials, kg/mm³: steel EN 1993-1-1 3.2.6; board, foam, rubber and aluminium
// judgement from common figures.
const (
	steelDensity = 7.85e-6
	alloyDensity = 2.7e-6
	boardDensity = 650e-9 // plywood
	foamDensity  = 80e-9  // firm foam with its cover
	gumDensity   = 1.2e-6
	plugDensity  = 0.95e-6 // polyethylene
)

// bronzeDensity is that of sintered bronze, kg/mm³ (6.6 g/cm³, from memory).
const bronzeDensity = 6.6e-6

const plasticDensity = 1.41e-6 // acetal, judgement
