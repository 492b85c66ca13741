// A soak day as a mixed-integer program, in the LP format that solvers read. It
// is written from the rules alone and shares nothing with the planner. Every
// plant has its own time in and out, every load its own vessel and water; loads
// are numbered in the order in which they go in, and nothing else is assumed.

const upTo = (n) => [...Array(n).keys()];

// Program collects rows.
class Program {
  rows = [];
  binaries = new Set();
  bounds = [];
  row(terms, sense, right) {
    this.rows.push(`${sum(terms)} ${sense} ${right}`);
  }
  binary(v) {
    this.binaries.add(v);
    return v;
  }
  text(goal) {
    return ["Minimize", ` goal: ${sum(goal)}`, "Subject To", ...this.rows.map((r, i) => ` r${i}: ${r}`),
      "Bounds", ...this.bounds, "Binary", ...[...this.binaries].map((b) => ` ${b}`), "End"].join("\n");
  }
}

// sum writes terms, those of one variable added up.
function sum(terms) {
  const all = new Map();
  for (const [c, v] of terms) all.set(v, (all.get(v) ?? 0) + c);
  return [...all].filter(([, c]) => c !== 0).map(([v, c]) => `${c < 0 ? "-" : "+"} ${Math.abs(c)} ${v}`).join(" ");
}

const minus = (terms) => terms.map(([c, v]) => [-c, v]);

// Day is the program of a day whose work is over by a horizon. For load k:
// u_k it is there, x_i_k plant i is in it, w_k_v it is in vessel v, c_k_n its
// company; P_k, I_k, O_k the hands start to pull it, to put it in, to take it
// out; W_k the tap starts to fill for it. C is when the hands are free.
class Day {
  constructor(day, horizon) {
    this.m = new Program();
    this.day = day;
    this.end = horizon;
    this.M = horizon;
    this.plants = day.plants.map((p, i) => ({ ...p, i }));
    for (const p of this.plants) p.lastOut = Math.min(horizon, day.dry_by - p.dry) - p.out - p.lay;
    this.plants = this.plants.filter((p) => p.lastOut >= p.least && day.vessels.some((v) => takes(v, p)));
    const apart = this.plants.filter((p) => p.company > 0 || p.fed).length;
    this.loads = upTo(Math.min(this.plants.length, day.most_loads + apart));
    this.ordinary = this.plants.length - apart;
    this.due = day.plants.filter((p) => p.company === 0 && !p.fed).length;
    this.rows();
  }

  rows() {
    this.m.bounds.push(` 0 <= C <= ${this.end}`);
    for (const k of this.loads) this.load(k);
    for (const p of this.plants) this.plant(p);
    for (const p of this.plants) for (const q of this.plants) if (p.i < q.i) this.pair(p, q);
    for (const k of this.loads) for (const m of this.loads) if (k < m) this.both(k, m);
    for (const m of this.loads) this.water(m);
    this.m.row(this.loads.map((k) => [1, `a_${k}`]), "<=", this.day.most_loads);
    const work = this.loads.flatMap((k) => [...this.length("P", k), ...this.length("I", k), ...this.length("O", k)]);
    this.m.row([[1, "C"], ...minus(work)], ">=", 0);
  }

  // length of a piece of the hands' work: of taking out, with the rinsing.
  length(what, k) {
    const s = { P: (p) => p.pull, I: (p) => p.in, O: (p) => p.out + p.lay }[what];
    const own = this.plants.map((p) => [s(p), `x_${p.i}_${k}`]);
    return what === "O" ? [...own, [1, `r_${k}`]] : own;
  }

  // out is the length of taking out alone.
  out(k) {
    return this.plants.map((p) => [p.out + p.lay, `x_${p.i}_${k}`]);
  }

