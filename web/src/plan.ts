import "./plan.css";

/** Trying another order: drag by the handle, or the buttons; the server works it out and the panel is swapped. The newest answer wins. */
export function plan(): void {
  if (!document.querySelector("[data-plan]")) return;
  let request = 0;

  const send = async (move: string | undefined, focus: (panel: HTMLElement) => HTMLElement | null | undefined) => {
    const panel = document.querySelector<HTMLElement>("[data-order-panel]");
    const form = panel?.querySelector<HTMLFormElement>("[data-order-form]");
    if (!panel || !form) return;
    const mine = ++request;
    const body = new FormData(form);
    body.set("fragment", "1");
    if (move) body.set("move", move);
    panel.classList.add("stale");
    try {
      const answer = await fetch(new URL(form.action).pathname, { method: "POST", body });
      const text = await answer.text();
      if (mine !== request) return;
      if (!answer.ok) throw new Error(String(answer.status));
      const made = swap(panel, text);
      if (made) focus(made)?.focus({ preventScroll: true });
    } catch {
      if (mine !== request) return;
      panel.classList.remove("stale");
      const note = document.createElement("p");
      note.className = "mistake";
      note.textContent = "The program does not answer; the order below was not worked out. Is it still running?";
      form.prepend(note);
    }
  };

  const swap = (panel: HTMLElement, text: string): HTMLElement | undefined => {
    const box = panel.querySelector(".picture-box")?.scrollLeft ?? 0;
    const template = document.createElement("template");
    template.innerHTML = text;
    const made = template.content.querySelector<HTMLElement>("[data-order-panel]");
    if (!made) return undefined;
    const list = made.querySelector<HTMLDetailsElement>("[data-load-by-load]");
    if (list && panel.querySelector<HTMLDetailsElement>("[data-load-by-load]")?.open) list.open = true;
    panel.replaceWith(made);
    const scroller = made.querySelector(".picture-box");
    if (scroller) scroller.scrollLeft = box;
    return made;
  };

  const row = (panel: HTMLElement, load: string) => [...panel.querySelectorAll<HTMLElement>("[data-load]")].find((r) => r.dataset["load"] === load);

  // A panel that was not tried yet: kept to come back to without a reload.
  const planned = document.querySelector<HTMLElement>("[data-order-panel][data-moved=no]")?.outerHTML;

  document.addEventListener("click", (event) => {
    if (!(event.target instanceof Element)) return;
    const button = event.target.closest<HTMLButtonElement>("[data-order-form] button[name=move]");
    if (button) {
      event.preventDefault();
      const [load, by] = split(button.value);
      void send(button.value, (made) => {
        const buttons = [...(row(made, load)?.querySelectorAll<HTMLButtonElement>("button[name=move]") ?? [])];
        return buttons.find((b) => b.value === `${load}:${by}` && !b.disabled) ?? buttons.find((b) => !b.disabled);
      });
      return;
    }
    const back = event.target.closest("[data-order-back]");
    const panel = document.querySelector<HTMLElement>("[data-order-panel]");
    if (back && planned && panel) {
      event.preventDefault();
      request++;
      const heading = swap(panel, planned)?.querySelector<HTMLElement>("h2");
      heading?.setAttribute("tabindex", "-1");
      heading?.focus();
      return;
    }
    const prove = event.target.closest<HTMLAnchorElement>("[data-prove]");
    if (prove) prove.textContent = "Working it out …";
  });

  document.addEventListener("pointerdown", (event) => {
    const handle = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-handle]") : null;
    const item = handle?.closest<HTMLElement>("[data-load]");
    const list = item?.parentElement;
    if (!handle || !item || !list || event.button !== 0) return;
    event.preventDefault();
    const before = [...list.children];
    handle.setPointerCapture(event.pointerId);
    item.classList.add("dragged");

    const over = (e: PointerEvent) => {
      const edge = 60;
      if (e.clientY < edge) scrollBy(0, -12);
      else if (e.clientY > innerHeight - edge) scrollBy(0, 12);
      // The others move round the dragged one: taken out of the page itself, it would lose the pointer.
      const middle = (other: Element) => { const place = other.getBoundingClientRect(); return place.top + place.height / 2; };
      for (let next = item.nextElementSibling; next && e.clientY > middle(next); next = item.nextElementSibling) item.before(next);
      for (let last = item.previousElementSibling; last && e.clientY < middle(last); last = item.previousElementSibling) item.after(last);
    };
    const end = (e: PointerEvent) => {
      handle.removeEventListener("pointermove", over);
      handle.removeEventListener("pointerup", end);
      handle.removeEventListener("pointercancel", end);
      item.classList.remove("dragged");
      if (e.type === "pointercancel") { list.replaceChildren(...before); return; }
      const moved = [...list.children].some((c, i) => c !== before[i]);
      const load = item.dataset["load"] ?? "";
      if (moved) void send(undefined, (made) => row(made, load)?.querySelector<HTMLElement>("button:not(:disabled)"));
    };
    handle.addEventListener("pointermove", over);
    handle.addEventListener("pointerup", end);
    handle.addEventListener("pointercancel", end);
  });
}

function split(move: string): [string, string] {
  const colon = move.lastIndexOf(":");
  return [move.slice(0, colon), move.slice(colon + 1)];
}
