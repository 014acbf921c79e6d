package file

import "standclear/limits/source"

// Task is something people and robot do.
type Task struct {
	source.Item
	ID       string   `yaml:"id,required" means:"unique id"`
	Name     string   `yaml:"name,required" means:"name of the task"`
	Kind     string   `yaml:"kind,required" choice:"running|hand-over|loading|hand-guiding|teaching|setting|changeover|jam-clearing|fault-finding|cleaning|service|restart|observing" means:"kind of task"`
	Mode     string   `yaml:"mode" ref:"mode" means:"id of the mode"`
	People   []string `yaml:"people,required" ref:"people" means:"ids of the people"`
	HowOften string   `yaml:"how_often,required" means:"how often"`
	Robots   []string `yaml:"robots" ref:"robot" means:"ids of the robots"`
	Machines []string `yaml:"machines" ref:"machine" means:"ids of the machines"`
	Tools    []string `yaml:"tools" ref:"tool" means:"ids of the tools"`
	Parts    []string `yaml:"parts" ref:"part" means:"ids of the parts"`
	Setting  string   `yaml:"setting" ref:"setting" means:"safety configuration, as robot.setting"`
	Involves []string `yaml:"involves" choice:"force-test|vision|lifting-by-hand|climbing|energised|door-open|tool-change|settings-change|remote-start|lone-work|hot-work|chemicals" means:"what the kind of task does not tell"`
	Load     Amount   `yaml:"load" unit:"%" worse:"up" means:"share of the rated load, for the stopping grid"`
	Speed    Amount   `yaml:"speed" unit:"%" worse:"up" means:"share of the greatest speed, for the stopping grid"`
	Reach    Amount   `yaml:"reach" unit:"%" worse:"up" means:"share of the greatest reach, for the stopping grid"`
	Note     string   `yaml:"note" means:"note"`
}

// Contact is one contact between robot, tool or part and a person. It expands
// to a check for each body area, tool and part; the worst governs.
type Contact struct {
	source.Item
	ID         string   `yaml:"id,required" means:"unique id"`
	Task       string   `yaml:"task,required" ref:"task" means:"id of the task"`
	Where      string   `yaml:"where,required" means:"what touches whom, and where"`
	Clamped    *Clamped `yaml:"clamped" means:"the body part is held against something"`
	Free       *Free    `yaml:"free" means:"the body part can move away"`
	Jaws       *Jaws    `yaml:"jaws" means:"the body part is between the jaws of a gripper"`
	Areas      []string `yaml:"areas,required" known:"area|region" means:"body regions or body areas that can be there"`
	Reason     string   `yaml:"reason" means:"why areas of a region are left out"`
	WhyThese   string   `yaml:"why_these" means:"why tools or parts of the task are left out"`
	WhySetting string   `yaml:"why_setting" means:"why the contact takes another safety configuration than its task"`
	Area       Amount   `yaml:"area" unit:"cm2" worse:"down" means:"contact area A of tool or part"`
	Head       *Head01  `yaml:"head" example:"{reach: no, because: …}" means:"can it reach a head"`
	Speed      Amount   `yaml:"speed" unit:"mm/s" worse:"up" means:"speed, usually the path of a safety setting"`
	Push       Amount   `yaml:"push" unit:"N" worse:"up" means:"static push, usually the path of a force limit"`
	Tools      []string `yaml:"tools" ref:"tool" means:"tools, if not all of the task"`
	Parts      []string `yaml:"parts" ref:"part" means:"parts, if not all of the task; none: []"`
	Robot      string   `yaml:"robot" ref:"robot" means:"robot, if the task has several"`
	Padding    *Padding `yaml:"padding" means:"padding on tool or robot"`
	Spots      []Spot   `yaml:"points" means:"points of robot, tool or part that can touch there, where they differ; the worst governs"`

	EffectiveMass Amount `yaml:"effective_mass" unit:"kg" worse:"up" means:"effective mass of the robot in this pose, without tool and part, in place of half of the moving mass"`
	WhyMass       string `yaml:"why_mass" means:"why an effective mass below half of the moving mass is right"`
	Pose          string `yaml:"pose" means:"pose of the robot"`
}

