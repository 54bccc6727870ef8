import "./days.css";
import "./next.css";
import "./printed.css";
import "./reports.css";
import { otherWindows } from "./other-windows";

/** The day's page: what was changed elsewhere; a notice is told once. */
export function days(): void {
  otherWindows();
  const here = new URL(location.href);
  if (here.searchParams.has("kept")) {
    here.searchParams.delete("kept");
    history.replaceState(null, "", here);
  }
  // Whoever jumps to a form finds it open.
  for (const link of document.querySelectorAll<HTMLAnchorElement>(".choices a[href^='#']"))
    link.addEventListener("click", () => document.querySelector<HTMLElement>(link.hash)?.focus({ preventScroll: true }));
}
