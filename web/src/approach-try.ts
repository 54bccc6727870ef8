/** Sliders and numbers for another wind, line, load and temperature. While one moves, a fast answer follows it; let go, the whole one. The newest answer wins. */
export function approachTry(form: HTMLFormElement, address: string, parts: HTMLElement[], swap: (answer: DocumentFragment) => void): void {
  const state = form.querySelector<HTMLElement>("[data-try-state]")!;
  const asPlanned = form.querySelector<HTMLAnchorElement>("[data-as-planned]")!;
  const fields = [...form.querySelectorAll<HTMLElement>("[data-field]")].map((box) => ({
    box,
    name: box.dataset["field"]!,
    planned: box.dataset["planned"]!,
    number: box.querySelector<HTMLInputElement>("input:not([type=range])")!,
    slider: box.querySelector<HTMLInputElement>("input[type=range]")!,
    mistake: box.querySelector<HTMLElement>("[data-mistake]")!,
  }));
  // What is wanted; what is on its way; only one at a time, so that a fast hand does not pile up answers nobody looks at.
  let wanted: { query: string; sliding: boolean } | undefined;
  let busy = false;

  const query = () => {
    const values = new URLSearchParams();
    for (const input of form.querySelectorAll<HTMLInputElement>("input[name]")) values.append(input.name, input.value.trim());
    return values.toString();
  };

  const stale = (why: string) => {
    for (const part of parts) part.classList.add("stale");
    state.textContent = why;
    state.classList.add("waiting");
  };

  const fresh = (sliding: boolean) => {
    for (const part of parts) part.classList.remove("stale");
    state.classList.remove("waiting");
    asPlanned.hidden = fields.every((f) => f.number.value.trim() === f.planned);
    state.textContent = (asPlanned.hidden ? "Figures and pictures are as planned." : "Figures and pictures are for what is set here.") + (sliding ? " Fewer flights simulated while you move." : "");
  };

  const mistakes = (found: Record<string, string>) => {
    for (const f of fields) {
      const said = found[f.name];
      f.mistake.textContent = said ?? "";
      f.mistake.hidden = !said;
      if (said) f.number.setAttribute("aria-invalid", "true");
      else f.number.removeAttribute("aria-invalid");
    }
  };

  const ask = async () => {
    if (busy) return;
    busy = true;
    while (wanted) {
      const mine: { query: string; sliding: boolean } = wanted;
      wanted = undefined;
      try {
        const answer = await fetch(`${address}/try?${mine.query}${mine.sliding ? "&sliding=1" : ""}`);
        const type = answer.headers.get("content-type") ?? "";
        const text = await answer.text();
        if (wanted) continue;
        if (answer.status === 422 && type.includes("json")) {
          mistakes(JSON.parse(text) as Record<string, string>);
          stale("What is typed can’t be used: see beside it. The greyed figures are of before.");
        } else if (answer.ok) {
          mistakes({});
          const made = document.createElement("template");
          made.innerHTML = text;
          swap(made.content);
          fresh(mine.sliding);
          if (!mine.sliding) history.replaceState(null, "", `${address}?${mine.query}`);
        } else stale(`The program answered ${answer.status}. The greyed figures are of before. Reload the page.`);
      } catch {
        if (!wanted) stale("The program does not answer. The greyed figures are of before. Is it still running?");
      }
    }
    busy = false;
  };

  const changed = (sliding: boolean) => {
    stale("Working it out. The greyed figures are of before.");
    wanted = { query: query(), sliding };
    void ask();
  };

  for (const f of fields) {
    f.slider.hidden = false;
    f.slider.addEventListener("input", () => { f.number.value = f.slider.value; changed(true); });
    f.slider.addEventListener("change", () => { f.number.value = f.slider.value; changed(false); });
    f.number.addEventListener("input", () => { follow(f.slider, f.number.value); changed(true); });
    f.number.addEventListener("change", () => changed(false));
  }
  form.querySelector<HTMLElement>("[data-work-out]")!.hidden = true;
  form.addEventListener("submit", (e) => { e.preventDefault(); changed(false); });
  asPlanned.addEventListener("click", (e) => {
    e.preventDefault();
    for (const f of fields) {
      f.number.value = f.planned;
      follow(f.slider, f.planned);
    }
    changed(false);
  });
}

/** The slider at a typed number, at its own end when the number is beyond it. */
function follow(slider: HTMLInputElement, typed: string): void {
  const value = Number(typed);
  if (typed.trim() !== "" && Number.isFinite(value)) slider.value = String(value);
}
