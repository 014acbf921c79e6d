package identify

import (
	"reflect"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
)

// schemas are the keys of each collection.
var schemas = newSchemas()

func newSchemas() map[string]*schema {
	cell := cellSchema()
	of := func() *schema { return &schema{cell: cell} }
	return map[string]*schema{
		"cell":       cell,
		"robots":     of().keysOf(file.Robot{}, "mounting", "learned_motion", "brakes_monitored", "moving_mass", "rated_payload", "motor_power", "reach"),
		"machines":   of().keysOf(file.Machine{}, "kind", "what", "energies", "dangers", "gives_off").words("driven", "yes", "no"),
		"tools":      of().keysOf(file.Tool{}, "kind", "what", "on_power_loss", "edges", "changer", "energies", "gives_off", "mass", "greatest_force", "temperature"),
		"parts":      of().keysOf(file.Part{}, "what", "edges", "nature", "gives_off", "mass", "temperature", "length"),
		"safeguards": of().keysOf(file.Safeguard{}, "kind", "what", "starts_cycle", "height", "upper_edge", "lower_edge", "detection"),
		"functions":  of().keysOf(file.Function{}, "kind", "does", "learned"),
		"people":     of().keysOf(file.People{}, "kind", "training", "present"),
		"spaces":     of().keysOf(file.Space{}, "kind", "what"),
		"tasks": of().keysOf(file.Task{}, "name", "kind", "mode", "how_often", "involves").
			kinds(file.People{}, "people").kinds(file.Machine{}, "machines").kinds(file.Tool{}, "tools").numbers("robot_count", "part_count"),
	}
}

// cellSchema is what can be asked of the whole cell.
func cellSchema() *schema {
	s := new(schema)
	s.kinds(file.People{}, "cell_people").kinds(file.Task{}, "cell_tasks").kinds(file.Machine{}, "cell_machines").
		kinds(file.Tool{}, "cell_tools").kinds(file.Safeguard{}, "cell_safeguards").kinds(file.Function{}, "cell_functions").
		kinds(file.Space{}, "cell_spaces").
		set("cell_conditions", choices(file.OtherLimits{}, "conditions")).set("cell_involves", choices(file.Task{}, "involves")).
		set("cell_energies", choices(file.Machine{}, "energies")).set("cell_gives_off", choices(file.Machine{}, "gives_off")).
		set("cell_contacts", []string{"clamped", "free", "jaws"}).set("cell_mountings", choices(file.Robot{}, "mounting"))
	s.numbers("cell_robot_count", "cell_machine_count", "cell_driven_machine_count", "cell_part_count", "cell_tool_count")
	yesNo := []string{"yes", "no"}
	return s.words("cell_estop_spans", "all", "part").words("cell_reset_view", choices(file.Reset{}, "view")...).
		words("cell_restart_automatic", yesNo...).words("cell_muting", yesNo...).
		words("cell_mode_selection", choices(file.ModeSelection{}, "by")...).words("cell_power_return_starts", yesNo...).
		words("cell_air_return_starts", yesNo...).words("cell_isolation_lockable", yesNo...).
		words("cell_remote", choices(file.SettingsAccess{}, "remote")...)
}

// fieldOf finds the field of a struct by its key in the assessment file.
func fieldOf(of any, name string) reflect.StructField {
	t := reflect.TypeOf(of)
	for i := range t.NumField() {
		if tag, _, _ := strings.Cut(t.Field(i).Tag.Get("yaml"), ","); tag == name {
			return t.Field(i)
		}
	}
	panic(t.Name() + " has no key " + name)
}

// choices are the words a key of the assessment file can have, nil when it takes any.
func choices(of any, name string) []string {
	f := fieldOf(of, name)
	if f.Type == reflect.TypeFor[file.YesNo]() {
		return []string{"yes", "no"}
	}
	if c := f.Tag.Get("choice"); c != "" {
		return strings.Split(c, "|")
	}
	return nil
}

// keysOf takes keys over from the assessment file.
func (s *schema) keysOf(of any, names ...string) *schema {
	for _, name := range names {
		k := key{name: name, kind: expr.Text, words: choices(of, name), field: fieldOf(of, name).Index}
		switch t := fieldOf(of, name).Type; {
		case t == reflect.TypeFor[file.Amount]():
			k.kind = expr.Number
		case t == reflect.TypeFor[[]string]() && k.words != nil:
			k.list = true
		case t.Kind() != reflect.String:
			panic("no key for conditions: " + name)
		}
		s.add(k)
	}
	return s
}

// set is a list of words.
func (s *schema) set(name string, words []string) *schema {
	return s.add(key{name: name, kind: expr.Text, list: true, words: words})
}

// kinds is a list of the kinds of other items.
func (s *schema) kinds(of any, name string) *schema { return s.set(name, choices(of, "kind")) }

func (s *schema) words(name string, words ...string) *schema {
	return s.add(key{name: name, kind: expr.Text, words: words})
}

func (s *schema) numbers(names ...string) *schema {
	for _, n := range names {
		s.add(key{name: n, kind: expr.Number})
	}
	return s
}
