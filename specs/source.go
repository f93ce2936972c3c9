package specs

import (
	"bytes"
	"errors"
	"fmt"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// Bounds on a file before it is parsed. A full brief is 8 kB of some 700
// tokens nested three deep, a frame with a thousand moment arms 30 kB, a
// strength curve on one line 6 kB, so these leave ample room and still keep a hostile file from costing more than a moment:
// the scanner's time grows with the square of a line's length.
const (
	largestFile   = 1 << 18 // bytes
	longestLine   = 1 << 13 // bytes
	mostTokens    = 20000
	deepestFlow   = 8  // brackets inside brackets
	deepestIndent = 60 // columns before the first word of a line
)

// place is a position in a file, counted from 1.
type place struct{ line, column int }

func placeOf(t *token.Token) place {
	if t == nil || t.Position == nil {
		return place{1, 1}
	}
	return place{t.Position.Line, t.Position.Column}
}

// placed is a fault of the file as a whole.
type placed struct {
	place
	fault
}

// parseSource returns the top node of a YAML file, nil for one that holds
// nothing, or the one fault that keeps it from being read.
func parseSource(data []byte) (root ast.Node, bad *placed) {
	if bad := screenBytes(data); bad != nil {
		return nil, bad
	}
	// The parser is a third party's and promises nothing about hostile text.
	defer func() {
		if recover() != nil {
			root, bad = nil, &placed{place{1, 1}, fault{"the file cannot be read as YAML", ""}}
		}
	}()
	tokens := lexer.Tokenize(string(bytes.TrimPrefix(data, []byte("\ufeff"))))
	if bad := screenTokens(tokens); bad != nil {
		return nil, bad
	}
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		at, message := place{1, 1}, err.Error()
		var y yaml.Error
		if errors.As(err, &y) {
			at, message = placeOf(y.GetToken()), y.GetMessage()
		}
		return nil, &placed{at, fault{"not valid YAML: " + clipLong(message), "indent with spaces; put texts with : or # in quotes"}}
	}
	for _, d := range file.Docs {
		if d.Body == nil {
			continue
		}
		if root != nil {
			return nil, &placed{placeOf(d.Start), fault{"a second document starts here", "one file holds one brief or frame"}}
		}
		root = d.Body
	}
	return root, nil
}

func clipLong(text string) string {
	const longest = 160
	if r := []rune(text); len(r) > longest {
		return string(r[:longest]) + "…"
	}
	return text
}

// screenBytes refuses what is not a text file of sane size.
func screenBytes(data []byte) *placed {
	if len(data) > largestFile {
		return &placed{place{1, 1}, fault{fmt.Sprintf("the file has %d bytes; the most is %d", len(data), largestFile), "a brief is a short text file"}}
	}
	at := place{1, 1}
	start := 0 // of the line
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			return &placed{at, fault{fmt.Sprintf("byte 0x%02X is not UTF-8 text", data[i]), "save the file as UTF-8"}}
		case r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0x7f:
			return &placed{at, fault{fmt.Sprintf("control character 0x%02X: not a text file", r), "a brief is a short text file"}}
		}
		i += n
		at.column++
		if r == '\n' || r == '\r' {
			start = i
		}
		if r == '\n' {
			at = place{at.line + 1, 1}
		}
		if i-start > longestLine {
			return &placed{at, fault{fmt.Sprintf("the line is longer than %d bytes", longestLine), "break it, one value a line"}}
		}
	}
	return nil
}

// screenTokens refuses YAML that a brief has no use for and that could make it
// deep or self-referring: anchors, aliases, tags, merge keys, directives,
// explicit keys and block texts, and nesting beyond reason.
func screenTokens(tokens token.Tokens) *placed {
	refuse := func(t *token.Token, what string) *placed {
		return &placed{placeOf(t), fault{what + " cannot be used here", "write every value in full, as key: value"}}
	}
	depth, line := 0, 0
	for i, t := range tokens {
		if i == mostTokens {
			return &placed{placeOf(t), fault{fmt.Sprintf("more than %d words and signs", mostTokens), "a brief is a short text file"}}
		}
		first := t.Position.Line != line
		line = t.Position.Line
		switch t.Type {
		case token.AnchorType, token.AliasType:
			return refuse(t, "an anchor or alias (& or *)")
		case token.TagType:
			return refuse(t, "a tag (!)")
		case token.MergeKeyType:
			return refuse(t, "a merge key (<<)")
		case token.DirectiveType:
			return refuse(t, "a directive (%)")
		case token.MappingKeyType:
			return refuse(t, "an explicit key (?)")
		case token.LiteralType, token.FoldedType:
			return refuse(t, "a block text (| or >)")
		case token.SequenceStartType, token.MappingStartType:
			depth++
		case token.SequenceEndType, token.MappingEndType:
			depth--
		}
		if depth > deepestFlow || (first || t.Type == token.SequenceEntryType) && t.Position.Column > deepestIndent {
			return &placed{placeOf(t), fault{"nested too deep", "a brief nests three deep"}}
		}
	}
	return nil
}
