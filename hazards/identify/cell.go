package identify

import (
	"reflect"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
)

// The keys of each collection. Those that begin with cell_ are of the cell and
// can be asked of everything.
var schemas = map[string]*schema{
	"cell":       {},
	"robots":     texts(file.Robot{}, "mounting", "learned_motion", "brakes_monitored").numbers("moving_mass", "rated_payload", "motor_power", "reach"),
	"settings":   texts(file.Setting{}, "mode").numbers("tcp_speed", "force"),
	"machines":   texts(file.Machine{}, "kind", "what").lists(file.Machine{}, "energies", "dangers", "gives_off").words("driven", "yes", "no"),
	"tools":      texts(file.Tool{}, "kind", "what", "on_power_loss", "edges", "changer").lists(file.Tool{}, "energies", "gives_off").numbers("mass", "greatest_force", "temperature"),
	"parts":      texts(file.Part{}, "what", "edges").lists(file.Part{}, "nature", "gives_off").numbers("mass", "temperature", "length"),
	"safeguards": texts(file.Safeguard{}, "kind", "what", "starts_cycle").numbers("height", "upper_edge", "lower_edge", "detection"),
	"functions":  texts(file.Function{}, "kind", "does", "learned"),
	"people":     texts(file.People{}, "kind", "training", "present"),
	"modes":      texts(file.Mode{}, "selection", "enabling_device"),
	"spaces":     texts(file.Space{}, "kind", "what"),
	"tasks": texts(file.Task{}, "name", "kind", "mode", "how_often").lists(file.Task{}, "involves").
		kinds(file.People{}, "people").kinds(file.Machine{}, "machines").kinds(file.Tool{}, "tools").numbers("people_count", "robot_count", "part_count"),
	"contacts": texts(file.Contact{}, "where").words("class", "clamped", "free", "jaws").words("head", "yes", "no").free("areas"),
}

func init() {
	for _, s := range schemas {
		s.cell()
	}
}

// cell adds what can be asked of the whole cell.
func (s *schema) cell() {
	s.kinds(file.People{}, "cell_people").kinds(file.Task{}, "cell_tasks").kinds(file.Machine{}, "cell_machines").
		kinds(file.Tool{}, "cell_tools").kinds(file.Safeguard{}, "cell_safeguards").kinds(file.Function{}, "cell_functions").
		kinds(file.Space{}, "cell_spaces")
	s.add(key{name: "cell_conditions", kind: expr.Text, list: true, words: choices(file.OtherLimits{}, "conditions")})
	s.add(key{name: "cell_involves", kind: expr.Text, list: true, words: choices(file.Task{}, "involves")})
	s.add(key{name: "cell_energies", kind: expr.Text, list: true, words: choices(file.Machine{}, "energies")})
	s.add(key{name: "cell_gives_off", kind: expr.Text, list: true, words: choices(file.Machine{}, "gives_off")})
	s.add(key{name: "cell_contacts", kind: expr.Text, list: true, words: []string{"clamped", "free", "jaws"}})
	s.add(key{name: "cell_mountings", kind: expr.Text, list: true, words: choices(file.Robot{}, "mounting")})
	s.numbers("cell_robot_count", "cell_machine_count", "cell_driven_machine_count", "cell_part_count", "cell_tool_count", "cell_task_count")
	yesNo := []string{"yes", "no"}
	s.words("cell_estop_spans", "all", "part")
	s.words("cell_reset_view", choices(file.Reset{}, "view")...).words("cell_restart_automatic", yesNo...).words("cell_muting", yesNo...).
		words("cell_mode_selection", choices(file.ModeSelection{}, "by")...).words("cell_power_return_starts", yesNo...).
		words("cell_air_return_starts", yesNo...).words("cell_release_without_power", yesNo...).words("cell_isolation_lockable", yesNo...).
		words("cell_settings_protected_by", choices(file.SettingsAccess{}, "protected_by")...).
		words("cell_remote", choices(file.SettingsAccess{}, "remote")...)
}

// field finds the field of a struct by its key in the assessment file.
func field(of any, name string) (reflect.StructField, bool) {
	t := reflect.TypeOf(of)
	for i := range t.NumField() {
		if tag, _, _ := strings.Cut(t.Field(i).Tag.Get("yaml"), ","); tag == name {
			return t.Field(i), true
		}
	}
	return reflect.StructField{}, false
}

// choices are the words a key can have, nil when it takes any.
func choices(of any, name string) []string {
	f, ok := field(of, name)
	if !ok {
		panic("no key " + name)
	}
	if f.Type == reflect.TypeFor[file.YesNo]() {
		return []string{"yes", "no"}
	}
	if c := f.Tag.Get("choice"); c != "" {
		return strings.Split(c, "|")
	}
	return nil
}

func texts(of any, names ...string) *schema {
	s := new(schema)
	for _, n := range names {
		s.add(key{name: n, kind: expr.Text, words: choices(of, n)})
	}
	return s
}

func (s *schema) lists(of any, names ...string) *schema {
	for _, n := range names {
		s.add(key{name: n, kind: expr.Text, list: true, words: choices(of, n)})
	}
	return s
}

// kinds is a list of the kinds of other items.
func (s *schema) kinds(of any, name string) *schema {
	return s.add(key{name: name, kind: expr.Text, list: true, words: choices(of, "kind")})
}

func (s *schema) words(name string, words ...string) *schema {
	return s.add(key{name: name, kind: expr.Text, words: words})
}

// free is a list of any words.
func (s *schema) free(name string) *schema {
	return s.add(key{name: name, kind: expr.Text, list: true})
}

func (s *schema) numbers(names ...string) *schema {
	for _, n := range names {
		s.add(key{name: n, kind: expr.Number})
	}
	return s
}
