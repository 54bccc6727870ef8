/** Day, night or bright sun: what the device says, until a person chooses. The choice is kept with the page's other choices; with this script it needs no reload. */
export function dayNight(): void {
  const form = document.querySelector<HTMLFormElement>("[data-settings]");
  if (!form) return;
  const root = document.documentElement;
  const buttons = [...form.querySelectorAll<HTMLButtonElement>("[data-looks] button")];
  const label = () => {
    const now = root.dataset["look"] || (matchMedia("(prefers-color-scheme: dark)").matches ? "night" : "day");
    for (const button of buttons) button.setAttribute("aria-pressed", String(button.value === now));
  };
  label();
  form.addEventListener("submit", (e) => {
    const button = e.submitter;
    if (!(button instanceof HTMLButtonElement) || button.name !== "look") return;
    e.preventDefault();
    root.dataset["look"] = button.value;
    label();
    document.dispatchEvent(new Event("look-changed"));
    void fetch(form.action, { method: "POST", body: new FormData(form, button), redirect: "manual" }).catch(() => undefined);
  });
  const box = form.closest("details");
  document.addEventListener("keydown", (e) => {
    if (e.key !== "Escape" || !box?.open) return;
    box.open = false;
    box.querySelector("summary")?.focus();
  });
  document.addEventListener("click", (e) => {
    if (box?.open && e.target instanceof Node && !box.contains(e.target)) box.open = false;
  });
}
