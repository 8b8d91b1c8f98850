// Made by go run ./cmd/dev types: change the Go instead.

/** Air need: See how much air the torch takes: valve open, on average, and with a worn tip. */
export interface AirFlowResults {
  /** While the valve is open, m³/s */
  demand?: Value;
  /** On average, m³/s */
  average?: Value;
  /** Valve open, 1 */
  open_share?: Value;
  /** Free air for one cut, m³ */
  per_cut?: Value;
  /** Cold flow through a new tip, m³/s */
  tip_flow?: Value;
  /** That is, of the plate's figure, 1 */
  tip_share?: Value;
  /** Cold flow through the worn tip, m³/s */
  worn_flow?: Value;
  /** More through the worn tip, 1 */
  growth?: Value;
  /** Need with the worn tip, m³/s */
  worn_demand?: Value;
}

/** Air hose: See the pressure left at the torch while air flows, and which bore would do. */
export interface AirHoseResults {
  /** Pressure at the machine, Pa */
  at_torch?: Value;
  /** Lost in the hose, Pa */
  drop?: Value;
  /** Choked: that flow cannot pass */
  choked: boolean;
  /** Hose */
  verdict?: "ok" | "tight" | "fails" | "doubt" | "choked";
  /** Flow to spare, 1 */
  margin?: Value;
  /** Largest flow this line serves, m³/s */
  largest_flow?: Value;
  /** Smallest bore that would do, m */
  bore_needed?: Value;
  /** Next common bore, m */
  bore_to_buy?: Value;
  /** Speed of the air at the inlet, m/s */
  speed_in?: Value;
  /** Speed of the air at the outlet, m/s */
  speed_out?: Value;
  /** Reynolds number */
  reynolds: Value;
  /** Friction factor (Darcy) */
  friction: Value;
}

/** Compressor and tank: See whether the compressor keeps up, how long a full tank lasts, and how to cut and wait. */
export interface AirTankResults {
  /** Compressor against need */
  verdict: "ok" | "tight" | "fails" | "doubt";
  /** Air to spare, 1 */
  margin: Value;
  /** Free air on this site, m³/s */
  delivery: Value;
  /** Left of the plate's figure, 1 */
  derating: Value;
  /** Average need, m³/s */
  average: Value;
  /** The pressure never falls too low */
  holds: boolean;
  /** A full tank lasts, valve open, s */
  run_time?: Value;
  /** Cut for, s */
  cut?: Value;
  /** then wait, s */
  wait?: Value;
  /** Cut-in to cut-out, s */
  pump_up?: Value;
  /** Empty to full, s */
  fill?: Value;
  /** Valve open at most, kept up for good, 1 */
  most_share: Value;
  /** Plate figure that would keep up, m³/s */
  free_air_needed: Value;
  /** Tank for that spell, m³ */
  tank_needed?: Value;
}

/** Water in the air: See how much water comes with the air today, where it settles, and when to drain. */
export interface AirWaterResults {
  /** Drain the trap every, s */
  drain: Value;
  /** Water class at the machine, before its trap (ISO 8573-1) */
  class: string;
  /** Pressure dew point in the hose, K */
  dew_point: Value;
  /** Settles in compressor and tank, kg/s */
  tank_water: Value;
  /** Settles in hose and trap, kg/s */
  machine_water: Value;
  /** Fills the bowl in, s */
  fill?: Value;
  /** Liquid water in the hose, in free air at 20 °C and 1 bar, kg/m³ */
  liquid: Value;
  /** Dew point of that air let out, K */
  open_dew_point: Value;
  /** Vapour in the air around, kg/m³ */
  vapour_in: Value;
  /** Water per dry air, taken in, 1 */
  ratio_in: Value;
  /** Water per dry air, leaving the tank, 1 */
  ratio_tank: Value;
  /** Vapour per dry air, behind the trap, 1 */
  ratio_machine: Value;
}

/**
 * Answer is what a calculator tells. On the wire:
 *
 * 	{"results": {"speed": {"value": 0.02, "unit": "m/s", "text": "1200 mm/min", "also": "47.2 in/min"}, "start": "edge"},
 * 	 "cautions": ["…"], "working": ["P = U·I = 96 V × 40 A = 3.84 kW"], "sources": [{"id": "…", "text": "…"}],
 * 	 "pictures": [{"name": "kerf", "params": {"kerf": 1.24}}], "lengths": [[1.24, "0.0488 in"]]}
 *
 * value is in SI, text in the system asked for, also in the other one; lengths
 * are those of the pictures. An answer that rests on another calculator's may
 * carry that whole: "parts": {"cut-plan": {"results": …}}. A layout offers what can be
 * printed, "templates": [{"key": "branch", "title": "…"}], and the cuts that follow,
 * "cuts": [{"name": "…", "fields": {"thickness": "4mm"}}].
 */
export interface Answer<R = Record<string, Result>> {
  results: R;
  cautions: string[];
  working: string[];
  sources: Cited[];
  pictures?: Picture[];
  /** of the pictures */
  lengths?: Drawn[];
  parts?: { [N in CalculatorName]?: Answer<Results[N]> };
  templates?: Offered[];
  cuts?: Onward[];
}

/** Arc or ellipse: Lays out a curve too large for a trammel, or an ellipse: points to mark, pins, string and arcs. */
export interface ArcOffsetsResults {
  /** Radius, m */
  radius?: Value;
  /** Radius may be off by, either way, m */
  radius_off?: Value;
  /** Chord, m */
  chord?: Value;
  /** Rise in the middle, m */
  rise?: Value;
  /** Length along the arc, m */
  arc?: Value;
  /** Angle at the centre, rad */
  angle?: Value;
  /** Area, m² */
  area?: Value;
  /** Centre to the middle of the torch, m */
  arm?: Value;
  /** Straight lines from point to point are off by, m */
  gap?: Value;
  /** Trammel: pencil to the pin on the short axis, m */
  half_long?: Value;
  /** Trammel: pencil to the pin on the long axis, m */
  half_short?: Value;
  /** String: pins apart, m */
  pins?: Value;
  /** String: length of the loop, m */
  loop?: Value;
  /** All round, m */
  around?: Value;
  /** A trammel set for the torch is off by, m */
  path_off?: Value;
  /** Radius of the ends, m */
  end_radius?: Value;
  /** Their centres from the middle, along, m */
  end_centre?: Value;
  /** Radius of the sides, m */
  side_radius?: Value;
  /** Their centres from the middle, across, m */
  side_centre?: Value;
  /** Arcs meet from the middle, along, m */
  join_along?: Value;
  /** Arcs meet from the middle, across, m */
  join_up?: Value;
  /** Torch's arm for the ends, m */
  end_arm?: Value;
  /** Torch's arm for the sides, m */
  side_arm?: Value;
  /** It leaves a true ellipse by at most, m */
  oval_off?: Value;
  /** Points to mark */
  rows?: { along: Value; down?: Value; point: string; up: Value }[];
}

/** Bevel cut: Says how to lean the torch for a bevel, what metal that is, and where the line goes. */
export interface BevelCutResults {
  /** Lean the torch from upright, rad */
  lean: Value;
  /** Its top leans over */
  over: string;
  /** Metal along the torch, m */
  slant: Value;
  /** Across, from top edge to bottom edge, m */
  shift: Value;
  /** Guide to the bevel's line, m */
  guide_offset?: Value;
  /** Guide to the square line, m */
  guide_square?: Value;
  /** Order */
  order: string;
  /** Passes */
  passes: { guide?: Value; line: Value; metal: Value; pass: string }[];
  /** Kerf on the surface, m */
  kerf_top: Value;
  /** What a hand's wander does to the land, m */
  land_give?: Value;
}

/** Bracket, laid flat: Tells how long a bent strip is before it is bent, and where its bend lines lie. */
export interface BracketDevelopResults {
  /** Flat length, m */
  flat: Value;
  /** Bends, from the end of the first leg */
  lines: { allowance: Value; bend: string; end: Value; k: Value; middle: Value; setback?: Value; start: Value }[];
  /** Other rules differ by up to, m */
  give: Value;
  /** Legs together, less the flat length, m */
  off: Value;
}

