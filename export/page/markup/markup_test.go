package markup

import "testing"

func TestElement(t *testing.T) {
	for _, tc := range []struct {
		name string
		got  HTML
		want string
	}{
		{"text", Text(`<b> & "c"`), `&lt;b&gt; &amp; &#34;c&#34;`},
		{"holds", Element("p", nil, Text("a"), Element("b", nil, Text("c"))), `<p>a<b>c</b></p>`},
		{"attribute escaped", Element("p", Attributes{"title", `"><script>`}), `<p title="&#34;&gt;&lt;script&gt;"></p>`},
		{"on and off", Element("option", Attributes{"selected", If(true), "disabled", If(false)}, Text("x")), `<option selected>x</option>`},
		{"an empty value stays", Element("p", Attributes{"data-unit", ""}), `<p data-unit=""></p>`},
		{"holds nothing", Element("input", Attributes{"value", "1"}), `<input value="1">`},
		{"joined", Join(Text("a"), Text("b")), "ab"},
		{"each", Each([]string{"a", "<"}, Text), "a\n&lt;\n"},
	} {
		if string(tc.got) != tc.want {
			t.Errorf("%s: %s, want %s", tc.name, tc.got, tc.want)
		}
	}
}

func TestElementPanicsOnHalfAPair(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a name without a value is let through")
		}
	}()
	Element("p", Attributes{"class"})
}
