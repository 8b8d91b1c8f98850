package diagnose

// The steps of frequency: how often a cause, when it is present, shows a sign
// by itself. What stands in none of them is never. The authors' judgement.
const (
	always    = .95
	often     = .65
	sometimes = .3
	seldom    = .08
)

var steps = map[string]float64{"always": always, "often": often, "sometimes": sometimes, "seldom": seldom}

// frequencies is the knowledge, cause by cause: which signs and facts it shows,
// and which checks bring it out. A line is a cause, then groups that begin with
// a bar and their step. `go run ./cmd/dev faults` prints it as a table.
const frequencies = `
too-slow | always heavy-dross faster-try | sometimes wide-cut cuts-out | seldom bevel-both
too-fast | always slower-try | often hard-bead top-spatter blows-back not-through | sometimes dies-end | seldom cuts-out
standoff-high | always closer-try bevel-both | often top-spatter wide-cut | sometimes no-transfer heavy-dross cuts-out not-through hard-start overhead | seldom snaps-out no-pierce
torch-tilted | always bevel-one upright-try | sometimes overhead | seldom not-through
tip-dragged | always dragged face-scraped | often tip-spoiled | sometimes parts-short unsteady wavy tip-edge thin-sheet | seldom wide-cut blows-sideways cuts-out
hand-unsteady | always wavy guide-try | sometimes overhead | seldom bevel-one dies-end
start-rushed | always wait-try | often blows-back | sometimes no-pierce not-through at-pierce tip-spoiled edge-try | seldom top-spatter
pierce-hard | always at-pierce no-pierce edge-try pierced-upright | often blows-back tip-spoiled parts-short face-scraped | sometimes top-spatter tip-edge | seldom head-hot
pilot-wasted | always pilot-long | often parts-short | seldom tip-spoiled hard-start
after-flow-cut | always off-early | often parts-short | sometimes head-hot
surface-painted | always painted bright-try | often no-transfer clamp-move | sometimes cuts-out hard-start clamp-warm | seldom unsteady parts-short
metal-gaps | always on-mesh solid-try | often cuts-out | sometimes not-through blows-back parts-short heavy-dross | seldom no-transfer dies-end
amps-low | always amps-read | often not-through | sometimes no-pierce blows-back hard-bead top-spatter slower-try | seldom no-transfer cuts-out
metal-past-capacity | always not-through plan-limit | often no-pierce blows-back | sometimes cuts-out hard-bead slower-try | seldom edge-try
amps-over-tip | always amps-tip | often parts-short tip-spoiled amps-up | sometimes tip-gauge head-hot green-flame wide-cut heavy-dross tip-edge after-change | seldom unsteady
trigger-latched | always goes-on trigger-switch | sometimes cuts-out grip
trigger-locked | always no-arc no-blow guard-look | often no-air

hose-not-coupled | always no-air no-blow coupler-push hiss-find | often no-arc hose-moved gauge-machine gauge-flowing | sometimes hiss unsteady cuts-out | seldom spits fault-light
air-none | always no-air no-blow gauge-standing | often no-arc | sometimes fault-light | seldom frost
hose-leaks | always hiss hiss-find | often gauge-flowing | sometimes unsteady not-through moved parts-short | seldom no-arc no-air
pressure-low | always gauge-flowing | often not-through parts-short head-hot long-hose | sometimes unsteady cuts-out no-arc air-no-pilot no-pierce hard-start heavy-dross filter-look | seldom fault-light no-air blows-back bevel-both hose-moved
pressure-high | always pressure-plate | often snaps-out thin-sheet parts-short | sometimes hard-start | seldom no-transfer cuts-out
air-wet | always spits trap-water | often unsteady parts-short rag-damp wet-day | sometimes filter-look hard-start cuts-out | seldom tip-spoiled green-flame
air-oily | always oil-smell white-rag | often unsteady parts-short filter-look | sometimes spits | seldom hard-start
air-frozen | always frost ice | often no-air no-blow gauge-machine gauge-flowing no-arc | sometimes unsteady spits cuts-out hard-start valve-click | seldom air-no-pilot

supply-dead | always dead no-arc socket-try lamps-dark | often switch-look no-air no-blow other-plug | sometimes moved
circuit-overloaded | always breaker alone-try socket-try switch-look lamps-dark | often shared circuit-count dead no-arc | sometimes no-air cuts-out generator volts-load amps-up | seldom long-cord
volts-low | always volts-load cord-short | often long-cord cuts-out cord-look | sometimes not-through unsteady hard-start fault-light no-arc shared breaker lamp-then | seldom no-pierce alone-try generator
generator-weak | always generator on-generator idle-saver | often cuts-out volts-load alone-try | sometimes not-through unsteady hard-start shared fault-light | seldom breaker no-arc
supply-leaks | always rcd isolate socket-try switch-look lamps-dark | often shock wet-day other-plug | sometimes dead no-arc no-air trips-on moved | seldom breaker
others-leak | always rcd one-by-one socket-try switch-look lamps-dark | often shared wet-day | sometimes dead no-arc no-air

clamp-poor | always clamp-move | often no-transfer cuts-out clamp-warm clamp-hot dies-end on-drop through-joint | sometimes unsteady hard-start painted | seldom not-through snaps-out
work-lead-loose | always work-plug hot-where | often no-transfer cuts-out clamp-hot | sometimes unsteady hard-start moved clamp-warm | seldom not-through

cup-not-seated | always no-arc cup-seat | often after-change no-air no-blow fault-light | sometimes air-no-pilot | seldom blows-sideways hiss
cup-clogged | always cup-holes | often head-hot blows-sideways overhead | sometimes parts-short | seldom bevel-one unsteady
cup-cracked | always cup-crack | often blows-sideways moved | sometimes unsteady hiss head-hot | seldom no-arc
tip-worn | always tip-gauge | often wide-cut heavy-dross not-through | sometimes bevel-both bevel-one top-spatter no-pierce tip-edge | seldom hard-bead no-transfer wavy unsteady
tip-nicked | always tip-edge | often bevel-one | sometimes top-spatter unsteady tip-spoiled wavy moved | seldom blows-sideways wide-cut at-pierce
tip-large | always tip-larger after-change | often wide-cut not-through heavy-dross marks-same | sometimes snaps-out no-pierce no-transfer hard-start | seldom unsteady
parts-mixed | always marks-same | often after-change parts-short tip-spoiled blows-sideways cup-proud air-no-pilot | sometimes unsteady wide-cut no-arc hard-start head-hot | seldom green-flame
diffuser-bad | always diffuser-look | often unsteady blows-sideways head-hot bevel-one parts-short | sometimes hard-start tip-spoiled | seldom green-flame no-arc after-change moved
electrode-pitted | always electrode-pit | often unsteady hard-start tip-spoiled | sometimes not-through cuts-out parts-short no-arc air-no-pilot green-flame bevel-one | seldom no-transfer no-pierce
electrode-loose | always electrode-turn | often unsteady after-change | sometimes cuts-out hard-start no-arc air-no-pilot head-hot | seldom spits green-flame
o-ring-bad | always o-ring-look | often hiss | sometimes unsteady head-hot after-change blows-sideways | seldom no-arc
slide-stuck | always air-no-pilot slide-push | often no-arc hard-start | sometimes after-change
lead-loose | always connectors | often moved | sometimes unsteady cuts-out hiss head-hot no-arc air-no-pilot hard-start grip | seldom no-air lead-marked
lead-damaged | always lead-look grip | often lead-marked no-arc moved shock isolate | sometimes goes-on no-air no-blow air-no-pilot cuts-out fault-light | seldom hiss hard-start

duty-passed | always heat-light wait-cool lamp-then | often cuts-out hot-day | sometimes no-arc head-hot
vents-blocked | always vents-look lamp-then | often heat-light wait-cool hot-day | sometimes cuts-out
fan-stopped | always fan-look lamp-then | sometimes heat-light burnt-smell cuts-out | seldom wait-cool fault-light
valve-stuck | always valve-click no-blow | often no-air | sometimes no-arc
air-test-on | always air-on panel-air
valve-open | always air-on air-stops
machine-fault | always fault-code fault-light | often burnt-smell burnt-look trips-on | sometimes no-arc dead lamps-dark air-no-pilot no-air no-blow valve-click lamp-then | seldom breaker goes-on heat-light cuts-out rcd shock air-on
`

// Frequency says how often a cause shows a sign, or a check brings it out:
// always, often, sometimes, seldom or never. Both are keys; of others, never.
func Frequency(finding, ofCause string) string {
	know := knowledge()
	f, c := know.finding(finding), cause(ofCause)
	for word, p := range steps {
		if f >= 0 && c >= 0 && know.frequency[f][c] == p {
			return word
		}
	}
	return "never"
}
