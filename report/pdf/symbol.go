package pdf

import (
	"regexp"
	"strings"

	"standclear/limits/sheet"
)

var greek = map[string]string{
	"alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "eta": "η", "theta": "θ", "lambda": "λ", "mu": "μ",
	"nu": "ν", "pi": "π", "rho": "ρ", "sigma": "σ", "tau": "τ", "phi": "φ", "omega": "ω", "Delta": "Δ", "Sigma": "Σ",
}

// symbols are the names that the sheets of a library give to values. Only these
// are set as symbols in a sentence; a user's own id stays as it is written.
type symbols map[string]bool

func symbolsOf(lib *sheet.Library) symbols {
	s := symbols{}
	if lib == nil {
		return s
	}
	for _, sh := range lib.Sheets {
		for _, list := range [][]*sheet.Column{sh.Columns, sh.Consts} {
			for _, c := range list {
				s.add(c.Name)
				s.add(c.Symbol)
			}
		}
		for name := range sh.Lists {
			s.add(name)
		}
		for name := range sh.Ranges {
			s.add(name)
		}
	}
	return s
}

func (s symbols) add(name string) {
	base, _, sub := strings.Cut(name, "_")
	if _, is := greek[base]; is || sub {
		s[name] = true
	}
}

var identifier = regexp.MustCompile(`[A-Za-z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)*`)

// rich sets a text of the program: symbols with their subscripts, units, signs
// and powers of ten.
func (s symbols) rich(text string, st style) []span {
	var out []span
	// What is to be typed stands between back ticks.
	if before, rest, ok := strings.Cut(text, "`"); ok {
		if code, after, ok := strings.Cut(rest, "`"); ok {
			out = append(out, s.rich(before, st)...)
			out = append(out, span{text: code, style: style{mono, st.size - 0.5, st.ink}})
			return append(out, s.rich(after, st)...)
		}
	}
	at := 0
	for _, m := range identifier.FindAllStringIndex(text, -1) {
		if !s[text[m[0]:m[1]]] || m[0] > 0 && (text[m[0]-1] == '-' || text[m[0]-1] == '\'') {
			continue
		}
		if m[0] > at {
			out = append(out, span{text: pretty(text[at:m[0]]), style: st})
		}
		out = append(out, symbol(text[m[0]:m[1]], st)...)
		at = m[1]
	}
	if at < len(text) {
		out = append(out, span{text: pretty(text[at:]), style: st})
	}
	return out
}

// symbol sets one symbol: m_R as m with the subscript R, mu as μ.
func symbol(name string, st style) []span {
	base, sub, ok := strings.Cut(name, "_")
	if _, is := greek[base]; ok && !is && len(base) > 3 {
		return []span{{text: strings.ReplaceAll(name, "_", " "), style: st}} // words, not a symbol
	}
	out := []span{{text: letter(base), style: st}}
	if ok {
		parts := strings.Split(sub, "_")
		for i := range parts {
			parts[i] = letter(parts[i])
		}
		out = append(out, span{text: strings.Join(parts, ","), style: st.sub(), drop: st.size * 0.16 * mmPerPoint})
	}
	return out
}

func letter(name string) string {
	if g, ok := greek[name]; ok {
		return g
	}
	return name
}

var (
	powerUnit = regexp.MustCompile(`\b(mm|cm|m|s)([23])\b`)
	exponent  = regexp.MustCompile(`([0-9])e([-+]?)([0-9]+)\b`)
	negative  = regexp.MustCompile(`(^|[ (=])-([0-9])`)
	raised    = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹", "-", "⁻", "+", "")
)

// pretty sets units and numbers as a reader expects them: cm², °C, 10⁻⁷.
func pretty(text string) string {
	if !strings.ContainsAny(text, "0123456789CN") {
		return text
	}
	text = unitText(text)
	text = exponent.ReplaceAllStringFunc(text, func(m string) string {
		g := exponent.FindStringSubmatch(m)
		return g[1] + "·10" + raised.Replace(g[2]+g[3])
	})
	return negative.ReplaceAllString(text, "$1−$2")
}

// unitText sets a unit: N/cm² for N/cm2.
func unitText(text string) string {
	text = powerUnit.ReplaceAllStringFunc(text, func(m string) string {
		return m[:len(m)-1] + raised.Replace(m[len(m)-1:])
	})
	text = strings.ReplaceAll(text, "N*m", "N·m")
	return strings.ReplaceAll(text, "degC", "°C")
}
