package source

import "testing"

func TestPlainNumberProblem(t *testing.T) {
	for _, c := range []struct{ text, message, hint string }{
		{"0", "", ""}, {"-1.5", "", ""}, {"+4.3e-8", "", ""}, {"1E5", "", ""}, {"150 mm/s", "", ""},
		{"", "", ""}, {"abc", "", ""}, {"5mm", "", ""}, {"10:30", "", ""}, {"1.2.3", "", ""}, {"700..2000 mm", "", ""}, {"-", "", ""},
		{".nan", "found `.nan`, which is not a finite number", "write the number itself"},
		{"-.Inf", "found `-.Inf`, which is not a finite number", "write the number itself"},
		{"NaN", "found `NaN`, which is not a finite number", "write the number itself"},
		{"+inf mm", "found `+inf`, which is not a finite number", "write the number itself"},
		{"1_000", "found `1_000`, a number with underscores", "did you mean `1000`?"},
		{"1_000.5 mm", "found `1_000.5`, a number with underscores", "did you mean `1000.5 mm`?"},
		{"1.000_5", "found `1.000_5`, a number with underscores", "did you mean `1.0005`?"},
		{"0x1F", "found `0x1F`, a number in another base", "write it in decimal"},
		{"0b11", "found `0b11`, a number in another base", "write it in decimal"},
		{"0o7", "found `0o7`, an octal number", "write it in decimal"},
		{"1,5", "found `1,5`, a number with a decimal comma", "did you mean `1.5`?"},
		{"-0,25 mm", "found `-0,25`, a number with a decimal comma", "did you mean `-0.25 mm`?"},
		{"1,000 mm", "found `1,000`, a number with a comma", "write `1.000 mm` or `1000 mm`, whichever is meant"},
		{"1,000,000", "found `1,000,000`, a number with commas", "did you mean `1000000`?"},
		{"1,234.5", "found `1,234.5`, a number with commas", "did you mean `1234.5`?"},
		{".5", "found `.5`, a number with a digit missing beside the point", "did you mean `0.5`?"},
		{"-5. mm", "found `-5.`, a number with a digit missing beside the point", "did you mean `-5 mm`?"},
		{"007", "found `007`, a number that begins with 0", "did you mean `7`?"},
		{"00", "found `00`, a number that begins with 0", "did you mean `0`?"},
		{"-00.50", "found `-00.50`, a number that begins with 0", "did you mean `-0.50`?"},
	} {
		message, hint := PlainNumberProblem(c.text)
		if message != c.message || hint != c.hint {
			t.Errorf("%q: got %q, %q; want %q, %q", c.text, message, hint, c.message, c.hint)
		}
	}
}
