// Package prices reads a price list of the user's own.
package prices

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armwright/specs/wording"
)

// Price is one line of a price list of the user's own: of what is ordered by a name, or
// by more words with the name among them. It is in a currency that nobody asks for, a
// piece, a bar, a plate or a metre, as tables/purchase.csv counts.
type Price struct {
	Name  string
	Price float64
}

// Parse reads the text of prices: names, each with its price after it, separated
// by semicolons or line ends. The error is a *Error.
func Parse(text string) ([]Price, error) {
	var list []Price
	seen := map[string]bool{}
	for i, line := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' || r == '\r' }) {
		if strings.TrimSpace(line) == "" {
			continue
		}
		name, price := wording.CutLast(strings.TrimSpace(line))
		name = strings.Join(strings.Fields(name), " ")
		v, err := strconv.ParseFloat(price, 64)
		switch {
		case err != nil:
			return nil, &Error{i + 1, fmt.Sprintf("%s is no price", wording.Quote(price))}
		case !(v >= 0) || math.IsInf(v, 0):
			return nil, &Error{i + 1, fmt.Sprintf("%s is not zero or more", wording.Quote(price))}
		case name == "":
			return nil, &Error{i + 1, "there is no name before the price"}
		case seen[strings.ToLower(name)]:
			return nil, &Error{i + 1, fmt.Sprintf("%s has a price already", wording.Quote(name))}
		}
		seen[strings.ToLower(name)] = true
		list = append(list, Price{name, v})
	}
	return list, nil
}

// Error says which entry of a price list cannot be read, from 1, and why.
type Error struct {
	Entry  int
	Reason string
}

func (e *Error) Error() string { return fmt.Sprintf("price %d: %s", e.Entry, e.Reason) }

// Hint says how a price list is written.
func (e *Error) Hint() string {
	return "write names as they stand in tables/purchase.csv, each with its price: tube 60x60x3 42.50; ISO 4017 M8 x 25 0.12"
}
