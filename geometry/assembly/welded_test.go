package assembly

import (
	"reflect"
	"testing"
)

// Parts 0, 3 and 4 are welded in a chain, 1 is bolted to 0, 2 stands alone; without part 3
// the chain is broken.
func TestWelded(t *testing.T) {
	a := &Assembly{Parts: make([]Part, 5), Joints: []Joint{{Kind: Weld, A: 4, B: 3}, {Kind: Bolts, A: 0, B: 1}, {Kind: Weld, A: 3, B: 0}}}
	for _, c := range []struct {
		without int
		want    [][]int
	}{{-1, [][]int{{0, 3, 4}, {1}, {2}}}, {3, [][]int{{0}, {1}, {2}, {4}}}} {
		if got := a.Welded(func(i int) bool { return i != c.without }); !reflect.DeepEqual(got, c.want) {
			t.Errorf("without %d: %v, want %v", c.without, got, c.want)
		}
	}
}
