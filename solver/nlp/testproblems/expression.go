package testproblems

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// expression is a formula in x1, x2, ... read from its text, so that a problem can
// be compared with the page it was copied from. Its gradient is exact: it is
// accumulated backwards through the tree.
type expression interface {
	value(x []float64) float64
	// gradient adds w times the gradient at x to g.
	gradient(g, x []float64, w float64)
}

type (
	constant float64
	variable int // zero-based
	sum      struct{ a, b expression }
	product  struct{ a, b expression }
	power    struct {
		a expression
		p float64
	}
	function struct {
		a     expression
		f, df func(float64) float64
	}
)

func (e constant) value([]float64) float64   { return float64(e) }
func (e variable) value(x []float64) float64 { return x[e] }
func (e sum) value(x []float64) float64      { return e.a.value(x) + e.b.value(x) }
func (e product) value(x []float64) float64  { return e.a.value(x) * e.b.value(x) }
func (e power) value(x []float64) float64    { return math.Pow(e.a.value(x), e.p) }
func (e function) value(x []float64) float64 { return e.f(e.a.value(x)) }

func (e constant) gradient(_, _ []float64, _ float64) {}
func (e variable) gradient(g, _ []float64, w float64) { g[e] += w }
func (e function) gradient(g, x []float64, w float64) { e.a.gradient(g, x, w*e.df(e.a.value(x))) }
func (e sum) gradient(g, x []float64, w float64)      { e.a.gradient(g, x, w); e.b.gradient(g, x, w) }
func (e product) gradient(g, x []float64, w float64) {
	e.a.gradient(g, x, w*e.b.value(x))
	e.b.gradient(g, x, w*e.a.value(x))
}
func (e power) gradient(g, x []float64, w float64) {
	e.a.gradient(g, x, w*e.p*math.Pow(e.a.value(x), e.p-1))
}

var functions = map[string][2]func(float64) float64{
	"exp": {math.Exp, math.Exp},
	"log": {math.Log, func(v float64) float64 { return 1 / v }},
	"sin": {math.Sin, math.Cos},
	"cos": {math.Cos, func(v float64) float64 { return -math.Sin(v) }},
}

// parse reads a formula of numbers, x1.., names of quantities defined before it,
// + - * / ^ with a constant exponent, parentheses, exp, log, sin and cos. It panics
// on anything else: formulas are part of the program.
func parse(text string, names map[string]int) expression {
	p := &parser{text: strings.ReplaceAll(text, " ", ""), names: names}
	e := p.sum()
	if p.at < len(p.text) {
		p.fail()
	}
	return e
}

type parser struct {
	text  string
	at    int
	names map[string]int // places of defined quantities among the variables
}

func (p *parser) fail() {
	panic(fmt.Sprintf("testproblems: cannot read %q at %q", p.text, p.text[p.at:]))
}

// take consumes one of the characters in set and returns it, or zero.
func (p *parser) take(set string) byte {
	if p.at < len(p.text) && strings.IndexByte(set, p.text[p.at]) >= 0 {
		p.at++
		return p.text[p.at-1]
	}
	return 0
}

func (p *parser) sum() expression {
	var e expression
	if op := p.take("+-"); op == '-' {
		e = product{constant(-1), p.product()}
	} else {
		e = p.product()
	}
	for {
		switch p.take("+-") {
		case '+':
			e = sum{e, p.product()}
		case '-':
			e = sum{e, product{constant(-1), p.product()}}
		default:
			return e
		}
	}
}

func (p *parser) product() expression {
	e := p.power()
	for {
		switch p.take("*/") {
		case '*':
			e = product{e, p.power()}
		case '/':
			e = product{e, power{p.power(), -1}}
		default:
			return e
		}
	}
}

func (p *parser) power() expression {
	e := p.atom()
	if p.take("^") == 0 {
		return e
	}
	sign := 1.0
	if p.take("-") != 0 {
		sign = -1
	}
	return power{e, sign * p.number()}
}

func (p *parser) atom() expression {
	if p.take("(") != 0 {
		e := p.sum()
		if p.take(")") == 0 {
			p.fail()
		}
		return e
	}
	if p.take("x") != 0 {
		return variable(p.number() - 1)
	}
	for name, f := range functions { // names share no prefix: the order is no matter
		if strings.HasPrefix(p.text[p.at:], name+"(") {
			p.at += len(name)
			return function{p.atom(), f[0], f[1]}
		}
	}
	end := p.at
	for end < len(p.text) && (p.text[end] >= 'a' && p.text[end] <= 'z' || end > p.at && p.text[end] >= '0' && p.text[end] <= '9') {
		end++
	}
	if j, ok := p.names[p.text[p.at:end]]; ok {
		p.at = end
		return variable(j)
	}
	return constant(p.number())
}

func (p *parser) number() float64 {
	start := p.at
	for p.take("0123456789.") != 0 {
	}
	if p.at > start && p.take("e") != 0 {
		p.take("-")
		for p.take("0123456789") != 0 {
		}
	}
	v, err := strconv.ParseFloat(p.text[start:p.at], 64)
	if err != nil {
		p.fail()
	}
	return v
}
