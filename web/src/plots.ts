import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import { markers } from "./markers";
import { marked } from "./numbers";
import { nearest, type DeliverySeries, type Series } from "./series";

export interface Plots {
  /** Shows one moment in all pictures and plots, s before (−) or after contact; undefined shows none. */
  show(t: number | undefined): void;
  /** Told when somebody points at a moment. */
  onPointed: ((t: number | undefined) => void) | undefined;
  remove(): void;
}

type Values = (number | null | undefined)[];
interface Curve { values: Values; low?: Values; high?: Values; x: number[]; number: number; style: number }

const dashes = [[], [8, 4], [2, 3], [10, 3, 2, 3]];

/** Speed, sink and power against distance to go; swing against time; one cursor for them and the pictures. */
export function drawPlots(panel: HTMLElement, series: Series): Plots {
  const marks = markers(panel, series);
  const plots: { plot: uPlot; timeAt: (x: number) => number; xAt: (t: number) => number }[] = [];
  let moving = false;

  const show = (t: number | undefined, from?: uPlot) => {
    if (moving) return;
    moving = true;
    marks.show(t);
    for (const { plot, xAt } of plots) {
      if (plot === from) continue;
      const left = t === undefined ? -10 : plot.valToPos(xAt(t), "x");
      plot.setCursor({ left, top: t === undefined ? -10 : 0 });
    }
    moving = false;
  };
  const answer: Plots = { show, onPointed: undefined, remove: () => undefined };
  const follow = (from: uPlot, t: number | undefined) => {
    if (moving) return;
    show(t, from);
    answer.onPointed?.(t);
  };

  const main = series.deliveries[0];
  if (!main) return answer;
  // Times fall as distance grows.
  const passed = [...main.toGo.t].reverse();
  const byDistance = { timeAt: (d: number) => main.toGo.t[nearest(main.toGo.d, d)]!, xAt: (t: number) => main.toGo.d[passed.length - 1 - nearest(passed, t)]! };
  const byTime = { timeAt: (t: number) => t, xAt: (t: number) => t };

  const add = (name: string, title: string, xTitle: string, curves: Curve[], distance: boolean, empty: string) => {
    const box = panel.querySelector<HTMLElement>(`[data-plot=${name}]`);
    if (!box) return;
    if (curves.length === 0) {
      if (empty) { box.className = "no-plot soft"; box.textContent = empty; }
      else box.hidden = true;
      return;
    }
    const plot = draw(box, title, xTitle, curves, distance, (u, x) => follow(u, x === undefined ? undefined : (distance ? byDistance : byTime).timeAt(x)));
    plots.push({ plot, ...(distance ? byDistance : byTime) });
  };

  const toGo = (key: "speed" | "sink" | "power") => series.deliveries.flatMap((d, style) => {
    const values = d.toGo[key];
    return values ? [{ values, x: d.toGo.d, number: d.number, style }] : [];
  });
  const swing = (key: "fore" | "right") => series.deliveries.flatMap((d: DeliverySeries, style) =>
    d.swing ? [{ values: d.swing[key], low: d.swing[`${key}Low`], high: d.swing[`${key}High`], x: d.swing.t, number: d.number, style }] : []);

  add("speed", `Ground speed, ${series.speedUnit}`, "m to go", toGo("speed"), true, "");
  add("sink", `Sink, ${series.sinkUnit}`, "m to go", toGo("sink"), true, "");
  add("power", series.powerUnit === "kW" ? "Power, kW" : "Torque, %", "m to go", toGo("power"), true, "No torque or power in this record.");
  add("fore", "Swing fore and aft, m (ahead +)", "s to contact", swing("fore"), false, "Swing cannot be judged for what is chosen.");
  add("right", "Swing sideways, m (right +)", "s to contact", swing("right"), false, "");

  const resize = new ResizeObserver(() => { for (const { plot } of plots) plot.setSize(size(plot.root.parentElement!)); });
  resize.observe(panel);
  answer.remove = () => { resize.disconnect(); marks.show(undefined); for (const { plot } of plots) plot.destroy(); };
  return answer;
}

function size(box: HTMLElement): { width: number; height: number } {
  return { width: Math.max(240, box.clientWidth), height: 210 };
}

function draw(box: HTMLElement, title: string, xTitle: string, curves: Curve[], distance: boolean, pointed: (u: uPlot, x: number | undefined) => void): uPlot {
  const look = getComputedStyle(document.documentElement);
  const colour = (name: string) => look.getPropertyValue(name).trim();
  const width = Number(colour("--plot-line")) || 2;
  const tables: uPlot.AlignedData[] = curves.map((c) => [c.x, c.values, ...(c.low && c.high ? [c.low, c.high] : [])] as uPlot.AlignedData);
  const data = uPlot.join(tables);
  const lines: uPlot.Series[] = [{ label: xTitle }];
  const bands: uPlot.Band[] = [];
  for (const c of curves) {
    const stroke = colour(`--curve-${c.style}`);
    lines.push({ label: String(c.number), stroke, width, dash: dashes[c.style] ?? [], spanGaps: true, points: { show: false } });
    if (c.low && c.high) {
      const edge: uPlot.Series = { stroke: "transparent", width: 0, spanGaps: true, points: { show: false } };
      lines.push({ ...edge, label: "low" }, { ...edge, label: "high" });
      bands.push({ series: [lines.length - 1, lines.length - 2], fill: stroke + "2e" });
    }
  }
  const values = (_: uPlot, at: number[]) => { const step = Math.abs((at[1] ?? 1) - (at[0] ?? 0)); return at.map((v) => marked(v.toFixed(step < 1 ? 1 : 0).replace("-", "−"))); };
  const axis: uPlot.Axis = { values, stroke: colour("--ink"), grid: { stroke: colour("--rule"), width: 1 }, ticks: { stroke: colour("--rule"), width: 1 }, font: "14px system-ui, sans-serif" };
  box.replaceChildren();
  const heading = document.createElement("h3");
  const value = document.createElement("output");
  heading.append(title, value);
  const canvas = document.createElement("div");
  box.append(heading, canvas);
  return new uPlot({
    ...size(canvas),
    scales: { x: { time: false, dir: distance ? -1 : 1 } },
    series: lines,
    bands,
    axes: [{ ...axis, size: 46, label: xTitle, labelSize: 20, labelFont: "14px system-ui, sans-serif" }, { ...axis, size: 54 }],
    legend: { show: false },
    cursor: { y: false, drag: { x: false, y: false }, points: { size: 9, show: true } },
    hooks: {
      setCursor: [(u) => {
        const left = u.cursor.left ?? -1;
        const inside = left >= 0;
        const x = inside ? u.posToVal(left, "x") : undefined;
        value.textContent = x === undefined ? "" : curves.map((c) => {
          const v = c.values[nearest(c.x, x)];
          return `${c.number}: ${v == null ? "–" : marked(v.toFixed(Math.abs(v) < 10 && !distance ? 1 : 0).replace("-", "−"))}`;
        }).join("   ");
        pointed(u, x);
      }],
    },
  }, data, canvas);
}
