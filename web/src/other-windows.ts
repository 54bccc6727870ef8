/**
 * Tells a page that what it shows was changed in another window. The page carries a stamp of what it shows; a page opened later carries
 * the new one and calls it out, and whoever comes back to a window asks the program.
 */
export function otherWindows(): void {
  const page = document.querySelector<HTMLElement>("[data-stamp]");
  const told = page?.querySelector<HTMLElement>("[data-changed]");
  if (!page || !told) return;
  const at = page.dataset["stampAt"]!;
  const mine = page.dataset["stamp"]!;
  const hear = (stamp: string) => { if (stamp !== mine) told.hidden = false; };
  const channel = new BroadcastChannel("stillhook");
  channel.addEventListener("message", (e: MessageEvent<{ at: string; stamp: string }>) => { if (e.data.at === at) hear(e.data.stamp); });
  channel.postMessage({ at, stamp: mine });
  const ask = async () => {
    if (document.hidden) return;
    try {
      const answer = await fetch(at);
      if (answer.ok) hear(await answer.text());
    } catch {
      // The program is not running: nothing can have changed.
    }
  };
  document.addEventListener("visibilitychange", () => void ask());
  addEventListener("focus", () => void ask());
}
