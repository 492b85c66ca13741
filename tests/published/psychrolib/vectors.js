// Prints 200 points of moist air worked out by PsychroLib (MIT; ASHRAE Handbook-Fundamentals 2017, ch. 1), for the checks in
// tests/published. To see that vectors.csv still stands:
//
//   cd tests/published/psychrolib && npm ci --silent && node vectors.js | diff - vectors.csv
"use strict";

const psychro = require("psychrolib");

const points = 200;

// The points fill temperature, humidity and pressure evenly and are the same every time: multiples of the powers of the root
// of x^4 = x + 1, less their whole parts.
const root = 1.2207440846057596;
const share = (i, power) => (i * Math.pow(root, -power)) % 1;

// Below the triple point the library's bulb and dew are of ice; ours are of water everywhere, so there is nothing to compare.
const overWater = (celsius) => (celsius > 0.02 ? celsius.toFixed(3) : "");

function line(i) {
  const celsius = Number((45 * share(i, 1)).toFixed(2));
  const humidity = Number((0.05 + 0.9 * share(i, 2)).toFixed(4));
  const pascal = Math.round(75000 + 27000 * share(i, 3));
  const ratio = psychro.GetHumRatioFromRelHum(celsius, humidity, pascal);
  return [
    celsius.toFixed(2),
    humidity.toFixed(4),
    pascal,
    psychro.GetSatVapPres(celsius).toFixed(2),
    psychro.GetVaporPressureDeficit(celsius, ratio, pascal).toFixed(2),
    overWater(psychro.GetTWetBulbFromRelHum(celsius, humidity, pascal)),
    overWater(psychro.GetTDewPointFromRelHum(celsius, humidity)),
    ((1000 * ratio) / psychro.GetMoistAirVolume(celsius, ratio, pascal)).toFixed(4),
  ].join(",");
}

psychro.SetUnitSystem(psychro.SI);
console.log("air_c,rh,pressure_pa,saturation_pa,deficit_pa,wet_bulb_c,dew_point_c,vapour_g_m3");
for (let i = 1; i <= points; i++) {
  console.log(line(i));
}
