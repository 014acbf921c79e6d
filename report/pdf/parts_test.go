package pdf

import (
	"strings"
	"testing"

	"standclear/report/words"
)

func TestNumbersToTheSafeSide(t *testing.T) {
	for _, c := range []struct {
		v    float64
		s    side
		want string
	}{
		{607.2, upward, "608"}, {607.9, downward, "607"}, {607, upward, "607"}, {607.0000000000001, upward, "607"},
		{158.443, downward, "158"}, {136.958, upward, "137"}, {0.26249, upward, "0.263"}, {0.26249, downward, "0.262"},
		{12.345, nearest, "12.3"}, {1.8e-7, upward, "1.8·10⁻⁷"}, {1.8012e-7, upward, "1.81·10⁻⁷"}, {0, upward, "0"}, {-5, nearest, "−5"},
		{99.96, upward, "100"}, {1e7, nearest, "1·10⁷"},
	} {
		if got := number(c.v, c.s); got != c.want {
			t.Errorf("number(%v, %d) = %s, want %s", c.v, c.s, got, c.want)
		}
	}
	if got := percent(1.0001); got != "101 %" {
		t.Errorf("a share just over the limit is shown as %s", got)
	}
	if got := percent(0.9999999999999); got != "100 %" {
		t.Errorf("a share at the limit is shown as %s", got)
	}
}

func TestSymbols(t *testing.T) {
	s := symbols{"m_R": true, "mu": true, "m_H_t": true, "K_hand": true}
	text := func(in string) string {
		var b strings.Builder
		for _, sp := range s.rich(in, text) {
			if sp.drop != 0 {
				b.WriteString("[" + sp.text + "]")
			} else {
				b.WriteString(sp.text)
			}
		}
		return b.String()
	}
	for in, want := range map[string]string{
		"m_R = M/2 + m_L":                "m[R] = M/2 + m_L",
		"√(mu·K)":                        "√(μ·K)",
		"m_H_t in cm2, N/cm2 and mm/s2":  "m[H,t] in cm², N/cm² and mm/s²",
		"2.1e-7 at 43 degC":              "2.1·10⁻⁷ at 43 °C",
		"my-m_R stays, and 'mu' as well": "my-m_R stays, and 'mu' as well",
		"K_hand_2 is not K_hand":         "K_hand_2 is not K[hand]",
	} {
		if got := text(in); got != want {
			t.Errorf("rich(%q) = %q, want %q", in, got, want)
		}
	}
}

// Whatever the program prints of itself has a glyph in every face it may be set in.
func TestGlyphs(t *testing.T) {
	own := "αβγδηθλμνπρστφωΔΣ·−√²³⁰¹⁴⁵⁶⁷⁸⁹⁻≤≥≠±×°…—–•□⟨⟩\u00a0äöüßéèçñåøŁžИнΩ"
	for f := range faces {
		if !printable(own, f) {
			for _, r := range own {
				if !printable(string(r), f) {
					t.Errorf("face %d has no %q", f, r)
				}
			}
		}
		if printable("漢", f) || printable("\u202e", f) || printable("\xff", f) || printable("\U0001F916", f) {
			t.Errorf("face %d claims a glyph that it has not, or lets a hidden character through", f)
		}
	}
	w := words.Default()
	for _, texts := range []words.Texts{w.Headings, w.Labels, w.Sentences} {
		for _, e := range texts {
			if !printable(e.Value, plain) || !printable(e.Value, bold) {
				t.Errorf("%s cannot be printed: %q", e.Key, e.Value)
			}
		}
	}
}

// A character that the font lacks is replaced and owned up to.
func TestMissingGlyphIsSaid(t *testing.T) {
	r := fixture(t)
	r.Rows[0].Spec.Situation = "hand 漢 in\nthe carton \U0001F916"
	r.File.Head.Title = "title \xff\u202e 漢"
	all := everything(traced(t, Options{}, r))
	for _, want := range []string{"U+6F22", "U+1F916", "U+202E", "U+FFFD", "hand □ in the"} {
		if !strings.Contains(all, want) {
			t.Errorf("%s is not printed", want)
		}
	}
}

func TestBreaking(t *testing.T) {
	d := newDoc(Options{}, fixture(t), papers["A4"])
	lines := func(s string, width float64) []string {
		var out []string
		for _, l := range d.broken(one(s, cellText), width) {
			var b strings.Builder
			for _, r := range l.runs {
				b.WriteString(r.text)
			}
			out = append(out, b.String())
			if l.width > width+slack {
				t.Errorf("%q is wider than %v", b.String(), width)
			}
		}
		return out
	}
	for _, l := range lines("a limit of 150 mm/s and 90 N at 1.2 cm² or 0.3 s", 17) {
		for _, unit := range []string{"mm/s", "N ", "cm²", "s"} {
			if strings.HasPrefix(l, unit) {
				t.Errorf("%q begins a line with the unit of the number before", l)
			}
		}
	}
	if got := strings.Join(lines("  two   words  ", 50), "|"); got != "two words" {
		t.Errorf("got %q", got)
	}
	if got := strings.Join(lines(strings.Repeat("x", 200), 20), ""); got != strings.Repeat("x", 200) {
		t.Errorf("a long word lost letters: %d left", len(got))
	}
	if got := lines("", 20); len(got) != 0 {
		t.Errorf("nothing gave %q", got)
	}
}

func TestMarksSpeakForEveryState(t *testing.T) {
	w := words.Default()
	for name, v := range map[string]words.Vocabulary{"verdict": w.Verdicts, "document": w.Document, "row": w.Rows, "point": w.Points} {
		for _, e := range v {
			if marks[e.Key] == noMark {
				t.Errorf("%s %s has no mark", name, e.Key)
			}
		}
	}
}
