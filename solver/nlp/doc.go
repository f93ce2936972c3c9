// Package nlp minimises a smooth function of a few dozen variables subject to
// bounds and to equality and inequality rows, and explains itself when the rows
// cannot be met.
//
//	minimise f(x)  subject to  c_i(x) >= 0 or c_i(x) = 0,  lower <= x <= upper
//
// [Minimize] is sequential quadratic programming: a damped BFGS model of the
// Lagrangian kept as a Cholesky factor (Powell 1978; Dennis and Schnabel 1983), a
// dual active-set quadratic program (Goldfarb and Idnani 1983), an L1 merit
// function with second-order corrections (Fletcher 1982; Nocedal and Wright 2006,
// ch. 18), an elastic step where the linearised rows contradict each other, and a
// restoration phase that minimises the violation alone, in two measures. What the
// search claims is checked afresh before it is told: [Converged] is a minimum,
// [Stalled] a point that meets the rows, [Infeasible] neither. The model is never
// evaluated outside the bounds; a value that is not finite means "step too long".
//
// [CheckKKT] measures an answer without trusting the solver, and [Diagnose] says which
// rows conflict and what the cheapest repair is. [LeastSquares] is a
// quadratic program on its own, [Series] is many that differ in their right-hand sides.
//
// The package knows nothing of what the variables mean, prints nothing, uses no
// clock and no random source but the seed it is given: equal input gives equal
// bits on one architecture.
package nlp