// Clamped names the counter-surface.
type Clamped struct {
	source.Item
	By string `yaml:"by,required" means:"what the body part is held against"`
}

// Free claims that the body part can move away; the gap shows it.
type Free struct {
	source.Item
	Gap     Amount `yaml:"gap" unit:"mm" worse:"down" means:"gap to the nearest counter-surface"`
	Because string `yaml:"because" means:"what shows it"`
}

// Jaws names the gripper whose jaws close.
type Jaws struct {
	source.Item
	Tool string `yaml:"tool,required" ref:"tool" means:"id of the gripper"`
}

// Head01 is the explicit answer whether a head can be reached.
type Head01 struct {
	source.Item
	Reach   YesNo  `yaml:"reach,required" means:"can it reach a head"`
	Because string `yaml:"because,required" means:"why or why not"`
}

// Padding is a layer in series with the body.
type Padding struct {
	source.Item
	Stiffness Amount `yaml:"stiffness,required" unit:"N/mm" means:"k_pad"`
	Travel    Amount `yaml:"travel,required" unit:"mm" worse:"down" means:"travel until it bottoms out, s_pad"`
}

// Check is one calculation that is not a contact.
type Check struct {
	source.Item
	ID           string            `yaml:"id,required" means:"unique id"`
	Sheet        string            `yaml:"sheet,required" known:"sheet" means:"id of the calculation sheet"`
	Task         string            `yaml:"task" ref:"task" means:"id of the task"`
	StopCategory string            `yaml:"stop_category" choice:"0|1|2" means:"stop category for the stopping grid"`
	Given        source.Map[Given] `yaml:"given,required" means:"inputs of the sheet by symbol"`
	Note         string            `yaml:"note" means:"note"`
}

// Hazard is one row of the assessment.
type Hazard struct {
	source.Item
	ID        string            `yaml:"id,required" means:"unique id"`
	Task      string            `yaml:"task" ref:"task" means:"id of the task"`
	Where     *Where            `yaml:"where" means:"space and people, for a row that is not a task"`
	Family    string            `yaml:"family" choice:"mechanical|electrical|thermal|noise|vibration|radiation|substance|ergonomic|environment|combination" means:"family, ISO 12100 Annex B"`
	Covers    []string          `yaml:"covers" known:"entry" means:"catalogue entries answered"`
	Situation string            `yaml:"situation,required" means:"who is where when it happens"`
	Event     string            `yaml:"event,required" means:"what happens"`
	Harm      string            `yaml:"harm,required" means:"harm that can follow"`
	Before    source.Map[Score] `yaml:"before" means:"factors of the method before measures"`
	Measures  []Measure         `yaml:"measures" means:"measures in the order of ISO 12100 6.1"`
	After     source.Map[Score] `yaml:"after" means:"factors of the method after measures"`
	ShownBy   []string          `yaml:"shown_by" ref:"contact|check|function|point" means:"ids of what the row rests on"`
	Residual  *Residual         `yaml:"residual" means:"decision about the risk that remains"`
}

// Where places a row that belongs to people and a space.
type Where struct {
	source.Item
	Space  string   `yaml:"space,required" ref:"space" means:"id of the space"`
	People []string `yaml:"people,required" ref:"people" means:"ids of the people"`
	With   []string `yaml:"with" ref:"robot|machine|tool|part" means:"ids of what hurts there"`
}

// Measure is one measure of a row.
type Measure struct {
	source.Item
	ID            string   `yaml:"id,required" means:"unique id"`
	Step          string   `yaml:"step,required" choice:"design|safeguard|information" means:"step of ISO 12100 6.1"`
	Kind          string   `yaml:"kind,required" known:"measure" means:"kind of measure"`
	What          string   `yaml:"what,required" means:"what is done"`
	Lowers        []string `yaml:"lowers" choice:"severity|exposure|occurrence|avoidance" means:"factors it lowers"`
	ShownBy       []string `yaml:"shown_by" ref:"contact|check|function|point" means:"ids of contacts, checks, functions or validation points"`
	WhyNotEarlier string   `yaml:"why_not_earlier" means:"why not a measure of an earlier step"`
	State         string   `yaml:"state" choice:"planned|in-place" means:"planned or in-place"`
}

