import { momentAt } from "./markers";
import type { Plots } from "./plots";
import { marked } from "./numbers";
import type { Series } from "./series";

export interface Playback { remove(): void }

const stillEveryMs = 1000;

/** Plays the chosen deliveries back, lined up at contact: pictures and plots follow one clock. */
export function playback(panel: HTMLElement, series: Series, plots: Plots): Playback {
  const box = panel.querySelector<HTMLElement>("[data-player]");
  const play = box?.querySelector<HTMLButtonElement>("[data-play]");
  const slider = box?.querySelector<HTMLInputElement>("[data-time]");
  const said = box?.querySelector<HTMLOutputElement>("[data-moment]");
  const list = box?.querySelector<HTMLUListElement>("[data-moments]");
  if (!box || !play || !slider || !said || !list || series.deliveries.length === 0) return { remove: () => undefined };
  const first = Math.min(...series.deliveries.map((d) => d.path.t[0]!));
  const last = Math.max(...series.deliveries.map((d) => d.path.t.at(-1)!));
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  const lines = series.deliveries.map(() => list.appendChild(document.createElement("li")));
  let t = first;
  let playing = false;
  let frame = 0;
  let before = 0;

  const speed = () => Number(box.querySelector<HTMLInputElement>("input[name=play-speed]:checked")?.value ?? 1);

  const show = (at: number) => {
    t = Math.min(last, Math.max(first, at));
    plots.show(t);
    tell();
  };

  const tell = () => {
    slider.value = t.toFixed(1);
    const words = t <= 0 ? `${marked((-t).toFixed(1))} s to contact` : `${marked(t.toFixed(1))} s after contact`;
    said.value = words;
    slider.setAttribute("aria-valuetext", words);
    series.deliveries.forEach((d, i) => { lines[i]!.textContent = `${d.number}: ${sentence(d.path, t, series)}`; });
  };

  const step = (now: number) => {
    if (!playing) return;
    const passed = now - before;
    if (!calm.matches || passed >= stillEveryMs) {
      before = now;
      show(t + (speed() * passed) / 1000);
      if (t >= last) { stop(); return; }
    }
    frame = requestAnimationFrame(step);
  };

  const start = () => {
    if (t >= last) t = first;
    playing = true;
    play.textContent = "Stop";
    before = performance.now();
    show(t);
    frame = requestAnimationFrame(step);
  };

  const stop = () => {
    playing = false;
    cancelAnimationFrame(frame);
    play.textContent = t >= last ? "Play again" : "Play";
  };

  const toggle = () => { if (playing) stop(); else start(); };

  const pressed = (e: KeyboardEvent) => {
    const target = e.target as HTMLElement;
    const choosing = target instanceof HTMLInputElement && target.type === "radio";
    const by = (e.shiftKey ? 10 : 1) * (e.key === "ArrowLeft" ? -1 : e.key === "ArrowRight" ? 1 : 0);
    if (e.key === " " && !choosing) toggle();
    else if (by !== 0 && !choosing) show(t + by);
    else return;
    e.preventDefault();
  };

  slider.min = first.toFixed(1);
  slider.max = last.toFixed(1);
  slider.addEventListener("input", () => show(Number(slider.value)));
  play.addEventListener("click", toggle);
  // A button is pressed by the space key on its own when the key comes up.
  play.addEventListener("keyup", (e) => { if (e.key === " ") e.preventDefault(); });
  box.addEventListener("keydown", pressed);
  const calmNote = box.querySelector<HTMLElement>("[data-calm]");
  const sayCalm = () => { if (calmNote) calmNote.hidden = !calm.matches; };
  calm.addEventListener("change", sayCalm);
  sayCalm();
  // Pointing at a plot moves the clock too, unless it runs.
  plots.onPointed = (at) => {
    if (playing || at === undefined) return;
    t = Math.min(last, Math.max(first, at));
    tell();
  };
  box.hidden = false;
  tell();
  return { remove: () => { stop(); calm.removeEventListener("change", sayCalm); plots.onPointed = undefined; } };
}

function sentence(path: Parameters<typeof momentAt>[0], t: number, series: Series): string {
  const moment = momentAt(path, t);
  if (!moment) return t < 0 ? "approach not begun" : "clear";
  const toGo = `${minus(moment.along, 0)} m to go, hook ${minus(moment.height * series.heightPerMetre, 0)} ${series.heightUnit} over the spot`;
  if (t > 0) return `${toGo}, load down`;
  if (!moment.load) return `${toGo}, load not known`;
  const ahead = moment.along - moment.load.along;
  return `${toGo}, load ${marked(Math.abs(ahead).toFixed(1))} m ${ahead < 0 ? "behind" : "ahead of"} plumb (± ${marked(moment.load.alongBand.toFixed(1))} m)`;
}

function minus(value: number, decimals: number): string {
  return value.toFixed(decimals).replace(/^-0$/, "0").replace("-", "−");
}
