/** Choosing two deliveries swaps the comparison below; the newest answer wins. */
export function pair(): void {
  const form = document.querySelector<HTMLFormElement>("[data-pair]");
  const result = document.querySelector<HTMLElement>("[data-pair-result]");
  if (!form || !result) return;
  const flight = form.dataset["flight"]!;
  const choices = [...form.querySelectorAll<HTMLSelectElement>("select[name=pair]")];
  form.querySelector<HTMLElement>("[data-show-pair]")?.setAttribute("hidden", "");
  let request = 0;
  const show = async () => {
    if (choices.some((c) => c.value === "")) return;
    const mine = ++request;
    try {
      const answer = await fetch(`/deliveries/${flight}/pair?${new URLSearchParams(choices.map((c) => ["pair", c.value])).toString()}`);
      if (!answer.ok) throw new Error(String(answer.status));
      const text = await answer.text();
      if (mine === request) result.innerHTML = text;
    } catch {
      if (mine !== request) return;
      const note = document.createElement("p");
      note.className = "mistake";
      note.textContent = "The program does not answer. Is it still running?";
      result.replaceChildren(note);
    }
  };
  form.addEventListener("change", () => void show());
}
