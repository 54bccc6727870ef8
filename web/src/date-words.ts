const days = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const months = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

/** A date field shows its day in the device's order, which differs; beside it the day stands in words. */
export function dateWords(): void {
  for (const input of document.querySelectorAll<HTMLInputElement>("input[type=date]")) show(input);
  document.addEventListener("input", (e) => {
    if (e.target instanceof HTMLInputElement && e.target.type === "date") show(e.target);
  });
}

function show(input: HTMLInputElement): void {
  const box = input.closest(".field, label") ?? input.parentElement!;
  let words = box.querySelector<HTMLElement>("[data-date-words]");
  if (!words) {
    words = document.createElement("span");
    words.className = "date-words";
    words.dataset["dateWords"] = "";
    input.after(words);
  }
  const [year, month, day] = input.value.split("-").map(Number);
  words.textContent = year && month && day ? `${days[new Date(Date.UTC(year, month - 1, day)).getUTCDay()]} ${day} ${months[month - 1]} ${year}` : "";
}
