// A soak day as a mixed-integer program, in the LP format that solvers read. It
// is written from the rules alone and shares nothing with the planner. Every
// plant has its own time in and out; nothing is assumed of the order.

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

const sum = (terms) => terms.filter(([c]) => c !== 0).map(([c, v]) => `${c < 0 ? "-" : "+"} ${Math.abs(c)} ${v}`).join(" ");

// Day is the program of a day whose handling is over by a horizon.
// x_i_v_l puts plant i in load l of vessel v; a_i and b_i are when the hands
// start to put it in and to take it out; C is when they are free.
class Day {
  constructor(day, horizon) {
    this.m = new Program();
    this.day = day;
    this.end = horizon;
    // a plant is in the water at least while the hands put it in
    this.plants = day.plants.map((p, i) => ({ ...p, i, least: Math.max(p.from, p.hands_in) }));
    for (const p of this.plants) {
      p.firstOut = p.least;
      p.lastOut = Math.min(horizon, day.dry_by - p.dry) - p.hands_out;
      p.lastIn = p.lastOut - p.least;
    }
    this.plants = this.plants.filter((p) => p.lastIn >= 0 && p.to >= p.least && day.vessels.some((v) => takes(v, p)));
    this.slots = day.vessels.flatMap((v, n) => upTo(this.mostLoads(v)).map((l) => ({ v: n, l })));
    this.rows();
  }

  // mostLoads that a vessel could have, each as long as its shortest soak.
  mostLoads(vessel) {
    const own = this.plants.filter((p) => takes(vessel, p)).map((p) => p.least + p.hands_out).sort((a, b) => a - b);
    let time = 0, n = 0;
    for (const s of own) if ((time += s) <= this.end) n++;
    return n;
  }

  placesOf(p) {
    return this.slots.filter(({ v }) => takes(this.day.vessels[v], p));
  }

  rows() {
    this.m.bounds.push(` 0 <= C <= ${this.end}`);
    for (const p of this.plants) this.plant(p);
    for (const p of this.plants) for (const q of this.plants) if (p.i < q.i) this.pair(p, q);
    this.day.vessels.forEach((vessel, v) => this.vessel(vessel, v));
    this.m.row([[1, "C"], ...this.plants.map((p) => [-(p.hands_in + p.hands_out), `z_${p.i}`])], ">=", 0);
  }

  // plant: served in one place or none; its window; dry in time (by lastOut).
  plant(p) {
    const { m } = this, z = m.binary(`z_${p.i}`), a = `a_${p.i}`, b = `b_${p.i}`;
    m.row([...this.placesOf(p).map(({ v, l }) => [1, m.binary(`x_${p.i}_${v}_${l}`)]), [-1, z]], "=", 0);
    m.row([[1, b], [-1, a]], ">=", p.least);
    m.row([[1, b], [-1, a]], "<=", p.to);
    m.row([[1, "C"], [-1, b], [-(p.lastOut + p.hands_out), z]], ">=", -p.lastOut);
    m.bounds.push(` 0 <= ${a} <= ${p.lastIn}`, ` ${p.firstOut} <= ${b} <= ${p.lastOut}`);
    this.within(a, p.hands_in, z, p.lastIn);
    this.within(b, p.hands_out, z, p.lastOut);
  }

  // within: a piece of handling of a plant that is served lies in one stretch
  // of hours.
  within(at, need, z, last) {
    const { m, day } = this;
    if (day.hours.length === 1) return;
    m.row([...day.hours.map((_, h) => [1, m.binary(`h_${at}_${h}`)]), [-1, z]], "=", 0);
    day.hours.forEach((h, k) => {
      m.row([[1, at], [-h.from, `h_${at}_${k}`]], ">=", 0);
      m.row([[1, at], [last, `h_${at}_${k}`]], "<=", h.to - need + last);
    });
  }

  // before: one piece of handling, of need seconds and starting by lastFirst,
  // is over before another starts, if a binary is 1 (or 0) and both plants are
  // served.
  before(first, need, lastFirst, second, when, is, served) {
    const M = lastFirst + need;
    const off = is ? [[-M, when]] : [[M, when]];
    this.m.row([[1, second], [-1, first], ...off, ...served.map((z) => [-M, z])], ">=", need - M * served.length - (is ? M : 0));
  }

  // oneByOne: two pieces of handling in either order; the binary is 1 when the
  // first is first.
  oneByOne(a, b, order, served) {
    this.m.binary(order);
    this.before(a.at, a.need, a.last, b.at, order, true, served);
    this.before(b.at, b.need, b.last, a.at, order, false, served);
  }