/** Every calculator. */
export type CalculatorName = "site-check" | "may-i-cut" | "cut-plan" | "rig-table" | "trial-strips" | "calibration" | "travel-pace" | "guide-offset" | "face-grade" | "air-flow" | "air-hose" | "air-tank" | "air-water" | "supply" | "generator" | "duty" | "work-lead" | "tip-wear" | "electrode-wear" | "photo-gauge" | "part-life" | "spares" | "job-plan" | "job-cost" | "pipe-saddle" | "pipe-mitre" | "pipe-wrap" | "circle-hole" | "arc-offsets" | "square-up" | "divide" | "bevel-cut" | "bracket-develop" | "frame-lengths" | "nest-strip" | "gouge" | "release-plan" | "piece-weight" | "gauge" | "convert" | "eye-shade" | "fire-watch" | "fume" | "noise-dose" | "fault-rank";

/** Calibration: Learns from your own cuts how much faster or slower this rig severs than the reckoning says. */
export interface CalibrationResults {
  /** Calibration */
  calibration: Value;
  /** It may be as little as */
  calibration_low: Value;
  /** or as much as */
  calibration_high: Value;
  /** Cuts it rests on */
  cuts: Value;
  /** Cut by cut */
  rows: { current: Value; metal: string; reckoned: Value; share: Value; speed: Value; thickness: Value; verdict: string }[];
}

/** What goes into each call of the sums beside the calculators, and comes out. */
export interface Calls {
  "judge-reading": { in: ReadPart; out: Suggested };
  listen: { in: { frames: Frame[]; reset: boolean; taught?: Taught; teach?: string }; out: Report };
  "read-value": { in: { calculator: string; field: string; text: string; units: string; quantity: string; bare: string; us: string; in: string; sort: string }; out: ValueRead };
  rehearse: { in: { step: number }; out: Rehearsed };
  "rig-sizes": { in: Record<string, unknown>; out: Sizes };
  "say-values": { in: SayInput; out: Said };
  "stops-so-far": { in: Record<string, unknown>; out: Answer<Pick<Results["may-i-cut"], "stop">> };
  templates: { in: Print; out: Printed };
}

/**
 * Cause is one thing that can be wrong. Prior is how common it is when a cut
 * goes bad and nothing else is known; Minutes is what mending it takes. Both
 * are the authors' judgement.
 */
export interface Cause {
  key: string;
  label: string;
  minutes: number;
  do: string;
  /** guide and step that show how */
  guide: string;
  step: string;
  /** only a qualified person mends it */
  service?: boolean;
  /** slot in the torch that is changed */
  part?: string;
}

/**
 * Check is something to look at or to try. Yes is the answer that speaks for
 * the causes that show it. Leak is how often it shows with none of them.
 */
export interface Check {
  key: string;
  label: string;
  do: string;
  hands: Hands;
  /** once the hands may begin */
  minutes: number;
  /** what to tap when it shows */
  yes: string;
  no: string;
  /** goes before all others while a cause of harm is likely, and its yes ends the search */
  safety?: boolean;
  guide: string;
  step: string;
  /** other guide steps that answer it */
  same?: string[];
}

/** Choice is one word of a choice and how it is shown. */
export interface Choice {
  word: string;
  label: string;
}

/** Hole or disc: Lays out round holes, discs, slots and openings: where to pierce, the arm, bolt holes round a circle. */
export interface CircleHoleResults {
  /** In short */
  how: string;
  /** Pivot to the middle of the torch, m */
  arm?: Value;
  /** Radius of the template, m */
  template_radius?: Value;
  /** Pierce, away from the line by, m */
  lead_in?: Value;
  /** Length of the lead-in, m */
  run?: Value;
  /** Smallest that a hand cuts here, m */
  smallest: Value;
  /** Between the centres, along, m */
  along?: Value;
  /** Between the centres, across, m */
  across?: Value;
  /** Diagonal, to the sharp corners, m */
  diagonal?: Value;
  /** Width may be off by, either way, m */
  size_off?: Value;
  /** Edge leaves its line by, m */
  out_of_round?: Value;
  /** A pin goes through up to, m */
  passes?: Value;
  /** Length of one cut, m */
  cut?: Value;
  /** From hole to next hole, m */
  chord?: Value;
  /** Check over so many holes */
  check_steps?: Value;
  /** Straight across those, m */
  check?: Value;
  /** A setting that is off misses hole 1 by, m */
  closing?: Value;
  /** Metal between two holes, m */
  web?: Value;
  /** Centres of the holes */
  rows?: { across: Value; from_first: Value; hole: string; up: Value }[];
}

export interface Cited {
  id: ID;
  text: string;
}

/** Convert units: Turn a value into another unit, and a length into the nearest mark of a rule. */
export interface ConvertResults {
  /** Result */
  result: Value;
  /** The bare number */
  number: Value;
  /** Kind */
  quantity: string;
  /** Nearest mark on the rule */
  ruler?: string;
  /** Past that mark, m */
  ruler_off?: Value;
  /** In every unit */
  all: { number: Value; text: string; unit: string }[];
}

/** Cut plan: Tells what to set for a metal and a thickness, and how fast to move. It says what the rig can do at most. */
export interface CutPlanResults {
  /** This rig */
  grade: "clean" | "rough" | "none";
  /** Current, A */
  current: Value;
  /** Tip rated */
  tip: string;
  /** By its plate for */
  plate?: string;
  /** Bore of the tip, m */
  orifice: Value;
  /** Air pressure, while it flows, Pa */
  pressure: Value | string;
  /** Travel speed, m/s */
  speed: Value;
  /** Pace, s/m */
  pace: Value;
  /** Pace over 4 in, s */
  pace_4in: Value;
  /** It may want as little as, m/s */
  speed_low?: Value;
  /** or as much as, m/s */
  speed_high?: Value;
  /** It may want, m/s */
  speed_range?: Value;
  /** Just severs at, m/s */
  speed_max: Value;
  /** Start */
  start: string;
  /** Torch to the work at the start, rad */
  lean: Value;
  /** How to start */
  how: string;
  /** Standoff, m */
  standoff: Value;
  /** Kerf, m */
  kerf: Value;
  /** Metal along the torch, m */
  path: Value;
  /** Cuts clean up to, m */
  limit_clean: Value;
  /** Severs up to, m */
  limit_sever: Value;
  /** Pierces up to, m */
  limit_pierce: Value;
  /** Arc power, W */
  power: Value;
  /** Heat in the cut, J/m */
  heat: Value;
  /** It rests on */
  standing?: string;
  /** How sure */
  confidence: string;
}

/** Description is a calculator's declaration as the phone reads it. */
export interface Description {
  name: string;
  title: string;
  about: string;
  place: string;
  terms?: string[];
  fields: FieldDescription[];
  results: ResultDescription[];
  sources: string[];
  together?: Together[];
}

/** Equal parts: Parts a length alike: pieces with the kerf, marks for holes or posts, bars with equal gaps. */
export interface DivideResults {
  /** Each piece, step or gap, m */
  each: Value;
  /** How many */
  parts: Value;
  /** From one to the next, m */
  step?: Value;
  /** Mark from the left end */
  rows: { from: Value; part: string; to?: Value }[];
}

/**
 * Drawn is a length as a drawing takes it, in millimetres, with its text in the
 * person's units. On the wire [0.95, "0.0374 in"].
 */
export type Drawn = [mm: number, text: string];

/** Duty cycle: See how many minutes in ten the arc may burn, by the rating plate. */
export interface DutyResults {
  /** Arc on, in ten minutes, s */
  on: Value;
  /** Rest, in ten minutes, s */
  rest: Value;
  /** Duty cycle, 1 */
  duty: Value;
  /** By the plate, at 40 °C, 1 */
  by_plate: Value;
  /** Largest current without a rest, A */
  continuous: Value;
  /** Largest current for the duty wanted, A */
  current_for?: Value;
}

/** Electrode wear: Judge the pit of the electrode, and see how long it may last by your own readings. */
export interface ElectrodeWearResults {
  /** Electrode */
  verdict: string;
  /** Because */
  why: string;
  /** Of its pit used, 1 */
  used: Value;
  /** Change at, m */
  limit: Value;
  /** Arc time left, s */
  minutes_left?: Value;
  /** At least, s */
  minutes_low?: Value;
  /** At most, s */
  minutes_high?: Value;
  /** Starts left */
  starts_left?: Value;
  /** The job ahead */
  job?: string;
  /** Pit at its end, m */
  job_depth?: Value;
  /** Wear of a start, m */
  per_start?: Value;
  /** Wear of an arc minute, m */
  per_minute?: Value;
  /** Scatter of one reading, m */
  deviation?: Value;
  /** Readings it rests on */
  rests_on?: Value;
}

/** What may stand in a field: text as typed ("6mm"), a number, yes or no; null and "" for nothing. */
export type Entered = string | number | boolean | null;

