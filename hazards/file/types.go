// Package file holds the assessment file: its types, its loading and the paths
// by which one fact is written once and pointed at from everywhere else.
//
// Every list item has an id that is unique in the whole file. A path is
// id.key, or id.part.key where an id stands inside another item, as in
// arm.bench.tcp_speed.
package file

import "standclear/limits/source"

// Assessment is one assessment file. Everything the results rest on is in it.
type Assessment struct {
	source.Item
	index *Index

	Head          Head            `yaml:"assessment,required" means:"who assesses what, by which method and rules"`
	Limits        LimitsOfUse     `yaml:"limits_of_use" means:"limits of use, ISO 12100 5.3"`
	Cell          Cell            `yaml:"cell,required" means:"people, modes, robots, machines, tools, parts, safeguards, functions, spaces"`
	Tasks         []Task          `yaml:"tasks,required" means:"what people and robot do"`
	Contacts      []Contact       `yaml:"contacts" means:"contacts that can happen; each expands to checks"`
	Checks        []Check         `yaml:"checks" means:"every other calculation"`
	Hazards       []Hazard        `yaml:"hazards,required" empty:"allowed" means:"the rows of the assessment; [] while they are still to be written"`
	NotApplicable []NotApplicable `yaml:"not_applicable" means:"catalogue entries that do not apply, each with its reason"`
	Validation    []Point         `yaml:"validation" means:"measurements and tests"`
}

// Head names the document, its people and the rules it is judged by.
type Head struct {
	source.Item
	Title      string    `yaml:"title,required" means:"title of the assessment"`
	Number     string    `yaml:"number,required" means:"document number"`
	Revision   string    `yaml:"revision,required" means:"revision"`
	Former     *Former   `yaml:"former" means:"the revision before this one"`
	Date       string    `yaml:"date,required" form:"date" means:"date of this revision, YYYY-MM-DD"`
	PreparedBy Person    `yaml:"prepared_by,required" means:"who drafted it"`
	CheckedBy  *Person   `yaml:"checked_by" means:"who checked it"`
	ApprovedBy *Person   `yaml:"approved_by" means:"who decides on release"`
	Reviewer   *Reviewer `yaml:"reviewer" means:"licensed or competent reviewer, with scope"`
	Placing    Placing   `yaml:"placing,required" means:"when and in which role the cell is put into service"`
	Places     []string  `yaml:"places,required" known:"place" means:"places whose local rules apply, such as eu or ca-on"`
	Method     string    `yaml:"method,required" known:"method" means:"method of risk estimation"`
	Basis      Basis     `yaml:"basis" means:"editions the calculations rest on"`
	Papers     []Paper   `yaml:"papers" means:"where the papers of the hand-over are"`
}

// Former names the file of the revision before this one.
type Former struct {
	source.Item
	Revision string `yaml:"revision,required" means:"revision"`
	File     string `yaml:"file,required" form:"inside" means:"its file, inside the folder of the assessment"`
}

// Person is a named person with a role and, for a licensed reviewer, a licence.
type Person struct {
	source.Item
	Name    string `yaml:"name,required" means:"name"`
	Role    string `yaml:"role,required" means:"role"`
	Firm    string `yaml:"firm" means:"firm"`
	Licence string `yaml:"licence" means:"licence number"`
	Date    string `yaml:"date" form:"date" means:"date, YYYY-MM-DD"`
}

// Reviewer is who looks over the document, and what the look covers.
type Reviewer struct {
	source.Item
	Name        string `yaml:"name,required" means:"name"`
	Role        string `yaml:"role,required" means:"role"`
	Firm        string `yaml:"firm" means:"firm"`
	Licence     string `yaml:"licence" means:"licence number and place"`
	Date        string `yaml:"date" form:"date" means:"date, YYYY-MM-DD"`
	RelyOn      string `yaml:"relied_on" means:"what was relied on without a look of one's own"`
	NotReviewed string `yaml:"not_reviewed" means:"what was not reviewed"`
	Visited     string `yaml:"visited" means:"when the cell was visited, or that it was not"`
}

// Paper says where a paper of the hand-over is, such as a declaration.
type Paper struct {
	source.Item
	Kind  string   `yaml:"kind,required" known:"paper" means:"kind of paper, as the index of the place names it"`
	Of    []string `yaml:"of" ref:"robot|machine|tool|safeguard" means:"ids it is about, if not about the cell"`
	Where string   `yaml:"where,required" means:"where it is, with its revision"`
}

