package proof

import (
	"fmt"

	"standclear/limits/quantity"
)

// gap is one way in which a measurement does not cover. A milder one still
// shows that a limit is exceeded when it exceeds it.
type gap struct {
	text   string
	milder bool
}

// little is the relative noise of numbers that were converted between units.
const little = 1e-9

func less(a, b float64) bool { return a < b-little*b }

// gapsOfSetup compares tool, part, body part and clamping of the test.
func gapsOfSetup(c Case, m Measured) []gap {
	var gaps []gap
	add := func(milder bool, format string, args ...any) {
		gaps = append(gaps, gap{fmt.Sprintf(format, args...), milder})
	}
	switch {
	case c.Tool == "":
	case m.Tool == "":
		add(false, "tool: not said, `%s` is used", c.Tool)
	case m.Tool != c.Tool:
		add(false, "tool: `%s` measured, `%s` is used", m.Tool, c.Tool)
	}
	switch {
	case c.Part == "" || c.Part == m.Part:
	case m.Part == "":
		add(true, "part: none named, `%s` is handled", c.Part)
	case less(m.PartMass, c.PartMass):
		add(true, "part: `%s` of %s kg measured, `%s` of %s kg is handled", m.Part, number(m.PartMass), c.Part, number(c.PartMass))
	}
	switch {
	case c.Spot == "" || c.Spot == m.Spot:
	case m.Spot == "":
		add(false, "point: not said, `%s` can touch", c.Spot)
	default:
		add(false, "point: `%s` measured, `%s` can touch", m.Spot, c.Spot)
	}
	if m.Region != "" && m.Region != c.Region {
		add(false, "body part: `%s` measured, `%s` can be touched", m.Region, c.Region)
	}
	switch {
	case c.Jaws || m.Clamped == "yes":
	case m.Clamped == "":
		add(false, "clamping: not said")
	case c.Clamped:
		add(true, "clamping: measured free, the body part can be held")
	}
	return gaps
}

// gapsOfDevice compares the spring of the device with that of the body region.
// A softer one reads lower forces than the body would feel.
func gapsOfDevice(c Case, m Measured) []gap {
	switch {
	case m.Peak == nil && m.Steady == nil || c.K == 0:
		return nil
	case m.Stiffness == 0 && m.Region == "":
		return []gap{{"device: neither its spring nor the body part it stands for is said", false}}
	case m.Stiffness != 0 && less(m.Stiffness, c.K):
		return []gap{{fmt.Sprintf("device: spring of %s N/mm, the body region has %s N/mm and feels more", number(m.Stiffness), number(c.K)), true}}
	}
	return nil
}

// gapsOfSettings compares speed and safety configuration. Jaws are judged by
// the greatest force of their drive, whatever the robot does.
func gapsOfSettings(c Case, m Measured) []gap {
	if c.Jaws {
		return nil
	}
	var gaps []gap
	switch {
	case m.Speed == 0:
		gaps = append(gaps, gap{"speed: not said", false})
	case c.Speed == 0:
		gaps = append(gaps, gap{"speed: the contact names none to compare with", false})
	case less(m.Speed, c.Speed):
		gaps = append(gaps, gap{fmt.Sprintf("speed: %s mm/s measured, %s mm/s can occur", number(m.Speed), number(c.Speed)), true})
	}
	switch {
	case c.Checksum == "":
		gaps = append(gaps, gap{"safety configuration: the speed of the contact stands in none, so nothing ties the measurement to it", false})
	case m.Checksum == "":
		gaps = append(gaps, gap{fmt.Sprintf("safety configuration: no checksum noted, %s is released", c.Checksum), false})
	case m.Checksum != c.Checksum:
		gaps = append(gaps, gap{fmt.Sprintf("safety configuration: measured with %s, %s is released", m.Checksum, c.Checksum), false})
	}
	return gaps
}

// stiffer tells of a device that reads more than the body feels. That keeps no
// measurement from covering; one that is over may be repeated with the right spring.
func stiffer(c Case, m Measured) string {
	if m.Stiffness == 0 || c.K == 0 || !less(c.K, m.Stiffness) {
		return ""
	}
	return fmt.Sprintf("spring of %s N/mm, the body region has %s N/mm", number(m.Stiffness), number(c.K))
}

// number shows a value in a message.
func number(v float64) string { return quantity.Format(v, 4) }