/** What is entered into a calculator, with all that is kept of the rig and the site in use, of which it picks its own fields. */
export type Entries<N extends CalculatorName> = { [key in Fields[N]]?: Entered } & { rig?: Record<string, unknown>; site?: Record<string, unknown>; units?: "metric" | "us" };

/** Eye shade: Says which filter the law wants at these amps, and where to start. */
export interface EyeShadeResults {
  /** At least shade */
  minimum: Value;
  /** Start with shade */
  start: Value;
  /** Row of the table */
  row: string;
  /** Helmet over those glasses, at least */
  helmet?: Value;
  /** Finer table, from memory, arc hidden by the work */
  finer?: Value;
  /** Finer table, where to start */
  finer_start?: Value;
}

/** Face grade: Grades a cut face by ISO 9013. Takes a square and feeler gauge, a roughness figure and the trail of its lines. */
export interface FaceGradeResults {
  /** Designation */
  designation?: string;
  /** Perpendicularity u, m */
  u?: Value;
  /** Range of u */
  u_range?: Value;
  /** Range of Rz5 */
  rz5_range?: Value;
  /** Face off square by, rad */
  slope?: Value;
  /** Drag angle, rad */
  drag_angle?: Value;
  /** Leave out at each edge, m */
  left_out: Value;
  /** Ranges at this thickness */
  ranges: { range: Value; rz5?: Value; u: Value }[];
}

/** Fault finder: Ranks what can be wrong from the signs seen and the checks made. Names the next check in an old hand's order. */
export interface FaultRankResults {
  /** Now */
  state: "stop" | "check" | "act" | "service" | "left" | "no-fault" | "nothing" | "none";
  /** Most likely */
  causes: { against: string; cause: string; chance: Value; do: string; for: string; guide: string; label: string; part: string; service: boolean; step: string; words: string }[];
  /** Next checks */
  next: { check: string; do: string; guide: string; hands: string; label: string; minutes: Value; no: string; safety: boolean; setup: Value; step: string; yes: string }[];
  /** Not looked for */
  ruled: { label: string; why: string }[];
  /** None of these, 1 */
  none: Value;
  /** No faults */
  no_faults: { label: string; sign: string; why: string }[];
}

/** FieldDescription is a field as the phone reads it. */
export interface FieldDescription {
  key: string;
  label: string;
  help?: string;
  kind: Kind;
  bare?: string;
  us?: string;
  right?: Half;
  choices?: Choice[];
  default?: string;
  /** the default as it is shown, if it is a number with a unit */
  usual?: Usual;
  optional?: boolean;
  allowed: string;
  chips?: string[];
  /** on a device with US units, where they are others */
  chips_us?: string[];
  gauge?: boolean;
  basis?: string;
  only?: Only;
  fine?: boolean;
  hazard?: boolean;
  owner?: Owner;
  item?: string;
  known?: string;
  /** of a list */
  rows?: RowsDescription;
}

/** What each calculator asks for. */
export interface Fields {
  "air-flow": "plate" | "arc" | "pause" | "after_flow" | "orifice" | "measured" | "tip_pressure" | "discharge" | "temperature" | "altitude" | "reference";
  "air-hose": "flow" | "length" | "bore" | "pressure" | "needed" | "couplers" | "coupler_c" | "coupler_b" | "coupler_flow" | "k" | "fittings_length" | "wall" | "roughness" | "temperature" | "altitude" | "reference";
  "air-tank": "free_air" | "tank" | "demand" | "needed" | "cut_in" | "cut_out" | "share" | "duty" | "running" | "spell" | "after_flow" | "altitude" | "temperature" | "reference";
  "air-water": "inlet" | "humidity" | "flow" | "pressure" | "tank_temperature" | "machine_pressure" | "machine_temperature" | "bowl" | "practice" | "altitude" | "reference";
  "arc-offsets": "curve" | "radius" | "chord" | "rise" | "arc" | "angle" | "long" | "short" | "kept_side" | "spaces" | "thickness" | "kerf" | "tape";
  "bevel-cut": "thickness" | "bevel" | "land" | "opens" | "guide" | "cup" | "contact" | "length" | "kerf";
  "bracket-develop": "thickness" | "radius" | "legs" | "first_leg" | "bends" | "width" | "allowance" | "k_factor";
  calibration: "tries" | "alloy" | "min_current" | "max_current" | "arc_volts" | "tips" | "max_current_2" | "efficiency";
  "circle-hole": "cutout" | "diameter" | "length" | "width" | "corner" | "thickness" | "kept" | "led_by" | "cup" | "pattern" | "holes" | "circle" | "first" | "centre_x" | "centre_y" | "kerf" | "setting" | "wander" | "least" | "lead";
  convert: "value" | "to";
  "cut-plan": "metal" | "alloy" | "thickness" | "min_current" | "max_current" | "arc_volts" | "tips" | "fitted" | "pressure_kind" | "pressure" | "plate_volts" | "plate_volts_2" | "max_current_2" | "volts" | "angle" | "layers" | "surface" | "position" | "hand" | "start" | "calibration" | "kerf_measured" | "hand_limit" | "efficiency" | "brisk" | "clean_speed" | "sever_speed" | "sever_share" | "pierce_share";
  divide: "length" | "into" | "divisions" | "widest" | "bar" | "off_left" | "off_right" | "kerf" | "thickness" | "across";
  duty: "points" | "current" | "wanted" | "temperature" | "guard";
  "electrode-wear": "depth" | "off_centre" | "limit" | "insert" | "starts" | "minutes" | "readings" | "job_starts" | "job_minutes" | "confidence";
  "eye-shade": "current" | "arc" | "glasses";
  "face-grade": "thickness" | "u" | "gap" | "height" | "rz5" | "n";
  "fault-rank": "signs" | "absent" | "checks" | "skipped" | "mended" | "open" | "tip_minutes" | "electrode_minutes" | "drain_minutes" | "air" | "power" | "duty" | "past_plan" | "passed" | "failed" | "worn" | "found" | "air_least" | "tips" | "fitted" | "generator" | "breaker" | "temperature";
  "fire-watch": "near" | "done" | "far" | "openings" | "behind" | "larger" | "smoulder" | "watch" | "local" | "since";
  "frame-lengths": "make" | "wide" | "high" | "face" | "bar_depth" | "thickness" | "corner" | "through" | "frames" | "leg" | "other_leg" | "snip" | "nose" | "corner_angle" | "count" | "kerf";
  fume: "metal" | "coating" | "place" | "room" | "ceiling" | "cutters" | "hood";
  gauge: "metal" | "gauge" | "thickness" | "weight";
  generator: "output_current" | "output_volts" | "efficiency" | "power_factor" | "rating" | "rated_power" | "surge" | "headroom" | "stretch" | "compressor" | "code_letter" | "start_factor" | "altitude" | "temperature";
  gouge: "metal" | "current" | "travel" | "torch_lean" | "weld" | "plate" | "groove" | "gap" | "cap" | "fillet" | "groove_wide" | "groove_deep" | "length" | "trial_width" | "trial_depth" | "width" | "gouge_volts";
  "guide-offset": "cup" | "kerf" | "keep" | "shape" | "radius";
  "job-cost": "length" | "speed" | "arc_time" | "labour" | "overhead" | "factor" | "beside" | "watch" | "watch_rate" | "set_price" | "set_life" | "material" | "current" | "arc_volts" | "efficiency" | "compressor" | "air_share" | "energy_price" | "margin";
  "job-plan": "cuts" | "window" | "window_for" | "done" | "marking" | "mark_out" | "mark_own" | "move_piece" | "move_own" | "move_row" | "row_own" | "between_runs" | "part_change" | "change_own" | "drain_stop" | "drain_own" | "drain_every" | "trap_minutes" | "gate" | "inspect" | "tip_minutes" | "tip_starts" | "tip_stock" | "tip_lives" | "electrode_minutes" | "electrode_starts" | "electrode_stock" | "electrode_lives" | "min_current" | "max_current" | "arc_volts" | "tips" | "fitted" | "pressure_kind" | "pressure" | "plate_volts" | "plate_volts_2" | "max_current_2" | "volts" | "angle" | "layers" | "calibration" | "kerf_measured" | "hand_limit" | "efficiency" | "brisk" | "clean_speed" | "sever_speed" | "sever_share" | "pierce_share" | "after_flow" | "duty_points" | "input_max" | "input_effective" | "least_volts" | "duty_points_2" | "input_max_2" | "input_effective_2" | "least_volts_2" | "air_need" | "air_least" | "machine_efficiency" | "power_factor" | "tip_reading" | "tip_growth" | "pit" | "pit_limit" | "free_air" | "tank" | "cut_in" | "cut_out" | "compressor_duty" | "regulator" | "hose_length" | "bore" | "couplers" | "coupler_c" | "phases" | "size" | "cord_length" | "drop_advice" | "breaker" | "generator" | "rated_power" | "surge" | "headroom" | "stretch" | "compressor_power" | "code_letter" | "start_factor" | "compressor_first" | "altitude" | "temperature" | "humidity" | "fuel_rate" | "labour" | "overhead" | "watch" | "watch_rate" | "set_price" | "material" | "energy_price" | "compressor" | "margin";
  "may-i-cut": "what" | "behind" | "near" | "place" | "coating" | "wet";
  "nest-strip": "stock_is" | "bars" | "lengths" | "plate_length" | "plate_width" | "plates" | "rectangles" | "turning" | "kerf" | "trim" | "keep_from" | "thickness" | "across";
  "noise-dose": "level" | "time" | "more" | "nrr";
  "part-life": "part" | "minutes" | "starts" | "job_minutes" | "job_starts" | "lives" | "metal" | "surface" | "on_rig" | "position" | "start" | "air" | "partner";
  "photo-gauge": "object" | "width" | "scale" | "new" | "rim" | "width_error" | "mark" | "growth_limit" | "oval_limit";
  "piece-weight": "shape" | "metal" | "length" | "width" | "height" | "diameter" | "bore" | "sweep" | "area" | "corners" | "thickness" | "flange" | "radius" | "count" | "density";
  "pipe-mitre": "size" | "schedule" | "od" | "girth" | "wall" | "mitred" | "wide" | "high" | "turn" | "segments" | "radius" | "leg" | "lines" | "kerf" | "paper" | "tape_thickness";
  "pipe-saddle": "header_size" | "header_schedule" | "header_od" | "header_girth" | "header_wall" | "branch_size" | "branch_schedule" | "branch_od" | "branch_girth" | "branch_wall" | "angle" | "fit" | "past" | "hole" | "centre_length" | "offset" | "gap" | "stations" | "step" | "groove" | "kerf" | "paper" | "tape_thickness";
  "pipe-wrap": "size" | "schedule" | "od" | "girth" | "wall" | "divisions" | "strip_wide" | "strip_long" | "paper" | "tape_thickness";
  "release-plan": "length" | "weight" | "holds" | "cuts" | "spring" | "push" | "moves" | "rigging" | "hook_at" | "hook_height" | "balance" | "across" | "lumps";
  "rig-table": "metal" | "alloy" | "thicknesses" | "min_current" | "max_current" | "arc_volts" | "tips" | "fitted" | "pressure_kind" | "pressure" | "plate_volts" | "plate_volts_2" | "max_current_2" | "volts" | "angle" | "layers" | "surface" | "position" | "hand" | "start" | "calibration" | "kerf_measured" | "hand_limit" | "efficiency" | "brisk" | "clean_speed" | "sever_speed" | "sever_share" | "pierce_share";
  "site-check": "metal" | "alloy" | "thickness" | "min_current" | "max_current" | "arc_volts" | "tips" | "fitted" | "pressure_kind" | "pressure" | "plate_volts" | "plate_volts_2" | "max_current_2" | "volts" | "angle" | "layers" | "surface" | "position" | "hand" | "start" | "calibration" | "kerf_measured" | "hand_limit" | "efficiency" | "brisk" | "clean_speed" | "sever_speed" | "sever_share" | "pierce_share" | "share" | "longest_cut" | "after_flow" | "duty_points" | "input_max" | "input_effective" | "least_volts" | "duty_points_2" | "input_max_2" | "input_effective_2" | "least_volts_2" | "air_need" | "air_least" | "machine_efficiency" | "power_factor" | "tip_reading" | "tip_growth" | "pit" | "pit_limit" | "free_air" | "tank" | "cut_in" | "cut_out" | "compressor_duty" | "regulator" | "hose_length" | "bore" | "couplers" | "coupler_c" | "phases" | "size" | "cord_length" | "drop_advice" | "breaker" | "generator" | "rated_power" | "surge" | "headroom" | "stretch" | "compressor_power" | "code_letter" | "start_factor" | "compressor_first" | "altitude" | "temperature" | "humidity";
  spares: "job_minutes" | "job_starts" | "metal" | "surface" | "tip_minutes" | "tip_starts" | "electrode_minutes" | "electrode_starts" | "tip_stock" | "electrode_stock" | "diffuser_stock" | "cup_stock" | "level" | "pair" | "tip_lives" | "electrode_lives" | "diffuser_lives" | "cup_lives" | "tip_price" | "electrode_price" | "diffuser_price" | "cup_price";
  "square-up": "of" | "side" | "other_side" | "diagonal" | "other_diagonal" | "tape_error";
  supply: "current" | "volts" | "size" | "length" | "phases" | "duty" | "breaker" | "least_volts" | "idle_current" | "strand" | "conductor_temperature" | "output_current" | "output_volts" | "efficiency" | "power_factor";
  "tip-wear": "new" | "smallest" | "largest" | "reading_error" | "nick" | "current" | "metal" | "thickness" | "minutes" | "starts" | "readings" | "job_starts" | "job_minutes" | "confidence" | "electrode" | "growth_limit" | "oval_limit" | "speed" | "arc_volts";
  "travel-pace": "speed" | "marks" | "length" | "time" | "slack";
  "trial-strips": "speed" | "speed_max" | "hand" | "calibration" | "length" | "time_1" | "verdict_1" | "kerf_1" | "time_2" | "verdict_2" | "kerf_2" | "time_3" | "verdict_3" | "kerf_3";
  "work-lead": "current" | "size" | "length" | "loop" | "clamp" | "measured_drop" | "strand" | "conductor_temperature";
}