  // load: a vessel, a company, its size, the order of its work within hours.
  load(k) {
    const { m, day, M, end } = this, u = m.binary(`u_${k}`);
    m.row([...day.vessels.map((_, v) => [1, m.binary(`w_${k}_${v}`)]), [-1, u]], "=", 0);
    m.row([...upTo(4).map((c) => [1, m.binary(`c_${k}_${c}`)]), [-1, u]], "=", 0);
    if (k > 0) m.row([[1, u], [-1, `u_${k - 1}`]], "<=", 0);
    m.row([[1, u], ...this.plants.map((p) => [-1, `x_${p.i}_${k}`])], "<=", 0);
    // a_k: healthy plants in plain water
    const a = m.binary(`a_${k}`), plain = day.vessels.map((v, n) => [v.fed ? 0 : 1, `w_${k}_${n}`]);
    m.row([[1, a], [-1, `c_${k}_0`], ...minus(plain)], ">=", -1);
    m.row([[1, a], [-1, `c_${k}_0`]], "<=", 0);
    m.row([[1, a], ...minus(plain)], "<=", 0);
    const bulk = this.plants.map((p) => [p.bulk, `x_${p.i}_${k}`]);
    m.row([...bulk, ...day.vessels.map((v, n) => [-v.room, `w_${k}_${n}`])], "<=", 0);
    m.row([...this.plants.map((p) => [1, `x_${p.i}_${k}`]), [-Math.min(day.least_plants, Math.ceil(this.due / day.most_loads)), a]], ">=", 0);
    day.vessels.forEach((v, n) => {
      const smaller = day.vessels.filter((w) => w.fed === v.fed && w.room < v.room).map((w) => w.room);
      if (smaller.length === 0) return;
      const share = day.least_share * v.room, apart = Math.min(share, Math.max(...smaller) + 0.001);
      m.row([...bulk, [-share, `w_${k}_${n}`], [-share, a]], ">=", -share);
      m.row([...bulk, [-apart, `w_${k}_${n}`]], ">=", 0);
    });
    m.bounds.push(` 0 <= r_${k} <= ${Math.max(...day.vessels.map((v) => v.rinse))}`);
    for (const what of ["P", "I", "O"]) {
      m.bounds.push(` 0 <= ${what}_${k} <= ${end}`);
      this.within(`${what}_${k}`, this.length(what, k), 0, u);
    }
    m.row([[1, `I_${k}`], [-1, `P_${k}`], ...minus(this.length("P", k))], ">=", 0);
    m.row([[1, `O_${k}`], [-1, `I_${k}`], ...minus(this.length("I", k))], ">=", 0);
    m.row([[1, "C"], [-1, `O_${k}`], ...minus(this.length("O", k)), [-M, u]], ">=", -M);
  }

  // within: what starts at a time and takes some seconds lies in one stretch of
  // hours, if it is done at all.
  within(at, length, fixed, done) {
    const { m, day, M } = this;
    if (day.hours.length === 1) {
      m.row([[1, at], ...length, [M, done]], "<=", day.hours[0].to - fixed + M);
      return;
    }
    m.row([...day.hours.map((_, h) => [1, m.binary(`h_${at}_${h}`)]), [-1, done]], "=", 0);
    day.hours.forEach((h, n) => {
      m.row([[1, at], [-h.from, `h_${at}_${n}`]], ">=", 0);
      m.row([[1, at], ...length, [M, `h_${at}_${n}`]], "<=", h.to - fixed + M);
    });
  }

  // plant: in one load or none; in and out with it; its window; dry in time.
  plant(p) {
    const { m, day, M } = this, z = m.binary(`z_${p.i}`), a = `s_${p.i}`, b = `e_${p.i}`;
    m.row([...this.loads.map((k) => [1, m.binary(`x_${p.i}_${k}`)]), [-1, z]], "=", 0);
    m.bounds.push(` 0 <= ${a} <= ${this.end}`, ` 0 <= ${b} <= ${p.lastOut}`);
    m.row([[1, b], [-1, a], [-(p.least + M), z]], ">=", -M);
    m.row([[1, b], [-1, a], [M, z]], "<=", p.most + M);
    for (const k of this.loads) {
      const x = `x_${p.i}_${k}`;
      m.row([[1, a], [-1, `I_${k}`], [-M, x]], ">=", -M);
      m.row([[1, a], [-1, `I_${k}`], ...minus(this.length("I", k)), [M, x]], "<=", M - p.in);
      m.row([[1, b], [-1, `O_${k}`], [-M, x]], ">=", -M);
      m.row([[1, b], [-1, `O_${k}`], ...minus(this.out(k)), [M, x]], "<=", M - p.out - p.lay);
      m.row([[1, `c_${k}_${p.company}`], [-1, x]], ">=", 0);
      m.row([...day.vessels.map((v, n) => [takes(v, p) ? 1 : 0, `w_${k}_${n}`]), [-1, x]], ">=", 0);
      // implied, but helps the solver
      m.row([[1, `O_${k}`], [-1, `I_${k}`], [-(p.least - this.drift(p)), x]], ">=", 0);
    }
  }

