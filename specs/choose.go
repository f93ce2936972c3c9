package specs

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"armwright/specs/stock"
	"armwright/specs/wording"
)

// Any stands for every name that stock has in the system of units of the brief's own value.
const Any = "any"

// mostChoices is how many combinations a brief may leave to the tool.
const mostChoices = 1000

// Option is a value that a brief leaves to the tool, with the values allowed.
type Option struct {
	Path   string   // of the value: "stock.cable"
	Values []string // as Set takes them, in the order of the brief or of stock
}

// Options lists what the brief leaves to the tool. The brief is a valid one.
func (b Brief) Options() []Option {
	list, _ := b.options()
	return list
}

// options reads the lists of Choose. The problem is that of the first list that
// cannot be used.
func (b Brief) options() (list []Option, bad *Problem) {
	for _, o := range []struct{ key, path, text string }{
		{"member", "stock.member", b.Choose.Member},
		{"cable", "stock.cable", b.Choose.Cable},
		{"sheave_radius", "resistance.sheave_radius", b.Choose.SheaveRadius},
		{"seat_positions", "posture.seat_positions", b.Choose.SeatPositions},
		{"seat_pitch", "posture.seat_pitch", b.Choose.SeatPitch},
		{"handle_pitch", "posture.handle_pitch", b.Choose.HandlePitch},
	} {
		if o.text == "" {
			continue
		}
		at := "choose." + o.key
		p, err := find(reflect.ValueOf(&b).Elem(), o.path)
		if err != nil {
			panic("specs: " + err.Error())
		}
		var values []string
		switch {
		case o.text == Any && p.field.names != "":
			own := p.field.write(p.at)
			for _, name := range KnownNames().list(p.field.names) {
				if stock.Inch(name) == stock.Inch(own) {
					values = append(values, name)
				}
			}
		default:
			for text := range strings.SplitSeq(o.text, ",") {
				value, why := p.candidate(strings.TrimSpace(text))
				if why != nil {
					return nil, &Problem{Path: at, Message: strings.TrimPrefix(why.Message, o.path+": "), Hint: why.Hint}
				}
				if slices.Contains(values, value) {
					return nil, &Problem{Path: at, Message: wording.Quote(value) + " stands there twice", Hint: "leave one out"}
				}
				values = append(values, value)
			}
		}
		list = append(list, Option{o.path, values})
	}
	return list, nil
}

// candidate is a text as it would be written at a place, or why it cannot stand
// there. The place's own value is left as it was.
func (p *Place) candidate(text string) (string, *Problem) {
	was := reflect.New(p.at.Type()).Elem()
	was.Set(p.at)
	defer p.at.Set(was)
	if err := p.read(text); err != nil {
		return "", &err.(*Problems).List[0]
	}
	var bad *Problem
	c := &checker{names: KnownNames(), finite: true, report: func(path string, f *fault) {
		bad = &Problem{Path: path, Message: f.message, Hint: f.hint}
	}}
	c.value(p.field, p.at, p.path)
	return p.field.write(p.at), bad
}

// relations are the rules between the values of a brief.
func (b Brief) relations() []relation {
	rules := b.Asked.relations()
	list, bad := b.options()
	if bad != nil {
		return append(rules, relation{path: bad.Path, message: bad.Message, hint: bad.Hint})
	}
	n := 1
	for _, o := range list {
		n *= len(o.Values)
	}
	return append(rules, relation{"choose", nil, n <= mostChoices,
		fmt.Sprintf("%d combinations are left to the tool", n), fmt.Sprintf("at most %d; shorten the lists", mostChoices)})
}