// Residual is the decision about the risk that remains.
type Residual struct {
	source.Item
	Decision string  `yaml:"decision,required" choice:"accept|reduce|refuse" means:"decision"`
	By       string  `yaml:"by,required" means:"name of who decides"`
	Role     string  `yaml:"role,required" means:"role"`
	Second   *Person `yaml:"second" means:"second person, where harm that remains cannot be undone"`
	Date     string  `yaml:"date,required" form:"date" means:"date, YYYY-MM-DD"`
	Why      string  `yaml:"why,required" means:"reason"`
	Inform   *Inform `yaml:"inform" means:"what to tell whom"`
}

// Inform says what to tell whom about a residual risk.
type Inform struct {
	source.Item
	Manual   string   `yaml:"manual" means:"text for the manual"`
	Marking  string   `yaml:"marking" means:"text of a sign or marking"`
	Training string   `yaml:"training" means:"what training must tell"`
	PPE      string   `yaml:"protective_equipment" means:"protective equipment"`
	To       []string `yaml:"to" ref:"people" means:"ids of people"`
}

// NotApplicable says why a catalogue entry does not apply.
type NotApplicable struct {
	source.Item
	Entry   string   `yaml:"entry,required" known:"entry" means:"catalogue entry"`
	Of      []string `yaml:"of" ref:"robot|machine|tool|part|safeguard|function|people|mode|setting|space|task|contact" means:"ids it does not apply to, if not to all"`
	Because string   `yaml:"because,required" means:"reason"`
}

// Point is one validation point: a measurement or a test.
type Point struct {
	source.Item
	ID       string    `yaml:"id,required" means:"unique id"`
	Of       string    `yaml:"of,required" ref:"contact|check|function|safeguard|measure|robot|machine|stopping" means:"id of what it shows"`
	Method   string    `yaml:"method,required" choice:"force|stopping|functional-test|inspection|review" means:"method of the test"`
	Device   *Device   `yaml:"device" means:"measuring device"`
	Runs     []string  `yaml:"runs" form:"inside" means:"log files, inside the folder of the assessment"`
	Force    *Force    `yaml:"force" means:"forces read off the instrument"`
	Pressure *Pressure `yaml:"pressure" means:"peak pressure read off film or sensor"`
	Outcome  string    `yaml:"outcome" choice:"met|not-met" means:"outcome of a test without numbers"`
	Speed    Amount    `yaml:"speed" unit:"mm/s" means:"speed of the test"`
	Tool     string    `yaml:"tool" ref:"tool" means:"id of the tool"`
	Part     string    `yaml:"part" ref:"part" means:"id of the part"`
	Area     string    `yaml:"body_area" known:"area" means:"body area the device stands for"`
	Clamped  YesNo     `yaml:"clamped" means:"was the body part held against something"`
	Pose     string    `yaml:"pose" means:"pose of the robot"`
	Spot     string    `yaml:"point" ref:"contact-point" means:"id of the point of the contact that was measured, where it has several"`
	Checksum string    `yaml:"checksum" means:"checksum of the safety configuration during the test"`
	By       string    `yaml:"by" means:"who measured"`
	Date     string    `yaml:"date" form:"date" means:"date, YYYY-MM-DD"`
	Note     string    `yaml:"note" means:"note"`
}

// Device is the measuring device of a force measurement.
type Device struct {
	source.Item
	Stiffness Amount `yaml:"stiffness" unit:"N/mm" means:"spring of the device"`
	Name      string `yaml:"name" means:"what it is, without a brand"`
}

// Force holds forces split at 0.5 s.
type Force struct {
	source.Item
	Peak   Amount `yaml:"peak" unit:"N" means:"transient peak, up to 0.5 s"`
	Steady Amount `yaml:"steady" unit:"N" means:"quasi-static maximum, after 0.5 s"`
	Runs   int    `yaml:"runs" means:"number of runs the worst was taken from"`
}

// Pressure holds the peak a film or sensor recorded.
type Pressure struct {
	source.Item
	Peak Amount `yaml:"peak,required" unit:"N/cm2" means:"peak pressure"`
	Film Amount `yaml:"film" unit:"mm" means:"resolution"`
}