  // drift is the most by which a plant's soak may be longer than that of the
  // first of its load.
  drift(p) {
    const most = this.plants.reduce((s, q) => s + (q.i === p.i ? 0 : Math.max(0, q.out + q.lay - q.in)), 0);
    return Math.min(most, p.least);
  }

  // pair: plants of one load go in one after the other, and come out in the same
  // order.
  pair(p, q) {
    const { m, M } = this;
    if (p.company !== q.company || p.fed !== q.fed) return;
    const first = m.binary(`o_${p.i}_${q.i}`);
    for (const k of this.loads) {
      const apart = [[-M, `x_${p.i}_${k}`], [-M, `x_${q.i}_${k}`]];
      for (const t of ["s", "e"]) {
        const need = (r) => (t === "s" ? r.in : r.out + r.lay);
        m.row([[1, `${t}_${q.i}`], [-1, `${t}_${p.i}`], [-M, first], ...apart], ">=", need(p) - 3 * M);
        m.row([[1, `${t}_${p.i}`], [-1, `${t}_${q.i}`], [M, first], ...apart], ">=", need(q) - 2 * M);
      }
    }
  }

  // both: the hands do one thing at a time; load k goes in before load n; what two
  // loads in one vessel have to do with each other.
  both(k, n) {
    const { m, day, M } = this, u = `u_${n}`;
    m.row([[1, `I_${n}`], [-1, `I_${k}`], ...minus(this.length("I", k)), [-M, u]], ">=", -M);
    for (const [a, b] of [["P", "P"], ["P", "I"], ["P", "O"], ["I", "P"], ["I", "O"], ["O", "P"], ["O", "I"], ["O", "O"]]) {
      const y = m.binary(`y_${a}${k}_${b}${n}`);
      m.row([[1, `${b}_${n}`], [-1, `${a}_${k}`], ...minus(this.length(a, k)), [-M, y], [-M, u]], ">=", -2 * M);
      m.row([[1, `${a}_${k}`], [-1, `${b}_${n}`], ...minus(this.length(b, n)), [M, y], [-M, u]], ">=", -M);
    }
    // v: in one vessel; s: in one water; t: at one time, as two heaps
    const v = m.binary(`v_${k}_${n}`), s = m.binary(`f_${k}_${n}`), t = m.binary(`t_${k}_${n}`);
    day.vessels.forEach((vessel, w) => {
      m.row([[1, v], [-1, `w_${k}_${w}`], [-1, `w_${n}_${w}`]], ">=", -1);
      for (const [x, z] of [[k, n], [n, k]]) m.row([[1, v], [-1, `w_${x}_${w}`], [1, `w_${z}_${w}`]], "<=", 1);
      if (vessel.loads === 1) m.row([[1, s], [1, `w_${n}_${w}`]], "<=", 1);
      if (vessel.last_in > 0) m.row([[1, `I_${n}`], [-1, `I_${k}`], [M, s], [M, `w_${n}_${w}`]], "<=", vessel.last_in + 2 * M);
      const bulk = this.plants.flatMap((p) => [[p.bulk, `x_${p.i}_${k}`], [p.bulk, `x_${p.i}_${n}`]]);
      const most = 2 * Math.max(...day.vessels.map((x) => x.room));
      m.row([...bulk, [most, t], [most, `w_${n}_${w}`]], "<=", vessel.room + 2 * most);
    });
    m.row([[1, s], [-1, v]], "<=", 0);
    m.row([[1, t], [-1, s]], "<=", 0);
    m.row([[1, s], [-1, u]], "<=", 0);
    for (const j of this.loads) if (k < j && j < n) m.row([[1, s], [1, `v_${k}_${j}`]], "<=", 1);
    // company: never a cleaner one after, the sick alone, two heaps of one
    m.row([...upTo(4).flatMap((c) => [[c, `c_${n}_${c}`], [-c, `c_${k}_${c}`]]), [-3, s]], ">=", -3);
    m.row([...upTo(4).flatMap((c) => [[c, `c_${n}_${c}`], [-c, `c_${k}_${c}`]]), [3, t]], "<=", 3);
    m.row([[1, s], [1, `c_${n}_3`]], "<=", 1);
    // in after the other is out, but for two heaps; rinsed and filled, but in one water
    m.row([[1, `I_${n}`], [-1, `O_${k}`], ...minus(this.out(k)), [-M, v], [M, t]], ">=", -M);
    m.row([[1, `W_${n}`], [-1, `O_${k}`], ...minus(this.length("O", k)), [-M, v], [M, s]], ">=", -M);
  }

