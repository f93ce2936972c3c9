package nlp_test

import (
	"context"
	"fmt"

	"armwright/solver/nlp"
)

// The largest box of given surface: edges a, b, c of at most 3, surface at most 6.
func ExampleMinimize() {
	p := nlp.Problem{
		N: 3, M: 1,
		Lower: []float64{0, 0, 0}, Upper: []float64{3, 3, 3},
		Func: func(x []float64) float64 { return -x[0] * x[1] * x[2] },
		Rows: func(c, x []float64) { c[0] = 6 - 2*(x[0]*x[1]+x[1]*x[2]+x[2]*x[0]) },
	}
	r, err := nlp.Minimize(context.Background(), p, []float64{.5, .6, .7}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v: volume %.4f, edges %.3f %.3f %.3f\n", r.Status, -r.F, r.X[0], r.X[1], r.X[2])
	fmt.Printf("one more unit of surface buys %.3f of volume\n", r.Multipliers[0])
	// Output:
	// converged: volume 1.0000, edges 1.000 1.000 1.000
	// one more unit of surface buys 0.250 of volume
}

// A shelf must hold 3 units and stay under 2: what gives, and by how much?
func ExampleDiagnose() {
	p := nlp.Problem{
		N: 1, M: 3,
		Lower: []float64{0}, Upper: []float64{10},
		Rows: func(c, x []float64) { c[0], c[1], c[2] = x[0]-3, 2-x[0], 9-x[0] },
	}
	pain := []float64{1, .25, 1} // a quarter unit of height hurts as much as one of load
	d, err := nlp.Diagnose(context.Background(), p, []float64{1}, nil, pain, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Message)
	for i, r := range d.Rows {
		fmt.Printf("row %d: in conflict %v, share %.2f, cheapest repair %.2f, alone %.2f\n", i, r.Part == nlp.In, r.Share, r.Repair, r.Alone)
	}
	// Output:
	// locally infeasible from 5 of 5 starts
	// row 0: in conflict true, share 0.80, cheapest repair 1.00, alone 1.00
	// row 1: in conflict true, share 0.20, cheapest repair 0.00, alone 1.00
	// row 2: in conflict false, share 0.00, cheapest repair 0.00, alone 0.00
}

// A line through three points that must not fall.
func ExampleLeastSquares() {
	a := []float64{1, 0, 1, 1, 1, 2} // value and slope at 0, 1, 2
	r, err := nlp.LeastSquares(2, a, []float64{3, 2, 1}, []float64{0, 1}, []float64{0}, nil, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("value %.3f, slope %.3f, multiplier %.3f\n", r.X[0], r.X[1], r.Multipliers[0])
	// Output: value 2.000, slope 0.000, multiplier 2.000
}