/** Fire watch: Asks what could burn on both sides of the cut. Says how far to clear, and how long to watch after the last arc. */
export interface FireWatchResults {
  /** Fire */
  verdict: string;
  /** Watch after the last arc, s */
  watch: Value;
  /** Still to watch, s */
  left?: Value;
  /** Watch is over */
  over?: boolean;
  /** Look in again for up to, s */
  further?: Value;
  /** Clear around the cut, m */
  distance: Value;
  /** Never less than, s */
  floor: Value;
  /** Because */
  reasons: { do: string; why: string }[];
}

/**
 * Frame is what one stretch of sound of about 21 ms holds (2048 samples at
 * 48 kHz, half overlapping): mean power of its spectrum in dB, where a tone at
 * full scale has 0 dB in its own bin, as Web Audio's analyser reckons.
 */
export interface Frame {
  /** ms since 1970, its middle */
  at: number;
  /** 4 to 14 kHz */
  high: number;
  /** 1 to 3 kHz, where voices, hammers and grinders are strong, and wind and compressors are not */
  low: number;
  /** geometric over arithmetic mean of power in 4 to 14 kHz, dB, at most 0 */
  flat: number;
  /** as High, 4 to 7.5 kHz: all that a microphone hears that is sampled at 16 kHz. 0 for not told */
  near: number;
  /** as Flat, there */
  nearFlat: number;
}

/** Frame and gusset: Cut lengths of a mitred or butted frame, long points and short points. Or a gusset with its corner snipped. */
export interface FrameLengthsResults {
  /** Pieces */
  pieces?: { count: Value; long: Value; short: Value }[];
  /** How each end is cut */
  how?: string;
  /** Outside diagonal, both the same, m */
  diagonal?: Value;
  /** Bar for all, end to end, m */
  bar?: Value;
  /** Ends to cut */
  ends?: Value;
  /** Long edge, m */
  edge?: Value;
  /** Corners, from where the legs meet */
  points?: { along: Value; off: Value; point: string }[];
  /** Length of one cut, m */
  cut: Value;
  /** Metal along the torch, at most, m */
  thick: Value;
}

/** Fume and air: Says what is in the smoke of this metal and its coating. Says what air the place needs, and when not to cut at all. */
export interface FumeResults {
  /** Fume */
  verdict: string;
  /** Stop */
  stops: { why: string }[];
  /** To breathe */
  respirator: string;
  /** Fans required */
  mechanical: boolean;
  /** Because */
  why?: string;
  /** Fresh air, at least, m³/s */
  supply?: Value;
  /** Draught at the cut towards a hood, m/s */
  capture: Value;
  /** That hood must draw, m³/s */
  hood_flow?: Value;
  /** Strip back from the cut, m */
  strip?: Value;
  /** In the smoke */
  agents: { agent: string; harm: string; niosh: string; osha: string }[];
}

