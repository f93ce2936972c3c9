package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// The right arm of the public 26-muscle model (Holzbaur, Murray & Delp 2005,
// CC BY 3.0): millimetres in the frame of the upper arm, x
// forward, y up the arm, z outward, origin at the shoulder's centre.

// point is a place on a muscle's path, fixed to the upper arm or, where
// onForearm, to the forearm in its frame at the elbow.
type point struct {
	x, y, z   float64
	onForearm bool
}

// place returns the point in the upper arm's frame at elbow flexion theta.
func (p point) place(theta float64) r3.Vec {
	v := r3.Vec{X: p.x, Y: p.y, Z: p.z}
	if !p.onForearm {
		return v
	}
	axis := r3.Vec{X: 0.04940001, Y: 0.03660001, Z: 0.99810825}
	elbow := r3.Vec{X: 6.1, Y: -290.4, Z: -12.3}
	return r3.Add(elbow, r3.Rotate(v, theta, axis))
}

// flexor is a muscle and its path over the elbow. Extra is length the path
// gains by wrapping the shoulder, the same at every elbow angle; wrapped tells
// that the last stretch may wrap the lower end of the upper-arm bone.
type flexor struct {
	muscle
	path    []point
	extra   float64
	wrapped bool
}

// length returns the length of the path at elbow flexion theta.
func (f flexor) length(theta float64) float64 {
	sum := f.extra
	for i := 1; i < len(f.path); i++ {
		a, b := f.path[i-1].place(theta), f.path[i].place(theta)
		if f.wrapped && i == len(f.path)-1 {
			sum += wrap(a, b)
		} else {
			sum += r3.Norm(r3.Sub(b, a))
		}
	}
	return sum
}

// arm returns the moment arm about the elbow, mm, positive flexing: minus the
// rate of length with flexion, by central difference.
func (f flexor) arm(theta float64) float64 {
	const h = 1e-4
	return (f.length(theta-h) - f.length(theta+h)) / (2 * h)
}

// torque returns the isometric torque, N·mm, fully active.
func (f flexor) torque(theta float64) float64 {
	return f.isometric(f.length(theta)) * f.arm(theta)
}

// wrap returns the length of the shortest path from a, above the elbow, to b
// that passes in front of the cylinder about the lower end of the upper-arm
// bone: straight where it clears the cylinder, else two tangents and a helix,
// which unroll to one straight line.
func wrap(a, b r3.Vec) float64 {
	const radius = 16.0
	centre := r3.Vec{X: 2.8, Y: -291.9, Z: -6.9}
	// The cylinder's frame is turned about body-fixed x, y, z in turn, its
	// axis along z.
	local := func(v r3.Vec) r3.Vec {
		v = r3.Sub(v, centre)
		v = r3.Rotate(v, 0.14015, r3.Vec{X: 1})
		v = r3.Rotate(v, 0.00628319, r3.Vec{Y: 1})
		return r3.Rotate(v, -0.154985, r3.Vec{Z: 1})
	}
	p, q := local(a), local(b)
	fromA, fromB := math.Hypot(p.X, p.Y), math.Hypot(q.X, q.Y)
	if fromA <= radius || fromB <= radius {
		return r3.Norm(r3.Sub(b, a))
	}
	// Angle about the axis between the two tangent points, in front.
	turn := math.Atan2(p.Y, p.X) - math.Acos(radius/fromA) - math.Atan2(q.Y, q.X) - math.Acos(radius/fromB)
	if turn <= 0 {
		return r3.Norm(r3.Sub(b, a))
	}
	across := math.Sqrt(fromA*fromA-radius*radius) + math.Sqrt(fromB*fromB-radius*radius) + radius*turn
	return math.Hypot(across, p.Z-q.Z)
}

// flexors returns the elbow flexors at a shoulder flexion, rad: long and short
// head of biceps, brachialis, brachioradialis. Only the two heads of biceps
// cross the shoulder: their first two points are the trunk's, which turns back
// by the flexion about the model's shoulder axis in the frame of the upper arm.
func flexors(shoulder float64) [4]flexor {
	list := flexorsAtSide()
	side := list[0].overHead()
	for i := range 2 {
		for k := range 2 {
			p := &list[i].path[k]
			v := r3.Rotate(r3.Vec{X: p.x, Y: p.y, Z: p.z}, -shoulder, r3.Vec{X: -0.05889802, Y: 0.0023, Z: 0.99826136})
			p.x, p.y, p.z = v.X, v.Y, v.Z
		}
	}
	list[0].extra *= list[0].overHead() / side
	return list
}

// overHead returns the length that the long head of biceps gains by wrapping
// the head of the upper-arm bone between its second and third point, there
// taken for a ball of 20 mm radius: two tangents and a great circle. With the
// arm at the side it is 3.2 mm, where the model's ellipsoid gives 3.4.
func (f flexor) overHead() float64 {
	const radius = 20.0
	centre := r3.Vec{X: 3.3, Y: 7.3, Z: 0.3}
	a, b := r3.Sub(f.path[1].place(0), centre), r3.Sub(f.path[2].place(0), centre)
	fromA, fromB := r3.Norm(a), r3.Norm(b)
	straight := r3.Norm(r3.Sub(a, b))
	turn := math.Acos(r3.Dot(a, b)/(fromA*fromB)) - math.Acos(radius/fromA) - math.Acos(radius/fromB)
	if !(turn > 0) { // also where a point lies inside the ball
		return 0
	}
	return math.Sqrt(fromA*fromA-radius*radius) + math.Sqrt(fromB*fromB-radius*radius) + radius*turn - straight
}

// flexorsAtSide returns the elbow flexors with the arm at the side.
func flexorsAtSide() [4]flexor {
	insertion := point{7.51, -48.39, 21.79, true}
	return [4]flexor{
		{
			muscle: muscle{624.30, 115.7, 272.3},
			// Two points on the trunk, taken from the shoulder's centre
			// (-17.545, -7, 170) in the trunk's frame.
			path: []point{
				{-39.235 + 17.545, 3.47 + 7, 147.95 - 170, false},
				{-28.945 + 17.545, 13.91 + 7, 156.39 - 170, false},
				{21.31, 17.93, 10.28, false}, {23.78, -5.11, 12.01, false},
				{13.45, -28.27, 1.36, false}, {10.68, -77.36, -1.65, false},
				{17.03, -121.25, 0.24, false}, {22.8, -175.4, -6.3, false},
				insertion,
			},
			extra: 3.4, // around the head of the upper-arm bone
		},
		{
			muscle: muscle{435.56, 132.1, 192.3},
			path: []point{
				{4.675 + 17.545, -12.31 + 7, 134.75 - 170, false},
				{-7.075 + 17.545, -40.04 + 7, 145.07 - 170, false},
				{11.17, -75.76, -11.01, false}, {17.03, -121.25, -10.79, false},
				{22.8, -175.4, -6.3, false},
				insertion,
			},
		},
		{
			muscle:  muscle{987.26, 85.8, 53.5},
			path:    []point{{6.8, -173.9, -3.6, false}, {-3.2, -23.9, 0.9, true}},
			wrapped: true,
		},
		{
			muscle: muscle{261.33, 172.6, 133.0},
			// Points on the radius, whose frame lies at (0.4, -11.503,
			// 19.999) in the forearm's, in neutral rotation.
			path: []point{
				{-9.8, -199.63, 2.23, false},
				{35.77 + 0.4, -127.42 - 11.503, 23.15 + 19.999, true},
				{41.9 + 0.4, -221 - 11.503, 22.4 + 19.999, true},
			},
		},
	}
}