// Placing decides which legal regime applies: the date of putting into service
// and the role, not the date of the file.
type Placing struct {
	source.Item
	PutIntoService string `yaml:"put_into_service,required" form:"date" means:"date of putting into service, YYYY-MM-DD"`
	Role           string `yaml:"role,required" choice:"maker|integrator|user" means:"role of the firm"`
	Scope          string `yaml:"scope,required" means:"what is placed, such as assembly of machines"`
	State          string `yaml:"state" choice:"new|moved|rebuilt|in-use" means:"new, moved, rebuilt in a way that touches safety, or in use as before"`
}

// Basis names the editions used; empty means the default of the library.
type Basis struct {
	source.Item
	Contact   string `yaml:"contact" known:"edition.contact" means:"edition of the contact limits"`
	Distance  string `yaml:"distance" known:"edition.distance" means:"edition of the distances"`
	Functions string `yaml:"functions" known:"edition.functions" means:"edition of the performance levels"`

	Tables      []string `yaml:"tables" form:"inside" means:"folders with tables of the user, inside the folder of the assessment; one with an id of ours stands in its place"`
	Sheets      []string `yaml:"sheets" form:"inside" means:"folders with calculation sheets of the user, inside the folder of the assessment"`
	ContactData string   `yaml:"contact_data" form:"inside" means:"file or folder with contact data of the user, inside the folder of the assessment; rows of it stand in place of ours"`
	Methods     []string `yaml:"methods" form:"inside" means:"folders with methods of risk estimation of the house, inside the folder of the assessment"`
}

// LimitsOfUse follow ISO 12100 5.3: use, space, time, other.
type LimitsOfUse struct {
	source.Item
	Use   UseLimits   `yaml:"use" means:"use limits, ISO 12100 5.3.2"`
	Space SpaceLimits `yaml:"space" means:"space limits, ISO 12100 5.3.3"`
	Time  TimeLimits  `yaml:"time" means:"time limits, ISO 12100 5.3.4"`
	Other OtherLimits `yaml:"other" means:"other limits, ISO 12100 5.3.5"`
}

// UseLimits say what the cell is for and which misuse is foreseeable.
type UseLimits struct {
	source.Item
	Intended string   `yaml:"intended" means:"intended use"`
	Excluded []string `yaml:"excluded" means:"uses that are excluded"`
	Misuses  []Misuse `yaml:"misuses" means:"reasonably foreseeable misuses"`
}

// Misuse is a foreseeable misuse; rows answer it.
type Misuse struct {
	source.Item
	ID         string   `yaml:"id,required" means:"unique id"`
	What       string   `yaml:"what,required" means:"what people may do"`
	AnsweredBy []string `yaml:"answered_by" ref:"hazard" means:"ids of the hazard rows that answer it"`
}

// SpaceLimits say how far everything reaches and where people walk.
type SpaceLimits struct {
	source.Item
	Reach  string `yaml:"reach" means:"reach of robot with tool and part"`
	Access string `yaml:"access" means:"who gets in, from where"`
	Paths  string `yaml:"paths" means:"people's paths"`
}

// TimeLimits say how long the cell lives and what upkeep it needs.
type TimeLimits struct {
	source.Item
	Life   string   `yaml:"life" means:"life of the cell, such as 10 years"`
	Upkeep []Upkeep `yaml:"upkeep" means:"upkeep that the assessment rests on"`
}

// Upkeep is one recurring upkeep item.
type Upkeep struct {
	source.Item
	ID    string   `yaml:"id,required" means:"unique id"`
	What  string   `yaml:"what,required" means:"what is checked or changed"`
	Of    []string `yaml:"of" ref:"check|safeguard|function|robot|machine|tool" means:"ids of what is checked or changed; of a part that wears its b10 check"`
	Every string   `yaml:"every,required" means:"interval, such as 12 months"`
}

// OtherLimits cover materials, cleaning and environment.
type OtherLimits struct {
	source.Item
	Materials   string   `yaml:"materials" means:"materials handled"`
	Cleaning    string   `yaml:"cleaning" means:"how it is cleaned"`
	Environment string   `yaml:"environment" means:"temperature, dust, light, floor"`
	Conditions  []string `yaml:"conditions" choice:"wet|dusty|cold|hot|dim|glare|noisy|outdoor|uneven-floor|explosive|strong-fields|cramped|vehicles" means:"conditions that matter around the cell"`
}
