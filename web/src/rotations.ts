import "./deliveries.css";
import { playback, type Playback } from "./playback";
import { drawPlots, type Plots } from "./plots";
import type { Series } from "./series";

/** Ticking rotations swaps the panel below; the newest answer wins. */
export function rotations(): void {
  const form = document.querySelector<HTMLFormElement>("[data-rotations]");
  const panel = document.querySelector<HTMLElement>("[data-panel]");
  if (!form || !panel) return;
  const flight = form.dataset["flight"]!;
  const most = Number(form.dataset["most"]);
  const boxes = [...form.querySelectorAll<HTMLInputElement>("input[name=show]")];
  form.querySelector<HTMLElement>("[data-show]")?.setAttribute("hidden", "");
  let request = 0;
  let plots: Plots | undefined;
  let player: Playback | undefined;
  const clear = () => {
    player?.remove();
    plots?.remove();
    player = undefined;
    plots = undefined;
  };

  const query = () => {
    const chosen = new URLSearchParams();
    for (const box of boxes) if (box.checked) chosen.append("show", box.value);
    return chosen.toString();
  };

  const plot = async (mine: number) => {
    const answer = await fetch(`/deliveries/${flight}/series?${query()}`);
    if (!answer.ok || mine !== request) return;
    const series = (await answer.json()) as Series;
    if (mine !== request) return;
    clear();
    plots = drawPlots(panel, series);
    player = playback(panel, series, plots);
  };

  const show = async () => {
    const mine = ++request;
    panel.classList.add("stale");
    try {
      const answer = await fetch(`/deliveries/${flight}/panel?${query()}`);
      if (mine !== request) return;
      if (!answer.ok) throw new Error(String(answer.status));
      const text = await answer.text();
      if (mine !== request) return;
      clear();
      panel.innerHTML = text;
      panel.classList.remove("stale");
      history.replaceState(null, "", `?${query()}`);
      await plot(mine);
    } catch {
      if (mine !== request) return;
      const note = document.createElement("p");
      note.className = "mistake";
      note.textContent = "The program does not answer; the pictures below are not of the ticked rotations. Is it still running?";
      panel.prepend(note);
    }
  };

  const limit = () => {
    const full = boxes.filter((b) => b.checked).length >= most;
    for (const box of boxes) if (!box.hasAttribute("data-never")) box.disabled = full && !box.checked;
  };
  for (const box of boxes) if (box.disabled) box.setAttribute("data-never", "");

  // Fields of another form stand in the table too.
  form.addEventListener("change", (e) => { if ((e.target as HTMLInputElement).name === "show") { limit(); void show(); } });
  document.addEventListener("look-changed", () => void plot(request));
  limit();
  void plot(request).catch(() => undefined);
}
