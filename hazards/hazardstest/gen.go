// Package hazardstest makes assessment files of any size for tests and
// benchmarks. Cell, people and figures are invented.
package hazardstest

import (
	"bytes"
	"fmt"
)

// Size says how many of each an assessment has.
type Size struct {
	Hazards  int
	Contacts int // each expands to one check
	Checks   int // besides one of the payload
	Points   int // force measurements of the first contacts
}

// YAML writes an assessment of the size. The same size gives the same bytes.
func YAML(n Size) []byte {
	var b bytes.Buffer
	answered := ""
	if n.Hazards > 0 {
		answered = ", answered_by: [H-1]"
	}
	fmt.Fprintf(&b, head, answered)
	b.WriteString("contacts:\n")
	areas := []string{"palm-d", "back-of-hand-d", "thenar", "forearm-muscle", "deltoid", "shin"}
	for i := range n.Contacts {
		fmt.Fprintf(&b, "  - {id: C-%d, task: set-tins, where: tin against the plate, clamped: {by: plate}, areas: [%s], reason: nothing else reaches, area: {is: %d.%d cm2, from: measured},\n"+
			"     head: {reach: no, because: plane at 1000 mm}, speed: arm.bench.tcp_speed, push: arm.bench.force, tools: [jaws], parts: [tin]}\n",
			i+1, areas[i%len(areas)], 1+i%4, i%10)
	}
	if n.Contacts == 0 {
		b.WriteString("  []\n")
	}
	b.WriteString("checks:\n  - {id: payload, sheet: payload, task: set-tins, given: {rated: arm.rated_payload, tool: jaws.mass, part: tin.mass}}\n")
	for i := range n.Checks {
		fmt.Fprintf(&b, "  - {id: D-%d, sheet: parallel-field, task: set-tins, stop_category: 1, given: {T: scanner.response + arm.input_response + arm.stopping.time,\n"+
			"     H: scanner.height, d: scanner.detection, Z: scanner.supplement, available: {is: %d mm, from: measured}}}\n", i+1, 1500+i%1500)
	}
	b.WriteString("hazards:\n")
	for i := range n.Hazards {
		shown := "stop-on-scanner"
		if n.Contacts > 0 {
			shown = fmt.Sprintf("C-%d", 1+i%n.Contacts)
		}
		if n.Checks > 0 {
			shown += fmt.Sprintf(", D-%d", 1+i%n.Checks)
		}
		fmt.Fprintf(&b, row, i+1, 2+i%3, 3+i%3, i+1, shown, i+1, 1+i%2)
	}
	if n.Hazards == 0 {
		b.WriteString("  []\n")
	}
	if n.Points > 0 {
		b.WriteString("validation:\n")
	}
	for i := range min(n.Points, n.Contacts) {
		fmt.Fprintf(&b, "  - {id: V-%d, of: C-%d, method: force, device: {stiffness: 75 N/mm}, force: {peak: %d N, steady: 70 N, runs: 3}, pressure: {peak: 60 N/cm2, film: 0.5 mm},\n"+
			"     speed: 160 mm/s, tool: jaws, part: tin, clamped: yes, pose: lowest point, checksum: 77B0-1C3E, date: 2026-09-12, note: the plate gives way}\n", i+1, i+1, 80+i%40)
	}
	return b.Bytes()
}

const row = `  - id: H-%d
    task: set-tins
    family: mechanical
    situation: hand on the plate while a tin is set down
    event: tin presses the hand onto the plate
    harm: bruise
    before: {Se: %d, Fr: 5, Pr: %d, Av: 3}
    measures:
      - {id: H-%d-1, step: safeguard, kind: force-and-speed-limit, what: setting bench, lowers: [severity], shown_by: [%s], state: in-place}
      - {id: H-%d-2, step: information, kind: training, what: keep hands off the plate, lowers: [occurrence], why_not_earlier: tins must reach the plate, state: in-place}
    after: {Se: 1, Fr: 5, Pr: %d, Av: 3}
    residual: {decision: accept, by: N. Ito, role: plant safety, date: 2026-09-14, why: bruise at most, inform: {manual: section 6, to: [setter-up]}}
`

