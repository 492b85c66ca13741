// Draws small soak days, for solve.mjs to solve and for the planner to be held
// against: node draw.mjs > instances.json
// Times are seconds from the start of the day. The numbers are guesses after
// growers' habits.

let state = 20260110;

// draw is a whole number from low to high (Park & Miller 1988, Communications
// of the ACM 31:1192-1201).
function draw(low, high) {
  state = (state * 48271) % 2147483647;
  return low + (state % (high - low + 1));
}

const pick = (list) => list[draw(0, list.length - 1)];

// windows in minutes: dips, short, long and deep soaks, one without any leeway
const windows = [[2, 20], [5, 15], [30, 180], [30, 180], [30, 90], [40, 40], [60, 120], [120, 240], [180, 240]];

function plant(id, company) {
  const [least, most] = pick(windows);
  return {
    id,
    least: least * 60,
    most: most * 60,
    bulk: draw(2, 12) / 4,
    pull: pick([0, 12, 12, 20]),
    in: pick([10, 10, 15]),
    out: pick([15, 15, 30]),
    lay: pick([8, 8, 10]),
    company,
    fed: false,
    urgent: draw(0, 11) === 0,
    thirst: draw(12, 60) / 100,
    dry: draw(60, 300) * 60,
  };
}

function vessel(fed) {
  return { room: draw(16, 40) / 4, fill: pick([60, 180, 300, 600]), rinse: pick([60, 120]), loads: pick([1, 2, 2]), last_in: pick([0, 7200]), standing: draw(0, 2) === 0, fed };
}

// plants of a day, over and over; the large ones take the solver minutes
const sizes = [4, 5, 6, 7, 8, 5, 6, 7, 8, 9, 6, 7, 8, 5, 9];

// Every third day is too short for all; every fourth has a pause; every fifth
// has all companies; every sixth has fed water.
function instance(n) {
  const plants = sizes[n % sizes.length];
  const vessels = 1 + (Math.floor(n / 3) % 3);
  const short = n % 3 === 2;
  const length = (short ? draw(60, 180) : 600) * 60;
  const hours = n % 4 === 3
    ? [{ from: 0, to: Math.floor(length * 0.4) }, { from: Math.floor(length * 0.4) + 1800, to: length }]
    : [{ from: 0, to: length }];
  const out = {
    name: `day ${n + 1}`,
    hours,
    dry_by: short ? length + draw(120, 300) * 60 : 780 * 60,
    most_loads: pick([2, 3]),
    least_plants: pick([1, 2, 2, 3]),
    least_share: 0.33,
    vessels: [],
    plants: [],
  };
  for (let v = 0; v < vessels; v++) out.vessels.push(vessel(n % 6 === 5 && v > 0 && v === vessels - 1));
  for (let i = 0; i < plants; i++) {
    const company = n % 5 === 4 && i < 3 ? pick([0, 1, 2, 3]) : 0;
    const p = plant(i + 1, company);
    p.fed = n % 6 === 5 && vessels > 1 && company === 0 && i % 4 === 0;
    out.plants.push(p);
  }
  return out;
}

const days = [];
for (let n = 0; n < 60; n++) days.push(instance(n));
console.log("[\n" + days.map((d) => JSON.stringify(d)).join(",\n") + "\n]");
