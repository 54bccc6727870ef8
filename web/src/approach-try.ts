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
  let asking = false;

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

  const take = (answer: Response, text: string, mine: { query: string; sliding: boolean }) => {
    // While the hand moves on, its figures of a moment ago are still better than those of before; they stay greyed.
    const overtaken = wanted !== undefined || asking;
    if (answer.status === 422 && (answer.headers.get("content-type") ?? "").includes("json")) {
      if (overtaken) return;
      mistakes(JSON.parse(text) as Record<string, string>);
      stale("What is typed can’t be used: see beside it. The greyed figures are of before.");
    } else if (answer.ok) {
      mistakes({});
      const made = document.createElement("template");
      made.innerHTML = text;
      swap(made.content);
      if (overtaken) return;
      fresh(mine.sliding);
      if (!mine.sliding) history.replaceState(null, "", `${address}?${mine.query}`);
    } else if (!overtaken) stale(`The program answered ${answer.status}. The greyed figures are of before. Reload the page.`);
  };

  const ask = () => {
    if (asking || !wanted) return;
    const mine = wanted;
    wanted = undefined;
    asking = true;
    fetch(`${address}/try?${mine.query}${mine.sliding ? "&sliding=1" : ""}`).then(async (answer) => {
      const text = await answer.text();
      asking = false;
      // The next is on its way before this one is drawn.
      ask();
      take(answer, text, mine);
    }).catch(() => {
      asking = false;
      if (wanted) ask();
      else stale("The program does not answer. The greyed figures are of before. Is it still running?");
    });
  };

  const changed = (sliding: boolean) => {
    stale("Working it out. The greyed figures are of before.");
    wanted = { query: query(), sliding };
    ask();
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