const head = `assessment:
  title: Tin setting at the turning plate
  number: RA-0008
  revision: A
  date: 2026-09-14
  prepared_by: {name: L. Brandt, role: safety engineer, date: 2026-09-14}
  checked_by: {name: P. Sahin, role: controls engineer, date: 2026-09-14}
  approved_by: {name: R. Okafor, role: plant manager}
  placing: {put_into_service: 2027-01-11, role: integrator, scope: assembly of machines}
  places: [eu]
  method: hybrid
  basis: {contact: iso-ts-15066-2016, distance: iso-13855-2010, functions: iso-13849-1-2023}
limits_of_use:
  use:
    intended: an arm takes tins from a tray and sets them on a turning plate
    misuses:
      - {id: lean-in, what: leaning over the plate%s}
  space: {reach: 980 mm, access: from the front, paths: none}
  time:
    life: 10 years
    upkeep:
      - {id: stop-check, what: stopping time of the arm, every: 12 months}
  other: {materials: tins, cleaning: dry, environment: indoors}
cell:
  people:
    - {id: setter-up, kind: operator, training: instructed, present: whole shift}
    - {id: fitter, kind: maintenance, training: instructed}
    - {id: sweeper, kind: cleaner}
    - {id: walker, kind: bystander}
  modes:
    - {id: automatic, selection: key}
  robots:
    - id: arm
      greatest_speed: {is: 1000 mm/s, from: datasheet}
      rated_payload: {is: 4 kg, from: datasheet}
      input_response: {is: 0.012 s, from: datasheet}
      moving_mass: {is: 15.6 kg, from: datasheet}
      brakes_monitored: yes
      settings:
        - {id: bench, mode: automatic, checksum: 77B0-1C3E, version: "2.8", tcp_speed: 150 mm/s ± 5 mm/s, force: 85 N ± 15 N}
      stopping:
        - {id: stop-low, category: 1, load: 33 %%, speed: 50 %%, reach: 100 %%, time: 0.19 s, distance: 52 mm, from: measured}
        - {id: stop-top, category: 1, load: 100 %%, speed: 100 %%, reach: 100 %%, time: 0.36 s, distance: 140 mm, from: measured}
  tools:
    - {id: jaws, kind: parallel-jaw, mass: {is: 0.8 kg, from: measured}, greatest_force: {is: 95 N, from: datasheet}, edges: rounded}
  parts:
    - {id: tin, mass: {is: 0.41 kg, from: measured}, edges: blunt, temperature: {is: 22 degC, from: measured}}
  safeguards:
    - {id: scanner, kind: area-scanner, detection: {is: 64 mm, from: datasheet}, height: {is: 250 mm, from: measured}, response: {is: 80 ms, from: datasheet}, supplement: {is: 100 mm, from: datasheet}}
  functions:
    - id: stop-on-scanner
      does: stops the arm when somebody is in the field
      kind: presence-sensing
      required: {level: d, category: 3, because: S2 F1 P2}
      parts:
        - {uses: scanner, pfh: {is: 8.0e-8, from: datasheet}, level: d, category: 3}
        - {uses: arm, pfh: {is: 1.8e-7, from: datasheet}, level: d, category: 3}
  control:
    emergency_stop: {spans: [arm]}
    reset: {place: beside the plate, view: whole}
    restart: {automatic: no}
    muting: {used: no}
    mode_selection: {by: key, who: setter-up}
    power_return: {starts: no, what: all stands until started}
    release: {how: arm and jaws are pushed open by hand, without_power: yes, drilled: yearly}
    isolation: {how: main switch at the plate, lockable: yes, energies: [electric]}
    settings_access: {who: safety engineer, protected_by: password, remote: none}
tasks:
  - {id: set-tins, name: set tins on the plate, kind: running, mode: automatic, people: [setter-up, fitter, sweeper, walker], how_often: every cycle,
     robots: [arm], tools: [jaws], parts: [tin], setting: arm.bench, load: {is: 33 %%, from: measured}, speed: {is: 50 %%, from: measured}, reach: {is: 90 %%, from: measured}}
`
