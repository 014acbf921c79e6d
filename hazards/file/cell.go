package file

import "standclear/limits/source"

// Cell is the description of the cell.
type Cell struct {
	source.Item
	People     []People    `yaml:"people,required" means:"kinds of people, not only operators"`
	Modes      []Mode      `yaml:"modes" means:"operating modes"`
	Robots     []Robot     `yaml:"robots,required" means:"robots with their safety settings"`
	Machines   []Machine   `yaml:"machines" means:"other machines"`
	Tools      []Tool      `yaml:"tools" means:"grippers and tools"`
	Parts      []Part      `yaml:"parts" means:"work pieces"`
	Safeguards []Safeguard `yaml:"safeguards" means:"curtains, scanners, guards, stops"`
	Functions  []Function  `yaml:"functions" means:"safety functions"`
	Control    Control     `yaml:"control" means:"stops, restart, modes, power loss, release, isolation, access to safety settings"`
	Spaces     []Space     `yaml:"spaces" means:"spaces, for rows and for the plan"`
}

// People is a kind of people in or near the cell.
type People struct {
	source.Item
	ID       string `yaml:"id,required" means:"unique id"`
	Kind     string `yaml:"kind,required" choice:"operator|setter|maintenance|cleaner|contractor|bystander|visitor|supervisor" means:"kind of people"`
	Training string `yaml:"training" means:"training, such as instructed"`
	Present  string `yaml:"present" means:"when and how often they are there"`
	Who      string `yaml:"who" means:"who they are, in words"`
}

// Mode is an operating mode and how it is chosen.
type Mode struct {
	source.Item
	ID             string `yaml:"id,required" means:"unique id"`
	Selection      string `yaml:"selection" means:"how the mode is selected, such as key"`
	EnablingDevice string `yaml:"enabling_device" means:"enabling device, such as three-position"`
	Note           string `yaml:"note" means:"note"`
}

// Robot is a robot arm.
type Robot struct {
	source.Item
	ID              string     `yaml:"id,required" means:"unique id"`
	Name            string     `yaml:"name" means:"what it is, without a brand"`
	GreatestSpeed   Amount     `yaml:"greatest_speed" unit:"mm/s" worse:"down" means:"greatest speed of the tool, to which shares of speed refer"`
	RatedPayload    Amount     `yaml:"rated_payload" unit:"kg" worse:"down" means:"rated payload"`
	Reach           Amount     `yaml:"reach" unit:"mm" means:"reach of the flange"`
	InputResponse   Amount     `yaml:"input_response" unit:"s" worse:"up" means:"time from a safety input to the start of the stop"`
	MovingMass      Amount     `yaml:"moving_mass" unit:"kg" worse:"up" means:"mass of the moving parts M"`
	Settings        []Setting  `yaml:"settings" means:"safety configurations as released"`
	Stopping        []Stopping `yaml:"stopping" means:"grid of stopping times and distances"`
	Mounting        string     `yaml:"mounting" choice:"floor|wall|ceiling|stand|trolley|mobile-base|linear-axis" means:"what the robot stands on"`
	MotorPower      Amount     `yaml:"motor_power" unit:"W" worse:"up" means:"rated power of its greatest motor"`
	LearnedMotion   YesNo      `yaml:"learned_motion" means:"yes: motions are chosen by a model learned from data"`
	BrakesMonitored YesNo      `yaml:"brakes_monitored" means:"yes: the robot finds worn brakes by itself"`
	BrakeCheck      string     `yaml:"brake_check" ref:"upkeep" means:"id of the upkeep item that finds worn brakes, where the robot does not"`
}

// Setting is one safety configuration of a robot. Only what stands here with a
// checksum counts as a limit; a value in a program does not.
type Setting struct {
	source.Item
	ID         string   `yaml:"id,required" means:"unique id"`
	Mode       string   `yaml:"mode" ref:"mode" means:"id of the mode it belongs to"`
	Checksum   string   `yaml:"checksum" means:"checksum of the safety configuration"`
	Version    string   `yaml:"version" means:"version of the controller software"`
	TCPSpeed   Amount   `yaml:"tcp_speed" unit:"mm/s" worse:"up" means:"speed limit at the tool, with its tolerance"`
	ElbowSpeed Amount   `yaml:"elbow_speed" unit:"mm/s" worse:"up" means:"speed limit at the elbow, with its tolerance"`
	Force      Amount   `yaml:"force" unit:"N" worse:"up" means:"force limit, with its tolerance"`
	Planes     []string `yaml:"planes" means:"planes the robot keeps within"`
}

