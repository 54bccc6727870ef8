/** Keeps what is typed in the crew's figures until it is worked out, even when the page is closed or the program stops. */
export function figuresDraft(): void {
  const form = document.querySelector<HTMLFormElement>("[data-figures]");
  if (!form) return;
  const key = `figures-${form.dataset["flight"]}`;
  const note = form.querySelector<HTMLElement>("[data-draft]");
  const inputs = [...form.querySelectorAll<HTMLInputElement>("input:not([type=hidden])")];
  const asServed = JSON.stringify(values(inputs));
  const draft = localStorage.getItem(key);
  if (draft) {
    const typed = JSON.parse(draft) as Record<string, string>;
    for (const input of inputs) input.value = typed[input.name] ?? input.value;
  }
  const changed = () => {
    const now = JSON.stringify(values(inputs));
    if (now === asServed) localStorage.removeItem(key);
    else localStorage.setItem(key, now);
    if (note) note.hidden = now === asServed;
  };
  changed();
  form.addEventListener("input", changed);
  form.addEventListener("submit", () => localStorage.removeItem(key));
}

function values(inputs: HTMLInputElement[]): Record<string, string> {
  return Object.fromEntries(inputs.map((i) => [i.name, i.value]));
}
