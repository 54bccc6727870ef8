import { eastNorth, sampleAt, sampleAtTime, words, type ApproachPath } from "./approach-path";

const space = "http://www.w3.org/2000/svg";

export interface Cursor {
  /** Takes the pictures and the path that stand in the page now. */
  renew(): void;
}

/** One place on the way in, shown in side view, plan view, profile and in words; moved by pointer, keyboard or the slider. */
export function approachCursor(part: HTMLElement, moved: (path: ApproachPath | undefined, sample: number) => void): Cursor {
  // Kept over swapped pictures as a share of the time to rest over the spot, so that the place stays the same when the path changes.
  let share = 0.5;
  let path: ApproachPath | undefined;
  let pictures: Picture[] = [];
  let slider: HTMLInputElement | null = null;
  let text: HTMLElement | null = null;

  const show = (sample: number) => {
    if (!path) return;
    const i = Math.min(path.timeS.length - 1, Math.max(0, sample));
    share = path.timeS[i]! / path.stopS;
    const said = words(path, i);
    if (slider) {
      slider.value = String(i);
      slider.setAttribute("aria-valuetext", said);
    }
    if (text) text.textContent = said;
    for (const picture of pictures) picture.show(path, i);
    moved(path, i);
  };

  const renew = () => {
    const data = part.querySelector<HTMLScriptElement>("script[data-path]");
    path = data?.textContent ? (JSON.parse(data.textContent) as ApproachPath) : undefined;
    slider = part.querySelector<HTMLInputElement>("#along");
    text = part.querySelector<HTMLElement>("[data-cursor-text]");
    pictures = [];
    if (!path || !slider) { moved(undefined, 0); return; }
    const here = path;
    slider.max = String(path.timeS.length - 1);
    part.querySelector<HTMLElement>("[data-cursor]")!.hidden = false;
    slider.addEventListener("input", () => show(Number(slider!.value)));
    for (const name of ["side", "plan", "profile"] as const) {
      const svg = part.querySelector<SVGSVGElement>(`[data-picture=${name}] svg`);
      if (!svg?.dataset["perMetre"]) continue;
      const picture = name === "side" ? side(svg) : name === "plan" ? plan(svg) : profile(svg);
      pictures.push(picture);
      const follow = (e: PointerEvent) => {
        const at = inPicture(svg, e);
        const before = at && picture.before(here, at.x, at.y);
        if (before !== undefined) show(sampleAt(here, before));
      };
      svg.addEventListener("pointermove", (e) => { if (e.pointerType === "mouse") follow(e); });
      svg.addEventListener("pointerdown", follow);
    }
    show(sampleAtTime(path, share * path.stopS));
  };
  renew();
  return { renew };
}

interface Picture {
  show(path: ApproachPath, i: number): void;
  /** Distance before the spot at a point of the picture; undefined where it means none. */
  before(path: ApproachPath, x: number, y: number): number | undefined;
}

function side(svg: SVGSVGElement): Picture {
  const { x0, y0, perMetre } = scale(svg);
  const group = layer(svg);
  const line = add(group, "line", "cursor-line");
  const load = add(group, "rect", "cursor-load");
  const dot = add(group, "circle", "cursor");
  const x = (along: number) => x0 + along * perMetre;
  const y = (up: number) => y0 - up * perMetre;
  return {
    show(path, i) {
      const box = Math.max(6, path.loadHeightM * perMetre);
      set(dot, { cx: x(path.hookAlongM[i]!), cy: y(path.hookUpM[i]!), r: 6 });
      set(line, { x1: x(path.hookAlongM[i]!), y1: y(path.hookUpM[i]!), x2: x(path.loadAlongM[i]!), y2: y(path.loadUpM[i]!) - box });
      set(load, { x: x(path.loadAlongM[i]!) - box / 2, y: y(path.loadUpM[i]!) - box, width: box, height: box });
    },
    before: (_, px) => (x0 - px) / perMetre,
  };
}