// Stopping is one measured point of the stopping grid.
type Stopping struct {
	source.Item
	ID       string `yaml:"id,required" means:"unique id"`
	Category string `yaml:"category,required" choice:"0|1|2" means:"stop category, IEC 60204-1"`
	Load     Amount `yaml:"load,required" unit:"%" worse:"down" means:"share of the rated load"`
	Speed    Amount `yaml:"speed,required" unit:"%" worse:"down" means:"share of the greatest speed"`
	Reach    Amount `yaml:"reach,required" unit:"%" worse:"down" means:"share of the greatest reach"`
	Time     Amount `yaml:"time,required" unit:"s" worse:"up" means:"stopping time"`
	Distance Amount `yaml:"distance" unit:"mm" worse:"up" means:"stopping distance"`
	From     string `yaml:"from" choice:"measured|datasheet|standard|assumed" means:"origin of time and distance"`
	Ref      string `yaml:"ref" means:"where it is written"`
}

// Machine is another machine of the cell.
type Machine struct {
	source.Item
	ID         string   `yaml:"id,required" means:"unique id"`
	Kind       string   `yaml:"kind,required" choice:"conveyor|turntable|drawer|lift|feeder|clamp|press|machine-tool|moulding-machine|furnace|welder|laser|labeller|screwdriving-station|dispenser|packer|door|vehicle|other" means:"kind of machine"`
	What       string   `yaml:"what" means:"what it is, without a brand"`
	Energies   []string `yaml:"energies" choice:"electric|pneumatic|hydraulic|spring|gravity|vacuum|heat|laser|chemical" means:"kinds of energy in it"`
	Dangers    []string `yaml:"dangers" choice:"rotating|nip|closing|door|hot|sharp|heavy-fixture|stored-energy|own-start" means:"what about it can hurt"`
	GivesOff   []string `yaml:"gives_off" choice:"dust|mist|fumes|gas|chips|fluid|noise|vibration|light|radiation|static" means:"what it gives off"`
	EstopSpans []string `yaml:"estop_spans" ref:"robot|machine|tool" means:"ids of what its emergency stop stops"`

	StoppingTime      Amount `yaml:"stopping_time" unit:"s" worse:"up" means:"time from the stop signal until what hurts stands still, at its worst"`
	StoppingMonitored YesNo  `yaml:"stopping_monitored" means:"yes: it finds by itself that its stop has become longer"`
	BrakeCheck        string `yaml:"brake_check" ref:"upkeep" means:"id of the upkeep item that measures its stop again, where nothing monitors it"`
}

// Tool is a gripper or tool.
type Tool struct {
	source.Item
	ID            string   `yaml:"id,required" means:"unique id"`
	Kind          string   `yaml:"kind,required" choice:"parallel-jaw|angular-jaw|vacuum|magnet|screwdriver|spindle|dispenser|torch|laser|probe|camera|handle|knife|other" means:"kind of tool"`
	What          string   `yaml:"what" means:"what it is, without a brand"`
	Mass          Amount   `yaml:"mass,required" unit:"kg" worse:"up" means:"mass of the tool"`
	GreatestForce Amount   `yaml:"greatest_force" unit:"N" worse:"up" means:"greatest force the drive can give, whatever its set value"`
	Changer       YesNo    `yaml:"changer" means:"yes: it sits on a quick changer"`
	Energies      []string `yaml:"energies" choice:"electric|pneumatic|hydraulic|spring|gravity|vacuum|heat|laser|chemical" means:"kinds of energy in it"`
	GivesOff      []string `yaml:"gives_off" choice:"dust|mist|fumes|gas|chips|fluid|noise|vibration|light|radiation|static" means:"what it gives off"`
	OnPowerLoss   string   `yaml:"on_power_loss" choice:"holds|releases|unknown" means:"what it does when power or air is lost"`
	Edges         string   `yaml:"edges" choice:"rounded|blunt|edge|point" means:"worst edge that can touch a person"`
	LeastRadius   Amount   `yaml:"least_radius" unit:"mm" means:"least radius of what can touch a person"`
	Temperature   Amount   `yaml:"temperature" unit:"degC" worse:"up" means:"temperature of what can touch a person"`
}

// Part is a work piece.
type Part struct {
	source.Item
	ID          string   `yaml:"id,required" means:"unique id"`
	What        string   `yaml:"what" means:"what it is"`
	Mass        Amount   `yaml:"mass,required" unit:"kg" worse:"up" means:"mass of the part"`
	Edges       string   `yaml:"edges" choice:"rounded|blunt|edge|point" means:"worst edge that can touch a person"`
	Temperature Amount   `yaml:"temperature" unit:"degC" worse:"up" means:"temperature"`
	Length      Amount   `yaml:"length" unit:"mm" worse:"up" means:"greatest length"`
	Nature      []string `yaml:"nature" choice:"springy|breakable|slippery|sheet|heavy-by-hand|pressurised|flammable|chemical|biological" means:"what about it can hurt"`
	GivesOff    []string `yaml:"gives_off" choice:"dust|mist|fumes|gas|chips|fluid|noise|vibration|light|radiation|static" means:"what it gives off"`
}

