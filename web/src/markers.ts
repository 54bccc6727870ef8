import { nearest, type Series } from "./series";

/** Marks in plan and side views that show where each hook was at one moment. */
export function markers(panel: HTMLElement, series: Series): { show(t: number | undefined): void } {
  const pictures = [...panel.querySelectorAll<SVGSVGElement>("svg[data-per-metre]")].map((svg) => ({
    isPlan: svg.classList.contains("plan"),
    x0: Number(svg.dataset["x0"]),
    y0: Number(svg.dataset["y0"]),
    perMetre: Number(svg.dataset["perMetre"]),
    dots: [...svg.querySelectorAll<SVGCircleElement>("circle.cursor")],
    lines: [...svg.querySelectorAll<SVGLineElement>("line.cursor-line")],
  }));
  return {
    show(t) {
      for (const picture of pictures) {
        series.deliveries.forEach(({ path }, index) => {
          const i = t === undefined ? -1 : nearest(path.t, t);
          const x = i < 0 ? -20 : picture.x0 + picture.perMetre * (picture.isPlan ? path.east[i]! : -path.along[i]!);
          const y = i < 0 ? -20 : picture.y0 - picture.perMetre * (picture.isPlan ? path.north[i]! : path.height[i]!);
          set(picture.dots[index], { cx: x, cy: y });
          set(picture.lines[index], {
            x1: x, y1: y,
            x2: i < 0 ? -20 : picture.x0 - picture.perMetre * path.loadAlong[i]!,
            y2: i < 0 ? -20 : picture.y0 - picture.perMetre * path.loadHeight[i]!,
          });
        });
      }
    },
  };
}

function set(element: SVGElement | undefined, values: Record<string, number>): void {
  for (const [name, value] of Object.entries(values)) element?.setAttribute(name, value.toFixed(1));
}