/** Sheet gauge: Turn a gauge number into thickness and weight, or back. One number means another thickness in each metal. */
export interface GaugeResults {
  /** Gauge */
  gauge: string;
  /** Nominal thickness, m */
  thickness: Value;
  /** In decimals of an inch */
  inch: Value;
  /** Nominal weight, kg/m² */
  weight: Value;
  /** Counted by */
  system: string;
  /** Yours against nominal, 1 */
  off?: Value;
  /** The same number in other metals */
  same_number: { metal: string; system: string; thickness: Value; weight: Value }[];
  /** Thickest over thinnest, 1 */
  spread?: Value;
}

/** Generator: See whether a generator carries the machine and a compressor, and how many amps it gives. */
export interface GeneratorResults {
  /** Verdict */
  verdict: "ok" | "tight" | "fails" | "doubt";
  /** To spare, 1 */
  margin: Value;
  /** Largest cutting current, A */
  largest_current: Value;
  /** Needed, VA */
  apparent_power: Value;
  /** Needed, real power, W */
  power: Value;
  /** There, with headroom left, VA */
  capacity: Value;
  /** There, real power, W */
  capacity_power: Value;
  /** Left of the rating on this site, 1 */
  left: Value;
  /** Rating on this site, real power, W */
  rating_here: Value;
  /** Compressor starts while you cut */
  start_while_cutting?: "ok" | "tight" | "fails" | "doubt";
  /** Compressor starts before the cut */
  start_before?: "ok" | "tight" | "fails" | "doubt";
  /** Peak while it starts, arc burning, VA */
  start_power?: Value;
}

/** Gouge: Guesses the groove that a leaning arc melts out, and the passes that take a weld away. Widely in doubt. */
export interface GougeResults {
  /** Groove, deep, m */
  groove_depth: Value;
  /** Groove, wide, m */
  groove_width: Value;
  /** Passes, at least */
  passes?: Value;
  /** Arc time, s */
  arc_time?: Value;
  /** Ears without protection, a day (NIOSH), s */
  noise: Value;
  /** Section of one groove, m² */
  section: Value;
  /** Section that comes out, m² */
  weld_section?: Value;
  /** It weighs, kg/m */
  weld_mass?: Value;
  /** It rests on */
  rests_on: string;
}

/** Guide offset: Tells how far from the line to clamp the straightedge. Sizes a template and a circle arm too. */
export interface GuideOffsetResults {
  /** From the guide to the line, m */
  offset: Value;
  /** Radius of the template, m */
  template_radius?: Value;
  /** Pivot to the middle of the torch, m */
  arm?: Value;
}

/** Half is the right half of a pair. */
export interface Half {
  bare: string;
  us: string;
  /** "Tip" */
  name: string;
  /** "amps" */
  left: string;
  /** "bore" */
  right: string;
  /** "{left} tip · bore {right}" */
  row: string;
  /** stands for a right half that is not known; it may be left out then */
  known?: string;
  /** common values */
  leftChips?: string[];
  rightChips?: string[];
}

/**
 * Hands says where the hands are in a check, which decides what it costs before
 * it begins and whether it can be made after a stop.
 */
export type Hands = "air" | "arc" | "dead" | "hand" | "look" | "off" | "on";

/** Heard is one finished arc, or a stretch that was masked. */
export interface Heard {
  /** ms since 1970 */
  start: number;
  /** ms since 1970 */
  stop: number;
  /** 0 for an arc that goes on behind a masked stretch, else 1 */
  starts: number;
}

/** ID names a source, such as "osha-133". */
export type ID = string;

/** Job cost: Add up hours, parts, power, air and fire watch for a job, and for a length of cut. */
export interface JobCostResults {
  /** The job costs, money */
  total: Value;
  /** With what is on top, money */
  price: Value;
  /** A length of cut, cutting only, money/m */
  cut_per_length?: Value;
  /** A length of cut, the whole job, money/m */
  per_length?: Value;
  /** Arc time, s */
  arc_time: Value;
  /** Paid time, s */
  paid_time: Value;
  /** Labour, money */
  labour: Value;
  /** Overhead, money */
  overhead: Value;
  /** Fire watch, money */
  watch: Value;
  /** Parts, money */
  parts: Value;
  /** Power, money */
  power: Value;
  /** Air, money */
  air: Value;
  /** Tips and electrodes used */
  sets?: Value;
  /** Energy, J */
  energy: Value;
  /** Where it goes */
  shares: { cost: Value; share: Value; what: string }[];
}

/** Job plan: Play a list of cuts through before it begins: how long it takes, whether it fits, what it needs and costs. */
export interface JobPlanResults {
  /** In short */
  verdict: string;
  /** To the last cut, s */
  work?: Value;
  /** With the fire watch, s */
  elapsed: Value;
  /** Price, money */
  price?: Value;
  /** In the torch */
  lasts?: string;
  /** What holds it up most */
  binds?: string;
  /** Carry */
  spares?: string;
  /** Chance that it fits, 1 */
  chance?: Value;
  /** Arc time, s */
  arc?: Value;
  /** Starts */
  starts?: Value;
  /** Waiting for air, s */
  waits?: Value;
  /** Cooling, s */
  cooling?: Value;
  /** Cost, money */
  cost?: Value;
  /** Price of a length, money/m */
  per_length?: Value;
  /** Energy, J */
  energy?: Value;
  /** Fuel, m³ */
  fuel?: Value;
  /** Cut by cut */
  rows: { arc?: Value; cut: string; elapsed?: Value; say: string; starts?: Value; wait?: Value }[];
  /** Where the time goes */
  plan: { takes: Value; what: string }[];
  /** What holds it up */
  held_up: { saves: Value; what: string }[];
  /** What would help */
  remedies: { do: string; field: string; saves: Value; value: string }[];
  /** Not known */
  unknowns: { field: string; how: string; what: string }[];
}

/** Kind is the kind of a Type. */
export type Kind = "choice" | "count" | "factor" | "list" | "number" | "pairs" | "rows" | "text" | "yes-no";

/** May I cut this?: Asks what could kill you before the arc is struck: stop, or what to do first and who clears it. */
export interface MayICutResults {
  /** Verdict */
  verdict: "stop" | "conditions" | "go";
  /** That means */
  meaning: string;
  /** Stop, because */
  stop: { cleared_by: string; key: string; name: string; why: string }[];
  /** First */
  conditions: { cleared_by: string; do: string; key: string; name: string }[];
}

/** Pieces out of stock: Lays out which pieces come out of which bar or plate. It counts the kerf and wastes the least. */
export interface NestStripResults {
  /** In short */
  verdict: string;
  /** It takes */
  takes: Value;
  /** Of the stock is left or kerf, 1 */
  waste: Value;
  /** At least */
  least?: Value;
  /** At least, by length alone */
  least_by_sum?: Value;
  /** Longest first into the first bar with room */
  simple?: Value;
  /** No plan takes less */
  proven: boolean;
  /** Stock used, m */
  used?: Value;
  /** Longest off-cut, m */
  largest?: Value;
  /** Cut it so */
  plan?: { left: Value; marks: string; pieces: string; stock: string }[];
  /** Where each piece lies */
  places?: { along: Value; piece: string; plate: string; up: Value }[];
  /** Cuts in turn */
  turns?: { at: Value; from?: Value; plate: string; to?: Value; way: string }[];
  /** Off-cuts to keep */
  offcuts: { from: string; what: string }[];
  /** Length of all cuts, m */
  cut?: Value;
}

/** Noise dose: Adds up the day's noise by the OSHA and the NIOSH rule. Says how long the ears may stand it. */
export interface NoiseDoseResults {
  /** Noise */
  verdict: string;
  /** NIOSH allows, a day, s */
  niosh_allowed: Value;
  /** NIOSH dose, 1 */
  niosh_dose: Value;
  /** NIOSH mean level of 8 h, dB */
  niosh_mean?: Value;
  /** OSHA allows, a day, s */
  osha_allowed: Value | string;
  /** OSHA dose, 1 */
  osha_dose: Value;
  /** OSHA mean level of 8 h, dB */
  osha_mean?: Value;
  /** Under the protector, dB */
  at_ear?: Value;
  /** NIOSH dose under it, 1 */
  protected_dose?: Value;
}

/** Offered is a template as an answer lists it. */
export interface Offered {
  key: string;
  title: string;
}

/** Only limits a field to certain words of another. */
export interface Only {
  key: string;
  words: string[];
}

/**
 * Onward is one cut that follows from a layout, as the fields of a cut plan and of a
 * row of a job's cut list, written as a person would enter them.
 */