function plan(svg: SVGSVGElement): Picture {
  const { x0, y0, perMetre } = scale(svg);
  const close = { x0: Number(svg.dataset["closeX0"]), y0: Number(svg.dataset["closeY0"]), perMetre: Number(svg.dataset["closePerMetre"]), half: Number(svg.dataset["closeHalf"]) };
  const group = layer(svg);
  const maps = [{ x0, y0, perMetre, half: Infinity }, close].map((m) => ({ ...m, line: add(group, "line", "cursor-line"), load: add(group, "rect", "cursor-load"), dot: add(group, "circle", "cursor") }));
  return {
    show(path, i) {
      const [hookE, hookN] = eastNorth(path, path.hookAlongM[i]!, path.hookRightM[i]!);
      const [loadE, loadN] = eastNorth(path, path.loadAlongM[i]!, path.loadRightM[i]!);
      for (const m of maps) {
        const hx = m.x0 + hookE * m.perMetre, hy = m.y0 - hookN * m.perMetre, lx = m.x0 + loadE * m.perMetre, ly = m.y0 - loadN * m.perMetre;
        const inside = [hx - m.x0, hy - m.y0, lx - m.x0, ly - m.y0].every((d) => Math.abs(d) <= m.half - 6);
        for (const sign of [m.line, m.load, m.dot]) sign.setAttribute("visibility", inside ? "visible" : "hidden");
        set(m.line, { x1: hx, y1: hy, x2: lx, y2: ly });
        set(m.load, { x: lx - 3.5, y: ly - 3.5, width: 7, height: 7 });
        set(m.dot, { cx: hx, cy: hy, r: 6 });
      }
    },
    before(path, x, y) {
      const inClose = Math.abs(x - close.x0) <= close.half && Math.abs(y - close.y0) <= close.half;
      const m = inClose ? close : { x0, y0, perMetre };
      if (!inClose && x > close.x0 - close.half) return undefined;
      const course = (path.courseDeg * Math.PI) / 180;
      const east = (x - m.x0) / m.perMetre, north = (m.y0 - y) / m.perMetre;
      return -(east * Math.sin(course) + north * Math.cos(course));
    },
  };
}

function profile(svg: SVGSVGElement): Picture {
  const { x0, perMetre } = scale(svg);
  const line = add(layer(svg), "line", "cursor-line");
  return {
    show(path, i) {
      const x = x0 + path.hookAlongM[i]! * perMetre;
      set(line, { x1: x, y1: Number(svg.dataset["top"]), x2: x, y2: Number(svg.dataset["bottom"]) });
    },
    before: (_, px) => (x0 - px) / perMetre,
  };
}

function scale(svg: SVGSVGElement): { x0: number; y0: number; perMetre: number } {
  return { x0: Number(svg.dataset["x0"]), y0: Number(svg.dataset["y0"] ?? 0), perMetre: Number(svg.dataset["perMetre"]) };
}

function layer(svg: SVGSVGElement): SVGGElement {
  const group = document.createElementNS(space, "g");
  group.setAttribute("class", "cursor-layer");
  svg.append(group);
  return group;
}

function add<K extends "line" | "rect" | "circle">(group: SVGGElement, kind: K, name: string): SVGElementTagNameMap[K] {
  const made = document.createElementNS(space, kind);
  made.setAttribute("class", name);
  group.append(made);
  return made;
}

function set(element: SVGElement, values: Record<string, number>): void {
  for (const [name, value] of Object.entries(values)) element.setAttribute(name, value.toFixed(1));
}

/** A pointer's place in the picture's own units. */
function inPicture(svg: SVGSVGElement, e: PointerEvent): { x: number; y: number } | undefined {
  const matrix = svg.getScreenCTM();
  return matrix ? new DOMPoint(e.clientX, e.clientY).matrixTransform(matrix.inverse()) : undefined;
}
