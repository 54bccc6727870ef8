import "./approach.css";
import { approachCursor } from "./approach-cursor";
import { spaceView } from "./approach-space";
import { approachTry } from "./approach-try";

/** The approach: one cursor through its pictures, sliders, the view in space, alternatives on demand. */
export function approach(): void {
  const grid = document.querySelector<HTMLElement>("[data-approach]");
  const form = grid?.querySelector<HTMLFormElement>("[data-try]");
  if (!grid || !form) return;
  const address = grid.dataset["approach"]!;
  const parts = [...grid.querySelectorAll<HTMLElement>("[data-part]")];
  const space = spaceView(grid.querySelector<HTMLElement>("[data-space]")!);
  const cursor = approachCursor(grid.querySelector<HTMLElement>("[data-part=pictures]")!, space.show);

  const swap = (answer: DocumentFragment) => {
    for (const part of parts) {
      const open = [...part.querySelectorAll<HTMLDetailsElement>("details[open]")].map((d) => d.id);
      part.replaceChildren(...(answer.querySelector(`[data-part=${part.dataset["part"]}]`)?.childNodes ?? []));
      for (const id of open) part.querySelector<HTMLDetailsElement>(`#${id}`)?.setAttribute("open", "");
    }
    cursor.renew();
  };
  approachTry(form, address, parts, swap);
  alternatives(grid);
}

function alternatives(grid: HTMLElement): void {
  const form = grid.querySelector<HTMLFormElement>("[data-winds]")!;
  const box = grid.querySelector<HTMLElement>("[data-winds-table]")!;
  let request = 0;
  form.addEventListener("submit", (e) => {
    e.preventDefault();
    const mine = ++request;
    const values = new URLSearchParams({ fragment: "1" });
    for (const input of form.querySelectorAll<HTMLInputElement>("input[name]")) values.append(input.name, input.value.trim());
    box.classList.add("stale");
    if (box.childElementCount === 0) box.textContent = "Working out eight approaches …";
    fetch(`${form.action}?${values.toString()}`).then(async (answer) => {
      const text = await answer.text();
      if (mine !== request) return;
      box.classList.remove("stale");
      if (answer.ok) box.innerHTML = text;
      else box.textContent = "The program could not work them out. Reload the page.";
    }).catch(() => {
      if (mine === request) box.textContent = "The program does not answer. Is it still running?";
    });
  });
}