export interface Onward {
  /** of the row */
  name: string;
  /** thickness, length, pierces, count, … */
  fields: Record<string, string>;
}

/**
 * Owner is what a field's value belongs to. Nobody is asked again for what is
 * kept with its owner.
 */
export type Owner = "" | "plate" | "rig" | "site" | "truck";

/** Part life: How likely this part lasts the job, by how long your own parts lasted. */
export interface PartLifeResults {
  /** This part */
  verdict?: string;
  /** Lasts the job, 1 */
  chance?: Value;
  /** 8 in 10 such parts last another, s */
  left?: Value;
  /** Half of your parts are gone by, s */
  typical?: Value;
  /** 1 in 10 is gone by, s */
  b10?: Value;
  /** Half last at least, s */
  least?: Value;
  /** Left on average, s */
  mean_left?: Value;
  /** Rests on */
  rests_on: string;
  /** How they go */
  shape_says: string;
  /** Shape */
  shape?: Value;
  /** Shape at least */
  shape_low?: Value;
  /** Shape at most */
  shape_high?: Value;
  /** 2 in 3 are gone by, s */
  scale?: Value;
  /** A start counts as, s */
  per_start: Value;
  /** What wears them */
  wears?: string;
  /** What wears them, one by one */
  effects?: { cause: string; failures: Value; high: Value; low: Value; ratio: Value; says: string; sure: boolean }[];
}

/** Photo gauge: Measure the bore of a tip on a photo: mark its rim, and something of known width beside it. */
export interface PhotoGaugeResults {
  /** Tip */
  verdict?: string;
  /** Because */
  why?: string;
  /** Grown by, 1 */
  growth?: Value;
  /** Give or take, 1 */
  growth_error?: Value;
  /** Largest diameter, m */
  largest: Value;
  /** Give or take, m */
  largest_error: Value;
  /** Smallest diameter, m */
  smallest: Value;
  /** Give or take, m */
  smallest_error: Value;
  /** The reading is */
  trust: string;
  /** Shape */
  shape: string;
  /** Largest less smallest, m */
  out_of_round: Value;
  /** Give or take, m */
  out_of_round_error: Value;
  /** Marks on the rim */
  points: Value;
  /** Of the rim covered, rad */
  covered: Value;
  /** Scatter of the marks, m */
  residual: Value;
  /** Mark that is furthest off */
  worst: Value;
  /** One pixel, m */
  pixel: Value;
  /** Camera leans by, rad */
  tilt?: Value;
  /** A round bore would look so from, rad */
  tilt_bound?: Value;
  /** Centre from the left, pixels */
  centre_x: Value;
  /** Centre from the top, pixels */
  centre_y: Value;
  /** Long half-axis, pixels */
  long_axis: Value;
  /** Short half-axis, pixels */
  short_axis: Value;
  /** Long axis, from the right down, rad */
  turn: Value;
}

/**
 * Picture tells the phone what to draw beside an answer: the name of a drawing
 * in pwa/draw and its parameters, none for one in pwa/draw/still, lengths in millimetres, angles in degrees,
 * words and tables as that drawing takes them. A plot's figures are in the
 * units of the answer's texts.
 */
export interface Picture {
  name: string;
  params?: Record<string, unknown>;
}

/** Piece weight: Weigh a piece before you cut it loose, and see where it balances. */
export interface PieceWeightResults {
  /** One piece weighs, kg */
  weight: Value;
  /** All pieces weigh, kg */
  total: Value;
  /** To lift it */
  lift: string;
  /** Per length, kg/m */
  per_length?: Value;
  /** Per area, kg/m² */
  per_area?: Value;
  /** Face or section, m² */
  area: Value;
  /** Volume, m³ */
  volume: Value;
  /** Balances, measured from */
  balance_from?: string;
  /** Along, m */
  balance_along?: Value;
  /** Across, m */
  balance_across?: Value;
  /** Up, m */
  balance_up?: Value;
}

/** Pipe mitre: Lays out a bend of straight pieces of pipe, or a mitred frame of pipe: where to mark, and how long each piece is. */
export interface PipeMitreResults {
  /** Each cut leans from square by, rad */
  lean: Value;
  /** Cut back in the throat, m */
  deepest: Value;
  /** End piece along its back, m */
  end_back?: Value;
  /** End piece in the throat, m */
  end_throat?: Value;
  /** End piece along its centre, m */
  end_centre?: Value;
  /** Middle piece along its back, m */
  middle_back?: Value;
  /** Middle piece in the throat, m */
  middle_throat?: Value;
  /** Middle piece along its centre, m */
  middle_centre?: Value;
  /** Pieces of the frame */
  pieces?: { centre: Value; long: Value; part: string; short: Value }[];
  /** Pipe for all of it, m */
  stock?: Value;
  /** Cuts from the end of one pipe */
  cuts?: { opposite: Value; part: string; zero: Value }[];
  /** The kerf takes along the pipe, m */
  kerf_along?: Value;
  /** Girth, m */
  girth: Value;
  /** Lines apart, by tape, m */
  spacing: Value;
  /** Lines along the pipe */
  rows: { back: Value; end?: Value; line: string; middle?: Value; round: Value }[];
  /** Length of one cut, m */
  cut: Value;
}

/** Pipe saddle: Lays out a branch pipe that meets a header pipe at any angle: its cut, and the hole. */
export interface PipeSaddleResults {
  /** Deepest drop from the base line, m */
  deepest: Value;
  /** Base line to the header's centre line, m */
  to_axis: Value;
  /** Base line to the header's skin, along the centre, m */
  to_skin?: Value;
  /** Base line from the branch's far end, m */
  base?: Value;
  /** Branch pipe needed, m */
  stock?: Value;
  /** Girth of the branch, m */
  girth: Value;
  /** Lines apart, by tape, m */
  spacing: Value;
  /** Lines apart, by dividers, m */
  chord: Value;
  /** Lines along the branch: down from the base line, or up from a square end */
  rows: { back: Value; drop: Value; round: Value; station: string }[];
  /** Length of the cut, m */
  cut: Value;
  /** Hole along the header, m */
  hole_along?: Value;
  /** Hole round the header, by tape, m */
  hole_round?: Value;
  /** Hole straight across, m */
  hole_across?: Value;
  /** Points of the hole, from where the centre lines cross: round is by tape, across is straight */
  hole_rows?: { across: Value; along: Value; round: Value; station: string }[];
  /** Length of the hole's cut, m */
  hole_cut?: Value;
  /** How the skins meet, what a straight cut opens, and the bevel for the groove */
  sides: { bevel?: Value; dihedral: Value; opening: Value; side: string }[];
}

/** Square pipe cut: Marks a true square cut round a pipe, and parts its girth into equal lines. */
export interface PipeWrapResults {
  /** Girth, m */
  girth: Value;
  /** A tape round it reads, m */
  tape: Value;
  /** Lines apart, by tape, m */
  spacing: Value;
  /** Strip, at least as wide as, m */
  wide: Value;
  /** Strip, end to end, m */
  printed: Value;
  /** Your strip */
  strip?: "does" | "narrow" | "short";
  /** Strips like yours */
  strips?: Value;
  /** Lines */
  rows: { line: string; round: Value }[];
}

/** Print asks for the templates of a layout as a file. */
export interface Print {
  calculator: string;
  /** what is entered, as for the calculator */
  input: unknown;
  /** its key; all of them without one, on paper alone */
  template?: string;
  /** "pdf", "dxf" or "svg" */
  as: string;
  /** of a pdf: "a4" or "letter" */
  paper?: string;
  /** whose it is, on paper */
  name?: string;
  /** as people write it */
  date?: string;
}

/** Printed is a file: all of it is text, a PDF in ASCII. */
export interface Printed {
  /** "pipe-saddle-branch.dxf" */
  name: string;
  type: string;
  data: string;
}

/**
 * ReadPart is what was read off a part, in whole micrometres as the journal has
 * it; 0 for what was not read.
 */
export interface ReadPart {
  /** tip or electrode */
  slot: string;
  /** the tip's bore when new */
  new: number;
  dmax: number;
  dmin: number;
  /** as the photo gauge told it */
  error: number;
  pit: number;
  insert: number;
}

/** Rehearsed answers a step of the rehearsal: whether another one follows. */
export interface Rehearsed {
  more: boolean;
}

