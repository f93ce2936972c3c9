// Package markup writes HTML in pieces. Texts and attributes are escaped; what a piece
// holds is finished. It stands in the page for html/template, which costs a browser that
// runs the program two fifths of what it would have to load: a template may call any
// method, so that none can be left out.
package markup

import (
	"html"
	"strings"
)

// HTML is a finished piece.
type HTML string

// Text is a text as it is to be read.
func Text(s string) HTML { return HTML(html.EscapeString(s)) }

// Attributes are names and values in turn. A value that is On is left out behind its
// name, one that is Off takes the name with it.
type Attributes []string

// Values of attributes that have none.
const (
	On  = "\x00on"
	Off = "\x00off"
)

// If is On or Off.
func If(on bool) string {
	if on {
		return On
	}
	return Off
}

// Element is an element with what it holds. It panics on attributes that do not come in
// pairs.
func Element(tag string, attributes Attributes, inside ...HTML) HTML {
	var b strings.Builder
	b.WriteString("<" + tag)
	for i := 0; i < len(attributes); i += 2 {
		name, value := attributes[i], attributes[i+1]
		switch value {
		case Off:
		case On:
			b.WriteString(" " + name)
		default:
			b.WriteString(" " + name + `="` + html.EscapeString(value) + `"`)
		}
	}
	b.WriteString(">")
	if tag == "input" { // the one that we write which holds nothing
		return HTML(b.String())
	}
	for _, h := range inside {
		b.WriteString(string(h))
	}
	b.WriteString("</" + tag + ">")
	return HTML(b.String())
}

// Join is pieces one after the other.
func Join(pieces ...HTML) HTML {
	var b strings.Builder
	for _, h := range pieces {
		b.WriteString(string(h))
	}
	return HTML(b.String())
}

// Each is a piece for each of a list, a line apart.
func Each[T any](list []T, piece func(T) HTML) HTML {
	var b strings.Builder
	for _, v := range list {
		b.WriteString(string(piece(v)) + "\n")
	}
	return HTML(b.String())
}
