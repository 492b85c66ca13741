// Solves small soak days to proven optimality: first the most that can be served,
// urgent plants before all others; then the fewest visits that serve as much;
// then the earliest time at which the hands are free with both.
//   node solve.mjs [first [last]] < instances.json > answers.json
import fs from "node:fs";
import highs from "highs";
import { build } from "./model.mjs";

const exactly = { mip_rel_gap: 0, mip_abs_gap: 0.01, mip_feasibility_tolerance: 1e-7 };
const roughly = { mip_rel_gap: 0.1 };

// A solver that has solved many programs runs out of memory: each gets its own.
async function minimise(model, goal, options) {
  const answer = (await highs()).solve(model.m.text(goal), options);
  if (answer.Status !== "Optimal") throw new Error(`not solved: ${answer.Status}`);
  return Math.round(answer.ObjectiveValue);
}

// worth of a plant in hundredths: an urgent one is worth more than all thirst.
function worth(day) {
  const thirst = (p) => Math.round(p.thirst * 100);
  const all = day.plants.reduce((s, p) => s + thirst(p), 0);
  return (p) => thirst(p) + (p.urgent ? all : 0);
}

async function solve(day) {
  const end = day.hours.at(-1).to, of = worth(day);
  const served = (model) => model.plants.map((p) => [of(p), `z_${p.i}`]);
  const loads = (model) => model.loads.map((k) => [1, `u_${k}`]);
  const nothing = { name: day.name, worth: 0, visits: 0, hands_free: 0 };
  const all = build(day, end);
  if (all.plants.length === 0) return nothing;
  const most = -(await minimise(all, served(all).map(([c, v]) => [-c, v]), exactly));
  if (most === 0) return nothing;

  all.m.row(served(all), ">=", most - 0.5);
  const few = await minimise(all, loads(all), exactly);
  all.m.row(loads(all), "<=", few);
  const by = await minimise(all, [[1, "C"]], roughly);
  const last = build(day, by + 1); // a shorter horizon makes a tighter program
  last.m.row(served(last), ">=", most - 0.5);
  last.m.row(loads(last), "<=", few);
  const free = await minimise(last, [[1, "C"]], exactly);
  return { name: day.name, worth: most / 100, visits: 2 * few, hands_free: free };
}

const days = JSON.parse(fs.readFileSync(0, "utf8"));
const first = Number(process.argv[2] ?? 1), last = Number(process.argv[3] ?? days.length);
const answers = [];
for (const day of days.slice(first - 1, last)) {
  const began = Date.now();
  const answer = await solve(day);
  answers.push(answer);
  console.error(JSON.stringify(answer), `${day.plants.length} plants, ${day.vessels.length} vessels, ${(Date.now() - began) / 1000} s`);
}
console.log("[\n" + answers.map((a) => JSON.stringify(a)).join(",\n") + "\n]");
