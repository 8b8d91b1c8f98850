// Moist air by PsychroLib. Reads
// [{inlet, rh, altitude, tank, tankPressure, machine, machinePressure}, …]
// (°C, shares, m, Pa gauge) and writes, for each, the pressure around, the
// saturation pressure and humidity ratio of the air taken in, what saturated air
// holds in the tank and at the machine, and the pressure dew point in the hose.
const psy = require(process.argv[2]);
psy.SetUnitSystem(psy.SI);

let text = "";
process.stdin.on("data", (part) => { text += part; });
process.stdin.on("end", () => console.log(JSON.stringify(JSON.parse(text).map(state))));

function state(q) {
  const around = psy.GetStandardAtmPressure(q.altitude);
  const tank = around + q.tankPressure;
  const machine = around + q.machinePressure;
  const w = psy.GetHumRatioFromRelHum(q.inlet, q.rh, around);
  const atTank = Math.min(w, psy.GetSatHumRatio(q.tank, tank));
  const atMachine = Math.min(atTank, psy.GetSatHumRatio(q.machine, machine));
  const vapour = tank * atTank / (0.621945 + atTank);
  return {
    around, w, atTank, atMachine,
    saturation: psy.GetSatVapPres(q.inlet),
    // The solver takes a wet bulb only as its first guess.
    dew: psy.GetTDewPointFromVapPres(q.tank, vapour),
  };
}
