package testproblems

import (
	"bufio"
	"encoding/json"
	"math"
	"os"
	"testing"
)

// served is a problem as the other solver sees it.
type served struct {
	Set, Name    string
	M            int
	Lower, Upper []string
	Equality     []bool
	Starts       [][]float64
	Minima       []float64
}

// TestServe serves the problems to another solver (testdata/slsqp.py) where
// ARMWRIGHT_SERVE is set: it lists them as JSON, one a line, and then answers each
// line {"p": problem, "x": point} with values and derivatives.
func TestServe(t *testing.T) {
	if os.Getenv("ARMWRIGHT_SERVE") == "" {
		t.Skip("ARMWRIGHT_SERVE is not set")
	}
	out := json.NewEncoder(os.Stdout)
	var list []Problem
	for _, s := range Sets() {
		for _, p := range s.Problems {
			list = append(list, p)
			q := served{Set: s.Name, Name: p.Name, M: p.M, Equality: p.Equality, Starts: p.Starts(s.Starts)}
			for _, m := range p.Minima {
				q.Minima = append(q.Minima, m.F)
			}
			q.Lower, q.Upper = words(p.Lower), words(p.Upper)
			out.Encode(q)
		}
	}
	os.Stdout.WriteString("end\n")
	in := bufio.NewScanner(os.Stdin)
	for in.Scan() {
		var ask struct {
			P int
			X []float64
		}
		if err := json.Unmarshal(in.Bytes(), &ask); err != nil {
			t.Fatal(err)
		}
		p := list[ask.P]
		c, g, j := make([]float64, p.M), make([]float64, p.N), make([]float64, p.M*p.N)
		f := p.Func(ask.X)
		p.Rows(c, ask.X)
		p.Grad(g, ask.X)
		p.Jac(j, ask.X)
		all := append(append(append([]float64{f}, c...), g...), j...)
		for i, v := range all {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				all[i] = 1e300
			}
		}
		out.Encode(all)
	}
}

func words(x []float64) []string {
	s := []string{}
	for _, v := range x {
		w, err := json.Marshal(v)
		if err != nil {
			w = []byte("inf")
			if v < 0 {
				w = []byte("-inf")
			}
		}
		s = append(s, string(w))
	}
	return s
}
