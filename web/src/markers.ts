import { below, type Path, type Series } from "./series";

/** Where hook and load of one delivery were at one moment, m; the load is missing where its place is not known. */
export interface Moment {
  east: number; north: number; along: number; height: number;
  load?: { east: number; north: number; along: number; height: number; eastBand: number; northBand: number; alongBand: number };
}

/** A delivery's hook and load at a time; undefined before its approach and after it is clear. */
export function momentAt(path: Path, t: number): Moment | undefined {
  const last = path.t.length - 1;
  if (last < 1 || t < path.t[0]! - 0.05 || t > path.t[last]! + 0.05) return undefined;
  const i = Math.min(below(path.t, t), last - 1);
  const part = Math.min(1, Math.max(0, (t - path.t[i]!) / (path.t[i + 1]! - path.t[i]!)));
  const at = (column: number[]) => column[i]! + part * (column[i + 1]! - column[i]!);
  const moment: Moment = { east: at(path.east), north: at(path.north), along: at(path.along), height: at(path.height) };
  const [eastBand, northBand, alongBand] = [path.loadEastBand[i], path.loadNorthBand[i], path.loadAlongBand[i]];
  if (eastBand != null && northBand != null && alongBand != null && t <= 0)
    moment.load = { east: at(path.loadEast), north: at(path.loadNorth), along: at(path.loadAlong), height: at(path.loadHeight), eastBand, northBand, alongBand };
  return moment;
}

/** Hook, line and load in plan and side views, shown where they were at one moment. */
export function markers(panel: HTMLElement, series: Series): { show(t: number | undefined): void } {
  const pictures = [...panel.querySelectorAll<SVGSVGElement>(".pictures svg[data-per-metre]")].map((svg) => ({
    isPlan: svg.classList.contains("plan"),
    x0: Number(svg.dataset["x0"]),
    y0: Number(svg.dataset["y0"]),
    perMetre: Number(svg.dataset["perMetre"]),
    hooks: [...svg.querySelectorAll<SVGGElement>("g.hook-now")],
    lines: [...svg.querySelectorAll<SVGGElement>("g.line-now")],
    loads: [...svg.querySelectorAll<SVGGElement>("g.load-now")],
  }));
  return {
    show(t) {
      series.deliveries.forEach(({ path }, index) => {
        const moment = t === undefined ? undefined : momentAt(path, t);
        for (const p of pictures) {
          const place = (m: { east: number; north: number; along: number; height: number }) =>
            p.isPlan ? { x: p.x0 + p.perMetre * m.east, y: p.y0 - p.perMetre * m.north } : { x: p.x0 - p.perMetre * m.along, y: p.y0 - p.perMetre * m.height };
          const hook = moment && place(moment);
          const load = moment?.load && place(moment.load);
          move(p.hooks[index], hook);
          move(p.loads[index], load);
          visible(p.lines[index], hook && load);
          if (!hook || !load || !moment?.load) continue;
          const line = p.lines[index]?.firstElementChild;
          if (line) for (const [name, value] of Object.entries({ x1: hook.x, y1: hook.y, x2: load.x, y2: load.y })) line.setAttribute(name, value.toFixed(1));
          const band = p.loads[index]?.firstElementChild;
          band?.setAttribute("rx", (p.perMetre * (p.isPlan ? moment.load.eastBand : moment.load.alongBand)).toFixed(1));
          band?.setAttribute("ry", (p.isPlan ? p.perMetre * moment.load.northBand : 3).toFixed(1));
        }
      });
    },
  };
}

function move(group: SVGGElement | undefined, to: { x: number; y: number } | undefined): void {
  visible(group, to);
  if (to) group?.setAttribute("transform", `translate(${to.x.toFixed(1)} ${to.y.toFixed(1)})`);
}

function visible(group: SVGGElement | undefined, shown: object | undefined): void {
  const now = shown ? "visible" : "hidden";
  if (group && group.getAttribute("visibility") !== now) group.setAttribute("visibility", now);
}
