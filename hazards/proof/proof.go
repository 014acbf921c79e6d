// Package proof says whether a measurement speaks for a calculated contact and
// what it says. The model plans, the measurement decides: a check is within by
// measurement only when force and pressure were both taken at the same or a
// worse speed, tool, part and clamping, with the same safety configuration.
package proof

import (
	"slices"

	"standclear/limits/sheet"
)

// Case is one contact check that a measurement has to speak for.
type Case struct {
	Clamped  bool    // the body part is held; false: shown free
	Jaws     bool    // between jaws: speed and safety configuration say nothing
	Speed    float64 // mm/s, the highest that can occur, tolerance included; 0: not known
	Tool     string
	Part     string  // "": no part is held
	Spot     string  // point of the contact; "": it is one point
	PartMass float64 // kg
	Area     string  // body area
	Region   string  // its body region
	Checksum string  // of the safety configuration the speed stands in; "": in none
	K        float64 // N/mm, spring of the body region, without padding; 0: not known

	// Limits in N and N/cm2. Peak counts up to 0.5 s, Steady after it. 0: no limit
	// is known, and nothing is decided.
	ForcePeak, ForceSteady       float64
	PressurePeak, PressureSteady float64
}

// Measured is what a validation point says.
type Measured struct {
	Clamped   string  // yes, no or "" where it is not said
	Speed     float64 // mm/s, the least that can have been; 0: not said
	Tool      string
	Part      string // "": none, or not said
	Spot      string // point of the contact; "" where it is not said
	PartMass  float64
	Area      string  // body area the device stands for; "" where it is not said
	Region    string  // its body region
	Checksum  string  // of the safety configuration during the test
	Stiffness float64 // N/mm, spring of the device; 0: not said

	// What the instrument showed, in N and N/cm2, the worst of all runs; nil
	// where it was not taken.
	Peak, Steady, Pressure *float64
}

// Outcome is what a measurement says about a case.
type Outcome struct {
	Covers  bool     // it speaks for the case
	InWhat  []string // where it does not cover: in what, each with both values
	Stiffer string   // the device is stiffer than the body region, in words; "" where it is not
	// Force and Pressure are within-measured, over, or not-decided where they
	// were not taken.
	Force, Pressure sheet.Verdict
	// Verdict is within-measured when force and pressure are within and the
	// measurement covers; over when it covers and is over, or was taken milder
	// and is over all the same; "" where it decides nothing.
	Verdict sheet.Verdict
	Why     string
}

// Judge holds a measurement against a case.
func Judge(c Case, m Measured) Outcome {
	gaps := slices.Concat(gapsOfSetup(c, m), gapsOfDevice(c, m), gapsOfSettings(c, m))
	o := Outcome{Covers: len(gaps) == 0, Stiffer: stiffer(c, m)}
	milder := true
	for _, g := range gaps {
		o.InWhat = append(o.InWhat, g.text)
		milder = milder && g.milder
	}
	var forceWhy, pressureWhy string
	o.Force, forceWhy = force(c, m)
	o.Pressure, pressureWhy = pressure(c, m)
	o.Verdict, o.Why = verdict(o, milder, forceWhy, pressureWhy)
	return o
}

// Together joins what several measurements say about one case: the worst that
// any of them shows, and within only where force and pressure are both within.
// It is "" where nothing is decided.
func Together(all []Outcome) sheet.Verdict {
	force, pressure := false, false
	for _, o := range all {
		if o.Verdict == sheet.Over {
			return sheet.Over
		}
		force = force || o.Covers && o.Force == sheet.WithinMeasured
		pressure = pressure || o.Covers && o.Pressure == sheet.WithinMeasured
	}
	if force && pressure {
		return sheet.WithinMeasured
	}
	return ""
}
