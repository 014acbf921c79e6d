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

// identifier finds the next name in text from at on: letters, digits and single
// underscores within, beginning with a letter that follows no digit. It gives
// two equal places behind the last.
func identifier(text string, at int) (from, to int) {
	for from = at; from < len(text); from++ {
		if !isLetter(text[from]) || from > 0 && (isDigit(text[from-1]) || text[from-1] == '_') {
			continue
		}
		for to = from + 1; to < len(text); to++ {
			c := text[to]
			if !isLetter(c) && !isDigit(c) && (c != '_' || to+1 == len(text) || !isLetter(text[to+1]) && !isDigit(text[to+1])) {
				break
			}
		}
		return from, to
	}
	return len(text), len(text)
}

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

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
	for from, to := identifier(text, 0); from < to; from, to = identifier(text, to) {
		if !s[text[from:to]] || from > 0 && (text[from-1] == '-' || text[from-1] == '\'') {
			continue
		}
		if from > at {
			out = append(out, span{text: pretty(text[at:from]), style: st})
		}
		out = append(out, symbol(text[from:to], st)...)
		at = to
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
	if strings.Contains(text, "e") {
		text = exponent.ReplaceAllStringFunc(text, func(m string) string {
			g := exponent.FindStringSubmatch(m)
			return g[1] + "·10" + raised.Replace(g[2]+g[3])
		})
	}
	if strings.Contains(text, "-") {
		text = negative.ReplaceAllString(text, "$1−$2")
	}
	return text
}

// unitText sets a unit: N/cm² for N/cm2.
func unitText(text string) string {
	if strings.Contains(text, "m2") || strings.Contains(text, "m3") || strings.Contains(text, "s2") {
		text = powerUnit.ReplaceAllStringFunc(text, func(m string) string {
			return m[:len(m)-1] + raised.Replace(m[len(m)-1:])
		})
	}
	text = strings.ReplaceAll(text, "N*m", "N·m")
	return strings.ReplaceAll(text, "degC", "°C")
}