  // pair: the hands do one thing at a time; plants of one load are all in before
  // one comes out, and come out in the order they went in.
  pair(p, q) {
    const { m } = this, served = [`z_${p.i}`, `z_${q.i}`];
    const ins = [p, q].map((t) => ({ at: `a_${t.i}`, need: t.hands_in, last: t.lastIn }));
    const outs = [p, q].map((t) => ({ at: `b_${t.i}`, need: t.hands_out, last: t.lastOut }));
    const [inOrder, outOrder, pq, qp] = ["p", "q", "r", "t"].map((k) => `${k}_${p.i}_${q.i}`);
    this.oneByOne(ins[0], ins[1], inOrder, served);
    this.oneByOne(outs[0], outs[1], outOrder, served);
    this.oneByOne(ins[0], outs[1], pq, served);
    this.oneByOne(ins[1], outs[0], qp, served);
    // what goes in, or comes out, before another plant goes in before it comes out
    m.row([[1, pq], [-1, inOrder]], ">=", 0);
    m.row([[1, pq], [-1, outOrder]], ">=", 0);
    m.row([[1, qp], [1, inOrder]], ">=", 1);
    m.row([[1, qp], [1, outOrder]], ">=", 1);
    const shared = this.placesOf(p).filter(({ v }) => takes(this.day.vessels[v], q));
    if (shared.length === 0) return;
    const together = m.binary(`s_${p.i}_${q.i}`);
    for (const { v, l } of shared) m.row([[1, together], [-1, `x_${p.i}_${v}_${l}`], [-1, `x_${q.i}_${v}_${l}`]], ">=", -1);
    m.row([[1, pq], [-1, together]], ">=", 0);
    m.row([[1, qp], [-1, together]], ">=", 0);
    m.row([[1, inOrder], [-1, outOrder], [1, together]], "<=", 1);
    m.row([[1, outOrder], [-1, inOrder], [1, together]], "<=", 1);
  }

  // vessel: room, company, one load after the other, refills, loads of a fill.
  vessel(vessel, v) {
    const { m } = this;
    const own = this.plants.filter((p) => takes(vessel, p));
    const L = this.slots.filter((s) => s.v === v).length;
    for (const l of upTo(L)) {
      this.load(vessel, v, l, own);
      this.water(vessel, v, l);
    }
    if (L > 0) m.row([[1, "C"], ...upTo(L).flatMap((l) => [[-1, `d_${v}_${l}`], [-vessel.refill, `f_${v}_${l}`]])], ">=", 0);
  }

  // load: from S to E, for d at least; y says whether there is one, k of which
  // company.
  load(vessel, v, l, own) {
    const { m, end } = this, at = `${v}_${l}`;
    m.row([...upTo(4).map((c) => [1, m.binary(`k_${at}_${c}`)]), [-1, m.binary(`y_${at}`)]], "=", 0);
    m.row([...own.map((p) => [p.bulk, `x_${p.i}_${at}`]), [-vessel.room, `y_${at}`]], "<=", 0);
    m.row([[1, `y_${at}`], ...own.map((p) => [-1, `x_${p.i}_${at}`])], "<=", 0);
    for (const p of own) {
      const x = `x_${p.i}_${at}`;
      m.row([[1, `k_${at}_${p.company}`], [-1, x]], ">=", 0);
      m.row([[1, `a_${p.i}`], [-1, `S_${at}`], [-end, x]], ">=", -end);
      m.row([[1, `E_${at}`], [-1, `b_${p.i}`], [-end, x]], ">=", p.hands_out - end);
      m.row([[1, `d_${at}`], [-(p.least + p.hands_out), x]], ">=", 0);
    }
    // litres times seconds: implied, but helps the solver
    m.row([[vessel.room, `d_${at}`], ...own.map((p) => [-p.bulk * (p.least + p.hands_out), `x_${p.i}_${at}`])], ">=", 0);
    m.row([[1, `E_${at}`], [-1, `S_${at}`], [-1, `d_${at}`]], ">=", 0);
    m.bounds.push(` 0 <= S_${at} <= ${end}`, ` 0 <= E_${at} <= ${end}`);
  }

  // water: f says that load l has a fill drawn for it. Every vessel stands empty
  // at first.
  water(vessel, v, l) {
    const { m } = this, at = `${v}_${l}`, before = `${v}_${l - 1}`;
    const f = m.binary(`f_${at}`), y = `y_${at}`;
    m.row([[1, `S_${at}`], [-vessel.refill, f], ...(l > 0 ? [[-1, `E_${before}`]] : [])], ">=", 0);
    m.row([[1, f], [-1, y]], l === 0 ? "=" : "<=", 0);
    if (l === 0) return;
    m.row([[1, y], [-1, `y_${before}`]], "<=", 0);
    m.row([[1, f], [-1, `k_${at}_3`]], ">=", 0);
    m.row([[1, f], [-1, `k_${before}_3`], [-1, y]], ">=", -1);
    m.row([...[1, 2, 3].flatMap((c) => [[c, `k_${at}_${c}`], [-c, `k_${before}_${c}`]]), [3, f], [-3, y]], ">=", -3);
    if (vessel.loads > 0 && l >= vessel.loads) {
      m.row([...upTo(vessel.loads).map((k) => [1, `f_${v}_${l - k}`]), [-1, y]], ">=", 0);
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
