import type { ApproachPath } from "./approach-path";
import type { View } from "./three-view";

export interface SpaceView { show(path: ApproachPath | undefined, sample: number): void }

/** The view in space: its code is fetched when its box comes into sight. Without WebGL 2 the box says so, and the rest works on. */
export function spaceView(section: HTMLElement): SpaceView {
  const box = section.querySelector<HTMLElement>("[data-space-box]")!;
  const words = section.querySelector<HTMLElement>("[data-space-words]")!;
  const buttons = section.querySelector<HTMLElement>("[data-space-buttons]")!;
  let now: { path: ApproachPath; sample: number } | undefined;
  let view: View | undefined;
  let asked = false;
  section.hidden = false;

  const say = (text: string) => {
    box.hidden = true;
    buttons.hidden = true;
    words.textContent = text;
  };

  const draw = () => {
    if (view && now) view.show(now.path, now.sample);
  };

  const open = async () => {
    if (asked || !now) return;
    asked = true;
    if (!document.createElement("canvas").getContext("webgl2")) {
      section.dataset["spaceState"] = "missing";
      say("This browser has no WebGL 2, so the view in space is left out. Side view, plan view and profile above show the same approach.");
      return;
    }
    try {
      const module = (await import(section.dataset["space"]!)) as typeof import("./three-view");
      view = module.openView(box);
      buttons.hidden = false;
      section.dataset["spaceState"] = "drawn";
      draw();
    } catch {
      section.dataset["spaceState"] = "failed";
      say("The view in space could not be drawn. Side view, plan view and profile above show the same approach.");
    }
  };

  new IntersectionObserver((seen) => { if (seen.some((s) => s.isIntersecting)) void open(); }, { rootMargin: "200px" }).observe(section);
  buttons.addEventListener("click", (e) => {
    const turn = e.target instanceof HTMLElement ? e.target.dataset["turn"] : undefined;
    if (turn) view?.turn(turn);
  });
  document.addEventListener("look-changed", () => view?.renew());
  return {
    show(path, sample) {
      now = path && { path, sample };
      section.hidden = !path;
      draw();
    },
  };
}
