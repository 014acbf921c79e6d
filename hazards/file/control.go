package file

import (
	"slices"

	"standclear/limits/source"
)

// Control answers what is asked of every cell about stops, restart, modes, loss
// and return of power, release, isolation and access to the safety settings.
type Control struct {
	source.Item
	EmergencyStop  EmergencyStop  `yaml:"emergency_stop" means:"what the emergency stop stops"`
	Reset          Reset          `yaml:"reset" means:"where a stop is reset, and what is seen from there"`
	Restart        Restart        `yaml:"restart" means:"whether anything goes on by itself"`
	Muting         Muting         `yaml:"muting" means:"whether a safeguard is muted, and when"`
	ModeSelection  ModeSelection  `yaml:"mode_selection" means:"how a mode is chosen and by whom"`
	PowerReturn    Return         `yaml:"power_return" means:"what happens when power comes back"`
	AirReturn      Return         `yaml:"air_return" means:"what happens when air comes back"`
	Release        Release        `yaml:"release" means:"how a trapped person is freed"`
	Isolation      Isolation      `yaml:"isolation" means:"how energy is cut off for service"`
	SettingsAccess SettingsAccess `yaml:"settings_access" means:"who can change safety settings, and from where"`
}

// EmergencyStop says what one emergency stop stops.
type EmergencyStop struct {
	source.Item
	Spans   []string `yaml:"spans,required" ref:"robot|machine|tool" means:"ids of what it stops"`
	Because string   `yaml:"because" means:"why something is left out, and how it is marked"`
}

// Reset says where a stop is reset and what is seen from there.
type Reset struct {
	source.Item
	Place      string `yaml:"place,required" means:"where the reset is"`
	View       string `yaml:"view,required" choice:"whole|part|none" means:"how much of the cell is seen from it"`
	BlindSpots string `yaml:"blind_spots" means:"what is not seen, and what becomes of a person there"`
}

// Restart says whether motion goes on by itself once a safeguard is clear.
type Restart struct {
	source.Item
	Automatic YesNo  `yaml:"automatic,required" means:"yes: motion goes on by itself once a safeguard is clear"`
	Because   string `yaml:"because" means:"why nobody can be hidden where it goes on by itself"`
}

// Muting says which safeguards are muted, while what, and what ends it.
type Muting struct {
	source.Item
	Used       YesNo    `yaml:"used,required" means:"yes: a safeguard is muted or blanked at times"`
	Safeguards []string `yaml:"safeguards" ref:"safeguard" means:"ids of the safeguards"`
	While      string   `yaml:"while" means:"while what"`
	Ends       string   `yaml:"ends" means:"what ends it, and after which time at the latest"`
}

// ModeSelection says how a mode is chosen.
type ModeSelection struct {
	source.Item
	By  string `yaml:"by,required" choice:"key|code|card|screen|none" means:"how a mode is chosen"`
	Who string `yaml:"who" means:"who may choose"`
}

// Return says what happens when power or air comes back.
type Return struct {
	source.Item
	Starts YesNo  `yaml:"starts,required" means:"yes: something moves by itself"`
	What   string `yaml:"what,required" means:"what robot, tools and machines do"`
}

// Release says how a trapped person is freed.
type Release struct {
	source.Item
	How          string `yaml:"how,required" means:"how the arm, the jaws and the machines are moved off a person"`
	WithoutPower YesNo  `yaml:"without_power,required" means:"yes: it works without drive power"`
	Drilled      string `yaml:"drilled" means:"who drills it, how often"`
}

// Isolation says how energy is cut off for service.
type Isolation struct {
	source.Item
	How      string   `yaml:"how,required" means:"where the isolators are, and how stored energy is let off"`
	Lockable YesNo    `yaml:"lockable,required" means:"yes: each isolator can be locked"`
	Energies []string `yaml:"energies,required" choice:"electric|pneumatic|hydraulic|spring|gravity|vacuum|heat|laser|chemical" means:"kinds of energy that are cut off or let off"`
}

// SettingsAccess says who can change the safety settings and from where.
type SettingsAccess struct {
	source.Item
	Who         string `yaml:"who,required" means:"who can change them"`
	ProtectedBy string `yaml:"protected_by,required" choice:"password|key|hardware|none" means:"what keeps others from it"`
	Remote      string `yaml:"remote,required" choice:"none|view|change" means:"what can be done from outside the cell"`
	Logged      string `yaml:"logged" means:"how a change is seen, such as the checksum read each shift"`
}

// Driven says whether a machine moves by other means than hand, spring or
// weight. One whose energies are not written may do so.
func (m *Machine) Driven() bool {
	for _, e := range m.Energies {
		if e != "spring" && e != "gravity" {
			return true
		}
	}
	return len(m.Energies) == 0
}

// Unspanned are the ids of the robots and driven machines that the emergency
// stop leaves out.
func (c *Cell) Unspanned() []string {
	var list []string
	out := func(id string) {
		if !slices.Contains(c.Control.EmergencyStop.Spans, id) {
			list = append(list, id)
		}
	}
	for i := range c.Robots {
		out(c.Robots[i].ID)
	}
	for i := range c.Machines {
		if c.Machines[i].Driven() {
			out(c.Machines[i].ID)
		}
	}
	return list
}