// Safeguard is a protective device, guard or stop.
type Safeguard struct {
	source.Item
	ID             string `yaml:"id,required" means:"unique id"`
	Kind           string `yaml:"kind,required" choice:"light-curtain|light-beams|area-scanner|mat|interlocked-guard|fixed-guard|two-hand|emergency-stop|enabling-device|other" means:"kind of safeguard"`
	What           string `yaml:"what" means:"what it is and where"`
	Detection      Amount `yaml:"detection" unit:"mm" worse:"up" means:"detection capability d"`
	Height         Amount `yaml:"height" unit:"mm" means:"height of the detection plane above the floor"`
	UpperEdge      Amount `yaml:"upper_edge" unit:"mm" means:"height of the upper edge of a detection zone"`
	LowerEdge      Amount `yaml:"lower_edge" unit:"mm" means:"height of the lower edge of a detection zone"`
	Response       Amount `yaml:"response" unit:"s" worse:"up" means:"response time"`
	Supplement     Amount `yaml:"supplement" unit:"mm" worse:"up" means:"measurement supplement from the device manual"`
	ResolutionNote string `yaml:"resolution_note" means:"note on the resolution"`
	StartsCycle    YesNo  `yaml:"starts_cycle" means:"yes: clearing it starts the cycle"`
	WhyFew         string `yaml:"why_few" means:"why few light beams are enough"`
}

// YesNo is an explicit answer, empty where none was given.
type YesNo = source.YesNo

// Function is a safety function with the parts that carry it out. It becomes a
// level-chain check with the function's id.
type Function struct {
	source.Item
	ID       string         `yaml:"id,required" means:"unique id"`
	Does     string         `yaml:"does,required" means:"what it does"`
	Kind     string         `yaml:"kind" choice:"emergency-stop|protective-stop|enabling-device|mode-selection|manual-reset|speed-limit|standstill|separation|space-limit|force-limit|stopping-limit|guard-interlock|presence-sensing|hold-to-run|two-hand|grip-force|machine-link|muting|other" means:"kind of safety function"`
	Learned  YesNo          `yaml:"learned" means:"yes: a model learned from data carries it out"`
	Stops    []string       `yaml:"stops" ref:"robot|machine" means:"ids of what it stops, where its parts do not name them"`
	Required *Required      `yaml:"required" means:"level it must reach"`
	Parts    []FunctionPart `yaml:"parts" means:"parts that carry it out"`
}

// Required is the level a function must reach, with its reason.
type Required struct {
	source.Item
	Level    string `yaml:"level,required" choice:"a|b|c|d|e" means:"performance level"`
	Category string `yaml:"category" choice:"B|1|2|3|4" means:"category"`
	Because  string `yaml:"because,required" means:"S, F, P or the clause it comes from"`
	Rare     string `yaml:"rare" means:"why the hazardous event is rare, where that lowers the level by one"`
}

// FunctionPart is one part of a safety function.
type FunctionPart struct {
	source.Item
	Uses     string `yaml:"uses,required" means:"id of the device or robot, or words for what has no id"`
	By       string `yaml:"by" ref:"check" means:"id of the check of sheet level-estimate that gives its PFH, level and category"`
	PFH      Amount `yaml:"pfh" unit:"1" below:"1" worse:"up" means:"probability of dangerous failure per hour"`
	Level    string `yaml:"level" choice:"a|b|c|d|e" means:"performance level"`
	Category string `yaml:"category" choice:"B|1|2|3|4" means:"category"`
}

// Space is a space of the cell.
type Space struct {
	source.Item
	ID      string   `yaml:"id,required" means:"unique id"`
	Kind    string   `yaml:"kind,required" choice:"robot|shared|operator|passage|guarded|storage" means:"kind of space"`
	What    string   `yaml:"what" means:"what it is and where"`
	Outline []Corner `yaml:"outline" unit:"mm" signed:"yes" means:"corners x, y"`
}

// Corner is a corner of an outline, x and y.
type Corner []Amount

// DecodeNode reads a list of two amounts; how many there are is checked later.
func (c *Corner) DecodeNode(n *source.Node, ps *source.Problems) {
	if n.Kind != source.List {
		ps.Add(n.Problem("found one value where a corner is meant", "x and y, such as `[1800 mm, 0 mm]`", ""))
		return
	}
	source.Decode(n, (*[]Amount)(c), ps)
}
