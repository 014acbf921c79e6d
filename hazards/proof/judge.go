package proof

import (
	"fmt"
	"strings"

	"standclear/limits/sheet"
)

// force judges the force on both sides of 0.5 s. A steady force that was not
// taken is at most the peak.
func force(c Case, m Measured) (sheet.Verdict, string) {
	peakLimit, steady := c.ForcePeak, m.Steady
	if c.Jaws {
		peakLimit = c.ForceSteady // the jaws do not let go after 0.5 s
	}
	switch {
	case m.Peak == nil && m.Steady == nil:
		return sheet.NotDecided, "no force was taken"
	case peakLimit == 0 || c.ForceSteady == 0:
		return sheet.NotDecided, "no force limit is known"
	case m.Peak != nil && beyond(*m.Peak, peakLimit):
		return sheet.Over, fmt.Sprintf("peak force %s N, limit %s N", number(*m.Peak), number(peakLimit))
	case steady != nil && beyond(*steady, c.ForceSteady):
		return sheet.Over, fmt.Sprintf("force after 0.5 s %s N, limit %s N", number(*steady), number(c.ForceSteady))
	case m.Peak == nil:
		return sheet.NotDecided, "the peak force up to 0.5 s was not taken"
	case (c.Clamped || c.Jaws) && steady == nil && beyond(*m.Peak, c.ForceSteady):
		return sheet.NotDecided, fmt.Sprintf("the force after 0.5 s was not taken, and the peak of %s N is above its limit of %s N", number(*m.Peak), number(c.ForceSteady))
	}
	return sheet.WithinMeasured, ""
}

// pressure judges the peak pressure. A film or sensor keeps no more than the
// peak, so that on a held body part it is held against the quasi-static limit.
func pressure(c Case, m Measured) (sheet.Verdict, string) {
	limit := c.PressurePeak
	if c.Clamped || c.Jaws {
		limit = c.PressureSteady
	}
	switch {
	case m.Pressure == nil:
		return sheet.NotDecided, "no pressure was taken"
	case limit == 0:
		return sheet.NotDecided, "no pressure limit is known"
	case beyond(*m.Pressure, limit):
		return sheet.Over, fmt.Sprintf("peak pressure %s N/cm2, limit %s N/cm2", number(*m.Pressure), number(limit))
	}
	return sheet.WithinMeasured, ""
}

// beyond says whether a value is above its limit.
func beyond(v, limit float64) bool { return less(limit, v) }

// verdict joins force and pressure.
func verdict(o Outcome, milder bool, forceWhy, pressureWhy string) (sheet.Verdict, string) {
	over := join(o.Force == sheet.Over, forceWhy, o.Pressure == sheet.Over, pressureWhy)
	switch {
	case over != "" && o.Covers:
		return sheet.Over, "measured above the limit: " + over
	case over != "" && milder:
		return sheet.Over, "measured above the limit even where it was milder (" + strings.Join(o.InWhat, "; ") + "): " + over
	case !o.Covers:
		return "", "does not cover: " + strings.Join(o.InWhat, "; ")
	case o.Force == sheet.WithinMeasured && o.Pressure == sheet.WithinMeasured:
		return sheet.WithinMeasured, "force and pressure measured within the limits"
	}
	return "", join(o.Force == sheet.NotDecided, forceWhy, o.Pressure == sheet.NotDecided, pressureWhy)
}

func join(a bool, textA string, b bool, textB string) string {
	var list []string
	if a {
		list = append(list, textA)
	}
	if b {
		list = append(list, textB)
	}
	return strings.Join(list, "; ")
}