/** Let a piece go: Follows a piece through its cuts: what holds it after each, where it would tip or fall, and which cut comes last. */
export interface ReleasePlanResults {
  /** In short */
  verdict: string;
  /** Last cut */
  last?: string;
  /** The most that a hold may carry, kg */
  heaviest?: Value;
  /** That one is */
  heaviest_at?: string;
  /** Statics say */
  says: "holds" | "other-order" | "edge" | "unknown" | "over" | "none";
  /** Order */
  order?: string;
  /** Hold it here first */
  hold_here?: string;
  /** When it springs */
  spring_says?: string;
  /** All of it balances at, m */
  balance_at: Value;
  /** In the end each hold carries */
  loads: { hold: string; least: Value; most: Value; pull?: Value }[];
  /** After each cut */
  after: { carried?: string; cut: string; fate: string; piece: string }[];
}

/** Report is the answer to one batch. */
export interface Report {
  state: State;
  level: number;
  running: number;
  arcs: Heard[];
  /** ms that were masked since the reset */
  hidden: number;
  /** at the end of a calibration cut */
  taught?: Taught;
}

/** One result, of which its declaration is not known. */
export type Result = Value | string | boolean | Row[];

/** ResultDescription is a result as the phone reads it. */
export interface ResultDescription {
  key: string;
  label: string;
  kind: Kind;
  main?: boolean;
  /** how the words of a result, or the columns of a table, are shown */
  choices?: Choice[];
}

/** What each calculator tells. */
export interface Results {
  "air-flow": AirFlowResults;
  "air-hose": AirHoseResults;
  "air-tank": AirTankResults;
  "air-water": AirWaterResults;
  "arc-offsets": ArcOffsetsResults;
  "bevel-cut": BevelCutResults;
  "bracket-develop": BracketDevelopResults;
  calibration: CalibrationResults;
  "circle-hole": CircleHoleResults;
  convert: ConvertResults;
  "cut-plan": CutPlanResults;
  divide: DivideResults;
  duty: DutyResults;
  "electrode-wear": ElectrodeWearResults;
  "eye-shade": EyeShadeResults;
  "face-grade": FaceGradeResults;
  "fault-rank": FaultRankResults;
  "fire-watch": FireWatchResults;
  "frame-lengths": FrameLengthsResults;
  fume: FumeResults;
  gauge: GaugeResults;
  generator: GeneratorResults;
  gouge: GougeResults;
  "guide-offset": GuideOffsetResults;
  "job-cost": JobCostResults;
  "job-plan": JobPlanResults;
  "may-i-cut": MayICutResults;
  "nest-strip": NestStripResults;
  "noise-dose": NoiseDoseResults;
  "part-life": PartLifeResults;
  "photo-gauge": PhotoGaugeResults;
  "piece-weight": PieceWeightResults;
  "pipe-mitre": PipeMitreResults;
  "pipe-saddle": PipeSaddleResults;
  "pipe-wrap": PipeWrapResults;
  "release-plan": ReleasePlanResults;
  "rig-table": RigTableResults;
  "site-check": SiteCheckResults;
  spares: SparesResults;
  "square-up": SquareUpResults;
  supply: SupplyResults;
  "tip-wear": TipWearResults;
  "travel-pace": TravelPaceResults;
  "trial-strips": TrialStripsResults;
  "work-lead": WorkLeadResults;
}

/** Rig table: The cut plan for a row of thicknesses, of one rig and metal. Print it and keep it in the truck. */
export interface RigTableResults {
  /** By thickness */
  rows: { current?: Value; grade: string; kerf?: Value; pace?: Value; pressure?: Value; speed?: Value; start?: string; thickness: Value; tip?: Value }[];
  /** Cuts clean up to, m */
  limit_clean: Value;
  /** Severs up to, m */
  limit_sever: Value;
  /** Pierces up to, m */
  limit_pierce: Value;
  /** It rests on */
  standing: string;
  /** How sure */
  confidence: string;
}

/** One row of a table, of which its declaration is not known. */
export interface Row {
  [key: string]: Result;
}

/** RowsDescription is how the rows of a list are entered and shown. */
export interface RowsDescription {
  /** "Cut", as in "Cut 2" */
  name: string;
  /** the row in words: its fields in braces, in parts between dots; {pierces|pierce|pierces} counts, {shape?} is told unless it is the usual one. A part with nothing in it is left out */
  shown: string;
  /** fields that a text gives without their keys, in this order */
  bare?: string[];
  /** the order matters: a row can be moved */
  ordered?: boolean;
  /** rows, MostRows if left out */
  most: number;
  fields: FieldDescription[];
}

/** Said are the texts in the order of the values. */
export interface Said {
  texts: string[];
}

/**
 * SayInput asks for the texts of values of one quantity, for pages that draw
 * or list them at once.
 */
export interface SayInput {
  quantity: string;
  /** unit of the values; Bare if left out */
  in: string;
  /** unit to print in on a metric device */
  bare: string;
  /** unit to print in on a US device */
  us: string;
  /** metric or us */
  units: string;
  /** unit.Sort: how finely they are told */
  sort: string;
  /** at most a thousand */
  values: number[];
}

/**
 * Sign is something that a user can see or say without a check. Leak is how
 * often it shows with none of the causes, by the authors' judgement.
 */
export interface Sign {
  key: string;
  label: string;
  /** stop at once: what to do before anything is looked for */
  stop?: string;
  /** what to do at once, though the search goes on */
  now?: string;
  /** why this is no fault at all */
  noFault?: string;
  /** what is so, and is no trouble by itself */
  fact?: boolean;
}

/**
 * SignGroup is signs under what a person would say of them, so few that they
 * are seen at once.
 */
export interface SignGroup {
  key: string;
  label: string;
  /** the sign whose drawing stands for all */
  picture: string;
  /** those that are no fault last */
  signs: string[];
}

/**
 * SignPicture is the small picture of a sign, in paths on a ground 96 wide and 60
 * high. The words beside it say all.
 */
export interface SignPicture {
  /** the things */
  thin: string;
  /** what is wrong with them */
  heavy?: string;
}

/** What can I cut here?: Do this site's air and power hold for the planned cut? It says what gives out first, what would help, and what can be cut here. */
export interface SiteCheckResults {
  /** Verdict */
  verdict: "ok" | "tight" | "fails" | "doubt" | "unknown";
  /** In short */
  say: string;
  /** This rig */
  grade: "clean" | "rough" | "none";
  /** Gives out first */
  binding: "hose" | "compressor" | "tank" | "cord" | "volts" | "breaker" | "generator" | "duty" | "thickness" | "tip" | "electrode";
  /** To spare there, 1 */
  margin: Value;
  /** Air */
  air: "ok" | "tight" | "fails" | "doubt" | "unknown";
  /** Power */
  power: "ok" | "tight" | "fails" | "doubt" | "unknown";
  /** Duty */
  duty: "ok" | "tight" | "fails" | "doubt" | "unknown";
  /** Parts */
  parts: "ok" | "tight" | "fails" | "doubt" | "unknown";
  /** Holds here, as far as it is known */
  here: { current: Value; for: string; grade: string; pressure?: Value; say: string; speed: Value; thickness: Value; tip: string }[];
  /** Not known */
  unknowns: { field: string; group: string; how: string; what: string }[];
  /** Where that comes from */
  from?: string;
  /** All that was checked */
  checks: { because: string; check: string; group: string; margin: Value; verdict: string }[];
  /** What would help */
  remedies: { check: string; do: string; field: string; value: string }[];
  /** Current, A */
  current?: Value;
  /** Air pressure, while it flows, Pa */
  pressure?: Value;
  /** Travel speed, m/s */
  speed?: Value;
  /** Rhythm, by plate and air: cut, s */
  arc_on?: Value;
  /** then rest, s */
  arc_rest?: Value;
  /** Largest current that holds, A */
  largest_current?: Value;
  /** Cut for, s */
  cut?: Value;
  /** then wait, s */
  wait?: Value;
  /** The longest cut takes, s */
  cut_time: Value;
  /** Drain the machine's trap every, s */
  drain?: Value;
  /** Water class before the trap (ISO 8573-1) */
  water_class?: string;
  /** Air while the valve is open, m³/s */
  demand?: Value;
  /** Air valve open, 1 */
  valve_open: Value;
}

/**
 * Sizes are what a rig's fields say of its parts, in millimetres as drawings
 * take them, by the drawing and its parameter; nothing where they do not say.
 */
export type Sizes = Record<string, Record<string, number>>;