  // water: which load is the first of its water, and filled for; which is the last
  // out of it, and rinsed after.
  water(n) {
    const { m, day, M } = this, u = `u_${n}`, g = m.binary(`g_${n}`);
    const before = this.loads.filter((k) => k < n), after = this.loads.filter((k) => k > n);
    m.bounds.push(` 0 <= W_${n} <= ${this.end}`);
    m.row([...before.map((k) => [1, `f_${k}_${n}`]), ...after.map((k) => [1, `f_${n}_${k}`])], "<=", 1);
    day.vessels.forEach((vessel, w) => {
      const first = vessel.standing ? before.map((k) => [1, `v_${k}_${n}`]) : null;
      // g: the tap runs for it
      if (first === null) {
        m.row([[1, g], [-1, `w_${n}_${w}`], ...before.map((k) => [1, `f_${k}_${n}`])], ">=", 0);
      } else {
        for (const [, v] of first) m.row([[1, g], [-1, `w_${n}_${w}`], [-1, v], ...before.map((k) => [1, `f_${k}_${n}`])], ">=", -1);
      }
      m.row([[1, `I_${n}`], [-1, `W_${n}`], [-(vessel.fill + M), g], [-M, `w_${n}_${w}`]], ">=", -2 * M);
      // rinsed after it, unless another of its water comes out later
      m.row([[1, `r_${n}`], [-vessel.rinse, `w_${n}_${w}`], ...after.map((k) => [vessel.rinse, `l_${n}_${k}`]), ...before.map((k) => [vessel.rinse, `l_${n}_${k}`])], ">=", 0);
    });
    m.row([...before.map((k) => [1, m.binary(`l_${n}_${k}`)]), ...after.map((k) => [1, m.binary(`l_${n}_${k}`)])], "<=", 1);
    for (const k of [...before, ...after]) {
      const [x, y] = k < n ? [k, n] : [n, k];
      m.row([[1, `l_${n}_${k}`], [-1, `f_${x}_${y}`]], "<=", 0);
      m.row([[1, `O_${k}`], [-1, `O_${n}`], ...minus(this.out(n)), [-M, `l_${n}_${k}`]], ">=", -M);
    }
    const fill = day.vessels.map((v, w) => [v.fill, `w_${n}_${w}`]);
    this.within(`W_${n}`, fill, 0, g);
    for (const k of before) {
      const y = m.binary(`y_W${k}_W${n}`);
      m.row([[1, `W_${n}`], [-1, `W_${k}`], ...minus(day.vessels.map((v, w) => [v.fill, `w_${k}_${w}`])), [-M, y], [-M, `g_${n}`], [-M, `g_${k}`]], ">=", -3 * M);
      m.row([[1, `W_${k}`], [-1, `W_${n}`], ...minus(fill), [M, y], [-M, `g_${n}`], [-M, `g_${k}`]], ">=", -2 * M);
    }
  }
}

function takes(vessel, p) {
  return p.fed === vessel.fed && p.bulk <= vessel.room;
}

// build is the program of a day, without a goal.
export function build(day, horizon) {
  return new Day(day, horizon);
}
