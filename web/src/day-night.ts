const kept = "day-night";

/** Day or night look: what the device says, until a person chooses. */
export function dayNight(): void {
  const button = document.querySelector<HTMLButtonElement>("[data-daynight]");
  const root = document.documentElement;
  const chosen = localStorage.getItem(kept);
  if (chosen) root.dataset["look"] = chosen;
  if (!button) return;
  const isNight = () => (root.dataset["look"] ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "night" : "day")) === "night";
  const label = () => { button.textContent = isNight() ? "Day" : "Night"; };
  button.hidden = false;
  label();
  button.addEventListener("click", () => {
    const look = isNight() ? "day" : "night";
    root.dataset["look"] = look;
    localStorage.setItem(kept, look);
    label();
    document.dispatchEvent(new Event("look-changed"));
  });
}