/** Spares to carry: Find how many tips and electrodes to carry for a job, and what to buy. */
export interface SparesResults {
  /** Carry */
  carry: string;
  /** Buy */
  buy?: string;
  /** What you have is enough in, 1 */
  with_stock?: Value;
  /** Runs short first */
  short?: string;
  /** That costs, money */
  cost?: Value;
  /** What to carry is enough in, 1 */
  enough: Value;
  /** Tip and electrode both last the job in, 1 */
  both_last: Value;
  /** Spare tips */
  tips: Value;
  /** Spare electrodes */
  electrodes: Value;
  /** Tips used up, on average */
  tips_used: Value;
  /** Electrodes used up, on average */
  electrodes_used: Value;
  /** Part by part */
  parts: { buy?: Value; carry: Value; have?: Value; part: string }[];
  /** Rests on */
  rests_on: string;
}

/** Square up: Tells the diagonal of a square corner or frame, and which way to move a crooked one. */
export interface SquareUpResults {
  /** In short */
  verdict?: string;
  /** A square one has the diagonal, m */
  should_be: Value;
  /** It is */
  says?: "square" | "out" | "sides";
  /** Out of square by, m */
  out?: Value;
  /** Off a right angle by, rad */
  angle_off?: Value;
  /** Known by the tape to, m */
  doubt?: Value;
}

/** State is what is heard. */
export type State = "air" | "arc" | "masked" | "other" | "quiet";

/** Stop is a stop as a page needs it to have it cleared. */
export interface Stop {
  key: string;
  name: string;
  /** who may clear it */
  by: string;
  /** what may have been done about it */
  ways: string[];
}

/**
 * Suggested is the answer that a reading suggests to a step of a guide: good,
 * worn, change or unsure; "" where it suggests none.
 */
export interface Suggested {
  answer: string;
}

/** Cord and socket: Tells the volts that are left at the machine behind a cord, and the conductor that it takes. */
export interface SupplyResults {
  /** Volts at the machine, V */
  volts_at_machine: Value;
  /** Lost in the cord, 1 */
  percent: Value;
  /** Volts lost, V */
  drop: Value;
  /** Against 3 % and 5 % */
  verdict: string;
  /** Current drawn, A */
  current: Value;
  /** Thinnest conductor for 3 %, by volts alone */
  size_for_3: string;
  /** Thinnest conductor for 5 %, by volts alone */
  size_for_5: string;
  /** This cord reaches, for 3 %, m */
  reach_for_3: Value;
  /** This cord reaches, for 5 %, m */
  reach_for_5: Value;
  /** Largest current through it, for 3 %, A */
  current_for_3: Value;
  /** Largest current through it, for 5 %, A */
  current_for_5: Value;
  /** Largest cutting current here, A */
  largest_cutting?: Value;
  /** Volts lost by the K form, V */
  k_drop?: Value;
  /** Heat in the cord, W */
  heat: Value;
  /** Factor of NEC 630.11(A) */
  factor?: Value;
  /** Supply conductors must carry, A */
  ampacity_needed?: Value;
  /** Effective supply current, A */
  effective_current?: Value;
  /** Largest overcurrent device (NEC 630.12), A */
  breaker_most: Value;
  /** Breaker against the effective current */
  breaker_verdict?: "ok" | "tight" | "fails" | "doubt" | "unknown";
  /** Volts that may still be lost, 1 */
  volts_margin?: Value;
}

/** System is a set of units to print in. */
export type System = string;

/**
 * Taught is what a calibration cut says of one torch, heard by one phone: a few
 * figures and no sound. The zero value is none.
 */
export interface Taught {
  /** of the arc, dB */
  level: number;
  /** high minus low */
  tilt: number;
  flat: number;
  /** of the air that blew on, below the arc; 0 if none was heard */
  drop: number;
  /** of the place */
  floor: number;
}

/** Tip wear: Judge the bore of a tip, and see what wear costs you in thickness, speed and air. */
export interface TipWearResults {
  /** Tip */
  verdict: string;
  /** Because */
  why: string;
  /** Grown by, 1 */
  growth: Value;
  /** Oval by, 1 */
  oval?: Value;
  /** Of its limit used, 1 */
  used: Value;
  /** Thickness left of a new tip's, 1 */
  capacity: Value;
  /** Speed left of a new tip's, 1 */
  speed_left?: Value;
  /** Severs now, at that speed, m */
  severs: Value;
  /** With a new tip, m */
  severs_new: Value;
  /** Current in the bore, A/m² */
  density: Value;
  /** In a new bore, A/m² */
  density_new: Value;
  /** More air through the bore, 1 */
  more_air: Value;
  /** Kerf, about, m */
  kerf: Value;
  /** Kerf of a new tip, m */
  kerf_new: Value;
  /** Change tip and electrode together */
  change_both: boolean;
  /** Arc time left, s */
  minutes_left?: Value;
  /** At least, s */
  minutes_low?: Value;
  /** At most, s */
  minutes_high?: Value;
  /** Starts left */
  starts_left?: Value;
  /** The job ahead */
  job?: string;
  /** Grown at its end by, 1 */
  job_growth?: Value;
  /** Growth of a start, 1 */
  per_start?: Value;
  /** Growth of an arc minute, 1 */
  per_minute?: Value;
  /** Scatter of one reading, 1 */
  deviation?: Value;
  /** Readings it rests on */
  rests_on?: Value;
}

/**
 * Together is one sentence that answers several fields, for one tap. It takes
 * nothing for granted: whoever taps it has read what it says.
 */
export interface Together {
  /** what the fields have in common */
  title: string;
  /** the sentence */
  label: string;
  /** field → word */
  says: Record<string, string>;
}

/** Travel pace: Turns a travel speed into a count between chalk marks. Turns a timed pass into a speed to compare with the plan. */
export interface TravelPaceResults {
  /** From mark to mark, s */
  beat: Value;
  /** Pace, s/m */
  pace: Value;
  /** Speed of the pass, m/s */
  passed?: Value;
  /** Against the plan, 1 */
  off?: Value;
  /** Verdict */
  verdict?: string;
}

/** Trial strips: Make three short cuts in scrap, at 0.8, 1 and 1.2 times the plan. Timed and judged, they calibrate rig and hand. */
export interface TrialStripsResults {
  /** The three strips */
  strips: { passed?: Value; share: Value; speed: Value; strip: string; time: Value; verdict?: string }[];
  /** Calibration */
  calibration: Value;
  /** It may be as little as */
  calibration_low?: Value;
  /** or as much as */
  calibration_high?: Value;
  /** Just severs at, m/s */
  speed_max: Value;
  /** Next, go at, m/s */
  next_speed: Value;
  /** Measured kerf, m */
  kerf?: Value;
  /** Strips it rests on */
  cuts: Value;
}

/** Error is a problem that may be shown to a person as it stands. */
export interface Trouble {
  kind: TroubleKind;
  /** key of the field to blame, if one is */
  field?: string;
  /** what was wrong, with what was read */
  msg: string;
  /** what is allowed, or what to do */
  hint?: string;
  /** seconds to wait before trying again */
  retry?: number;
  /** further fields with troubles of their own */
  also?: Trouble[];
}

/** Kind says what sort of trouble it is, in a word that programs can compare. */
export type TroubleKind = "busy" | "conflict" | "cut" | "disk-full" | "forbidden" | "internal" | "malformed" | "missing" | "no-token" | "not-found" | "old-app" | "range" | "refused" | "revoked" | "rewound" | "slow-down" | "too-large" | "unit" | "unknown" | "wrong-crew";

/** Usual is a default as it is shown in each system. */
export interface Usual {
  metric: string;
  us: string;
}

/** Value is a number with its unit and its texts. */
export interface Value {
  value: number;
  unit: string;
  text: string;
  /** in the other system, where it differs */
  also?: string;
  /** of a result that is told as a range, in SI */
  low?: number;
  high?: number;
}

/** ValueRead is what the text means. */
export interface ValueRead {
  value: number;
  unit: string;
  text: string;
  /** in the other system, where it differs */
  also?: string;
  /** of a result that is told as a range, in SI */
  low?: number;
  high?: number;
  /** the value in the unit In, rounded */
  whole?: number;
}

/** Work lead and clamp: See the volts lost in the work lead and its clamp, against the usual 4 V. */
export interface WorkLeadResults {
  /** Volts lost, V */
  drop: Value;
  /** Against 4 V */
  verdict: "ok" | "over";
  /** of that in the lead, V */
  lead_drop: Value;
  /** of that in the clamp, V */
  clamp_drop: Value;
  /** Resistance of the lead, Ω */
  resistance: Value;
  /** Resistance of the clamp, Ω */
  clamp_resistance: Value;
  /** Heat in the lead, W */
  lead_heat: Value;
  /** Heat in the clamp, W */
  clamp_heat: Value;
  /** This lead reaches, within 4 V, m */
  reach: Value;
}
