package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// upholstered adds a board with foam on it, square to own z of the place, whose
// origin is the middle of the foam's face; own x is along. It returns the board.
func (b *builder) upholstered(id, title string, long, wide float64, place solid.Placement, group int, traits assembly.Traits, add func(assembly.Part) assembly.Both) (board assembly.Both) {
	outline := b.rect(long, wide, padRound)
	board = add(assembly.Part{
		ID: id + "-board", Title: title + ", board", Group: group, Stock: assembly.Stock{Form: assembly.Board, Grade: "plywood", Size: [3]float64{long, wide, boardThick}},
		Solid: prism(outline, -padThick, -foamThick), Place: place, Density: boardDensity, Traits: traits,
	})
	foam := add(assembly.Part{
		ID: id + "-foam", Title: title + ", foam with cover", Group: group, Stock: assembly.Stock{Form: assembly.Foam, Grade: "firm foam", Size: [3]float64{long, wide, foamThick}},
		Solid: prism(outline, -foamThick, 0), Place: place, Density: foamDensity, Traits: traits | assembly.Soft,
	})
	b.join(assembly.Rest, foam, board, place.Point(r3.Vec{Z: -foamThick}), assembly.Detail{})
	return board
}
