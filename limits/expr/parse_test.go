package expr

import (
	"errors"
	"strings"
	"testing"
)

func TestParsePrint(t *testing.T) {
	for src, want := range map[string]string{
		"8*(d-d_0)":                    "8*(d - d_0)",
		"-a^2":                         "-a^2",
		"(-a)^2":                       "(-a)^2",
		"a-(b-c)":                      "a - (b - c)",
		"(a-b)-c":                      "a - b - c",
		"a/(b*c)":                      "a/(b*c)",
		"(a*b)/c":                      "a*b/c",
		"a*-b":                         "a*(-b)",
		"--a":                          "-(-a)",
		"x^-3":                         "x^-3",
		"not a and b or c":             "not a and b or c",
		"not (a and (b or c))":         "not (a and (b or c))",
		"not a = b":                    "not (a = b)",
		"shape = 'it''s'":              "shape = 'it''s'",
		"round( x , -2 )":              "round(x, -2)",
		"max(0,8*(d-d_0))":             "max(0, 8*(d - d_0))",
		"given(x) and x<>1.50":         "given(x) and x <> 1.5",
		"a <= b\n and\ttrue":           "a <= b and true",
		"sum(PFH)<1e-6":                "sum(PFH) < 1e-06",
		"a or b and c":                 "a or b and c",
		"(a or b) and c":               "(a or b) and c",
		"a and (b and c)":              "a and (b and c)",
		"(a < b) and (c + (d*e)) >= f": "a < b and c + d*e >= f",
		"((((x))))":                    "x",
	} {
		tree, err := Parse(src)
		if err != nil {
			t.Errorf("%s: %v", src, err)
			continue
		}
		if got := tree.String(); got != want {
			t.Errorf("%s prints %s, want %s", src, got, want)
		}
	}
}

func TestParseErrors(t *testing.T) {
	deep := strings.Repeat("(", 80) + "1"
	for _, c := range []struct {
		src        string
		off, width int
		message    string
		expected   string
	}{
		{"", 0, 1, "ends too early", "a number"},
		{"a +", 3, 1, "ends too early", "a number"},
		{"a b", 2, 1, "unexpected `b`", "an operator"},
		{"(a", 2, 1, "`)` missing", "closing bracket"},
		{"a)", 1, 1, "unexpected `)`", "an operator"},
		{"a^b", 2, 1, "exponent is not a whole number", "digits"},
		{"a^2^3", 3, 1, "powers cannot be chained", "brackets"},
		{"a^2.5", 2, 3, "exponent is not a whole number", "digits"},
		{"a^10", 2, 2, "exponent is not a whole number up to 9", "digits"},
		{"a^0", 0, 3, "exponent 0", "1 to 9"},
		{"1 < a < 2", 6, 1, "comparisons cannot be chained", "and"},
		{"a = b <> c", 6, 2, "comparisons cannot be chained", "and"},
		{"1_000 + a", 0, 5, "`1_000` is not a plain number", "plain decimal"},
		{"a + 0x1F", 4, 4, "`0x1F` is not a plain number", "plain decimal"},
		{"1.2.3", 0, 5, "`1.2.3` is not a plain number", "plain decimal"},
		{"1.", 0, 2, "`1.` is not a plain number", "plain decimal"},
		{"2a", 0, 2, "`2a` is not a plain number", "plain decimal"},
		{".5", 0, 1, "unexpected '.'", "a number"},
		{"1e99", 0, 4, "beyond any quantity", "1e30"},
		{"0.12345678901234567", 0, 19, "more than 15 digits", "spreadsheet"},
		{"a == b", 2, 2, "unknown operator `==`", "= or <>"},
		{"a != b", 2, 2, "unknown operator `!=`", "= or <>"},
		{"a && b", 2, 1, "unexpected '&'", "operator"},
		{"a · b", 2, 2, "unexpected '·'", "operator"},
		{"shape = 'x", 8, 2, "without closing quote", "'text'"},
		{"shape = ''", 8, 2, "empty text", "given"},
		{`shape = "x"`, 8, 1, "unexpected '\"'", "'text'"},
		{"sin(a)", 0, 3, "unknown function `sin`", "sqrt"},
		{"sqrt", 0, 4, "`sqrt` is a function", "sqrt(…)"},
		{"sqrt()", 5, 1, "unexpected `)`", "a number"},
		{"sqrt(a, b)", 0, 10, "sqrt has 2 arguments", "at most 1"},
		{"round(a)", 7, 1, "`,` missing", "decimals"},
		{"round(a, b)", 9, 1, "number of decimals is not a whole number", "digits"},
		{"a + not b", 4, 3, "unexpected `not`", "bracket"},
		{"not", 3, 1, "ends too early", "a number"},
		{"max(1,,2)", 6, 1, "unexpected `,`", "a number"},
		{"=a", 0, 1, "unexpected `=`", "a number"},
		{"a\x00b", 1, 1, "unexpected '\\x00'", "operator"},
		{"\xff", 0, 1, "not UTF-8", ""},
		{deep, 60, 1, "nested more than 60 deep", ""},
		{strings.Repeat("a+", 1100) + "a", 2000, 201, "longer than 2000", ""},
	} {
		tree, err := Parse(c.src)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%q: no *Error but %v, %v", c.src, tree, err)
			continue
		}
		if e.Offset != c.off || e.Width != c.width || !strings.Contains(e.Message, c.message) || !strings.Contains(e.Expected, c.expected) {
			t.Errorf("%q: %d+%d %s; expected %s", c.src, e.Offset, e.Width, e.Message, e.Expected)
		}
	}
}
