// Solves small soak days to proven optimality: first the most thirst that can
// be served, then the earliest time at which the hands are free while serving
// that much, then the fewest fills with both.
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

async function solve(day) {
  const end = day.hours.at(-1).to;
  const served = (model) => model.plants.map((p) => [Math.round(p.thirst * 100), `z_${p.i}`]);
  const all = build(day, end);
  if (all.plants.length === 0) return { name: day.name, thirst: 0, hands_free: 0, fills: 0 };
  const thirst = -(await minimise(all, served(all).map(([c, v]) => [-c, v]), exactly));
  if (thirst === 0) return { name: day.name, thirst: 0, hands_free: 0, fills: 0 };

  all.m.row(served(all), ">=", thirst - 0.5);
  const by = await minimise(all, [[1, "C"]], roughly);
  const day2 = build(day, by + 1); // a shorter horizon makes a tighter program
  day2.m.row(served(day2), ">=", thirst - 0.5);
  const free = await minimise(day2, [[1, "C"]], exactly);

  const day3 = build(day, free);
  day3.m.row(served(day3), ">=", thirst - 0.5);
  const fills = await minimise(day3, day3.slots.map(({ v, l }) => [1, `f_${v}_${l}`]), exactly);
  return { name: day.name, thirst: thirst / 100, hands_free: free, fills };
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
